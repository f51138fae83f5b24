import { changed } from '@ohmward/budget'
import { type Design, decouplingAt, exampleDesign, hallAt, mosfetAt, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { lagOf } from '../src/monitor/lag.js'
import { landingOf } from '../src/monitor/landing.js'
import { recoveryTime } from '../src/pulse/coming-back.js'
import { fallOf, meanPowerAt, pulseGain } from '../src/pulse/pulse.js'
import { supplyRows } from '../src/rows/supply-rows.js'
import { spanOf } from '../src/supply/place.js'
import { comb } from './comb.js'

/*
 * Similarity: where every impedance of the power circuit is twice as large, and every current half as large, each voltage, each time and each
 * temperature is what it was, and each power half of it.
 */

/** Impedances and thermal resistances, and what goes the other way: currents, charges, capacitances, powers. */
const units: readonly (readonly [unit: string, by: number])[] = [
  ['mohm', 2],
  ['ohm', 2],
  ['kohm', 2],
  ['uH', 2],
  ['K/W', 2],
  ['mA', 1 / 2],
  ['A', 1 / 2],
  ['W', 1 / 2],
  ['uF', 1 / 2],
  ['nF', 1 / 2],
  ['pF', 1 / 2],
  ['nC', 1 / 2],
]

/** Every number of a text that has such a unit, as much larger or smaller. */
const scaledText = (text: string): string =>
  units.reduce(
    (all, [unit, by]) =>
      all.replace(new RegExp(`([\\d.]+) ${unit}(?![\\w/])`, 'g'), (_, n) => `${Number(n) * by}  ${unit}`),
    text,
  )

/** The same of all texts in a part; a thermal resistance may be a bare number. */
function scaled(part: unknown, name = ''): unknown {
  if (typeof part === 'string') return scaledText(part).replaceAll('  ', ' ')
  if (typeof part === 'number') return name === 'thermalResistance' ? 2 * part : part
  if (Array.isArray(part)) return part.map((one) => scaled(one))
  if (typeof part !== 'object' || part === null) return part
  return Object.fromEntries(Object.entries(part).map(([key, one]) => [key, scaled(one, key)]))
}

const { thermal: _, ...cold } = exampleDesign.mosfet
/** The hot knife at a frequency at which its capacitors matter; of its capacitors the kind without bias and wear. */
const knife: Design = {
  ...exampleDesign,
  pwm: { frequency: '1 kHz', duty: { from: 0.3, to: 0.8 } },
  mosfet: { ...cold, thermal: { junctionToAmbient: '60 K/W' } },
  monitor: { ...exampleDesign.monitor, reads: 'under load', pause: undefined, lacking: undefined, latch: '2.9 V' },
  decoupling: { capacitors: [{ capacitance: '300 uF ±20 %', ratedVoltage: 6.3, seriesResistance: '10 mohm' }] },
} as Design

const powerPaths = ['supply', 'load', 'decoupling', 'controller.current', 'mosfet']
/** The comb with all that its gate has of its own. */
const driven: Design = {
  ...comb,
  mosfet: { ...comb.mosfet, transistor: { ...comb.mosfet.transistor, gateResistance: '2 ohm' } },
} as Design

const measured = ['divider.load', 'divider.reference', 'divider.excitationSwitch', 'hall.sensor.conductorResistance']

const givenAt = (design: unknown, path: string): unknown =>
  path.split('.').reduce((part, name) => (part as Record<string, unknown>)[name], design)

const halved = (given: Design, more: readonly string[]): Design =>
  changed(
    { choice: given, conditions: null },
    Object.fromEntries([...powerPaths, ...measured, ...more].map((path) => [path, scaled(givenAt(given, path))])),
  ).choice

/** What a design comes to at a place and over all of it: volts, times and shares, and what goes with the current. */
function found(given: Design) {
  const design = readDesign(given)
  const walk = walkOf(design, { charges: 2 })
  const { around, firmware } = walk
  const charge = { from: 1, to: 0.2 }
  const spans = [spanOf({ charge: 0.5, celsius: 25, age: 0.5 }), { charge, ...around }]
  const edges = firmware.edges()!
  return spans.map((span) => {
    const solved = walk.solve(span)
    const { rails, source, load, own, current, test } = solved
    const { from, to } = mosfetAt(design, solved).conditions.openCircuit as { from: number; to: number }
    const { idle } = decouplingAt(design, solved).choice
    const mean = meanPowerAt(design, solved, edges)
    const threshold = { acts: { nominal: 3, lower: 2.9, upper: 3.1, distribution: { kind: 'rectangular' } } } as const
    const landing = landingOf(
      { design, charge: { from: 1, to: walk.charges.at(-1)! }, around, solve: walk.solve, edges: () => edges },
      { ...threshold, reads: 'under load', lacking: 0 },
    )!
    const rows = supplyRows(design, solved, edges).map(({ row }) => row as { unit: string; worst: number })
    const ofUnit = (unit: string) => rows.filter((row) => row.unit === unit).map(({ worst }) => worst)
    const { choice, conditions } = hallAt(design, solved, firmware)
    return {
      same: {
        ...{
          rails,
          from,
          to,
          landing: { charge: landing.charge, rest: landing.rest, rebound: landing.rebound },
        },
        ...{ time: recoveryTime(design, solved), fall: fallOf(design, solved), gain: pulseGain(design, solved, 0.6) },
        ...{ warm: ofUnit('degC'), lag: lagOf(design, solved, firmware), rail: conditions.rail, pwm: choice.pwm },
        ring: firmware.ring(source.resistance),
      },
      twice: { R_s: source.resistance, load, own, on: solved.switch },
      half: { current, test, idle, power: [0.3, 0.5, 0.8, 1].map(mean), amperes: ofUnit('A') },
    }
  })
}

/** All numbers in it, one after the other. */
function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value]
  if (typeof value !== 'object' || value === null) return []
  return Object.values(value).flatMap(numbersIn)
}

const near = (all: readonly number[], others: readonly number[], off: number, name: string) => {
  expect(all.length, name).toBe(others.length)
  all.forEach((one, i) => {
    const other = others[i]!
    expect(Math.abs(one - other), `${name} ${i}: ${one}, ${other}`).toBeLessThanOrEqual(off * Math.abs(other) + 1e-12)
  })
}

describe.each<[name: string, given: Design, more: readonly string[], off: number]>([
  // The switch is solved to a few millionths.
  ['the hot knife', knife, [], 1e-5],
  // Its pin has what no sheet tells, so that its edges are not quite the same.
  ['a comb whose controller stands behind a resistor', driven, ['rails', 'monitor.divider'], 0.01],
])('%s of twice the impedance', (name, given, more, off) => {
  it('has the same volts, times and temperatures, and half of the current and of the power', () => {
    const [one, two] = [found(given), found(halved(given, more))]
    one.forEach((was, i) => {
      const is = two[i]!
      near(numbersIn(is.same), numbersIn(was.same), off, `${name}, same`)
      near(
        numbersIn(is.twice).map((x) => x / 2),
        numbersIn(was.twice),
        off,
        `${name}, twice`,
      )
      near(
        numbersIn(is.half).map((x) => 2 * x),
        numbersIn(was.half),
        off,
        `${name}, half`,
      )
      expect(numbersIn(was.same).length).toBeGreaterThan(40)
    })
  })
})
