import { afterAll, beforeAll, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { live } from './worked-page.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())

const rail = { 'choice.logicRail.capacitance': '100 uF ±20 %', 'choice.logicRail.current': '10 mA' }
const low = { transistor: 'N-channel, driven from 1.8 V' }

/** Every way in which a circuit is drawn. */
const drawn: readonly (readonly [page: string, entries: Readonly<Record<string, string>>])[] = [
  ['divider', {}],
  ['divider', { 'choice.wires': '2' }],
  ['divider', { 'choice.topology': 'load at rail' }],
  ['divider', { 'choice.topology': 'load at rail', 'choice.wires': '2' }],
  ['divider', { 'choice.amplifierSupply': '3 V' }],
  ['hall', {}],
  ['hall', { 'choice.divider.top': '10 kohm ±1 %', 'choice.divider.bottom': '10 kohm ±1 %' }],
  ['mosfet', {}],
  ['mosfet', { drive: 'controller pin' }],
  ['mosfet', { drive: 'driver circuit' }],
  ['mosfet', low],
  ['mosfet', { ...low, drive: 'controller pin' }],
  ['mosfet', { ...low, drive: 'driver circuit' }],
  ['decoupling', {}],
  ['decoupling', { ...rail, 'choice.logicRail.behind': 'diode', 'choice.logicRail.forwardVoltage': '0.3 V' }],
  ['decoupling', { ...rail, 'choice.logicRail.behind': 'resistor', 'choice.logicRail.resistance': '10 ohm ±1 %' }],
]

/** What lies over what in the circuit: names, values and fields over each other, lines through them. */
function collisions(): string[] {
  const svg = document.querySelector('.screen .circuit svg')!
  const boxes = [...svg.querySelectorAll('text, foreignObject')].map((it) => ({
    is: it.querySelector<HTMLInputElement>('input, select')?.ariaLabel ?? it.textContent.trim(),
    at: it.getBoundingClientRect(),
  }))
  const found = boxes.flatMap(({ is, at }, i) =>
    boxes.slice(i + 1).flatMap(({ is: other, at: its }) => {
      const width = Math.min(at.right, its.right) - Math.max(at.left, its.left)
      const height = Math.min(at.bottom, its.bottom) - Math.max(at.top, its.top)
      // The box of a text is higher than its letters.
      return width > 1 && height > 3 ? [`${is} over ${other}`] : []
    }),
  )
  for (const line of svg.querySelectorAll<SVGPathElement>('path:not(.tick, .span)')) {
    const toScreen = line.getScreenCTM()!
    const length = line.getTotalLength()
    const points = Array.from({ length: Math.ceil(length / 2) }, (_, i) =>
      line.getPointAtLength(2 * i).matrixTransform(toScreen),
    )
    for (const { is, at } of boxes) {
      const isInside = ({ x, y }: DOMPoint) =>
        x > at.left + 1.5 && x < at.right - 1.5 && y > at.top + 2 && y < at.bottom - 2
      if (points.some(isInside)) found.push(`a line through ${is}`)
    }
  }
  return found
}

it.each(drawn)('nothing overlaps in the circuit of /%s/ with %o', async (name, entries) => {
  const { page, close } = await site.newPage({ viewport: { width: 1440, height: 900 } })
  await page.goto(site.url(`${name}/?${new URLSearchParams(entries)}`))
  await live(page)
  await page.waitForFunction(() => document.querySelectorAll('.results.old, .stale').length === 0)
  expect(await page.evaluate(collisions)).toEqual([])
  await close()
})

it('sees what overlaps', async () => {
  const { page, close } = await site.newPage({ viewport: { width: 1440, height: 900 } })
  await page.goto(site.url('divider/'))
  await live(page)
  await page.evaluate(() => {
    const [first, second] = document.querySelectorAll('.screen .circuit svg foreignObject')
    first!.setAttribute('y', second!.getAttribute('y')!)
  })
  expect(await page.evaluate(collisions)).not.toEqual([])
  await close()
})
