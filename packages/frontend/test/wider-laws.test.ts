import { changed } from '@ohmward/budget'
import {
  type Design,
  decouplingAt,
  dividerAt,
  exampleDesign,
  exampleDesigns,
  hallAt,
  mosfetAt,
  readDesign,
  walkOf,
} from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { spanOf } from '../src/supply/place.js'
import { cutter, lowSide } from './cutter.js'
import { waxPen } from './wax-pen.js'

/*
 * Monotonicity under inclusion (Moore, interval analysis): what comes of wider spreads covers what comes of narrower ones. The hot switch
 * alone is none of it: a loop of more resistance heats it less.
 */

type Range = readonly [lower: number, upper: number]

/** All ranges in what was found, by their paths. */
function rangesIn(found: unknown, path: string, ranges = new Map<string, Range>()): Map<string, Range> {
  if (typeof found !== 'object' || found === null) return ranges
  const { lower, upper, from, to } = found as Readonly<Record<string, unknown>>
  if (typeof lower === 'number' && typeof upper === 'number') return ranges.set(path, [lower, upper])
  if (typeof from === 'number' && typeof to === 'number')
    return ranges.set(path, [Math.min(from, to), Math.max(from, to)])
  for (const [name, one] of Object.entries(found)) rangesIn(one, `${path}.${name}`, ranges)
  return ranges
}

/** What a design comes to over nearly all of it, and at one place: voltages, currents, and what each block is given of them. */
function rangesOf(given: Design): Map<string, Range> {
  const design = readDesign(given)
  const { solve, around, firmware } = walkOf(design, { charges: 2 })
  const ranges = new Map<string, Range>()
  for (const span of [
    { charge: { from: 1, to: 0.3 }, ...around },
    spanOf({ charge: 0.5, celsius: 20, age: around.age.to }),
  ]) {
    const solved = solve(span)
    const { rails, source, load, own, rest, rail, current, test } = solved
    const { openCircuit, resistance } = source
    const blocks = {
      divider: dividerAt(design, solved, firmware),
      hall: hallAt(design, solved, firmware),
      mosfet: mosfetAt(design, solved),
      decoupling: { idle: decouplingAt(design, solved, 'PWM', firmware.edges()).choice.idle },
    }
    const found = { rails, openCircuit, resistance, load, own, rest, rail, current, test, blocks }
    rangesIn(found, JSON.stringify(span.charge), ranges)
  }
  return ranges
}

/** A value as it is given, by a path such as `supply.path.0.resistance`. */
const givenAt = (design: unknown, path: string): unknown =>
  path.split('.').reduce((part, name) => (part as Record<string, unknown>)[name], design)

/** One and a half times its tolerance; 1 % where it has none. */
function widened(text: string): string {
  const tolerance = /±([\d.]+) %$/.exec(text)
  return tolerance ? text.replace(/±.*$/, `±${1.5 * Number(tolerance[1])} %`) : `${text} ±1 %`
}

const ofCells = ['supply.source.resistance', 'supply.path.0.resistance', 'supply.path.1.resistance']
const ofPort = ['supply.source.voltage', 'supply.source.leadResistance', 'supply.path.0.resistance']
const ofLoad = ['load.resistance', 'divider.reference', 'divider.excitationSwitch.resistance']
const ofRails = ['controller.current', 'lives.sensorCurrent', 'lives.amplifierCurrent', 'rails.0.through.voltage']

const designs: Readonly<Record<string, readonly [given: Design, felt: readonly string[]]>> = {
  'one cell that feeds all': [exampleDesign, [...ofCells, 'supply.path.3.resistance', ...ofLoad, 'controller.current']],
  'two cells, a regulator, a switch at the rail': [cutter as unknown as Design, [...ofCells, ...ofLoad, ...ofRails]],
  'two cells, a regulator, a switch at ground': [lowSide as unknown as Design, [...ofCells, ...ofLoad, ...ofRails]],
  'two regulators': [
    waxPen as unknown as Design,
    [...ofCells, 'load.resistance', ...ofRails, 'rails.1.through.voltage'],
  ],
  'a port': [exampleDesigns.mat as unknown as Design, [...ofPort, 'load.ratedPower', 'divider.reference', ...ofRails]],
}

describe.each(Object.entries(designs))('of %s', (_, [given, felt]) => {
  const before = rangesOf(given)

  it.each(felt)('a wider %s is felt, and leaves nothing narrower', (path) => {
    const text = widened(String(givenAt(given, path)))
    const after = rangesOf(changed({ choice: given, conditions: null }, { [path]: text }).choice)
    let wider = 0
    for (const [name, [lower, upper]] of before) {
      const [least, most] = after.get(name) ?? [Number.NaN, Number.NaN]
      // A few rounding errors.
      const off = 1e-9 * Math.max(Math.abs(lower), Math.abs(upper))
      expect(least, `${name} at least`).toBeLessThanOrEqual(lower + off)
      expect(most, `${name} at most`).toBeGreaterThanOrEqual(upper - off)
      if (least < lower - off || most > upper + off) wider++
    }
    expect(wider).toBeGreaterThan(0)
  })
})
