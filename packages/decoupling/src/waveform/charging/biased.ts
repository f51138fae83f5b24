import type { Branch } from '../modes/parts.js'
import { type Curve, factorAt } from './curve.js'

/**
 * One kind of capacitor whose capacitance depends on its voltage. `capacitance` is what the factors of `bias` count from; they are
 * differential: the small-signal capacitance at a voltage, dQ/dV, as data sheets measure it. Without `bias` it is linear.
 */
export interface BiasedBranch extends Branch {
  readonly bias?: Curve | undefined
}

/** Charge and energy of a capacitor at a voltage, exact: the factor is a straight line from point to point. */
export interface Content {
  readonly charge: number
  readonly energy: number
}

/** The capacitance at a voltage. */
export function capacitanceAt({ capacitance, bias }: BiasedBranch, volts: number): number {
  return capacitance * factorAt(bias, volts)
}

/** What a capacitor holds that was charged from 0 V. */
export function contentAt({ capacitance, bias }: BiasedBranch, volts: number): Content {
  let charge = 0
  let energy = 0
  const stops = [...(bias?.at ?? []).filter((x) => x > 0 && x < volts), volts]
  let from = 0
  for (const to of stops) {
    const width = to - from
    const [a, b] = [factorAt(bias, from), factorAt(bias, to)]
    charge += (width * (a + b)) / 2
    // Simpson's rule: exact for the straight factor times the voltage.
    energy += (width * (from * a + (from + to) * (a + b) + to * b)) / 6
    from = to
  }
  return { charge: capacitance * charge, energy: capacitance * energy }
}

/**
 * Linear capacitors that charge nearly as biased ones do: a search with them costs a tenth. Each capacitance is the mean over the
 * voltages that a capacitor alone behind a resistance passes in equal times.
 *
 * @param times - how many of its time constants count
 */
export function straightened(branches: readonly BiasedBranch[], volts: number, times: number): readonly Branch[] {
  return branches.map((branch): Branch => {
    if (branch.bias === undefined) return branch
    const { resistance, inductance } = branch
    let sum = 0
    for (let j = 0; j < 8; j++) sum += capacitanceAt(branch, volts * -Math.expm1((-times * (j + 0.5)) / 8))
    return { capacitance: sum / 8, resistance, inductance }
  })
}
