import { type Design, exampleDesign, readDesign } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { cellCautions } from '../src/answer/cautions.js'
import { ownRemedies } from '../src/changes/own.js'
import { readWhole } from '../src/changes/whole.js'
import { comb } from './comb.js'
import { cutter, lowSide } from './cutter.js'

/* Each caution about cells belongs to what a design has: there where it has that, and nowhere else. */

const { monitor: _, ...unwatched } = exampleDesign as Design
const { monitor: __, ...combAlone } = comb
const divider = { upper: '300 kohm ±1 %', lower: '100 kohm ±1 %' }
const twoWatched: Design = { ...cutter, monitor: { stop: '5.2 V', divider } }
const source = {
  kind: 'port',
  voltage: '4 V ±3 %',
  leadResistance: '50 mohm ±20 %',
  currentLimit: '20 A ±10 %',
} as const
const onPort: Design = { ...unwatched, supply: { source, path: exampleDesign.supply.path } }
const watched = (more: object): Design => ({ ...comb, monitor: { ...comb.monitor!, ...more } })

const known = new Map<Design, ReturnType<typeof cellCautions>>()
const cautions = (design: Design) => {
  const found = known.get(design) ?? cellCautions(readDesign(design))
  known.set(design, found)
  return found
}

describe('what is said of cells', () => {
  it.each<[id: string, those: readonly Design[], others: readonly Design[]]>([
    ['lithium-ion', [exampleDesign, cutter, comb], [onPort]],
    ['unwatched', [cutter, combAlone], [exampleDesign, unwatched, comb, twoWatched, onPort]],
    ['series', [cutter, twoWatched], [exampleDesign, comb, onPort]],
    [
      'slow-recovery',
      [comb, exampleDesign],
      [combAlone, twoWatched, watched({ lacking: 0 }), watched({ pause: '1 h' }), onPort],
    ],
  ])('%s', (id, those, others) => {
    const isSaid = (design: Design) => cautions(design).some((one) => one.id === id)
    for (const one of those) expect(isSaid(one), one.name).toBe(true)
    for (const one of others) expect(isSaid(one), one.name).toBe(false)
  })

  it('tells after which time they are read, and what they still lack then', () => {
    const textOf = (more: object) => cautions(watched(more)).find(({ id }) => id === 'slow-recovery')!.text
    expect(textOf({})).toMatch(/^The cells are read 60 s after the load\. .*: 10 % of the sag/)
    expect(textOf({ pause: '5 s', lacking: 0.25 })).toMatch(/^The cells are read 5 s .*: 25 % of the sag/)
  })
})

it('a load read at the rail is offered a switch on the high side first, where an input stands too high', () => {
  const { settings } = ownRemedies(readWhole(lowSide))
  const high = Object.keys(settings).filter((id) => id.startsWith('divider/') || id === 'rails/sense-clamp')
  expect(high).toContain('rails/sense-clamp')
  for (const id of high) expect(settings[id]![0]!.id, id).toBe('high-side')
  const others = Object.keys(settings).filter((id) => !high.includes(id))
  for (const id of others)
    expect(
      settings[id]!.map((one) => one.id),
      id,
    ).not.toContain('high-side')
  for (const all of Object.values(ownRemedies(readWhole(cutter)).settings))
    expect(all.map((one) => one.id)).not.toContain('high-side')
})
