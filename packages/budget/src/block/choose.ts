import { demand, demandFinite, format, InputError } from '@ohmward/quantity'
import type { Assessment } from '../margin/assessment.js'
import { faultText, relativeSlack } from '../margin/verdict.js'
import { demandCount, demandFunction, knownOptions } from '../model/options.js'
import { assess } from './assess.js'
import { type Block, demandBlock } from './block.js'
import { type NominalRow, nominalRows } from './nominal.js'

/** A choice that holds, with its assessment. */
export interface Chosen<C, A extends Assessment> {
  readonly choice: C
  readonly assessment: A
}

/** A choice that was turned down. */
export interface Rejected<C> {
  readonly choice: C
  /** The row that decides against it, by its id; or the field that the library refuses. */
  readonly row: string
  readonly reason: string
  /**
   * By how much of its limit the row fails that lacks most; absent where nominal parts fail already, or where the choice is
   * refused.
   */
  readonly lack?: number
}

/** What came out of choosing. */
export interface Choosing<C, A extends Assessment> {
  /** The best first. */
  readonly choices: readonly Chosen<C, A>[]
  /** The nearest first: by what is lacking, those that were checked in full before those that nominal parts fail. */
  readonly rejected: readonly Rejected<C>[]
  /** How many can't be better than those that were chosen: they weren't looked at in full. */
  readonly beaten: number
  /** How many weren't looked at in full any more, though nominal parts hold and they might be better. */
  readonly untried: number
}

/** How it is chosen. */
export interface ChooseOptions<C> {
  /** How many choices are wanted; 3 by default. */
  readonly most?: number
  /** What a choice costs; the cheapest first. By default the largest of the least relative slacks decides. */
  readonly cost?: (choice: C) => number
  /** Choices of one kind, of which the best is enough: such as those with the same reference resistor. */
  readonly kind?: (choice: C) => string | number
  /** Full checks, at most; 60 by default. */
  readonly checks?: number
  /** The decision rule of the check. */
  readonly accept?: number
}

const names = ['most', 'cost', 'kind', 'checks', 'accept']

/**
 * Chooses among candidates. Each is looked at with nominal parts at the ends of the conditions, which no tolerance can
 * mend; those that pass are checked in full, the most promising or the cheapest first, until none that is left could be
 * among the best. A row that is the same for all of them decides nothing between them. Every choice returned holds, every
 * one rejected fails its check, and the rest is counted.
 *
 * @throws InputError for an option that doesn't exist or isn't allowed
 */
export function choose<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  candidates: Iterable<C>,
  conditions: D,
  options: ChooseOptions<C> = {},
): Choosing<C, A> {
  demandBlock(block)
  const isCollection = typeof candidates === 'object' && candidates !== null && Symbol.iterator in candidates
  demand(isCollection, { field: 'candidates', value: candidates, allowed: 'a list of choices' })
  const { most = 3, cost, kind, checks = 60, accept } = knownOptions(options, names)
  demandCount('most', most)
  demandCount('checks', checks, 0)
  if (cost !== undefined) demandFunction('cost', cost, 'a function of a choice')
  if (kind !== undefined) demandFunction('kind', kind, 'a function of a choice')
  const rejected: Turned<C>[] = []
  const passed: { choice: C; promises: ReadonlyMap<string, number> }[] = []
  for (const choice of candidates) {
    const looked = look(block, choice, conditions, accept === undefined)
    if ('why' in looked) rejected.push({ one: { choice, ...looked.why }, short: looked.short })
    else passed.push({ choice, promises: looked })
  }
  const alike = sameForAll(passed.map(({ promises }) => promises))
  const able = passed.map(({ choice, promises }) => {
    let promise = Infinity
    for (const [id, own] of promises) if (!alike.has(id)) promise = Math.min(promise, own)
    return { choice, promise, order: cost ? demandFinite('cost', cost(choice)) : -promise }
  })
  able.sort((a, b) => a.order - b.order)
  const leastOf = ({ margins }: A) =>
    Math.min(...margins.filter(({ id }) => !alike.has(id)).map((one) => relativeSlack(one)))
  const choices: (Chosen<C, A> & { readonly order: number })[] = []
  let examined = 0
  let untried = 0
  let beaten = 0
  for (const { choice, promise, order } of able) {
    const worst = choices[most - 1]
    const isBeaten = worst !== undefined && (cost ? true : promise <= -worst.order)
    const same = kind ? choices.findIndex((one) => kind(one.choice) === kind(choice)) : -1
    const isBeatenBySame = same >= 0 && (cost ? true : promise <= -choices[same]!.order)
    if (isBeaten || isBeatenBySame) {
      beaten++
      continue
    }
    if (examined >= checks) {
      untried++
      continue
    }
    examined++
    const assessment = assess(block, choice, conditions, { simulation: false, ...(accept !== undefined && { accept }) })
    if (assessment.verdict !== 'holds') {
      rejected.push({ one: { choice, ...faultOf(assessment) }, short: 0 })
      continue
    }
    const found = { choice, assessment, order: cost ? order : -leastOf(assessment) }
    if (same >= 0) {
      beaten++
      if (choices[same]!.order <= found.order) continue
      choices.splice(same, 1)
    }
    choices.push(found)
    choices.sort((a, b) => a.order - b.order)
  }
  beaten += Math.max(0, choices.length - most)
  return {
    choices: choices.slice(0, most).map(({ choice, assessment }) => ({ choice, assessment })),
    rejected: nearestFirst(rejected),
    beaten,
    untried,
  }
}

/** A choice that was turned down, and by how much of its limit a row fails with nominal parts. */
interface Turned<C> {
  readonly one: Rejected<C>
  readonly short: number
}

/** What was checked in full by what it lacks, then what nominal parts fail, then what is refused. */
function nearestFirst<C>(turned: readonly Turned<C>[]): Rejected<C>[] {
  const later = ({ lack }: Rejected<C>) => Number(lack === undefined)
  const away = ({ one, short }: Turned<C>) => one.lack ?? short
  return [...turned]
    .sort((a, b) => later(a.one) - later(b.one) || (away(a) === away(b) ? 0 : away(a) - away(b)))
    .map(({ one }) => one)
}

/** A candidate with nominal parts: what each of its rows promises, or why it can't hold. */
function look<C, D, R, A extends Assessment>(
  block: Block<C, D, R, A>,
  choice: C,
  conditions: D,
  isStrict: boolean,
): ReadonlyMap<string, number> | { why: { row: string; reason: string }; short: number } {
  let rows: NominalRow[]
  try {
    rows = nominalRows(block.setup(block.read(choice, conditions)).rows)
  } catch (error) {
    if (error instanceof InputError) return { why: { row: error.field, reason: error.message }, short: Infinity }
    throw error
  }
  const promises = new Map<string, number>()
  for (const { row, value, limit, slack, promise } of rows) {
    // Where a probability decides, a row that fails on a board of nominal parts may still be met often enough.
    if (slack < 0 && isStrict) {
      const [is, allowed] = [value, limit].map((x) => format(x, row.unit, { digits: 3 }))
      const nominal = row.kind === 'plain' ? '' : ', with nominal parts'
      const why = { row: row.id, reason: `${row.name}: ${is} against ${allowed}${nominal}` }
      return { why, short: -slack / (Math.abs(limit) || Math.abs(value) || 1) }
    }
    promises.set(row.id, promise)
  }
  return promises
}

/** The rows that promise the same for every candidate, where there is more than one. */
function sameForAll(all: readonly ReadonlyMap<string, number>[]): ReadonlySet<string> {
  const [first, ...others] = all
  if (first === undefined || others.length === 0) return new Set()
  const same = [...first].filter(([id, promise]) =>
    others.every((one) => Math.abs((one.get(id) ?? Infinity) - promise) <= 1e-9 * Math.abs(promise)),
  )
  return new Set(same.length < first.size ? same.map(([id]) => id) : [])
}

/** The row that decides against a choice, why in words, and the most that any row lacks. */
function faultOf({ margins }: Assessment): { row: string; reason: string; lack: number } {
  const worst =
    margins.find(({ verdict }) => verdict === 'fails') ?? margins.find(({ verdict }) => verdict !== 'holds')!
  const open = margins.filter(({ verdict }) => verdict !== 'holds')
  return { row: worst.id, reason: faultText(worst), lack: Math.max(...open.map((one) => -relativeSlack(one))) }
}
