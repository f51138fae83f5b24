import { demand } from '@ohmward/quantity'
import { type ReadCell, readCell } from './cell/fields.js'
import { type ReadSupply, readSupply } from './source/fields.js'

/** What was found to be as its reader leaves it. */
const known = /*#__PURE__*/ new WeakSet<object>()

/** Refuses what is no cell as {@link readCell} leaves it, naming its field; what was looked at once is known. @throws InputError */
export function demandCell(cell: ReadCell, field = 'cell'): void {
  if (known.has(cell)) return
  demand(typeof cell === 'object' && cell !== null, { field, value: cell, allowed: 'a cell, as readCell leaves it' })
  // Of a supply's source it says its kind too.
  const { kind: _, ...own } = cell as ReadCell & { readonly kind?: unknown }
  demandAsRead(own, readCell(own, field), field)
  known.add(cell)
}

/** Refuses what is no supply as {@link readSupply} leaves it, naming its field; what was looked at once is known. @throws InputError */
export function demandSupply(supply: ReadSupply, field = 'supply'): void {
  if (known.has(supply)) return
  const allowed = 'a supply, as readSupply leaves it'
  demand(typeof supply === 'object' && supply !== null, { field, value: supply, allowed })
  demandAsRead(supply, readSupply(supply, field), field)
  known.add(supply)
  known.add(supply.source)
}

/** Refuses what its reader would still change: a text in the place of a spread, a field that is left to what is taken otherwise. @throws InputError */
export function demandAsRead(given: unknown, read: unknown, field: string): void {
  const problem = { field, value: given, allowed: 'what its reader leaves, in SI units' }
  demand(typeof given === typeof read && (given === null) === (read === null), problem)
  if (typeof read !== 'object' || read === null) return
  for (const [key, one] of Object.entries(read)) {
    if (one !== undefined) demandAsRead((given as Readonly<Record<string, unknown>>)[key], one, `${field}.${key}`)
  }
}
