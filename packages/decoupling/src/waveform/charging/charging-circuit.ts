import type { Source } from '../circuit.js'
import type { BiasedBranch } from './biased.js'

/**
 * Empty capacitors on a source, the capacitances following their voltages: the slopes of a state, and the solution of the linear systems
 * that an implicit step poses. These are circuits themselves, one node with its branches, and are solved at that node.
 *
 * A state is the source current (with an inductance), each capacitor's voltage, and each one's current (where one has an inductance).
 */
export class ChargingCircuit {
  /** Numbers in a state. */
  readonly size: number
  /** Whether no capacitor has inductance: then the circuit rings in one way at most. */
  readonly isSimple: boolean

  readonly #source: Source
  readonly #m: number
  readonly #L: number
  readonly #capacitance: readonly number[]
  readonly #bias: readonly BiasedBranch['bias'][]
  readonly #resistance: readonly number[]
  readonly #inductance: readonly number[]
  /** Conductance of each branch without inductance, 0 of others; and all of them. */
  readonly #conductance: readonly number[]
  readonly #G: number
  /** What a current counts beside the voltages: as its inductance stores, or where the circuit creeps, as it charges. */
  readonly #loopWeight: number
  readonly #weight: readonly number[]
  /** By branch: how it follows the rail, how its capacitance bends its slope, its capacitance. */
  readonly #own: number[]
  readonly #bend: number[]
  readonly #C: number[]
  /** Slope of the capacitance that was asked for last. */
  #slope = 0

  constructor(source: Source, branches: readonly BiasedBranch[]) {
    const m = branches.length
    this.#source = source
    this.#m = m
    this.#L = source.inductance
    this.#capacitance = branches.map((b) => b.capacitance)
    this.#bias = branches.map((b) => b.bias)
    this.#inductance = branches.map((b) => b.inductance)
    const total = this.#capacitance.reduce((sum, C) => sum + C, 0)
    // Without any resistance a branch's voltage is the rail's: a millionth of the loop's impedance changes it by as much.
    const least = 1e-6 * Math.max(source.resistance, Math.sqrt(this.#L / total))
    this.#resistance = branches.map((b) => Math.max(b.resistance, least))
    this.#conductance = this.#resistance.map((r, k) => (this.#inductance[k]! > 0 ? 0 : 1 / r))
    this.#G = this.#conductance.reduce((sum, g) => sum + g, 0)
    const { resistance } = source
    this.#loopWeight = this.#L > 0 ? Math.max(this.#L, total * resistance ** 2) : 0
    this.#weight = this.#inductance.map((l, k) =>
      l > 0 ? Math.max(l, this.#capacitance[k]! * (this.#resistance[k]! + resistance) ** 2) : 0,
    )
    this.isSimple = this.#inductance.every((L) => L === 0)
    this.size = 1 + (this.isSimple ? m : 2 * m)
    this.#own = zeros(m)
    this.#bend = zeros(m)
    this.#C = zeros(m)
  }

  /** Rail voltage in a state. */
  rail(y: readonly number[]): number {
    const m = this.#m
    const { voltage, resistance } = this.#source
    const G = this.#G
    let J = 0
    for (let k = 0; k < m; k++) J += this.#conductance[k]! * y[1 + k]!
    if (!this.isSimple) for (let k = 0; k < m; k++) if (this.#inductance[k]! > 0) J -= y[1 + m + k]!
    if (this.#L > 0) {
      if (G > 0) return (J + y[0]!) / G
      let B = 1 / this.#L
      let E = (voltage - resistance * y[0]!) * B
      for (let k = 0; k < m; k++) {
        const b = 1 / this.#inductance[k]!
        B += b
        E += b * (y[1 + k]! + this.#resistance[k]! * y[1 + m + k]!)
      }
      return E / B
    }
    return (J + voltage / resistance) / (G + 1 / resistance)
  }

  /** Source current in a state. */
  current(y: readonly number[]): number {
    if (this.#L > 0) return y[0]!
    return (this.#source.voltage - this.rail(y)) / this.#source.resistance
  }

  /** Most current that the source can still be driven to. */
  mostCurrent(drive: number): number {
    return Math.sqrt(drive / this.#L)
  }

  /** Most that the rail can still rise above the source. */
  mostRise(drive: number): number {
    let rise = 0
    let drop = this.#L > 0 ? Math.sqrt(drive / this.#L) : 0
    let r = 0
    for (let k = 0; k < this.#m; k++) {
      const { at, factor } = this.#bias[k] ?? { at: [0], factor: [1] }
      rise = Math.max(rise, Math.sqrt(drive / (this.#capacitance[k]! * factor[at.length - 1]!)))
      r = Math.max(r, this.#resistance[k]!)
      if (this.#inductance[k]! > 0) drop += Math.sqrt(drive / this.#inductance[k]!)
    }
    return rise + r * drop
  }

  /** Twice the energy that still drives the circuit in a state: 0 at rest. */
  drive(y: readonly number[]): number {
    const m = this.#m
    const V = this.#source.voltage
    let sum = this.#L * y[0]! ** 2
    for (let k = 0; k < m; k++) {
      const u = y[1 + k]!
      sum += this.#capacitanceAt(k, u) * (u - V) ** 2
      if (!this.isSimple) sum += this.#inductance[k]! * y[1 + m + k]! ** 2
    }
    return sum
  }

  /** What a change of the state counts, squared: its voltages by their capacitances near {@link linearize}'s state. */
  weight(f: readonly number[]): number {
    const m = this.#m
    let sum = this.#loopWeight * f[0]! ** 2
    for (let k = 0; k < m; k++) sum += this.#C[k]! * f[1 + k]! ** 2
    if (!this.isSimple) for (let k = 0; k < m; k++) sum += this.#weight[k]! * f[1 + m + k]! ** 2
    return sum
  }

  /** How fast the current through the source's inductance decays by its resistance; 0 without. */
  get decay(): number {
    return this.#L > 0 ? this.#source.resistance / this.#L : 0
  }

  #capacitanceAt(k: number, u: number): number {
    const bias = this.#bias[k]
    const C = this.#capacitance[k]!
    this.#slope = 0
    if (bias === undefined) return C
    const { at, factor } = bias
    const last = at.length - 1
    if (u >= at[last]!) return C * factor[last]!
    if (u <= at[0]!) return C * factor[0]!
    let i = 1
    while (at[i]! < u) i++
    const slope = (factor[i]! - factor[i - 1]!) / (at[i]! - at[i - 1]!)
    this.#slope = C * slope
    return C * (factor[i - 1]! + slope * (u - at[i - 1]!))
  }

  /** Slopes of a state. */
  slopes(y: readonly number[], f: number[]): void {
    const m = this.#m
    const v = this.rail(y)
    const { voltage, resistance } = this.#source
    f[0] = this.#L > 0 ? (voltage - resistance * y[0]! - v) / this.#L : 0
    for (let k = 0; k < m; k++) {
      const u = y[1 + k]!
      const L = this.#inductance[k]!
      const r = this.#resistance[k]!
      if (L > 0) {
        const i = y[1 + m + k]!
        f[1 + k] = i / this.#capacitanceAt(k, u)
        f[1 + m + k] = (v - u - r * i) / L
      } else f[1 + k] = ((v - u) * this.#conductance[k]!) / this.#capacitanceAt(k, u)
    }
  }

  /** Keeps what the circuit is like near a state of known slopes: capacitances, and how they bend. */
  linearize(y: readonly number[], f: number[]): void {
    for (let k = 0; k < this.#m; k++) {
      const C = this.#capacitanceAt(k, y[1 + k]!)
      this.#C[k] = C
      this.#bend[k] = (f[1 + k]! * this.#slope) / C
    }
  }

  /**
   * Solves `d·x - J·x = b` in place, J the slopes' derivative: each branch by itself for a rail voltage that moves by 1, and the
   * current law at the rail for how much it moves.
   */
  solve(x: number[], d: number): void {
    const m = this.#m
    const R = this.#source.resistance
    const L = this.#L
    // The rail moves by `free / stiff`.
    let free = 0
    let stiff = 0
    const isConductive = L === 0 || this.#G > 0
    if (L > 0) {
      const own = 1 / (d + R / L)
      x[0]! *= own
      free += isConductive ? x[0]! : (-R / L) * x[0]!
      stiff += isConductive ? own / L : (1 - (R / L) * own) / L
    } else stiff += 1 / R
    for (let k = 0; k < m; k++) {
      const r = this.#resistance[k]!
      const l = this.#inductance[k]!
      const C = this.#C[k]!
      const e = d + this.#bend[k]!
      if (l === 0) {
        const g = this.#conductance[k]!
        const a = g / C
        const own = 1 / (a + e)
        x[1 + k]! *= own
        this.#own[k] = a * own
        free += x[1 + k]! * g
        stiff += g * e * own
      } else {
        const own = 1 / (d + (r + 1 / (C * e)) / l)
        const i = (x[1 + m + k]! - x[1 + k]! / (e * l)) * own
        x[1 + k] = (x[1 + k]! + i / C) / e
        x[1 + m + k] = i
        this.#own[k] = own / l
        if (isConductive) {
          free -= i
          stiff += own / l
        } else {
          free += (x[1 + k]! + r * i) / l
          stiff += (1 - (r + 1 / (C * e)) * (own / l)) / l
        }
      }
    }
    const move = free / stiff
    if (L > 0) x[0]! -= move / (L * d + R)
    for (let k = 0; k < m; k++) {
      const more = this.#own[k]! * move
      if (this.#inductance[k] === 0) x[1 + k]! += more
      else {
        x[1 + m + k]! += more
        x[1 + k]! += more / (this.#C[k]! * (d + this.#bend[k]!))
      }
    }
  }
}

/** Plain lists: typed ones of this size take longer to make than a step. */
export const zeros = (length: number): number[] => new Array<number>(length).fill(0)
