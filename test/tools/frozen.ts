import type { Assessment, Budget } from '@ohmward/budget'
import { checkDecoupling } from '@ohmward/decoupling'
import { checkDivider } from '@ohmward/divider'
import { checkHall } from '@ohmward/hall'
import { checkMosfet } from '@ohmward/mosfet'

/** The checks whose answers are frozen. What they are asked comes from a file, so it has no type. */
export const checks: Readonly<Record<string, (choice: never, conditions: never, options: never) => Assessment>> = {
  divider: checkDivider,
  hall: checkHall,
  mosfet: checkMosfet,
  decoupling: checkDecoupling,
}

/** Numbers by name, kept with twelve digits. */
export type Numbers = Readonly<Record<string, number>>

/** What is kept of a margin. */
export interface FrozenMargin {
  readonly verdict: string
  readonly numbers: Numbers
  readonly at: Numbers
}

/** What is kept of an assessment: no texts, no derivation. */
export interface Frozen {
  readonly verdict: string
  readonly margins: Readonly<Record<string, FrozenMargin>>
  readonly budgets: Readonly<Record<string, Numbers>>
  readonly values: Numbers
}

/** One case of a frozen file. */
export interface Case {
  readonly name: string
  readonly choice: unknown
  readonly conditions: unknown
  readonly options: unknown
  readonly answer: Frozen
}

const digits = (x: number): number => Number(x.toPrecision(12))
const rounded = (numbers: Readonly<Record<string, number | undefined>>): Numbers =>
  Object.fromEntries(Object.entries(numbers).flatMap(([name, x]) => (x === undefined ? [] : [[name, digits(x)]])))

function budgetNumbers({ linear, extremes, simulation }: Budget): Numbers {
  return rounded({
    estimate: linear.estimate,
    u: linear.u,
    from: linear.interval[0],
    to: linear.interval[1],
    lower: extremes.lower,
    upper: extremes.upper,
    'simulated mean': simulation?.mean,
    'simulated u': simulation?.u,
    'simulated from': simulation?.interval[0],
    'simulated to': simulation?.interval[1],
  })
}

/** What is kept of an answer. */
export function frozenOf({ verdict, margins, budgets, values }: Assessment): Frozen {
  return {
    verdict,
    margins: Object.fromEntries(
      margins.map(({ id, limit, nominal, worst, slack, nominalSlack, probability, verdict: one, at }) => [
        id,
        {
          verdict: one,
          numbers: rounded({ limit, nominal, worst, slack, nominalSlack, probability }),
          at: rounded(at),
        },
      ]),
    ),
    budgets: Object.fromEntries(Object.entries(budgets).map(([name, budget]) => [name, budgetNumbers(budget)])),
    values: rounded(values),
  }
}
