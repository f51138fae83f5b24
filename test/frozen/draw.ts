import { InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { decouplingChoices, decouplingConditions } from '../tools/choices/decoupling.js'
import { dividerChoices, dividerConditions } from '../tools/choices/divider.js'
import { examples } from '../tools/choices/examples.js'
import { hallChoices, hallConditions } from '../tools/choices/hall.js'
import { mosfetChoices, mosfetConditions } from '../tools/choices/mosfet.js'
import { type Case, checks, frozenOf } from '../tools/frozen.js'
import { load } from '../tools/load.mjs'

const draws: Readonly<
  Record<keyof typeof examples, { choice: fc.Arbitrary<unknown>; conditions: fc.Arbitrary<unknown> }>
> = {
  divider: { choice: dividerChoices, conditions: dividerConditions },
  hall: { choice: hallChoices, conditions: hallConditions },
  mosfet: { choice: mosfetChoices, conditions: mosfetConditions },
  decoupling: { choice: decouplingChoices, conditions: decouplingConditions },
}
const count = 30
/** The examples, and every sixth of the others. */
const simulated = { simulation: { seed: 1, maximumTrials: 4096 } }

/** What stands in the form of a block's page at first. */
async function demoOf(name: string): Promise<{ choice: unknown; conditions: unknown }> {
  const { demo } = await load(`
    import { form } from './docs/${name}/form.ts'
    import { argumentsOf, demoOf } from './docs/.vitepress/theme/block.ts'
    export const demo = argumentsOf(form, demoOf(form))
  `)
  return demo
}

/** Thirty cases of a block and its answers: the examples, the page's form as it opens, and seeded draws that are no bad input. */
export async function drawCases(name: keyof typeof examples): Promise<Case[]> {
  const check = checks[name]!
  const answer = (choice: unknown, conditions: unknown, options: unknown) =>
    frozenOf(check(choice as never, conditions as never, options as never))
  const cases: Case[] = []
  const add = (title: string, choice: unknown, conditions: unknown, options: unknown) =>
    cases.push({ name: title, choice, conditions, options, answer: answer(choice, conditions, options) })
  const { choice, conditions } = await demoOf(name)
  add('page', choice, conditions, simulated)
  for (const [title, example, around] of examples[name]) add(title, example, around, simulated)
  const drawable = fc.noBias(fc.record(draws[name]))
  for (const drawn of fc.sample(drawable, { numRuns: 500, seed: 20261128 })) {
    if (cases.length === count) break
    try {
      add(
        `draw ${cases.length}`,
        drawn.choice,
        drawn.conditions,
        cases.length % 6 === 0 ? simulated : { simulation: false },
      )
    } catch (error) {
      if (!(error instanceof InputError)) throw error
    }
  }
  return cases
}
