import type { Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'
import { live } from './worked-page.js'

let site: Site
let page: Page
beforeAll(async () => {
  site = await openSite()
  page = (await site.newPage()).page
})
beforeEach(() => page.setViewportSize({ width: 1440, height: 900 }))
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
  ['hall', { scenario: 'seedling mat on 12 V' }],
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

/** What lies over what in each drawing that a selector finds: texts and fields over each other, lines through them. */
function collisions(selector: string): string[] {
  return [...document.querySelectorAll(selector)].flatMap((svg) => {
    const boxes = [...svg.querySelectorAll('text, foreignObject')]
      .filter((it) => it.checkVisibility())
      .map((it) => ({
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
    const lines = svg.querySelectorAll<SVGGeometryElement>('path:not(.tick, .span, .under, .band), line')
    for (const line of lines) {
      const toScreen = line.getScreenCTM()!
      const length = line.getTotalLength()
      const points = Array.from({ length: Math.ceil(length / 2) + 1 }, (_, i) =>
        line.getPointAtLength(Math.min(2 * i, length)).matrixTransform(toScreen),
      )
      for (const { is, at } of boxes) {
        const isInside = ({ x, y }: DOMPoint) =>
          x > at.left + 1.5 && x < at.right - 1.5 && y > at.top + 2 && y < at.bottom - 2
        if (points.some(isInside)) found.push(`a line through ${is}`)
      }
    }
    const frame = svg.closest('.scroll') ? undefined : svg.getBoundingClientRect()
    const out = boxes.filter(({ at }) => frame && (at.left < frame.left - 8 || at.right > frame.right + 8))
    return [...found, ...out.map(({ is }) => `${is} is cut off`)]
  })
}

const circuit = '.screen .circuit svg'
const figures = 'main :is(.plot, .picture, .governing) svg'
/** Values of fields in a circuit that are longer than their boxes. */
const cutOff = () =>
  [...document.querySelectorAll<HTMLInputElement>('.screen .circuit input')]
    .filter((it) => it.scrollWidth > it.clientWidth)
    .map(({ ariaLabel, value }) => `${ariaLabel}: ${value}`)
/** What of a circuit lies beyond its column, where it must be scrolled to be seen. */
const beyondColumn = () =>
  [...document.querySelectorAll('.screen .circuit .scroll')].flatMap((box) => {
    const { right } = box.getBoundingClientRect()
    return [...box.querySelectorAll('svg :is(text, path, foreignObject)')]
      .filter((it) => it.checkVisibility() && it.getBoundingClientRect().right > right + 1)
      .map((it) => it.textContent.trim() || it.outerHTML)
  })
/** Waits until all that is drawn belongs to what stands in the form; the changes may still be tried. */
const drawnAnew = () =>
  page.waitForFunction(() => document.querySelector('.results[aria-busy], .results.old svg') === null)

/** Sense lines of the divider, by its circuit: joints on the load's own line, at its lower and at its upper end. */
function senseJoints(): number {
  const load = [...document.querySelectorAll('.circuit .part')].find((it) => it.ariaLabel?.startsWith('blade'))!
  const [, x = 0, y = 0] = /translate\((\d+) (\d+)\)/.exec(load.getAttribute('transform')!)!.map(Number)
  return [...document.querySelectorAll('.circuit .join')]
    .map((it) => [Number(it.getAttribute('cx')), Number(it.getAttribute('cy'))] as const)
    .filter(([cx, cy]) => cx === x && Math.abs(cy - y) < 95 && Math.abs(cy - y) > 15).length
}

/** How far the nearest span of a voltage stands from its name, in the drawing's units. */
function distanceOfSpan(name: string): number {
  const svg = document.querySelector('.screen .circuit svg')!
  const label = [...svg.querySelectorAll<SVGTextElement>('.node text')].find((it) =>
    it.textContent.replace(/\s+/g, '').startsWith(name),
  )!
  const { x, y, width } = label.getBBox()
  return Math.min(
    ...[...svg.querySelectorAll<SVGPathElement>('.span')].map((it) => {
      const at = it.getBBox()
      const isBeside = y > at.y - 6 && y < at.y + at.height
      return isBeside ? Math.min(Math.abs(at.x - x - width), Math.abs(x - at.x - at.width)) : Number.POSITIVE_INFINITY
    }),
  )
}

it.each(drawn)('nothing overlaps in the circuit of /%s/ with %o', async (name, entries) => {
  await page.goto(site.url(`${name}/?${new URLSearchParams(entries)}`))
  await live(page)
  await drawnAnew()
  for (const width of [1440, 768, 320]) {
    await page.setViewportSize({ width, height: 900 })
    expect(await page.evaluate(cutOff), `values at ${width} px`).toEqual([])
    expect(await page.evaluate(collisions, circuit), `circuit at ${width} px`).toEqual([])
    expect(await page.evaluate(collisions, figures), `figures at ${width} px`).toEqual([])
  }
  await page.setViewportSize({ width: 1280, height: 900 })
  expect(await page.evaluate(beyondColumn), 'circuit at 1280 px').toEqual([])
  // The gate-source voltage is marked by a span, right beside its name.
  if (name === 'mosfet') {
    expect(await page.evaluate(distanceOfSpan, 'VGS')).toBeLessThan(20)
  }
  // With four wires both ends of the load are sensed, with two one of them.
  if (name === 'divider') {
    expect(await page.evaluate(senseJoints)).toBeGreaterThanOrEqual(entries['choice.wires'] === '2' ? 1 : 2)
  }
})

it('sees what overlaps, and what lies beyond its column', async () => {
  await page.goto(site.url('divider/'))
  await live(page)
  expect(await page.evaluate(beyondColumn)).toEqual([])
  await page.evaluate(() => {
    document.querySelector<SVGElement>('.screen .circuit svg')!.style.width = '200%'
  })
  expect(await page.evaluate(beyondColumn)).not.toEqual([])
  await page.reload()
  await live(page)
  expect(await page.locator(figures).count()).toBeGreaterThan(4)
  await page.evaluate(() => {
    const [first, second] = document.querySelectorAll('.screen .circuit svg foreignObject')
    first!.setAttribute('y', second!.getAttribute('y')!)
    const svg = [...document.querySelectorAll('.plot svg')].find((one) => one.querySelectorAll('text').length > 1)
    const [number, other] = svg!.querySelectorAll('text')
    for (const way of ['x', 'y', 'text-anchor']) number!.setAttribute(way, other!.getAttribute(way) ?? '')
  })
  expect(await page.evaluate(collisions, circuit)).not.toEqual([])
  expect(await page.evaluate(collisions, figures)).not.toEqual([])
})
