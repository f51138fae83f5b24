import { hall } from '@ohmward/hall'
import { between, exact, InputError, type Spread } from '@ohmward/quantity'
import { burstsOf, resistanceOf } from '@ohmward/supply'
import { isStuckAt } from '../../blocks/edges.js'
import { hallAt } from '../../blocks/hall-at.js'
import { mainRail } from '../../design/rails.js'
import { powerSetPoint, stuckEnergy } from '../../formulas/index.js'
import { conductingIn } from '../../pulse/conducting.js'
import { meanPowerAt, pulseGain } from '../../pulse/pulse.js'
import { beforeBoard, element, scaled, sumOf } from '../../supply/path.js'
import type { Place } from '../../supply/place.js'
import { powerAt } from '../../supply/power.js'
import { drawOf } from '../../supply/rails.js'
import type { SolvedSpan } from '../../supply/solve.js'
import type { Walk } from '../../walk/walk.js'
import { largestRead } from './in-pulse.js'
import { errorsOf, type PowerErrors } from './power-errors.js'
import { largestAsked } from './shown.js'
import { usableSpan } from './usable.js'

export { usableSpan }

/** Power in the load: what reaches it, how well it is known, how it is limited, and what bursts are worth. */
export interface PowerAnswer {
  /** Power in the load while it is on, from the charge that must be usable up to full, W. */
  readonly on: Spread
  /** Mean power at the largest duty, W. */
  readonly mean: Spread
  /** Mean power at the smallest duty, W. */
  readonly least: Spread
  /** Largest current of a sample, A, and the largest that must be read; `null` where the measurement refuses its supply. */
  readonly read: {
    readonly largest: number
    readonly allowed: number
    /** The largest with the load as warm as at work, A. */
    readonly warm: number
    /** What the trip is told that normal use draws, A; `null` without a trip. */
    readonly normal: number | null
  } | null
  /** Relative error of the power of a pulse as the firmware reads it, at any duty; `null` where a reading has none. */
  readonly error: PowerErrors
  /** How the limit is kept; `null` where none is asked for. */
  readonly limit: {
    /** Duty that keeps it without any reading, whatever the cells and the load, at most 1. */
    readonly dutyWithoutReading: number
    /** Power that the firmware may show at most, by the better of the two readings, W; `null` without one. */
    readonly setPoint: number | null
  } | null
  /** `null` where nothing is said of bursts. */
  readonly bursts: {
    /** Energy in the load by charge, full to the charge that must be usable, at the largest duty, J. */
    readonly energy: readonly { readonly charge: number; readonly energy: Spread }[]
    /** Bursts on a charge, to the charge that must be usable; `null` for a port. */
    readonly count: Spread | null
    /** Energy of one that a stuck controller doesn't end, J: until the watchdog, or until the cells are empty; `null` for a port without one. */
    readonly stuck: number | null
  } | null
}

/**
 * Power and bursts of a design.
 *
 * @param surelyUsed - share of a full charge that is surely used before the cut-off or the firmware's stop
 */
export function powerOf(walk: Walk, surelyUsed = 1): PowerAnswer {
  const { design } = walk
  const { requirements, pwm } = design
  const solved = walk.over(usableSpan(walk)).solved
  const on = powerAt(solved)
  const meanAt = meanIn(walk, solved)
  const limited = (P_lim: number) => {
    const dutyWithoutReading = dutyWithin(P_lim, (duty) => meanAt(duty).upper)
    // Below it the limit is kept whatever is read.
    const { from, to } = pwm.duty
    const { voltageTimesCurrent, squareTimesResistance } = errors({
      from: Math.min(to, Math.max(from, dutyWithoutReading)),
      to,
    })
    const known = [voltageTimesCurrent, squareTimesResistance].flatMap((one) => one ?? [])
    if (known.length === 0) return { dutyWithoutReading, setPoint: null }
    return {
      dutyWithoutReading,
      setPoint: powerSetPoint({ P_lim, e_low: Math.max(...known.map(({ lower }) => lower)) }),
    }
  }
  const errors = errorsOf(walk)
  const { powerLimit } = requirements
  return {
    on,
    mean: meanAt(pwm.duty.to),
    least: meanAt(pwm.duty.from),
    read: currentRead(walk),
    error: errors(pwm.duty),
    limit: powerLimit === undefined ? null : limited(powerLimit),
    bursts: burstsIn(walk, on, surelyUsed),
  }
}

/** Mean power at a duty, W: of a switch whose gate may not get there it may be none. */
function meanIn({ design, firmware: { edges } }: Walk, solved: SolvedSpan): (duty: number) => Spread {
  const meanAt = meanPowerAt(design, solved, edges())
  if (!isStuckAt(design, solved, edges)) return meanAt
  return (duty) => {
    const { nominal, upper } = meanAt(duty)
    return between(0, upper, nominal)
  }
}

function currentRead(walk: Walk): PowerAnswer['read'] {
  const { solved } = walk.over(usableSpan(walk))
  const { choice, conditions } = hallAt(walk.design, solved, walk.firmware)
  try {
    const { current, trip } = hall.read(choice, conditions)
    const allowed = largestAsked(current)
    const largest = largestRead(walk)
    const { resistance, temperatureCoefficient, workingCelsius } = walk.design.load
    const atWork = resistanceOf({ ...element('load', resistance), temperatureCoefficient }, workingCelsius)
    const more = Math.max(0, atWork.lower - solved.own.lower)
    const warm = Math.min(largest, solved.rest.upper / (solved.load.lower + more + solved.switch.lower))
    return { largest, warm, allowed, normal: trip?.normal ?? null }
  } catch (error) {
    if (error instanceof InputError) return null
    throw error
  }
}

/** The largest duty whose mean power is within a limit. */
function dutyWithin(limit: number, powerOf: (duty: number) => number): number {
  if (powerOf(1) <= limit) return 1
  let [within, over] = [0, 1]
  for (let halving = 0; halving < 40; halving++) {
    const duty = (within + over) / 2
    if (powerOf(duty) <= limit) within = duty
    else over = duty
  }
  return within
}

function burstsIn(walk: Walk, on: Spread, surelyUsed: number): PowerAnswer['bursts'] {
  const { design, around } = walk
  const { bursts, pwm, board } = design
  const { supply } = design.parts
  if (bursts === undefined) return null
  const { charge } = usableSpan(walk)
  const edges = walk.firmware.edges()
  const conducting = conductingIn(design, edges, pwm.duty.to)
  const energy = [0, 0.25, 0.5, 0.75, 1].map((share) => {
    const at = charge.from + (charge.to - charge.from) * share
    const solved = walk.over({ charge: { from: at, to: at }, ...around }).solved
    return { charge: at, energy: scaled(meanIn(walk, solved)(pwm.duty.to), bursts.time) }
  })
  const port = {
    energy,
    count: null,
    stuck: bursts.watchdog === undefined ? null : stuckEnergy({ P_full: on.upper, t_wd: bursts.watchdog }),
  }
  if (supply.source.kind !== 'cell' || !(charge.to < charge.from)) return port
  const before = { ...supply, path: [...beforeBoard(supply.path ?? [], board)] }
  const idle = drawOf(design, mainRail)
  // Cells that are stopped before give no more than until then.
  const least = Math.max(charge.to, 1 - surelyUsed)
  const gain = pulseGain(design, walk.over(usableSpan(walk)).solved, conducting.to).current
  const counts: Spread[] = []
  // A warm old cell has least to give and gives it fastest; so every temperature with every age.
  for (const { celsius, age } of cornersOf(walk, supply.source.temperatureFactor.x)) {
    const { load, switch: R_on } = walk.over({
      charge,
      celsius: { from: celsius, to: celsius },
      age: { from: age, to: age },
    }).solved
    const total = sumOf([load, R_on])
    const count = (R_L: number, d_on: number, to: number, idle: number): Spread => {
      const spec = { load: { kind: 'pwm', R_L, d_on }, time: bursts.time, celsius, age } as const
      const found = to < charge.from ? burstsOf(before, { ...spec, from: charge.from, to, idle }) : undefined
      // Not fed to the end, there is no whole charge of them.
      return found?.kind === 'possible' ? found.count : exact(0)
    }
    // The least resistance takes most, and the most gives the most bursts.
    const [fewest, most] = [
      count(total.lower, conducting.to, least, idle.upper),
      count(total.upper, conducting.from, charge.to, idle.lower),
    ]
    const [lower, upper] = [fewest.lower / gain, most.upper]
    const middle = Math.max(lower, (fewest.nominal + most.nominal) / 2)
    counts.push(lower === upper ? exact(lower) : between(lower, upper, middle))
  }
  const lower = Math.min(...counts.map((one) => one.lower))
  const upper = Math.max(...counts.map((one) => one.upper))
  const middle = counts.reduce((sum, { nominal }) => sum + nominal, 0) / counts.length
  const whole = energyLeft(walk, on)
  return { energy, count: between(lower, upper, middle), stuck: port.stuck ?? whole }
}

/** Every temperature with every age: both ends, and between them where the resistance of the cells turns. */
function cornersOf({ around: { celsius, age } }: Walk, turns: readonly number[]): Omit<Place, 'charge'>[] {
  const inside = turns.filter((one) => one > celsius.from && one < celsius.to)
  return [...new Set([celsius.from, ...inside, celsius.to])].flatMap((one) =>
    [...new Set([age.from, age.to])].map((years) => ({ celsius: one, age: years })),
  )
}

/** What full cells can put into the load before they are empty, J: their charge at their voltage, at most. */
function energyLeft({ design }: Walk, on: Spread): number {
  const { source } = design.supply
  if (source.kind !== 'cell') return on.upper
  const { openCircuit, capacity, inSeries } = source
  const full = openCircuit.y[openCircuit.y.length - 1]! + source.openCircuitSpread.upper
  return full * inSeries * capacity.upper
}
