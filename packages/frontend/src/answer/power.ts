import { referenceShift } from '@ohmward/adc/formulas'
import { between, exact, type Spread } from '@ohmward/quantity'
import { burstsOf, spreadOf } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { sensorSpread } from '../design/sensor.js'
import {
  powerErrorOnce,
  powerErrorSquare,
  powerErrorTwice,
  powerSetPoint,
  powerShareError,
  stuckEnergy,
} from '../formulas/index.js'
import { beforeBoard, sumOf } from '../walk/path.js'
import { behindOf, powerAt } from '../walk/power.js'
import type { BlockName } from '../walk/stage.js'
import type { Walk } from '../walk/walk.js'
import { seesCells, throughDivider } from './cells-seen.js'
import { extremesOf } from './descend.js'

/** Power in the load: what reaches it, how well it is known, how it is limited, and what bursts are worth. */
export interface PowerAnswer {
  /** Power in the load while it is on, from the charge that must be usable up to full, W. */
  readonly on: Spread
  /** Mean power at the largest duty, W. */
  readonly mean: Spread
  /** Relative error of the power as the firmware reads it; `null` where a reading has none. */
  readonly error: {
    /** Rail against the internal reference, times the current; `null` too where the converter can't see the cells. */
    readonly voltageTimesCurrent: Spread | null
    /** How many times the internal reference enters it: twice where the sensor's output is fixed. */
    readonly referenceEnters: 1 | 2
    /** Square of the current, times the resistance. */
    readonly squareTimesResistance: Spread | null
  }
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

/** Power and bursts of a design. */
export function powerOf(walk: Walk): PowerAnswer {
  const { design } = walk
  const { requirements, pwm } = design
  const solved = walk.over(usableSpan(walk)).solved
  const on = powerAt(solved)
  const error = errorsOf(walk)
  const { powerLimit } = requirements
  const known = [error.voltageTimesCurrent, error.squareTimesResistance].flatMap((one) => one ?? [])
  const lowest = known.length === 0 ? null : Math.max(...known.map(({ lower }) => lower))
  return {
    on,
    mean: times(on, pwm.duty.to),
    error,
    limit:
      powerLimit === undefined
        ? null
        : {
            dutyWithoutReading: Math.min(1, powerLimit / on.upper),
            setPoint: lowest === null ? null : powerSetPoint({ P_lim: powerLimit, e_low: lowest }),
          },
    bursts: burstsIn(walk, on),
  }
}

/** From full to the charge that must be usable, or to the cut-off where that comes first. */
export function usableSpan({ charges, around, design }: Walk) {
  const to = Math.max(charges.at(-1)!, 1 - design.requirements.usableCharge)
  return { charge: { from: charges[0]!, to: Math.min(to, charges[0]!) }, ...around }
}

const times = ({ lower, nominal, upper }: Spread, factor: number): Spread =>
  between(lower * factor, upper * factor, nominal * factor)

/** The two ways to read a power, and what their readings share. */
function errorsOf(walk: Walk): PowerAnswer['error'] {
  const { hall, controller, monitor } = walk.design
  const isFixed = hall.sensor.output === 'fixed'
  const { current, own, load, switch: on, rail } = walk.over(usableSpan(walk)).solved
  const e_I = relativeError(walk, 'hall', current)
  const e_R = relativeError(walk, 'divider', own)
  const e_k = shareError(own, sumOf([behindOf({ own, load }), on]))
  const reference = controller.internalReference?.voltage
  const e_bg =
    monitor?.calibration ?? (reference && spreadOf(referenceShift, { V_assumed: reference.nominal, V_ref: reference }))
  const e_rail = e_bg && seesCells(walk.design) ? railError(walk.design, e_bg, rail.lower) : undefined
  const product =
    e_I && e_rail
      ? isFixed
        ? spreadOf(powerErrorTwice, { e_bg: e_rail, e_I, e_k, k_q: zeroShare(walk) })
        : spreadOf(powerErrorOnce, { e_bg: e_rail, e_I, e_k })
      : null
  return {
    voltageTimesCurrent: product,
    referenceEnters: isFixed ? 2 : 1,
    squareTimesResistance: e_I && e_R ? spreadOf(powerErrorSquare, { e_I, e_R }) : null,
  }
}

/** Relative error of the rail as it is read, its divider included: as far as a threshold is off. */
function railError(design: ReadDesign, e_bg: Spread, rail: number): Spread {
  const { lower, upper } = throughDivider(design, between(rail * (1 + e_bg.lower), rail * (1 + e_bg.upper), rail))
  return lower === upper ? exact(0) : between(lower / rail - 1, upper / rail - 1, 0)
}

/** What the firmware can't know of the way from board to load: it takes the nominal drop off. */
const shareError = (R_L: Spread, R_way: Spread): Spread =>
  spreadOf(powerShareError, { R_L, R_way, R_Lnom: R_L.nominal, R_waynom: R_way.nominal })

/**
 * Largest error of a block's reading as a share of what is read, over all that it may have to read. A block holds its error
 * at a few true values; between two of them it is at most what the straight line between says, below the least one what it is
 * there, above the largest in proportion. A reading below nothing is shown as nothing.
 */
function relativeError(walk: Walk, block: BlockName, { lower, upper }: Spread): Spread | null {
  const stage = walk.stages.find((one) => one.block === block)!
  const held = walk.over(usableSpan(walk))
  const errors = held
    .ready(stage)
    .flatMap(({ id, row }) =>
      row.kind === 'error' && row.unit !== 'K' && row.unit !== 'degC' && row.truth > 0
        ? [{ truth: row.truth, error: held.margin(stage, id)!.worst }]
        : [],
    )
    .sort((a, b) => a.truth - b.truth)
  if (errors.length === 0) return null
  const truths = errors.map(({ truth }) => truth).filter((truth) => truth > lower && truth < upper)
  const share = Math.max(...[lower, ...truths, upper].map((x) => errorAt(errors, x) / x))
  return share === 0 ? exact(0) : between(-Math.min(share, 1), share, 0)
}

function errorAt(errors: readonly { readonly truth: number; readonly error: number }[], x: number): number {
  const above = errors.findIndex(({ truth }) => truth >= x)
  if (above === 0) return errors[0]!.error
  const below = errors[(above < 0 ? errors.length : above) - 1]!
  if (above < 0) return (below.error * x) / below.truth
  const next = errors[above]!
  return below.error + ((next.error - below.error) * (x - below.truth)) / (next.truth - below.truth)
}

/** Zero output of a sensor over the span that the least load current makes, both as the firmware takes them. */
function zeroShare(walk: Walk): number {
  const { sensor } = walk.design.hall
  const { current } = walk.over(usableSpan(walk)).solved
  return sensorSpread(sensor, 'zeroOutput').nominal / (sensorSpread(sensor, 'sensitivity').nominal * current.lower)
}

function burstsIn(walk: Walk, on: Spread): PowerAnswer['bursts'] {
  const { design, around } = walk
  const { bursts, pwm, board } = design
  const { supply } = design.parts
  if (bursts === undefined) return null
  const { charge } = usableSpan(walk)
  const energy = [0, 0.25, 0.5, 0.75, 1].map((share) => {
    const at = charge.from + (charge.to - charge.from) * share
    const solved = walk.over({ charge: { from: at, to: at }, ...around }).solved
    return { charge: at, energy: times(powerAt(solved), pwm.duty.to * bursts.time) }
  })
  const port = {
    energy,
    count: null,
    stuck: bursts.watchdog === undefined ? null : stuckEnergy({ P_full: on.upper, t_wd: bursts.watchdog }),
  }
  if (supply.source.kind !== 'cell' || !(charge.to < charge.from)) return port
  const before = { ...supply, path: [...beforeBoard(supply.path ?? [], board)] }
  const counts: Spread[] = []
  for (const { celsius, age } of extremesOf(walk)) {
    const { load, switch: R_on } = walk.over({
      charge,
      celsius: { from: celsius, to: celsius },
      age: { from: age, to: age },
    }).solved
    const total = sumOf([load, R_on])
    for (const R_L of [total.lower, total.upper]) {
      const found = burstsOf(before, {
        load: { kind: 'pwm', R_L, d_on: pwm.duty.to },
        time: bursts.time,
        from: charge.from,
        to: charge.to,
        celsius,
        age,
      })
      // Not fed to the end, there is no whole charge of them.
      counts.push(found.kind === 'possible' ? found.count : exact(0))
    }
  }
  const lower = Math.min(...counts.map((one) => one.lower))
  const upper = Math.max(...counts.map((one) => one.upper))
  const middle = counts.reduce((sum, { nominal }) => sum + nominal, 0) / counts.length
  const whole = energyLeft(walk, on)
  return { energy, count: between(lower, upper, middle), stuck: port.stuck ?? whole }
}

/** What full cells can put into the load before they are empty, J: their charge at their voltage, at most. */
function energyLeft({ design }: Walk, on: Spread): number {
  const { source } = design.supply
  if (source.kind !== 'cell') return on.upper
  const { openCircuit, capacity, inSeries } = source
  const full = openCircuit.y[openCircuit.y.length - 1]! + source.openCircuitSpread.upper
  return full * inSeries * capacity.upper
}
