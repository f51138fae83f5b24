import type { Assessment } from '../../margin/assessment.js'
import { readRule } from '../../margin/verdict.js'
import { demandCount, knownOptions } from '../../model/options.js'
import { type Block, demandBlock } from '../block.js'
import { type Change, helpsEnough } from './change.js'
import { demandParts, demandRemedies } from './given.js'
import type { ChangeSpec, ChangeStart, Remedies, Rung } from './spec.js'
import { Trial } from './try.js'

/** How changes are looked for. */
export interface ChangeOptions {
  /** The decision rule of the check. */
  readonly accept?: number
  /** Checks of whole choices and of single rows, at most; 400 by default. What was left untried is said. */
  readonly checks?: number
  /** Parts to choose from, by path and name: `{ amplifier: { mine: … } }`; invented classes by default. */
  readonly parts?: NonNullable<ChangeStart['parts']>
}

/** What can be done about a choice that doesn't hold. */
export interface Changes {
  /** Each tried as printed, the best first; among those that are enough, what costs no part. */
  readonly changes: readonly Change[]
  /** Two changes together, where no single one makes the whole choice hold. */
  readonly pairs: readonly Change[]
  /** Names of the changes that weren't tried; one that has no way here isn't among them. */
  readonly untried: readonly string[]
  /** What came of it, in a sentence. */
  readonly text: string
}

/**
 * The changes that help a choice that doesn't hold. Each is put in as printed and the whole choice is held again: so it
 * says what it mends, what it buys, and what it breaks. What is done already, what the library refuses and what only
 * makes things worse isn't there. A number that is solved for is the mildest of those with so many digits that is enough.
 *
 * @param remedies - what may be changed where a row fails; apart from the rows, so that a check needn't carry it
 * @throws InputError naming the first field or option that isn't allowed
 */
export function changesOf<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  remedies: Remedies,
  choice: C,
  conditions: D,
  options: ChangeOptions = {},
): Changes {
  demandBlock(block)
  demandRemedies(remedies)
  const { accept, checks = 400, parts } = knownOptions(options, ['accept', 'checks', 'parts'])
  demandCount('checks', checks, 0)
  demandParts(parts)
  const trial = new Trial(block, choice, conditions, readRule(accept), parts)
  const failing = trial.before.filter(({ verdict }) => verdict !== 'holds').map(({ id }) => id)
  if (failing.length === 0) return { changes: [], pairs: [], untried: [], text: 'Everything holds.' }
  const specs = specsFor(failing, remedies)
  const changes: Change[] = []
  const untried: string[] = []
  // Some are kept for pairs, whatever the last single one takes.
  const forPairs = Math.min(10, Math.floor(checks / 10))
  const forSingles = checks - forPairs
  for (const { spec, ids } of specs.values()) {
    if (trial.checks >= forSingles) {
      // One that has no way here is none.
      if (spec.rungs(trial.given).length > 0) untried.push(spec.name)
      continue
    }
    const found = outcomes(trial, spec, ids)
    changes.push(...found)
  }
  const isTask = ({ id }: Change) => specs.get(id)?.spec.isTask ?? false
  const costs = (one: Change) => one.verdict !== 'holds' || !specs.get(one.id)?.spec.isFree
  changes.sort((a, b) => Number(isTask(a)) - Number(isTask(b)) || Number(costs(a)) - Number(costs(b)) || better(a, b))
  const isMended = changes.some((one) => one.verdict === 'holds' && !isTask(one))
  const pairs = isMended ? [] : pairsOf(trial, changes, failing, Math.max(checks, trial.checks + forPairs))
  const left = [...new Set(untried)].filter((name) => !changes.some((one) => one.name === name))
  return { changes, pairs, untried: left, text: textOf(changes, pairs, left) }
}

/**
 * What to try, each with the rows that name it: of every row what it knows best before what any knows next, so that each gets
 * its turn where the checks run out; what costs no part first, what changes the task itself last.
 */
function specsFor(failing: readonly string[], remedies: Remedies) {
  const specs = new Map<string, { readonly spec: ChangeSpec; readonly ids: readonly string[] }>()
  const named = failing.map((id) => ({ id, own: remedies[id] ?? [] }))
  const longest = Math.max(...named.map(({ own }) => own.length))
  for (const wanted of ['free', 'part', 'task'] as const)
    for (let turn = 0; turn < longest; turn++)
      for (const spec of named.flatMap(({ own }) => own[turn] ?? [])) {
        if (sortOf(spec) !== wanted || specs.has(spec.id)) continue
        const ids = named.flatMap(({ id, own }) => (own.some((one) => one.id === spec.id) ? [id] : []))
        specs.set(spec.id, { spec, ids })
      }
  return specs
}

const sortOf = ({ isTask, isFree }: ChangeSpec) => (isTask ? 'task' : isFree ? 'free' : 'part')

/** What a change comes to: for all rows that name it together, and, where that can't be, for the most pressing alone. */
function outcomes<C, D, R, A extends Assessment>(trial: Trial<C, D, R, A>, spec: ChangeSpec, ids: readonly string[]) {
  const all = spec.rungs(trial.given)
  const found = { order: spec.order, rungs: () => all }
  const rung = trial.best(found, ids)
  const first = rung && trial.mayHelp(rung, ids) ? trial.outcome(spec, rung) : undefined
  if (first && helpsAny(first, ids)) return [gentler(trial, spec, all, first, ids)]
  const [most] = ids
  if (ids.length < 2) return []
  const alone = trial.best(found, [most!])
  const second = alone && trial.mayHelp(alone, ids) ? trial.outcome(spec, alone) : undefined
  return second && helpsAny(second, ids) ? [second] : []
}

/**
 * Where a change breaks something and doesn't mend all that name it, it went as far as it could for one that it can't mend: then only
 * as far as those need that it does mend, or a step or two further, where that breaks less.
 */
function gentler<C, D, R, A extends Assessment>(
  trial: Trial<C, D, R, A>,
  spec: ChangeSpec,
  all: readonly Rung[],
  first: Change,
  ids: readonly string[],
): Change {
  const mended = ids.filter((id) => first.mends.some((one) => one.id === id))
  if (first.breaks.length === 0 || mended.length === 0 || mended.length === ids.length) return first
  const mildest = trial.best({ order: spec.order, rungs: () => all }, mended)
  const from = mildest ? all.indexOf(mildest) : all.length
  let best = first
  for (const rung of all.slice(from, from + 3)) {
    const other = trial.outcome(spec, rung)
    if (other && better(other, best) < 0) best = other
    if (best.breaks.length === 0) break
  }
  return best
}

/** A change is worth a line where it mends one of its rows, or helps it. */
const helpsAny = ({ mends, helps }: Change, ids: readonly string[]) =>
  mends.some(({ id }) => ids.includes(id)) ||
  helps.some(({ id, before, after }) => ids.includes(id) && helpsEnough(before, after))

/** Whole first, then by what is mended, what is broken, and the slack that is left. */
function better(a: Change, b: Change): number {
  const whole = (one: Change) => (one.verdict === 'holds' ? 0 : 1)
  const score = (one: Change) => one.mends.length - one.breaks.length
  return whole(a) - whole(b) || score(b) - score(a) || b.least - a.least
}

/** Pairs of changes that make the whole choice hold, as far as the number of checks allows: those first that leave least. */
function pairsOf<C, D, R, A extends Assessment>(
  trial: Trial<C, D, R, A>,
  changes: readonly Change[],
  failing: readonly string[],
  checks: number,
): Change[] {
  const leaves = (a: Change, b: Change): number => {
    const mended = new Set([...a.mends, ...b.mends].map(({ id }) => id))
    return failing.filter((id) => !mended.has(id)).length + a.breaks.length + b.breaks.length
  }
  const sharePath = (a: Change, b: Change) => Object.keys(a.puts).some((path) => path in b.puts)
  const all = changes.flatMap((a, i) =>
    changes.flatMap((b, j) => (j > i && !sharePath(a, b) ? [{ a, b, left: leaves(a, b), sum: i + j }] : [])),
  )
  const pairs: Change[] = []
  const tried = new Set<string>()
  for (const { a, b } of all.sort((one, other) => one.left - other.left || one.sum - other.sum)) {
    if (trial.checks >= checks || pairs.length >= 3) break
    const both: Rung = { puts: { ...a.puts, ...b.puts }, text: b.text }
    // Two changes may put the same: what was tried is not tried, nor told, again.
    const asPut = JSON.stringify(Object.entries(both.puts).sort())
    if (tried.has(asPut)) continue
    tried.add(asPut)
    const name = `${a.name} (${a.text}) and ${b.name}`
    const change = trial.whole({ id: `${a.id}+${b.id}`, name }, both)
    if (change) pairs.push(change)
  }
  return pairs
}

function textOf(changes: readonly Change[], pairs: readonly Change[], untried: readonly string[]): string {
  const more = untried.length > 3 ? ` and ${untried.length - 3} more` : ''
  const rest = untried.length > 0 ? ` Not tried: ${untried.slice(0, 3).join(', ')}${more}.` : ''
  const whole = changes.find(({ verdict }) => verdict === 'holds')
  const [first] = changes
  const [pair] = pairs
  if (whole && (whole === first || !pair)) return `With ${whole.name} (${whole.text}) everything holds.${rest}`
  // A change that holds and comes after a pair changes what is asked for.
  const alone = whole ? 'No single change is enough without changing the task' : 'No single change is enough'
  if (pair) return `${alone}; ${pair.name} (${pair.text}) together are.${rest}`
  if (!first) return `None of the changes that were tried helps.${rest}`
  return `No single change is enough, nor any two that were tried; ${first.name} (${first.text}) helps most.${rest}`
}
