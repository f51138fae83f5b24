import { exampleAmplifiers } from '@ohmward/divider'
import {
  type Design,
  dividerAt,
  exampleDesign,
  readDesign,
  simulateBoards,
  solveAt,
  walkOf,
  withChange,
} from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { changeOf, exampleCheck, mended, rowOver } from './shared.js'

/** The hot knife on one capacitor, read so long after a pulse. */
const readAfter = (wait: string, more: object = {}): Design => ({
  ...exampleDesign,
  decoupling: {
    capacitors: [
      {
        name: 'polymer',
        capacitance: '1000 uF ±20 %',
        ratedVoltage: 10,
        seriesResistance: '1 mohm',
        rippleCurrent: 10,
      },
    ],
  },
  divider: { ...exampleDesign.divider, timing: { wait } },
  ...more,
})

const place = { charge: 0.3, celsius: 25, age: 1 }

function at(given: Design) {
  const design = readDesign(given)
  const solved = solveAt(design, place)
  const { choice, conditions } = dividerAt(design, solved, walkOf(design, { charges: 2 }).firmware)
  const edge = choice.timing!.edge as number
  return { solved, edge, lowest: conditions.rail.from as number }
}

/**
 * The rails so long after the load goes, in small steps of time: the source charges its capacitor, and a diode by its exponential law the one
 * behind it.
 */
function comeBack(
  { source, rails }: ReturnType<typeof at>['solved'],
  time: number,
  behind?: { name: string; C: number; I: number },
) {
  const [V, R, C] = [source.openCircuit.lower, source.resistance.upper, 1.2e-3]
  let u = rails['main']!.sag.lower
  let held = behind ? rails[behind.name]!.sag.lower : 0
  const idle = rails['main']!.rest.lower
  const draw = (V - idle) / R
  const dt = 5e-8
  for (let t = 0; t < time; t += dt) {
    // 0.35 V at 10 mA, kT/q of 25 degC, an emission coefficient of 1.1.
    const forward = behind ? 0.01 * Math.exp((u - held - 0.35) / (1.1 * 0.025693)) : 0
    u += ((V - u) / R - draw - forward + (behind?.I ?? 0)) * (dt / C)
    if (behind) held += ((forward - behind.I) * dt) / behind.C
  }
  return { u, held }
}

describe('a rail as the resistance is read between two pulses', () => {
  it('still lacks what its capacitor has to be charged again: one time constant, by small steps of time', () => {
    for (const [wait, time] of [
      ['0.1 ms', 1e-4],
      ['0.3 ms', 3e-4],
      ['1 ms', 1e-3],
    ] as const) {
      const { solved, edge, lowest } = at(readAfter(wait))
      const { u } = comeBack(solved, time - edge)
      const { measuring, sag } = solved.rails['main']!
      // The test current takes its part as well.
      const test = solved.rails['main']!.rest.lower - measuring.lower
      expect(lowest, wait).toBeLessThanOrEqual(u - test + 1e-4)
      expect(lowest, wait).toBeGreaterThan(u - test - 0.03 * (u - sag.lower) - 1e-3)
    }
    const { solved, lowest } = at(readAfter('20 ms'))
    expect(lowest).toBe(solved.rails['main']!.measuring.lower)
  })

  it('and behind a diode with a capacitor of its own comes back later than the rail before it', () => {
    const through = {
      kind: 'diode',
      forwardVoltage: '0.35 V',
      forwardAt: '10 mA',
      emission: 1.1,
      capacitance: '100 uF',
    }
    const lives = { controller: 'held', converter: 'held', amplifier: 'held' }
    const held = { rails: [{ name: 'held', source: 'main', through }], lives }
    for (const [wait, time] of [
      ['0.2 ms', 2e-4],
      ['0.6 ms', 6e-4],
    ] as const) {
      const { solved, edge, lowest } = at(readAfter(wait, held))
      const came = comeBack(solved, time - edge, { name: 'held', C: 100e-6, I: 0.012 })
      const { rest, measuring } = solved.rails['held']!
      const test = rest.lower - measuring.lower
      expect(lowest, wait).toBeLessThanOrEqual(came.held - test + 1e-3)
      expect(lowest, wait).toBeLessThan(measuring.lower - 0.02)
      expect(lowest, wait).toBeGreaterThanOrEqual(solved.rails['held']!.sag.lower - test - 0.1)
    }
    // And has come back in the end, for its diode carries what the circuits behind it draw: that is known to a few millivolts of it.
    const { solved, edge, lowest } = at(readAfter('9 ms', held))
    const came = comeBack(solved, 9e-3 - edge, { name: 'held', C: 100e-6, I: 0.012 })
    const { rest, measuring } = solved.rails['held']!
    expect(lowest).toBeGreaterThan(came.held - (rest.lower - measuring.lower) - 0.02)
  })

  it('waits for the capacitors behind it as well: two nodes that load each other', () => {
    const through = { kind: 'resistor', resistance: '0.2 ohm', capacitance: '4700 uF' }
    const rails = [{ name: 'held', source: 'main', through }]
    const parts = ['controller', 'converter', 'amplifier']
    const living = (names: readonly string[]) => ({
      rails,
      lives: Object.fromEntries(names.map((one) => [one, 'held'])),
    })
    for (const time of [0.5e-3, 1e-3, 2e-3, 4e-3]) {
      const { solved, edge, lowest } = at(readAfter(`${time} s`, living(['controller'])))
      const { source } = solved
      const [V, R, C] = [source.openCircuit.lower, source.resistance.upper, 1.2e-3]
      const [first, second] = [solved.rails['main']!, solved.rails['held']!]
      let [u, w] = [first.sag.lower, second.sag.lower]
      const dt = 1e-6
      for (let t = 0; t < time - edge; t += dt) {
        const flow = (u - w) / 0.2
        u += (((V - u) / R - flow) * dt) / C
        w += ((flow - 0.012) * dt) / 4700e-6
      }
      expect(lowest, `main after ${time}`).toBeLessThanOrEqual(u - (first.rest.lower - first.measuring.lower) + 1e-3)
      const { lowest: behind } = at(readAfter(`${time} s`, living(parts)))
      expect(behind, `held after ${time}`).toBeLessThanOrEqual(w - (second.rest.lower - second.measuring.lower) + 1e-3)
    }
  })

  it('takes boards with it: fewer work where they are read soon after a pulse', () => {
    const share = (wait: string) => {
      const amplifier = { ...exampleAmplifiers.zeroDrift, supplyMinimum: '3.05 V' }
      const timed = { ...mended, divider: { ...mended.divider, amplifier, timing: { wait } } }
      const { rows } = simulateBoards(timed, { boards: 400 })
      return rows.find(({ id }) => id === 'divider/supply-low')?.fails ?? 0
    }
    expect(share('0.3 ms')).toBeGreaterThan(share('0.9 ms'))
  })

  it('is what the first failure of the reading is told with', () => {
    const { id, place, rail } = exampleCheck().firstOfBoard!
    expect(id).toBe('divider/headroom')
    const design = readDesign(exampleDesign)
    const solved = solveAt(design, place)
    const { conditions } = dividerAt(design, solved, walkOf(design, { charges: 12 }).firmware)
    expect(rail).toBeCloseTo(conditions.rail.from as number, 9)
    expect(rail).toBeLessThan(solved.rails['main']!.measuring.lower - 0.01)
  })

  it('is at rest where nothing is pulsed', () => {
    const steady = readAfter('0.1 ms', { pwm: { ...exampleDesign.pwm, duty: { from: 1, to: 1 } } })
    const { solved, lowest } = at(steady)
    expect(lowest).toBe(solved.rails['main']!.measuring.lower)
  })

  it('is read later where that is all that an amplifier lacks, tried as printed', () => {
    const amplifier = { ...exampleAmplifiers.zeroDrift, supplyMinimum: '3.05 V' }
    const soon: Design = { ...mended, divider: { ...mended.divider, amplifier, timing: { wait: '0.3 ms' } } }
    const later = changeOf(soon, 'divider/later-reading')!
    expect(later.mends.map(({ id }) => id)).toEqual(['divider/supply-low'])
    expect(later.breaks).toEqual([])
    // Down to the charge that must be usable: 0.1.
    const heldDownTo = (design: Design) => rowOver(design, 'divider/supply-low', 12)!.heldDownTo!
    expect(heldDownTo(soon)).toBeGreaterThan(0.15)
    expect(heldDownTo(withChange(soon, later))).toBeLessThan(0.15)
  })
})
