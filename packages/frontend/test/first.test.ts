import { type Design, exampleDesign, readDesign, type Walk, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { Random } from '../../../test/sceptic/tools/random.js'
import { firstOf } from '../src/answer/first.js'
import { rowsOver } from '../src/answer/rows.js'
import { now } from '../src/answer/run.js'
import type { BlockName } from '../src/walk/stage.js'

/**
 * What is looked at of each design in turn: a hold of every block at every place of the finer walk would take minutes.
 * `OHMWARD_SCEPTIC=1` looks at every block of all of them, in PWM too.
 */
const isWhole = process.env['OHMWARD_SCEPTIC'] !== undefined
const looks: readonly (readonly BlockName[])[] = [
  ['divider', 'supply'],
  ['hall', 'supply'],
  ['mosfet', 'supply'],
  ['decoupling', 'supply'],
]

function randomDesign(seed: number): Design {
  const random = new Random(seed)
  const from = (low: number, high: number) => random.even(low, high)
  const cold = from(-5, 15)
  const { supply, hall, divider, controller, load } = exampleDesign
  return {
    ...exampleDesign,
    supply: {
      ...supply,
      path: [
        { name: 'contacts', resistance: `${from(2, 20)} mohm ±${from(5, 50)} %` },
        {
          name: 'protection',
          resistance: '12 mohm ±20 %',
          tripVoltage: `${from(0.1, 0.2)} V ±10 %`,
          tap: 'board',
        },
      ],
    },
    load: { ...load, resistance: `${from(0.6, 1.4)} ohm ±${from(1, 10)} %` },
    ...(!isWhole && { pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } } }),
    divider: {
      ...divider,
      gainResistors: { feedback: `${from(11, 15)} kohm ±0.1 %`, ground: '1 kohm ±0.1 %' },
    },
    hall: { ...hall, sensor: { ...hall.sensor, supplyMinimum: `${from(2.4, 3.2)} V` }, otherTasks: [] },
    mosfet: {
      ...exampleDesign.mosfet,
      transistor: {
        ...exampleDesign.mosfet.transistor,
        onResistance: `${from(2, 2.7)} V: 32 mohm typ 22 mohm; 4.5 V: 12.5 mohm typ 9.8 mohm`,
      },
    },
    controller: { ...controller, brownOut: `${from(2, 3.4)} V ±${from(2, 6)} %` },
    ambientCelsius: { from: cold, to: cold + from(10, 40) },
    age: random.one([
      { from: 0, to: 1 },
      { from: 0, to: 0.4 },
      { from: 1, to: 1 },
      { from: 1, to: 1 },
    ]),
  }
}

/** A walk that looks at some blocks alone. */
function walkIn(design: Design, charges: number, blocks: readonly BlockName[]): Walk {
  const walk = walkOf(readDesign(design), { charges })
  return isWhole ? walk : { ...walk, stages: walk.stages.filter(({ block }) => blocks.includes(block)) }
}

/**
 * The highest charge of a walk at which any row fails at any place, every row held at every place one after the other; and the
 * lowest above it down to which all are sure to hold. A row may be not sure at a place and yet hold over a span around it.
 */
function byBruteForce(walk: Walk) {
  const [failing, unsure] = [new Set<string>(), new Set<string>()]
  let above: number | undefined
  for (const [i, charge] of walk.charges.entries()) {
    for (const state of walk.states) {
      const [celsius, age] = [state.celsius, state.age].map((x) => ({ from: x, to: x }))
      const held = walk.over({ charge: { from: charge, to: charge }, celsius: celsius!, age: age! })
      for (const stage of walk.stages)
        for (const { id } of held.ready(stage)) {
          const { verdict } = held.margin(stage, id)!
          if (verdict === 'fails') failing.add(id)
          if (verdict !== 'holds') unsure.add(id)
        }
    }
    if (unsure.size > 0) above ??= walk.charges[i - 1] ?? 1
    if (failing.size > 0) return { charge, above: above!, failing: unsure }
  }
  return above === undefined ? null : { charge: 0, above, failing: unsure }
}

describe('the first failure is that of brute force over a finer walk', () => {
  const charges: number[] = []

  it.each(Array.from({ length: 20 }, (_, i) => i + 1))(
    'random design %i',
    (seed) => {
      const design = randomDesign(seed)
      const blocks = looks[seed % looks.length]!
      const coarse = walkIn(design, 3, blocks)
      const found = firstOf(coarse, now(rowsOver(coarse)))
      const brute = byBruteForce(walkIn(design, 6, blocks))
      charges.push(brute?.charge ?? 0)
      if (brute === null) {
        expect(found).toBeNull()
        return
      }
      const { first, heldDownTo } = found!
      // Nothing is said to hold where brute force sees a failure, nor to fail where it saw that all holds.
      expect(heldDownTo).toBeGreaterThanOrEqual(brute.charge - 1e-12)
      expect(first.place.charge).toBeLessThanOrEqual(brute.above + 1e-12)
      expect([first.id, ...first.together].some((id) => brute.failing.has(id))).toBe(true)
    },
    300_000,
  )

  it('is at every charge for one or the other design', () => {
    expect(new Set(charges).size).toBeGreaterThan(4)
  })
})
