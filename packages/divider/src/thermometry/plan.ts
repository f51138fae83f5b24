import { condition, type InputSet, type Row } from '@ohmward/budget'
import { between, plusMinus, type Spread } from '@ohmward/quantity'
import { inputErrors } from '../chain/further.js'
import { ownInputs } from '../chain/inputs.js'
import type { Place, Plan } from '../chain/plan.js'
import { type Any, putBench, putMoment, putOwn } from '../chain/put.js'
import type { ReadChoice } from '../choice.js'
import { ratioOfTwo } from '../formulas/index.js'
import type { ReadThermometry } from './fields.js'

/** The model of a temperature reading over the inputs of the resistance reading and a few of its own. */
export interface TemperaturePlan {
  readonly inputs: InputSet
  readonly row: Row<string>
  /** Inputs that are conditions to cover. */
  readonly conditions: readonly string[]
  /** Indicated temperature in degrees Celsius. */
  readonly result: (x: Place) => number
}

/**
 * The temperature reading: the load is read at rest and hot, with the same parts, and the ratio of the two tells the
 * temperature. What both readings share cancels; contacts moved in
 * between, others' ground current and what leaks only when hot don't. At rest the rail is any of its range, and the board as cold
 * as the element. `R_0` is the load's resistance at the rest temperature that the
 * firmware assumes, `T_0`; the element really is `T_err` off from that and `T_e` warmer still. How far it may lie off its law
 * is a temperature too, of its own at rest and hot: a class allows either anywhere.
 */
export function temperaturePlan(
  choice: ReadChoice,
  plan: Plan,
  { element, ...part }: ReadThermometry,
): TemperaturePlan {
  const T_0 = part.restCelsius.nominal
  const R_0n = choice.load.nominal
  /** How far the element may lie off its law at a temperature, as a temperature. */
  const offLaw = (celsius: number) => plusMinus(0, element.tolerance(celsius) + part.lawError.upper)
  const shifted = (spread: Spread): Spread => ({
    ...spread,
    nominal: 0,
    lower: spread.lower - T_0,
    upper: spread.upper - T_0,
  })
  // What has no name in the chain may be another at rest than hot.
  const further = inputErrors(choice, 'r')
  const inputs: InputSet = {
    ...plan.inputs,
    R_0: R_0n,
    T_err: shifted(part.restCelsius),
    T_e: between(0, part.restExcess.upper, 0),
    T_h: part.hotCelsius,
    T_dr: T_0 - 25,
    V_railr: condition(choice.rail, choice.nominalRail),
    alpha: 0,
    q_alpha: 0,
    ...element.inputs,
    E_lawh: offLaw(part.hotCelsius),
    E_lawr: offLaw(T_0),
    R_conr: choice.surroundings.contactVariation,
    I_or: choice.surroundings.groundCurrent,
    ...ownInputs(choice, 'r'),
    ...further.inputs,
  }
  const rest = plan.chain.workspace()
  const row = (c: Any, i: number) => {
    const R_0 = c.R_0![i]!
    const ratio = (celsius: number) => element.ratio(celsius, T_0, c.alpha![i]!, c.q_alpha![i]!)
    const now = plan.row(c, i) as unknown as { R_x: number }
    now.R_x = R_0 * ratio(c.T_h![i]! + c.E_lawh![i]!)
    const R_rest = R_0 * ratio(T_0 + c.T_err![i]! + c.T_e![i]! + c.E_lawr![i]!)
    plan.put(rest, c, i)
    putMoment(rest, c, i, R_rest, c.T_dr![i]! + c.T_err![i]!, c.V_railr![i]!, choice.isOneNode)
    further.put(rest, c, i)
    putOwn(rest, i, c.V_nr!, c.e_qr!, c.e_nr!, c.e_INLr!, c.s_setr!)
    putBench(rest)
    rest.R_con = c.R_conr![i]!
    rest.I_o = c.I_or![i]!
    return now as unknown as Place
  }
  return {
    inputs,
    row: row as unknown as Row<string>,
    conditions: [...plan.conditions, 'V_railr'],
    result: (x) => {
      const R_hot = plan.result(x)
      const R_rest = plan.correct(plan.chain.follow(rest))
      return element.celsius(ratioOfTwo({ R_hot, R_rest, R_0n }), T_0)
    },
  }
}
