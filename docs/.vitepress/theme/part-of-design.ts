import type { Arguments } from './block.ts'

/*
 * A block's page may show a part of a design: the page of the whole leaves the design in this tab's store and sends its reader
 * on with the part's own link; the block's page sends back what was changed in it.
 */

/** A part of a design on its way to its block's page. */
export interface Departed {
  /** The design as text, and what it is called. */
  readonly text: string
  readonly name: string
  /** The block, and the query of its page. */
  readonly block: string
  readonly query: string
  /** The place of the walk, in words. */
  readonly where: string
}

/** What a block's page changed, by path in the design; `null` takes a field away. */
export interface Returned {
  readonly puts: Readonly<Record<string, unknown>>
}

const place = 'ohmward-design'
const way = 'ohmward-part'

function read<T>(key: string): T | undefined {
  try {
    return JSON.parse(sessionStorage.getItem(key) ?? 'null') ?? undefined
  } catch {
    return undefined
  }
}

function write(key: string, value: unknown): void {
  try {
    if (value === undefined) sessionStorage.removeItem(key)
    else sessionStorage.setItem(key, JSON.stringify(value))
  } catch {
    // Without a store the block's page shows the part by itself.
  }
}

/** The part that this tab's reader went to last. */
export const departed = (): Departed | undefined => read(place)
export const depart = (part: Departed | undefined): void => write(place, part)

/** What came back; it is taken once. */
export function arrived(): Returned | undefined {
  const back = read<Returned>(way)
  write(way, undefined)
  return back
}
export const sendBack = (back: Returned): void => write(way, back)

/** Capacitors stand in a design as a list, on the page by names. */
const kinds: Readonly<Record<string, string>> = { bulk: '0', second: '1', third: '2' }

/** Where the design says itself what a block is given. */
const own: Readonly<Record<string, string>> = {
  idle: 'controller.current',
  tap: 'board',
  'load.rise': 'load.rise',
  'limits.brownOut': 'controller.brownOut',
  'limits.clock': 'controller.lowestSupply',
  'limits.sensor': 'hall.sensor.supplyMinimum',
}

/** What the design works out for the block: nothing that is changed there can be taken over. */
const workedOut: Readonly<Record<string, readonly string[]>> = {
  divider: ['amplifierSupply'],
  hall: ['otherTasks', 'sensorSupply', 'calibration.rail', 'calibration.supply'],
  mosfet: ['load'],
  decoupling: ['load', 'limits'],
}

const isIn = (path: string, id: string) => id === path || id.startsWith(`${path}.`)

/** Where a path of a block's choice is in the design; undefined where the design works it out. */
export function pathInDesign(block: string, path: string): string | undefined {
  if (block === 'decoupling') {
    if (path in own) return own[path]
    if (isIn('source', path)) return path.replace(/^source/, 'supply')
  }
  if (isIn('pwm', path)) return path
  if (workedOut[block]?.some((one) => isIn(one, path))) return undefined
  return `${block}.${path.replace(/^capacitors\.(\w+)/, (_, name: string) => `capacitors.${kinds[name] ?? name}`)}`
}

const hasFields = (value: unknown): value is Arguments => typeof value === 'object' && value !== null

const lengthOf = (value: unknown): number | undefined => (Array.isArray(value) ? value.length : undefined)

/** What differs, by path; `null` where something was taken away. */
export function differences(was: unknown, now: unknown, path = ''): Record<string, unknown> {
  if (JSON.stringify(was) === JSON.stringify(now)) return {}
  if (!hasFields(was) || !hasFields(now) || lengthOf(was) !== lengthOf(now)) return { [path]: now ?? null }
  const words = [...new Set([...Object.keys(was), ...Object.keys(now)])]
  return Object.assign({}, ...words.map((word) => differences(was[word], now[word], path ? `${path}.${word}` : word)))
}

/** What of a changed part goes back into its design, and what stays behind. */
export function returning(
  block: string,
  was: Arguments,
  now: Arguments,
): Returned & { readonly left: readonly string[] } {
  const puts: Record<string, unknown> = {}
  const left: string[] = []
  for (const [path, value] of Object.entries(differences(was['choice'], now['choice']))) {
    const there = pathInDesign(block, path)
    if (there === undefined) left.push(`choice.${path}`)
    else puts[there] = value
  }
  for (const path of Object.keys(differences(was['conditions'], now['conditions']))) left.push(`conditions.${path}`)
  return { puts, left }
}
