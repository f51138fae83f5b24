import { InputError } from '@ohmward/quantity'
import type { Assessment, Margin } from '../../margin/assessment.js'
import type { DecisionRule } from '../../margin/margin.js'
import { relativeSlack } from '../../margin/verdict.js'
import { holdAll } from '../assess.js'
import type { Block, Setup } from '../block.js'
import { estimateRow } from '../estimate.js'
import { holdRow } from '../hold.js'
import { type Change, changeOf, helpsEnough } from './change.js'
import { changed } from './path.js'
import type { ChangeSpec, ChangeStart, Rung } from './spec.js'

/** What is missing with a rung in some rows, and how many checks it took to know. */
interface Lack {
  readonly lack: number
  readonly checks: number
}

/** Relative slack that a glance must see missing: nearer to a limit only the full worst case tells. */
const clearly = 0.05

/** A choice in which changes are tried. Counts what it costs: checks of single rows and of whole choices. */
export class Trial<C, D, R, A extends Assessment> {
  readonly block: Block<C, D, R, A>
  readonly given: ChangeStart & { readonly choice: C; readonly conditions: D }
  readonly rule: DecisionRule
  readonly before: readonly Margin[]
  checks = 0
  readonly #lacks = new WeakMap<Rung, Map<string, Lack>>()

  constructor(block: Block<C, D, R, A>, choice: C, conditions: D, rule: DecisionRule, parts: ChangeStart['parts']) {
    this.block = block
    const read = block.read(choice, conditions)
    this.given = { choice, conditions, read, ...(parts && { parts }) }
    this.rule = rule
    this.before = holdAll(block.setup(read), rule).margins
  }

  /** The choice with a rung made ready; undefined where the library refuses it. */
  ready({ puts }: Pick<Rung, 'puts'>): Setup<A> | undefined {
    const { choice, conditions } = changed(this.given, puts)
    try {
      return this.block.setup(this.block.read(choice, conditions))
    } catch (error) {
      if (error instanceof InputError) return undefined
      throw error
    }
  }

  /**
   * How much is still missing in these rows: 0 where all hold, else the largest lack relative to the limit. What was asked
   * before is remembered, and counts as a check all the same: so what is tried doesn't hang on it.
   *
   * @param most - what another rung leaves missing: with as much it needn't be known by how much more
   */
  lack(rung: Rung, ids: readonly string[], most = Infinity): number {
    const known = this.#lacks.get(rung) ?? new Map<string, Lack>()
    const asked = ids.join()
    const before = known.get(asked)
    if (before !== undefined) {
      this.checks += before.checks
      return before.lack
    }
    const start = this.checks
    const lack = this.#lackOf(rung, ids, most)
    if (lack < most || most === Infinity) this.#lacks.set(rung, known.set(asked, { lack, checks: this.checks - start }))
    return lack
  }

  #lackOf(rung: Rung, ids: readonly string[], most: number): number {
    const setup = this.ready(rung)
    if (setup === undefined) return Infinity
    this.checks++
    let lack = 0
    try {
      const asked = setup.rows.filter(({ id }) => ids.includes(id))
      // What is clearly short at a glance isn't held in full: nothing is proposed that wasn't, so a glance may only spare the work.
      if (this.rule.accept === undefined) {
        const short = Math.max(0, ...asked.map((row) => -relativeSlack(estimateRow(row))))
        if (short > clearly) return short
      }
      for (const row of asked) {
        const { margin } = holdRow(row, this.rule)
        if (margin.verdict !== 'holds') lack = Math.max(lack, -relativeSlack(margin), Number.EPSILON)
        if (lack >= most) return lack
      }
    } catch (error) {
      if (error instanceof InputError) return Infinity
      throw error
    }
    return lack
  }

  /** The rung to propose for these rows: the mildest that is enough, or the one that leaves the least missing. */
  best({ order, rungs }: Pick<ChangeSpec, 'order' | 'rungs'>, ids: readonly string[]): Rung | undefined {
    const all = rungs(this.given)
    if (all.length === 0) return undefined
    if (order === 'any' || all.length < 4) return this.#least(all, ids)
    const last = this.#lastAllowed(all)
    // One row after the other, the most pressing first: each goes on from the rung that was enough for those before it.
    let from = -1
    for (const id of ids) {
      const isEnough = (i: number) => this.lack(all[i]!, [id]) === 0
      if (from >= 0 && isEnough(from)) continue
      const start = from
      const way = last - start
      // Too far may be no good either: then the first of a few places on the way that is enough.
      const places = [last, ...[1 / 16, 1 / 6, 1 / 3, 2 / 3].map((share) => start + Math.ceil(share * way))]
      let good = places.find(isEnough)
      if (good === undefined)
        return this.#least(
          places.map((i) => all[i]!),
          ids,
        )
      let bad = Math.max(start, ...places.filter((i) => i < good! && good !== last))
      while (good - bad > 1) {
        const middle: number = (good + bad) >> 1
        if (isEnough(middle)) good = middle
        else bad = middle
      }
      from = good
    }
    return all[from]
  }

  /** The last rung that the library takes, where those before it are taken too. */
  #lastAllowed(all: readonly Rung[]): number {
    let bad = all.length
    if (this.ready(all[bad - 1]!)) return bad - 1
    let good = 0
    while (bad - good > 1) {
      const middle = (good + bad) >> 1
      if (this.ready(all[middle]!)) good = middle
      else bad = middle
    }
    return good
  }

  /** Whether a rung mends or helps one of these rows, as far as a glance tells: where it doesn't, the whole isn't held with it. */
  mayHelp(rung: Rung, ids: readonly string[]): boolean {
    if (this.rule.accept !== undefined) return true
    const rows = this.ready(rung)?.rows
    if (rows === undefined) return false
    const before = new Map(this.before.map(({ id, slack }) => [id, slack]))
    try {
      return ids.some((id) => {
        const row = rows.find((one) => one.id === id)
        if (row === undefined) return true
        const { slack } = estimateRow(row)
        return slack >= 0 || helpsEnough(before.get(id) ?? 0, slack)
      })
    } catch (error) {
      if (error instanceof InputError) return false
      throw error
    }
  }

  /** The rung that leaves the least missing; undefined where all are refused. */
  #least(rungs: readonly Rung[], ids: readonly string[]): Rung | undefined {
    let least = Infinity
    let best: Rung | undefined
    for (const rung of rungs) {
      const lack = this.lack(rung, ids, least)
      if (lack < least) [least, best] = [lack, rung]
      if (lack === 0) break
    }
    return best
  }

  /** {@link Trial.outcome} where the whole choice holds with a rung, else undefined: the first row that doesn't ends the question. */
  whole(spec: Pick<ChangeSpec, 'id' | 'name'>, rung: Rung): Change | undefined {
    const setup = this.ready(rung)
    if (setup === undefined) return undefined
    if (this.#holds(setup)) return this.outcome(spec, rung)
    this.checks++
    return undefined
  }

  /** Whether all rows hold; those that didn't without a change are asked first. */
  #holds({ rows }: Setup<A>): boolean {
    const failed = new Set(this.before.filter(({ verdict }) => verdict !== 'holds').map(({ id }) => id))
    const first = rows.filter(({ id }) => failed.has(id))
    const others = rows.filter(({ id }) => !failed.has(id))
    try {
      return [...first, ...others].every((row) => holdRow(row, this.rule).margin.verdict === 'holds')
    } catch (error) {
      if (error instanceof InputError) return false
      throw error
    }
  }

  /** A rung put in and the whole choice held again; undefined where it is refused. */
  outcome(spec: Pick<ChangeSpec, 'id' | 'name'>, rung: Rung): Change | undefined {
    const setup = this.ready(rung)
    if (setup === undefined) return undefined
    this.checks++
    let margins: readonly Margin[]
    try {
      margins = holdAll(setup, this.rule).margins
    } catch (error) {
      if (error instanceof InputError) return undefined
      throw error
    }
    return changeOf(spec, rung, { before: this.before, after: margins, rows: setup.rows })
  }
}
