import type { Source } from '../circuit.js'
import type { BiasedBranch } from './biased.js'
import { ChargingCircuit, zeros } from './charging-circuit.js'

/** Coefficients of the stages: what of the earlier ones leads to each one's place, and to its right side. */
const ahead: readonly (readonly number[])[] = [
  [],
  [1.544],
  [0.9466785280815826, 0.2557011698983284],
  [3.314825187068521, 2.896124015972201, 0.9986419139977817],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 1],
]
const back: readonly (readonly number[])[] = [
  [],
  [-5.6688],
  [-2.430093356833875, -0.2063599157091915],
  [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
  [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
  [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
]

/**
 * Empty capacitors on a source, followed in steps: their capacitances follow their voltages, so there is no closed form.
 *
 * RODAS (E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 1996, section IV.10, from memory; the tests hold it against
 * other methods): six stages, order 4, stiffly accurate. A ceramic's own time constant may be a thousandth of the loop's, and needs no
 * steps of its own.
 */
export class Charging {
  readonly circuit: ChargingCircuit
  y: number[]
  time = 0
  /** The state before the last step, for going back to it. */
  before: number[]
  /** Length of the last step. */
  length = 0
  /** Twice the energy that still drives the circuit: 0 at rest. */
  drive: number
  readonly start: number

  readonly #f: number[]
  readonly #stages: number[]
  readonly #place: number[]

  constructor(source: Source, branches: readonly BiasedBranch[]) {
    this.circuit = new ChargingCircuit(source, branches)
    const { size } = this.circuit
    this.y = zeros(size)
    this.before = zeros(size)
    this.#f = zeros(size)
    this.#place = zeros(size)
    this.#stages = zeros(6 * size)
    this.start = this.drive = this.circuit.drive(this.y)
  }

  /** A length for the next step: a share of the time in which the circuit's state turns or decays, growing gently. */
  next(share: number): number {
    const { circuit } = this
    circuit.slopes(this.y, this.#f)
    circuit.linearize(this.y, this.#f)
    const rate = Math.sqrt(circuit.weight(this.#f) / this.drive)
    if (this.length > 0) return Math.min(share / rate, 1.25 * this.length)
    return share / (rate + circuit.decay)
  }

  /** Makes a step, shorter where its own estimate of its error is too large. */
  go(h: number, tolerance: number): void {
    let length = h
    while (this.#step(this.y, length) > tolerance && length > 1e-9 * h) length /= 2
    const old = this.before
    this.before = this.y
    for (let j = 0; j < old.length; j++) old[j] = this.#place[j]!
    this.y = old
    this.time += length
    this.length = length
    this.drive = this.circuit.drive(this.y)
  }

  /** The state a time after another. */
  after(y: readonly number[], h: number): readonly number[] {
    if (h <= 0) return y
    this.#step(y, h)
    return this.#place.slice()
  }

  /** Most current that the source can still be driven to. */
  get mostCurrent(): number {
    return this.circuit.mostCurrent(this.drive)
  }

  /** One step from a state, to `#place`. Returns its error as a share of what drives the circuit at the start. */
  #step(y: readonly number[], h: number): number {
    const size = y.length
    const { circuit } = this
    const p = this.#place
    const f = this.#f
    const U = this.#stages
    for (let n = 0; n < 6; n++) {
      const [a, b] = [ahead[n]!, back[n]!]
      for (let j = 0; j < size; j++) {
        let sum = y[j]!
        for (let i = 0; i < n; i++) sum += a[i]! * U[i * size + j]!
        p[j] = sum
      }
      circuit.slopes(p, f)
      if (n === 0) circuit.linearize(y, f)
      for (let j = 0; j < size; j++) {
        let sum = 0
        for (let i = 0; i < n; i++) sum += b[i]! * U[i * size + j]!
        f[j]! += sum / h
      }
      circuit.solve(f, 4 / h)
      for (let j = 0; j < size; j++) U[n * size + j] = f[j]!
    }
    for (let j = 0; j < size; j++) p[j]! += f[j]!
    return Math.sqrt(circuit.weight(f) / this.start)
  }
}
