import {
  blockOf,
  type Change,
  type ChangeOptions,
  type Changes,
  changed,
  changesOf,
  type Remedies,
} from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import { checkKnowing } from '../answer/check.js'
import type { Design } from '../design/record.js'
import type { KnownMargins } from '../kept/known-margins.js'
import { once } from '../kept/once.js'
import { ownRemedies } from './own.js'
import { blockRemedies } from './remedies.js'
import { type ReadWhole, readWhole, wholeBlock } from './whole.js'

/** A change of the whole design, and what it buys in charge. */
export interface DesignChange extends Change {
  /** Share of a full charge that is usable before anything gives way; only of the first few changes, each walked in full. */
  readonly usable?: { readonly before: number; readonly after: number }
}

/** What can be done about a design that doesn't hold. */
export interface DesignChanges extends Omit<Changes, 'changes' | 'pairs'> {
  readonly changes: readonly DesignChange[]
  readonly pairs: readonly DesignChange[]
}

/** How changes are looked for; `walked` of them, 3 by default, are walked in full. */
export interface DesignChangeOptions extends ChangeOptions {
  readonly walked?: number
  /** Called before every trial with the share of the checks used, 0 to 1: the search may end sooner. */
  readonly onProgress?: (share: number) => void
}

/**
 * What can be done about a design that doesn't hold: the blocks' remedies and those of supply, load and controller. Each is
 * put in as printed and the whole design is held again, from full to the charge that must be usable, cold to warm, new to old:
 * so it says what it mends, what it buys and what it breaks elsewhere. Two together, where no single one helps.
 *
 * @throws InputError naming the first field or option that isn't allowed
 */
export function designChanges(given: Design, options: DesignChangeOptions = {}): DesignChanges {
  const { walked = 3, onProgress, ...sought } = options
  if (onProgress !== undefined && typeof onProgress !== 'function')
    throw new InputError({ field: 'options.onProgress', value: onProgress, allowed: 'a function of a share' })
  // Most changes leave most blocks as they are.
  const known: KnownMargins = new Map()
  const read = readWhole(given, known)
  const block = wholeBlock(read, known)
  const { checks = 150 } = sought
  let tried = 0
  const told = blockOf<Design, null, ReadWhole>({
    ...block,
    read: (design, nothing) => {
      onProgress?.(Math.min(1, tried++ / Math.max(1, checks)))
      return design === given ? read : block.read(design, nothing)
    },
  })
  const found = changesOf(told, remediesOf(read), given, null, { ...sought, checks })
  const shareOf = (design: Design): number => checkKnowing(design, { charges: 12 }, known).usable.share
  const before = once(() => shareOf(given))
  const walk = (all: readonly Change[], most: number): DesignChange[] =>
    all.map((change, i) =>
      i < most ? { ...change, usable: { before: before(), after: shareOf(withChange(given, change)) } } : change,
    )
  return { ...found, changes: walk(found.changes, walked), pairs: walk(found.pairs, Math.min(1, walked)) }
}

/** A design with what a change puts. */
export const withChange = (given: Design, { puts }: Pick<Change, 'puts'>): Design =>
  changed({ choice: given, conditions: null }, puts).choice

/** What may be changed where a row fails: settings first, then the blocks' remedies, then supply and load. */
export function remediesOf(read: ReadWhole): Remedies {
  const blocks = blockRemedies(read)
  const { settings, parts } = ownRemedies(read)
  return Object.fromEntries(
    Object.entries(parts).map(([id, specs]) => [id, [...(settings[id] ?? []), ...(blocks[id] ?? []), ...specs]]),
  )
}
