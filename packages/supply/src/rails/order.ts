import { demand, InputError, nearestName } from '@ohmward/quantity'

/** What the order of rails follows from. */
interface Hanging {
  readonly name: string
  readonly source: string
}

/**
 * Rails in the order in which they are computed: each after the one that feeds it.
 *
 * @param main - name of the rail that the source feeds
 * @throws InputError where two have one name, one hangs on a rail that isn't there (with the nearest name), or on itself
 */
export function orderRails<R extends Hanging>(rails: readonly R[], main = 'main'): R[] {
  demandList(rails)
  const names = [main, ...rails.map(({ name }) => name)]
  rails.forEach(({ name, source }, i) => {
    if (names.indexOf(name) < i + 1)
      throw new InputError({ field: `rails[${i}].name`, value: name, allowed: 'a name of its own' })
    if (names.includes(source)) return
    const near = nearestName(source, names)
    const hint = near === undefined ? '' : `Did you mean ${near}?`
    throw new InputError({ field: `rails[${i}].source`, value: source, allowed: names.join(' or '), hint })
  })
  const done = new Set([main])
  const ordered: R[] = []
  for (let left = [...rails]; left.length > 0; ) {
    const next = left.filter(({ source }) => done.has(source))
    if (next.length === 0) throw onItself(rails, left[0]!)
    for (const rail of next) done.add(rail.name)
    ordered.push(...next)
    left = left.filter(({ name }) => !done.has(name))
  }
  return ordered
}

function onItself<R extends Hanging>(rails: readonly R[], start: R): InputError {
  const way = [start.name]
  for (let at = start; way.indexOf(at.source) < 0; at = rails.find(({ name }) => name === at.source)!)
    way.push(at.source)
  const field = `rails[${rails.indexOf(start)}].source`
  const hint = `It feeds itself: ${way.join(' from ')}, and so on`
  return new InputError({
    field,
    value: start.source,
    allowed: 'a rail that the source feeds, directly or through others',
    hint,
  })
}

function demandList(rails: readonly Hanging[]): void {
  demand(Array.isArray(rails), { field: 'rails', value: rails, allowed: 'a list of rails' })
  rails.forEach((rail: unknown, i) => {
    const isRail = typeof rail === 'object' && rail !== null
    demand(isRail, { field: `rails[${i}]`, value: rail, allowed: 'a rail with its name and source' })
    const { name, source } = rail as { name?: unknown; source?: unknown }
    for (const [key, text] of Object.entries({ name, source })) {
      demand(typeof text === 'string', { field: `rails[${i}].${key}`, value: text, allowed: 'a text' })
    }
  })
}
