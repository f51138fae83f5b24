import type { BiasedBranch } from './biased.js'
import type { Source } from './circuit.js'

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
 * Empty capacitors on a source, followed in steps. The capacitances follow their voltages, so there is no closed form.
 *
 * RODAS (E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 1996, section IV.10: six stages, order 4, stiffly
 * accurate): a ceramic's own time constant may be a thousandth of the loop's, and needs no steps of its own. The linear systems of
 * its stages are circuits themselves, one node with its branches: they are solved at that node.
 */
export class Charging {
  /** Source current (with an inductance), then each capacitor's voltage, then each capacitor's current (with one). */
  y: number[]
  time = 0
  /** The step before the present one, for going back to it. */
  before: number[]
  length = 0
  /** Twice the energy that still drives the circuit: 0 at rest. */
  drive: number
  readonly start: number
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
  readonly #f: number[]
  readonly #stages: number[]
  readonly #place: number[]
  /** By branch: how it follows the rail, how its capacitance bends its slope, its capacitance. */
  readonly #own: number[]
  readonly #bend: number[]
  readonly #C: number[]
  /** Slope of the capacitance that was asked for last. */
  #slope = 0
  #isLimited = false

  constructor(source: Source, branches: readonly BiasedBranch[]) {
    const m = branches.length
    this.#source = source
    this.#m = m
    this.#L = source.currentLimit === undefined ? source.inductance : 0
    this.#capacitance = branches.map((b) => b.capacitance)
    this.#bias = branches.map((b) => b.bias)
    this.#inductance = branches.map((b) => (source.currentLimit === undefined ? b.inductance : 0))
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
    const size = 1 + (this.isSimple ? m : 2 * m)
    // Plain lists: typed ones of this size take longer to make than a step.
    const list = (length: number): number[] => new Array<number>(length).fill(0)
    this.y = list(size)
    this.before = list(size)
    this.#f = list(size)
    this.#place = list(size)
    this.#stages = list(6 * size)
    this.#own = list(m)
    this.#bend = list(m)
    this.#C = list(m)
    this.start = this.drive = this.#driveOf(this.y)
  }

  /** Rail voltage in a state. */
  rail(y: readonly number[] = this.y): number {
    const m = this.#m
    const { voltage, resistance, currentLimit } = this.#source
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
    const v = (J + voltage / resistance) / (G + 1 / resistance)
    return currentLimit !== undefined && voltage - v > resistance * currentLimit ? (J + currentLimit) / G : v
  }

  /** Source current in a state. */
  current(y: readonly number[] = this.y): number {
    if (this.#L > 0) return y[0]!
    const { voltage, resistance, currentLimit = Number.POSITIVE_INFINITY } = this.#source
    return Math.min((voltage - this.rail(y)) / resistance, currentLimit)
  }

  /** A length for the next step: a share of the time in which the circuit's state turns or decays, growing gently. */
  next(share: number): number {
    this.#slopes(this.y, this.#f)
    this.#linearize(this.y, this.#f)
    let speed = this.#loopWeight * this.#f[0]! ** 2
    for (let k = 0; k < this.#m; k++) {
      speed += this.#C[k]! * this.#f[1 + k]! ** 2
      if (!this.isSimple) speed += this.#weight[k]! * this.#f[1 + this.#m + k]! ** 2
    }
    const rate = Math.sqrt(speed / this.drive)
    if (this.length > 0) return Math.min(share / rate, 1.25 * this.length)
    return share / (rate + (this.#L > 0 ? this.#source.resistance / this.#L : 0))
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
    this.drive = this.#driveOf(this.y)
  }

  /** The state a time after another. */
  after(y: readonly number[], h: number): readonly number[] {
    if (h <= 0) return y
    this.#step(y, h)
    return this.#place.slice()
  }

  /** Most current that the source can still be driven to. */
  get mostCurrent(): number {
    return Math.sqrt(this.drive / this.#L)
  }

  /** Most that the rail can still rise above the source. */
  get mostRise(): number {
    let rise = 0
    let drop = this.#L > 0 ? Math.sqrt(this.drive / this.#L) : 0
    let r = 0
    for (let k = 0; k < this.#m; k++) {
      const { at, factor } = this.#bias[k] ?? { at: [0], factor: [1] }
      rise = Math.max(rise, Math.sqrt(this.drive / (this.#capacitance[k]! * factor[at.length - 1]!)))
      r = Math.max(r, this.#resistance[k]!)
      if (this.#inductance[k]! > 0) drop += Math.sqrt(this.drive / this.#inductance[k]!)
    }
    return rise + r * drop
  }

  #driveOf(y: readonly number[]): number {
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
  #slopes(y: readonly number[], f: number[]): void {
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

  /** Keeps what the circuit is like near a state of known slopes: capacitances, how they bend, whether the source is at its limit. */
  #linearize(y: readonly number[], f: number[]): void {
    for (let k = 0; k < this.#m; k++) {
      const C = this.#capacitanceAt(k, y[1 + k]!)
      this.#C[k] = C
      this.#bend[k] = (f[1 + k]! * this.#slope) / C
    }
    const { voltage, resistance, currentLimit } = this.#source
    this.#isLimited = currentLimit !== undefined && voltage - this.rail(y) > resistance * currentLimit
  }

  /**
   * Solves `d·x - J·x = b` in place, J the slopes' derivative: each branch by itself for a rail voltage that moves by 1, and the
   * current law at the rail for how much it moves.
   */
  #solve(x: number[], d: number): void {
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
    } else if (!this.#isLimited) stiff += 1 / R
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

  /** One step from a state, to `#place`. Returns its error as a share of what drives the circuit at the start. */
  #step(y: readonly number[], h: number): number {
    const size = y.length
    const m = this.#m
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
      this.#slopes(p, f)
      if (n === 0) this.#linearize(y, f)
      for (let j = 0; j < size; j++) {
        let sum = 0
        for (let i = 0; i < n; i++) sum += b[i]! * U[i * size + j]!
        f[j]! += sum / h
      }
      this.#solve(f, 4 / h)
      for (let j = 0; j < size; j++) U[n * size + j] = f[j]!
    }
    let error = this.#loopWeight * f[0]! ** 2
    for (let j = 0; j < size; j++) p[j]! += f[j]!
    for (let k = 0; k < m; k++) error += this.#C[k]! * f[1 + k]! ** 2
    if (!this.isSimple) for (let k = 0; k < m; k++) error += this.#weight[k]! * f[1 + m + k]! ** 2
    return Math.sqrt(error / this.start)
  }
}
