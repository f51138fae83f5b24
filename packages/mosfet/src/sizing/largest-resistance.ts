import { switchOf } from '../chain/switch.js'
import { type MosfetChoice, type MosfetConditions, readMosfet } from '../choice.js'
import { hottestCase } from '../junction/hottest.js'

/**
 * The largest on-resistance, guaranteed at the reference temperature and at the gate voltage that arrives, that keeps
 * the junction below its limit over all tolerances and conditions, in ohms; `null` where switching loss alone is too much.
 *
 * @throws InputError naming the first field that isn't allowed
 */
export function largestOnResistance(choice: MosfetChoice, conditions: MosfetConditions): number | null {
  const circuit = switchOf(readMosfet(choice, conditions))
  const inputs = { ...circuit.inputs, q_R: 0 }
  const slack = (maximum: number) =>
    hottestCase(circuit.with({ inputs, lines: [{ gateSource: 1e-3, maximum }] })).station.extremes.lower
  let [good, bad] = [1e-6, 1e-6]
  if (slack(good) < 0) return null
  // The loss of a resistive load falls again once the transistor is the larger resistance: only the rising side counts.
  while (slack(bad) >= 0) {
    good = bad
    bad *= 2
    if (bad > 1e3) return good
  }
  for (let i = 0; i < 40 && bad - good > 1e-6 * bad; i++) {
    const middle = (good + bad) / 2
    if (slack(middle) >= 0) good = middle
    else bad = middle
  }
  return good
}
