import type { Extremes } from './budget.js'
import { compileInputs, evaluator } from './evaluate.js'
import { coin } from './evaluate-signs.js'
import { type Best, type Box, boxOf, within } from './extremes-box.js'
import { climb } from './extremes-climb.js'
import { look, type Seen } from './extremes-look.js'
import type { EngineOptions, Inputs, Model } from './model.js'

/** Random places looked at, and random corners that a search starts from: fixed, so the cost is linear in the inputs. */
const probes = 8
const starts = 12

/**
 * The largest and smallest value of a model over the limits of its inputs, at a cost linear in their number.
 *
 * A model that is monotonic in each input has its extremes at two corners, which the directions at the nominal values
 * give. Whether it is, is looked at there, at both corners and at random places between. Where a direction changes, the
 * extremes are searched by coordinate ascent from many places, and the verdict is 'not sure', with the inputs' names:
 * such a search can miss a higher peak. 'sure' means that the model was monotonic in every input wherever it was looked at.
 *
 * For `normal` and `t` inputs the limits are those stated: the true values may lie beyond them.
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
  const box = boxOf(compiled, evaluator(compiled, model, row))
  const seen: Seen = { direction: [], turns: [], depends: [] }
  for (let k = 0; k < box.size; k++) {
    seen.direction.push(0)
    seen.turns.push(false)
    seen.depends.push(false)
  }
  if (box.size > 0) lookAround(box, seen)
  const named = (flags: readonly boolean[]) => list(varying.filter((_, k) => flags[k]).map((i) => names[i]!))
  const reasons: string[] = []
  if (seen.turns.includes(true)) reasons.push(`the result both rises and falls with ${named(seen.turns)}`)
  if (seen.depends.includes(true)) {
    reasons.push(`whether the result rises or falls with ${named(seen.depends)} depends on other inputs`)
  }
  if (reasons.length > 0) search(box, seen)
  if (box.broken) {
    const at = varying.map((i) => names[i]!).map((name) => `${name} = ${Number(box.broken![name]!.toPrecision(4))}`)
    reasons.push(`there is no finite result at ${list(at)}`)
  }
  const placed = (best: Best): Record<string, number> => {
    settle(box, best)
    const values: Record<string, number> = {}
    for (let i = 0; i < names.length; i++) values[names[i]!] = spreads[i]!.nominal
    varying.forEach((i, k) => {
      const { lower, upper, nominal } = spreads[i]!
      const fraction = best.place[k]!
      values[names[i]!] = fraction === box.nominal[k] ? nominal : within(lower, upper, fraction)
    })
    return values
  }
  const atLower = placed(box.best.lower)
  const atUpper = placed(box.best.upper)
  return {
    lower: box.best.lower.value,
    upper: box.best.upper.value,
    atLower,
    atUpper,
    verdict: reasons.length > 0 ? 'not sure' : 'sure',
    reasons,
    evaluations: box.evaluations,
  }
}

/** The first names of a list, and how many more there are. */
const list = (names: readonly string[]): string =>
  names.slice(0, 6).join(', ') + (names.length > 6 ? ` and ${names.length - 6} more` : '')

/** The corner of the largest (`sign` 1) or smallest (-1) result by the directions seen; where none was seen, by `sign`. */
const corner = ({ direction }: Seen, sign: 1 | -1): number[] => direction.map((d) => ((d || 1) * sign > 0 ? 1 : 0))

const ends = () => [0, 1]
const quarters = () => [0, 0.25, 0.75, 1]
/** From a corner: its surroundings, the middle, the opposite limit. */
const inward = (own: number) => (own > 0.5 ? [0, 0.5, 0.999, 1] : [0, 0.001, 0.5, 1])

/** Looks at the nominal values, at the two corners that these suggest and at random places inside. */
function lookAround(box: Box, seen: Seen): void {
  const toss = coin()
  const some = (n: number) => {
    let fraction = 0
    for (let bit = 0; bit < n; bit++) fraction = (fraction + (toss() ? 1 : 0)) / 2
    return fraction + 1 / 2 ** (n + 1)
  }
  for (let n = 0; n < probes; n++) box.at(box.nominal.map(() => (toss() ? 1 : 0)))
  const tolerance = () => {
    const { lower, upper } = box.best
    return 1e-9 * (upper.value - lower.value) + 1e-14 * Math.max(Math.abs(lower.value), Math.abs(upper.value))
  }
  look(box, box.nominal, quarters, tolerance(), seen)
  const [top, bottom] = [corner(seen, 1), corner(seen, -1)]
  look(box, top, inward, tolerance(), seen)
  look(box, bottom, inward, tolerance(), seen)
  for (let n = 0; n < 2; n++)
    look(
      box,
      box.nominal.map(() => some(8)),
      ends,
      tolerance(),
      seen,
    )
  // A direction first seen away from the nominal values can move the corners.
  const [newTop, newBottom] = [corner(seen, 1), corner(seen, -1)]
  if (newTop.some((x, k) => x !== top[k])) look(box, newTop, inward, tolerance(), seen)
  if (newBottom.some((x, k) => x !== bottom[k])) look(box, newBottom, inward, tolerance(), seen)
}

/** Searches both extremes from many places, then makes sure that no single input improves what was found. */
function search(box: Box, seen: Seen): void {
  const toss = coin(0x2545f491)
  const open = seen.turns.map((turns, k) => turns || seen.depends[k]!)
  const rough = { parts: (k: number) => (seen.turns[k] ? 8 : open[k] ? 2 : 1), sections: 16, narrowFrom: 8, rounds: 6 }
  const fine = { parts: (k: number) => (open[k] ? 32 : 2), sections: 44, narrowFrom: 8, rounds: 4 }
  for (const sign of [1, -1] as const) {
    const best = sign === 1 ? box.best.upper : box.best.lower
    const known = corner(seen, sign)
    climb(box, sign, best.place, rough)
    climb(box, sign, box.nominal, rough)
    for (let n = 0; n < starts; n++) {
      climb(
        box,
        sign,
        known.map((fraction, k) => (open[k] ? (toss() ? 1 : 0) : fraction)),
        rough,
      )
    }
    climb(box, sign, best.place, fine)
  }
}

/** Returns every input that makes no difference at an extreme to its nominal value, so that only what matters is named. */
function settle(box: Box, best: Best): void {
  box.at(best.place)
  for (let k = 0; k < box.size; k++) {
    const own = best.place[k]!
    if (own === box.nominal[k]) continue
    if (box.move(k, box.nominal[k]!) === best.value) best.place[k] = box.nominal[k]!
    else box.put(k, own)
  }
}
