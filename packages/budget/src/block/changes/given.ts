import { demand, demandShape, type Shape } from '@ohmward/quantity'
import { demandList } from '../../model/options.js'
import type { ChangeSpec, ChangeStart, Remedies } from './spec.js'

/*
 * What changes are made of and tried with, looked at where they are made or asked for.
 */

/** Changes that were found to be some. */
const known = /*#__PURE__*/ new WeakSet<object>()

const spec: Shape = {
  id: 'a text',
  name: 'a text',
  order: 'a text',
  isTask: '?true or false',
  isFree: '?true or false',
  rungs: 'a function',
}

/** Throws unless it says by the rows' ids what may be changed. @throws InputError naming what a change says wrongly of itself */
export function demandRemedies(remedies: Remedies): void {
  demandTable(remedies, 'remedies', 'changes by the ids of rows')
  for (const [id, specs] of Object.entries(remedies)) {
    demandList(`remedies.${id}`, specs)
    for (let i = 0; i < specs.length; i++) demandSpec(specs[i]!, `remedies.${id}[${i}]`)
  }
}

function demandSpec(change: ChangeSpec, field: string): void {
  if (known.has(change)) return
  demandShape(change, field, spec)
  const isOrder = change.order === 'any' || change.order === 'mildest first'
  demand(isOrder, { field: `${field}.order`, value: change.order, allowed: "'mildest first' or 'any'" })
  known.add(change)
}

/** Throws unless it is left out or has parts by path and name. @throws InputError */
export function demandParts(parts: ChangeStart['parts']): void {
  if (parts === undefined) return
  demandTable(parts, 'parts', 'parts by path and name')
  for (const path of Object.keys(parts)) demandTable(parts[path], `parts.${path}`, 'parts by name')
}

function demandTable(value: unknown, field: string, allowed: string): void {
  demand(typeof value === 'object' && value !== null && !Array.isArray(value), { field, value, allowed })
}

/** What every change of one number says of itself. */
const move: Shape = {
  id: 'a text',
  name: 'a text',
  path: 'a text',
  unit: 'a text',
  from: '?a function',
  also: '?a list of texts',
  isFree: '?true or false',
}

/** What the makers of changes take. */
export const makers = {
  preferred: () => ({ ...move, towards: 'a text', series: '?a text', steps: '?a finite number' }),
  solved: () => ({ ...move, to: 'anything', digits: '?a finite number' }),
  tighter: () => ({
    id: 'a text',
    name: 'a text',
    paths: 'a list of texts',
    unit: 'a text',
    classes: '?a list',
    beside: '?a function',
  }),
  replaced: () => ({ id: 'a text', name: 'a text', path: 'a text', parts: 'an object', beside: '?a function' }),
  put: () => ({
    id: 'a text',
    name: 'a text',
    puts: 'an object',
    text: 'a text',
    when: '?a function',
    isFree: '?true or false',
  }),
} as const satisfies Readonly<Record<string, () => Shape>>

const complete = /*#__PURE__*/ new Map<string, Shape>()

/** Throws unless a maker of changes is given what it takes. @throws InputError */
export function demandMove(given: unknown, maker: keyof typeof makers): void {
  const shape: Shape = complete.get(maker) ?? makers[maker]()
  complete.set(maker, shape)
  demandShape(given, 'change', shape)
}
