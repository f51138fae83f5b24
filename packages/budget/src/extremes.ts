import type { Extremes } from './budget.js'
import { briefEvaluator, compileInputs } from './evaluate.js'
import { lookAround } from './extremes-around.js'
import { boxOf, within } from './extremes-box.js'
import { search, settle } from './extremes-search.js'
import type { EngineOptions, Inputs, Model } from './model.js'

/** The first names of a list, and how many more there are. */
const list = (names: readonly string[]): string =>
  names.slice(0, 6).join(', ') + (names.length > 6 ? ` and ${names.length - 6} more` : '')

/**
 * The largest and smallest value of a model over the limits of its inputs, at a cost linear in their number.
 *
 * A model that is monotonic in each input has its extremes at two corners, which the directions at the nominal values
 * give. Whether it is, is looked at there, at both corners and at random ones. Where a direction changes, the extremes
 * are searched by coordinate ascent from many places, and the verdict is 'not sure', with the inputs' names: such a
 * search can miss a higher peak. 'sure' means that the model was monotonic in every input wherever it was looked at.
 *
 * For `normal` and `t` inputs the limits are those stated: the true values may lie beyond them. Correlations and groups
 * change nothing here. Inputs that make no difference at an extreme stand at their nominal values.
 *
 * @throws InputError for bad inputs, and where the model gives no finite result at the nominal values
 */
export function extremes<const K extends string>(
  inputs: Inputs<K>,
  model: Model<NoInfer<K>>,
  { row }: Pick<EngineOptions<NoInfer<K>>, 'row'> = {},
): Extremes {
  const compiled = compileInputs(inputs)
  const { names, spreads, varying } = compiled
  const box = boxOf(compiled, briefEvaluator(compiled, model, row))
  const seen = lookAround(box)
  const named = (flags: readonly boolean[]) => list(varying.filter((_, k) => flags[k]).map((i) => names[i]!))
  const reasons: string[] = []
  if (seen.turns.includes(true)) reasons.push(`the result both rises and falls with ${named(seen.turns)}`)
  if (seen.depends.includes(true)) {
    reasons.push(`whether the result rises or falls with ${named(seen.depends)} depends on other inputs`)
  }
  if (reasons.length > 0) search(box, seen)
  settle(box, 1)
  settle(box, -1)
  if (box.broken) {
    const { broken } = box
    reasons.push(
      `no finite result at ${list(varying.map((i) => `${names[i]} = ${broken[names[i]!]!.toPrecision(4)}`))}`,
    )
  }
  const inputsAt = (place: readonly number[]): Record<string, number> => {
    const values: Record<string, number> = {}
    for (let i = 0; i < names.length; i++) values[names[i]!] = spreads[i]!.nominal
    varying.forEach((i, k) => {
      const { lower, upper } = spreads[i]!
      if (place[k] !== box.nominal[k]) values[names[i]!] = within(lower, upper, place[k]!)
    })
    return values
  }
  const { lower, upper } = box.best
  const open = seen.effect.filter((_, k) => seen.turns[k] || seen.depends[k])
  return {
    lower: lower.value,
    upper: upper.value,
    atLower: inputsAt(lower.place),
    atUpper: inputsAt(upper.place),
    verdict: reasons.length > 0 ? 'not sure' : 'sure',
    reasons,
    doubt: box.broken ? null : open.reduce((sum, effect) => sum + effect, 0),
    evaluations: box.evaluations,
  }
}
