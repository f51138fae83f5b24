import { type ReadCell, valueAt } from '@ohmward/supply'
import { rebound, restAtCutOff } from '@ohmward/supply/formulas'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { stillLacking } from '../formulas/index.js'
import { once } from '../kept/once.js'
import { conductingIn, type Edges } from '../pulse/conducting.js'
import { pulseGain } from '../pulse/pulse.js'
import type { Span } from '../supply/place.js'
import { drawOf } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { sourceOver } from '../supply/source.js'

/** One end of all boards: whose rail stands furthest below its cells, or nearest to them. */
export interface Corner {
  /** Resistance of all cells in series at a charge, ohm. */
  readonly cellsAt: (charge: number) => number
  /** The path up to the board: its resistance, ohm, and its forward voltages, V. */
  readonly path: number
  readonly drop: number
  /** What is always on, A. */
  readonly idle: number
  /** Load and switch, with all that is in series with them, ohm. */
  readonly load: number
  /** The same with that load as warm, or as cold, as makes its resistance largest. */
  readonly warm: number
  /** All that the load's current flows through but the cells, ohm, where most of the voltage falls at these. */
  readonly loop: number
  /** Mean current of the load's pulses as a share of the current while it is on. */
  readonly mean: number
  /** Share of what the load takes from the cells' voltage that is still to come back when they are read. */
  readonly lacking: number
}

/** Both ends of all boards at some temperatures and ages, and the board of nominal parts. */
export interface Corners {
  readonly weak: Corner
  readonly nominal: Corner
  readonly strong: Corner
  /** The weak end, its cells long at rest before they are read. */
  readonly rested: Corner
  /**
   * The board whose rail comes back furthest: all of the resistance, and least of what takes from the rail and doesn't come back, so that
   * it acts late.
   */
  readonly rebounding: Corner
}

/** What the ends of all boards are looked for on. */
export interface Board {
  readonly design: ReadDesign
  readonly around: Omit<Span, 'charge'>
  /** Delay and edge of the switch, at most: in pulses it is off late by so much. None without it. */
  readonly edges?: () => Edges | undefined
}

const opposite = { lower: 'upper', nominal: 'nominal', upper: 'lower' } as const

/**
 * The ends of all boards. Load and switch, which are asked for only where they matter, are those of a span that was solved.
 *
 * @param lacking - share of what the load takes from the cells' voltage that is still to come back when they are read, at most
 */
export function cornersOf(
  { design, around, edges }: Board,
  cell: ReadCell,
  solved: SolvedSpan,
  lacking: number,
): Corners {
  const { board, parts, pwm } = design
  const { cells, path } = sourceOver({ supply: parts.supply, board }, { charge: { from: 1, to: 1 }, ...around })
  const factor = (charge: number) => valueAt(cell.chargeFactor, charge)
  const idle = drawOf(design, mainRail)
  const mean = once(() => {
    const { to } = conductingIn(design, edges?.(), pwm.duty.to)
    return Math.min(1, to * pulseGain(design, solved, to).current)
  })
  const { temperatureCoefficient: alpha, workingCelsius } = design.load
  const warmest = Math.max(
    1,
    ...[around.celsius.from, around.celsius.to].map((celsius) => warming(alpha.upper, workingCelsius, celsius)),
  )
  const corner = (end: keyof typeof opposite, share: number, beside = end): Corner => ({
    cellsAt: (charge) => (cells!.resistance[end] / factor(1)) * factor(charge),
    path: path.resistance[end],
    drop: path.drop[beside],
    idle: idle[beside],
    get load() {
      return solved.load[opposite[end]] + solved.switch[opposite[end]]
    },
    get warm() {
      return this.load + (warmest - 1) * solved.own[opposite[end]]
    },
    get loop() {
      return path.resistance[opposite[end]] + this.load
    },
    get mean() {
      return mean()
    },
    lacking: share,
  })
  return {
    weak: corner('upper', lacking),
    nominal: corner('nominal', lacking / 2),
    strong: corner('lower', 0),
    rested: corner('upper', 0),
    rebounding: corner('upper', lacking, 'lower'),
  }
}

/** Resistance of a load at work over that in the air. */
const warming = (alpha: number, working: number, celsius: number): number =>
  (1 + alpha * (working - 20)) / (1 + alpha * (celsius - 20))

/** Open-circuit voltage of the cells at which the main rail has a voltage, the load off or on, V. */
export function openAt(one: Corner, charge: number, rail: number, reads: 'at rest' | 'under load'): number {
  const R_s = one.cellsAt(charge) + one.path
  const I_L = reads === 'under load' ? rail / one.load : 0
  const V_thr = rail + one.drop + one.idle * R_s
  const open = restAtCutOff({ V_thr, I_use: 0, R_use: 0, I_L, R_s })
  if (reads === 'under load' || one.lacking === 0) return open
  // What they lack is a straight line over their voltage, which drives the load.
  const none = lackingAt(one, charge, 0)
  return (open + none) / (1 - (lackingAt(one, charge, 1) - none))
}

/** What cells of an open-circuit voltage still lack of it when they are read at rest, V: the load's mean current flowed through them. */
export function lackingAt(
  { cellsAt, loop, lacking: k_lack, mean, idle }: Corner,
  charge: number,
  open: number,
): number {
  if (k_lack === 0) return 0
  const R_bat = cellsAt(charge)
  return stillLacking({ k_lack, I_mean: (mean * open) / (R_bat + loop) + idle, R_bat })
}

/** Main rail while the load is on, V, where it stands at a voltage without it. */
export const loadedAt = ({ cellsAt, path, load }: Corner, charge: number, rest: number): number =>
  (rest * load) / (cellsAt(charge) + path + load)

/** How far the main rail comes back when the load goes off, V, from a voltage under load. */
export const reboundAt = ({ cellsAt, path, load }: Corner, charge: number, rail: number): number =>
  rebound({ I_L: rail / load, R_s: cellsAt(charge) + path })
