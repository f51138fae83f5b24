import { type Design, exampleDesign, readDesign } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { aboveInputs, cellCautions, statedSupplies } from '../src/answer/cautions.js'
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

describe('what is said of supplies', () => {
  it('names those that are stated as a voltage, and no other', () => {
    const said = (mosfet: unknown, divider: unknown, hall: unknown) =>
      statedSupplies({
        ...{
          mosfet: { drive: { supply: mosfet } },
          divider: { amplifierSupply: divider },
          hall: { sensorSupply: hall },
        },
      } as never).map(({ text }) => /: ([\w., ]+)\. /.exec(text)![1])
    const names = ['mosfet.drive.supply', 'divider.amplifierSupply', 'hall.sensorSupply']
    for (let bits = 0; bits < 8; bits++)
      for (const other of [undefined, 'rail']) {
        const isStated = names.map((_, i) => ((bits >> i) & 1) === 1)
        const [mosfet, divider, hall] = [{ regulated: '5 V' }, '3 V', '3.3 V'].map((one, i) =>
          isStated[i] ? one : other,
        )
        const told = names.filter((_, i) => isStated[i])
        expect(said(mosfet, divider, hall)).toEqual(told.length === 0 ? [] : [told.join(', ')])
      }
  })

  it('tells inputs of an amplifier that stand above its rail, where the load does', () => {
    const said = (
      main: number,
      own: number,
      { topology = 'load at rail', supply = undefined as unknown, lives = 'logic' } = {},
    ) =>
      aboveInputs(
        { design: { lives: { amplifier: lives }, divider: { topology, amplifierSupply: supply } } } as never,
        { rails: { main: { rest: { upper: main } }, logic: { rest: { upper: own } } } } as never,
      ).map(({ text }) => text.match(/[\d.]+ V/g))
    expect(said(8.4, 3.3)).toEqual([['8.4 V', '3.3 V']])
    expect(said(8.4, 3.3, { supply: 'rail' })).toHaveLength(1)
    expect(said(3.3, 3.3)).toEqual([])
    expect(said(8.4, 3.3, { supply: '5 V' })).toEqual([])
    expect(said(8.4, 3.3, { topology: 'load at ground' })).toEqual([])
    expect(said(8.4, 3.3, { lives: 'main' })).toEqual([])
  })
})
