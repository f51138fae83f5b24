import { type Circuit, type Load, networkOf, type Pwm, restState } from './circuit.js'
import type { Placed } from './course.js'
import { effort } from './effort.js'
import { period, periodic } from './periodic.js'
import type { Piece, State } from './piece.js'
import { branchCurrent, loadCurrent, sourceCurrent } from './quantities.js'
import { type Extreme, extremeOf } from './response.js'
import { leastFading } from './returning.js'
import { addSquares, integralOfProduct } from './signal/integral.js'
import type { Signal } from './signal/signal.js'

/** The rail in steady PWM. */
export interface PwmResponse {
  readonly pwm: Pwm
  /** One period, from the beginning of the rise. */
  readonly pieces: readonly Placed[]
  /** State at the beginning of each period. */
  readonly steady: State
  readonly lowest: Extreme
  readonly highest: Extreme
  /** Highest minus lowest rail voltage. */
  readonly ripple: number
}

/** Means and root-mean-square values over a period of steady PWM. */
export interface PwmCurrents {
  /** Mean rail voltage. */
  readonly mean: number
  /** Root-mean-square current of the source, its mean included. */
  readonly sourceRms: number
  /** Mean current of the source. */
  readonly sourceMean: number
  /** Root-mean-square current of each capacitor, in the caller's order. */
  readonly capacitorRms: readonly number[]
  /** Mean power into the switched load and into what is drawn all the time. */
  readonly loadPower: number
}

/** The first periods from rest. */
export interface PwmStart {
  /** Lowest rail voltage: below that of the steady state where the rail rings. */
  readonly lowest: number
  /** Whether the rail became steady within the periods looked at. */
  readonly isSettled: boolean
}

/** Most periods of the start that are looked at. */
const [mostPeriods, fewPeriods] = [400, 20]

/**
 * The steady state under PWM, exact: the state that one period brings back to itself. `null` where there is none (a current-limited
 * source that gives less than the load's mean current), and with a constant power, which isn't followed through PWM.
 */
export function respondToPwm(c: Circuit, load: Load, pwm: Pwm): PwmResponse | null {
  const found = load.kind === 'power' ? null : periodic(c, load, pwm)
  if (found === null) return null
  const { steady, pieces } = found
  const lowest = extremeOf(pieces, 1)!
  const highest = extremeOf(pieces, -1)!
  return { pwm, pieces, steady, lowest, highest, ripple: highest.value - lowest.value }
}

/** Means and root-mean-square values of a steady state, integrated exactly. */
export function pwmCurrents(c: Circuit, response: PwmResponse): PwmCurrents {
  const mean = (of: (piece: Piece) => Signal, by: (piece: Piece) => Signal): number => meanOf(response, of, by)
  const voltage = (piece: Piece): Signal => piece.voltage
  return {
    mean: mean(voltage, one),
    sourceRms: Math.sqrt(mean(sourceCurrent, sourceCurrent)),
    sourceMean: mean(sourceCurrent, one),
    capacitorRms: rippleCurrents(c, response),
    loadPower: mean(voltage, loadCurrent),
  }
}

/** Root-mean-square current of each capacitor alone, in the caller's order. */
const rippleCurrents = (c: Circuit, response: PwmResponse): number[] => currentsOf(c, meanSquares(c, response))

/** The same from the mean square of each branch as acting. */
export const currentsOf = ({ group, share }: Circuit, squares: readonly number[]): number[] =>
  group.map((place, k) => share[k]! * Math.sqrt(Math.max(0, squares[place]!)))

/** Mean square current of each branch as acting. */
export function meanSquares(c: Circuit, { pieces, pwm }: PwmResponse): number[] {
  const sums = c.branches.map(() => 0)
  for (const { piece } of pieces) {
    const currents = c.branches.map((_, k) => branchCurrent(piece, k))
    addSquares(currents, piece.duration, sums)
  }
  return sums.map((sum) => sum * pwm.frequency)
}

/** Mean over a period of the product of two quantities. */
function meanOf({ pieces, pwm }: PwmResponse, of: (piece: Piece) => Signal, by: (piece: Piece) => Signal): number {
  let sum = 0
  for (const { piece } of pieces) {
    const first = of(piece)
    sum += integralOfProduct(first, by === of ? first : by(piece), piece.duration)
  }
  return sum * pwm.frequency
}

/** 1, as a signal of a piece. */
const one = ({ voltage: { roots } }: Piece): Signal => {
  const none = roots.re.map(() => 0)
  return { constant: 1, slope: 0, curve: 0, roots, re: none, im: none }
}

/** Follows PWM from rest until the rail repeats itself, or what is left to fade can't take it lower. */
export function pwmStart(
  c: Circuit,
  load: Load,
  {
    pwm,
    steady,
    ripple,
    lowest: { value },
  }: Pick<PwmResponse, 'pwm' | 'steady' | 'ripple'> & {
    readonly lowest: Pick<Extreme, 'value'>
  },
): PwmStart {
  let state = restState(c)
  let lowest = value
  const most = effort.most(mostPeriods, fewPeriods)
  for (let k = 0; k < most; k++) {
    const fades = leastFading(c, load, state, steady)
    if (fades !== undefined && value + fades >= lowest) return { lowest, isSettled: true }
    const next = load.kind === 'power' ? null : period(c, state, load, pwm)
    if (next === null) break
    lowest = Math.min(lowest, extremeOf(next.pieces, 1)!.value)
    state = next.state
    if (isNear(c, state, steady, 1e-3 * ripple)) return { lowest, isSettled: true }
  }
  if (most < mostPeriods || isRinging(c, load, most / pwm.frequency)) effort.isOpen = true
  return { lowest, isSettled: false }
}

/** Whether no voltage is further from its steady one than that, and no current further than what may become such a voltage. */
function isNear({ source, branches }: Circuit, state: State, steady: State, volts: number): boolean {
  const all = branches.reduce((sum, { capacitance }) => sum + capacitance, 0)
  const becomes = (amperes: number, henries: number, farads: number) => Math.abs(amperes) * Math.sqrt(henries / farads)
  return (
    becomes(state.source - steady.source, source.inductance, all) <= volts &&
    branches.every(
      ({ capacitance, inductance }, k) =>
        Math.abs(state.voltages[k]! - steady.voltages[k]!) <= volts &&
        becomes(state.currents[k]! - steady.currents[k]!, inductance, capacitance) <= volts,
    )
  )
}

/** Time constants after which nothing is left of a ring. */
const gone = 14

/** Whether the circuit still rings after a time, the load on or off: then its lowest point may come later. What only creeps has none. */
function isRinging(c: Circuit, load: Load, seconds: number): boolean {
  const on = load.kind === 'resistor' ? 1 / load.resistance : 0
  return [0, on].some((conductance) => {
    const { re, im } = networkOf(c, conductance, false).roots
    return im.some((y, j) => y !== 0 && -re[j]! * seconds < gone)
  })
}
