import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { unitText } from '../../docs/.vitepress/theme/numbers.js'
import { saidOf, together } from '../../docs/.vitepress/theme/verdict-words.js'
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
  /(above|below) its (upper|lower|lowest|highest) (limit|supply)'/,
  /\bis short by\b(?! what)/,
  /further down or beside/,
  /stands here as a part/,
  /how far the resistance may lie/,
  /most helps \$/,
  /comes closer to (its|the) (supply|rail)/,
  /a trip that leaves what flows alone/,
  /runs on less'/,
  /current that the output sinks/,
  /delay and edge when/,
  /counts missing at the end of sampling/,
  /against what lives/,
  /Plugged onto empty/,
  /burns a ring/,
  /is walked from/,
  /of the whole one does not/,
  /held at each place/,
  /'[^',]*, (largest|longest|shortest)'/,
  /hangs on itself:/,
  /too low by the duty/,
  /holds its current\.'/,
  /as you said:/,
  /finds no balance'/,
  /halved from there/,
  /one of the two says/,
  /in the place of both|a ratio in their place/,
  /It is a size, so/,
  /says of no resistor/,
  /before firing|when fired/,
  /has the way to everything/,
  /would reach its end\b/,
  /gate may be lifted/,
  /stands on its curve/,
  /What else the data sheet states/,
  /thermal balance of/,
  /that rings may meet/,
  /still charged again/,
  /more at less'|or less at less/,
  /nothing would be left of/,
  /what a shorted input really has/,
  /goes with its square/,
  /arithmetic without a promise/,
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

it('takes no word for a unit', () => {
  const text =
    'Linear propagation differs from simulation, the lower end by 20 mV, more than δ = 500 uV: use the simulated interval.'
  expect(unitText(text).replaceAll('\u00a0', ' ')).toBe(text.replace('uV', 'µV'))
  expect(unitText('us/V')).toBe('µs/V')
  expect(unitText('uohm')).toBe('µΩ')
})

it('says rows with the same numbers in one', () => {
  const row = { sense: 'at least', limit: 2.781, unit: 'V', verdict: 'fails' } as const
  const margins = [
    { ...row, name: 'steady rail against the brown-out threshold', worst: 2.5263 },
    { ...row, name: 'lowest rail against the brown-out threshold', worst: 2.5262 },
    { ...row, name: 'lowest sensor supply', worst: 2.3, limit: 2.4 },
  ] as unknown as Parameters<typeof saidOf>[0]['margins']
  const { word, because } = saidOf({ verdict: 'fails', margins })
  expect(word).toBe('No')
  expect(because.replaceAll('\u00a0', ' ')).toBe(
    'Steady and lowest rail against the brown-out threshold: 2.52 V, at least 2.78 V; lowest sensor supply: 2.3 V, at least 2.4 V.',
  )
  expect(together(['drain current', 'test current'])).toBe('drain and test current')
  expect(together(['longer edge', 'drain current'])).toBe('longer edge and drain current')
  expect(together(['rail', 'rail'])).toBe('rail and rail')
  expect(together(['drain current'])).toBe('drain current')
})
