import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { files, root } from '../tools/workspace.js'

/** What was said once and read badly. Each has a better sentence in its place. */
const clumsy = [
  /the least margin is/,
  /\bits begin\b|\bthe begin\b/,
  /stands within half a count'/,
  /that is divided by'/,
  /Left of the word/,
  /trip below what is withstood/,
  /is hardware's/,
  /shorter than the switch stands/,
  /What the cooling|cooling to spare/,
  /The gate lives/,
  /the wrong way\b/,
  /ulling resistor/,
  /dies mostly shorts/,
  /[Tt]he case that no capacitor saves/,
  /Put this controller into/,
  /ends at the same\b(?! voltage)/,
  /protection takes it for a short/,
  /keeps its sign/,
  /The classes are invented/,
  /What stands on a resistor/,
  /values that part a decade/,
  /slopes are blind/,
  /only blindness/,
  /taken for granted/,
  /unless told/,
  /not given, taken|taken, because not given/i,
]

/** Sources of the site and the libraries, and what is read beside them. */
const read = [
  ...['ts', 'vue', 'md'].flatMap((ending) => files('docs', `.${ending}`)),
  ...files('packages', '.ts'),
  ...files('packages', '.md'),
].filter((path) => !/node_modules|\/dist\/|docs\/api\/|CHANGELOG/.test(path))

it('no sentence of the site or the libraries is one of those that were mended', () => {
  expect(read.length).toBeGreaterThan(500)
  const found = read.flatMap((path) => {
    const text = readFileSync(`${root}${path}`, 'utf8')
    return clumsy.filter((phrase) => phrase.test(text)).map((phrase) => `${path}: ${phrase.source}`)
  })
  expect(found).toEqual([])
})
