const place = globalThis as { madeOnce?: Map<string, unknown> }
place.madeOnce ??= new Map()
const made = place.madeOnce

/**
 * Makes something once for the whole build. Each data loader is bundled by itself, so a module keeps nothing for the
 * others; what several of them want stands here, by its name. While the site is developed it is made each time, since
 * the files change under it.
 */
export function once<T>(name: string, make: () => T): T {
  if (process.env['NODE_ENV'] !== 'production') return make()
  if (!made.has(name)) made.set(name, make())
  return made.get(name) as T
}
