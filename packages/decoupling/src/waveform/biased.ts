import type { Branch } from './network.js'

/** Points of a factor, straight lines between them, the outer ones kept beyond. */
interface Points {
  readonly at: readonly number[]
  readonly factor: readonly number[]
}

/**
 * One kind of capacitor whose capacitance depends on its voltage. `capacitance` is what the factors of `bias` count from; they are
 * differential: the small-signal capacitance at a voltage, dQ/dV, as data sheets measure it. Without `bias` it is linear.
 */
export interface BiasedBranch extends Branch {
  readonly bias?: Points | undefined
}

/** Charge and energy of a capacitor at a voltage, exact: the factor is a straight line from point to point. */
export interface Content {
  readonly charge: number
  readonly energy: number
}

const flat: Points = { at: [0], factor: [1] }

/** The capacitance at a voltage. */
export function capacitanceAt({ capacitance, bias = flat }: BiasedBranch, volts: number): number {
  return capacitance * at(bias, volts)
}

/** What a capacitor holds that was charged from 0 V. */
export function contentAt({ capacitance, bias = flat }: BiasedBranch, volts: number): Content {
  let charge = 0
  let energy = 0
  const stops = [...bias.at.filter((x) => x > 0 && x < volts), volts]
  let from = 0
  for (const to of stops) {
    const width = to - from
    const [a, b] = [at(bias, from), at(bias, to)]
    charge += (width * (a + b)) / 2
    // Simpson's rule: exact for the straight factor times the voltage.
    energy += (width * (from * a + (from + to) * (a + b) + to * b)) / 6
    from = to
  }
  return { charge: capacitance * charge, energy: capacitance * energy }
}

function at({ at: x, factor }: Points, volts: number): number {
  const last = x.length - 1
  if (volts <= x[0]!) return factor[0]!
  if (volts >= x[last]!) return factor[last]!
  let i = 1
  while (x[i]! < volts) i++
  return factor[i - 1]! + ((factor[i]! - factor[i - 1]!) * (volts - x[i - 1]!)) / (x[i]! - x[i - 1]!)
}
