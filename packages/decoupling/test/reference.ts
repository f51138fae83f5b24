import { all, create, type Matrix } from 'mathjs'

/**
 * The rail by another road than the package's: state equations written from Kirchhoff's laws, one matrix exponential
 * (mathjs, Padé) for each stretch of time. No Laplace transform, no roots, no residues.
 */
const math = create(all!, {})

export interface Part {
  readonly capacitance: number
  readonly resistance: number
  readonly inductance: number
}

export interface Feeding {
  readonly voltage: number
  readonly resistance: number
  readonly inductance: number
}

/** State: source current (with an inductance), then for each part its capacitor's voltage and (with one) its current. */
export class Reference {
  private readonly places: { source: number; voltage: number[]; current: number[] }
  readonly size: number
  x: number[]

  constructor(
    readonly source: Feeding,
    readonly parts: readonly Part[],
    idle: number,
  ) {
    let n = 0
    const places = { source: source.inductance > 0 ? n++ : -1, voltage: [] as number[], current: [] as number[] }
    for (const part of parts) {
      places.voltage.push(n++)
      places.current.push(part.inductance > 0 ? n++ : -1)
    }
    this.places = places
    this.size = n
    this.x = new Array<number>(n).fill(0)
    if (places.source >= 0) this.x[places.source] = idle
    for (const k of places.voltage) this.x[k] = source.voltage - source.resistance * idle
  }

  /**
   * Rows over [state, 1, t] for the rail voltage while the load draws `current + slope·t` and a conductance.
   * Conductive branches: current law, solved for v. None: the law's derivative.
   */
  private rail(conductance: number, current: number, slope: number): number[] {
    const { source, parts, places, size } = this
    const row = new Array<number>(size + 2).fill(0)
    let total = conductance
    if (places.source < 0) {
      total += 1 / source.resistance
      row[size]! += source.voltage / source.resistance
    } else row[places.source]! += 1
    parts.forEach((part, k) => {
      if (places.current[k]! >= 0) row[places.current[k]!]! -= 1
      else {
        total += 1 / part.resistance
        row[places.voltage[k]!]! += 1 / part.resistance
      }
    })
    row[size]! -= current
    row[size + 1]! -= slope
    if (total > 0) return row.map((a) => a / total)
    row.fill(0)
    total = 1 / source.inductance
    row[size]! += source.voltage / source.inductance - slope
    row[places.source]! -= source.resistance / source.inductance
    parts.forEach((part, k) => {
      total += 1 / part.inductance
      row[places.voltage[k]!]! += 1 / part.inductance
      row[places.current[k]!]! += part.resistance / part.inductance
    })
    return row.map((a) => a / total)
  }

  /** dx/dt as a matrix over [state, 1, t]. */
  private matrix(rail: readonly number[]): number[][] {
    const { source, parts, places, size } = this
    const A = Array.from({ length: size + 2 }, () => new Array<number>(size + 2).fill(0))
    if (places.source >= 0) {
      const row = A[places.source]!
      for (let j = 0; j < size + 2; j++) row[j]! -= rail[j]! / source.inductance
      row[places.source]! -= source.resistance / source.inductance
      row[size]! += source.voltage / source.inductance
    }
    parts.forEach((part, k) => {
      const [v, i] = [places.voltage[k]!, places.current[k]!]
      if (i >= 0) {
        A[v]![i] = 1 / part.capacitance
        for (let j = 0; j < size + 2; j++) A[i]![j]! += rail[j]! / part.inductance
        A[i]![v]! -= 1 / part.inductance
        A[i]![i]! -= part.resistance / part.inductance
      } else {
        const per = 1 / (part.resistance * part.capacitance)
        for (let j = 0; j < size + 2; j++) A[v]![j]! += rail[j]! * per
        A[v]![v]! -= per
      }
    })
    A[size + 1]![size] = 1
    return A
  }

  /** Goes on by `time` from the present state; gives the rail voltage at each of `samples` equal steps, and its end. */
  run(conductance: number, current: number, slope: number, time: number, samples: number): number[] {
    const rail = this.rail(conductance, current, slope)
    const E = exponential(scaled(this.matrix(rail), time / samples))
    let y = [...this.x, 1, 0]
    const dot = (row: readonly number[]): number => row.reduce((sum, a, j) => sum + a * y[j]!, 0)
    const seen = [dot(rail)]
    for (let n = 0; n < samples; n++) {
      y = E.map(dot)
      seen.push(dot(rail))
    }
    this.x = y.slice(0, this.size)
    return seen
  }
}

const scaled = (A: readonly (readonly number[])[], h: number): number[][] => A.map((row) => row.map((a) => a * h))

/**
 * mathjs takes matrices of small norm: balance rows against columns (Osborne, 1960), halve until the norm is below 1, square as
 * often, and undo the balance.
 */
function exponential(A: number[][]): number[][] {
  const n = A.length
  const d = new Array<number>(n).fill(1)
  for (let round = 0; round < 50; round++) {
    for (let i = 0; i < n; i++) {
      let [row, column] = [0, 0]
      for (let j = 0; j < n; j++) {
        if (j === i) continue
        row += Math.abs(A[i]![j]! * d[j]!) / d[i]!
        column += Math.abs(A[j]![i]! * d[i]!) / d[j]!
      }
      if (row > 0 && column > 0) d[i]! *= 2 ** Math.round(Math.log2(row / column) / 2)
      else if (row > 0) d[i]! *= 2 ** Math.round(Math.log2(row / 1e-3))
    }
  }
  const B = A.map((row, i) => row.map((a, j) => (a * d[j]!) / d[i]!))
  const norm = Math.max(...B.map((row) => row.reduce((sum, a) => sum + Math.abs(a), 0)))
  const halvings = Math.max(0, Math.ceil(Math.log2(norm)))
  let E = math.expm(math.matrix(scaled(B, 2 ** -halvings))) as unknown as Matrix
  for (let k = 0; k < halvings; k++) E = math.multiply(E, E)
  return (E.toArray() as number[][]).map((row, i) => row.map((e, j) => (e * d[i]!) / d[j]!))
}

/** Seeded uniform numbers (Lehmer's generator with Park and Miller's multiplier, 1988). */
export function uniform(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 16807) % 2147483647
    return state / 2147483647
  }
}
