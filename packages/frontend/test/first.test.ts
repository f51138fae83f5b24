import { checkDesign, type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'

/** Mulberry32: the same designs at every run. */
function randomOf(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

function randomDesign(seed: number): Design {
  const random = randomOf(seed)
  const from = (low: number, high: number) => low + (high - low) * random()
  const cold = from(-5, 15)
  return {
    ...exampleDesign,
    supply: {
      ...exampleDesign.supply,
      path: [
        { name: 'contacts', resistance: `${from(2, 20).toFixed(1)} mohm ±${from(5, 50).toFixed(0)} %` },
        { name: 'wiring', resistance: `${from(2, 20).toFixed(1)} mohm ±20 %`, tap: 'board' },
      ],
    },
    load: { ...exampleDesign.load, resistance: `${from(0.6, 1.4).toFixed(2)} ohm ±${from(1, 10).toFixed(0)} %` },
    divider: {
      ...exampleDesign.divider,
      gainResistors: { feedback: `${from(6, 15).toFixed(1)} kohm ±0.1 %`, ground: '1 kohm ±0.1 %' },
    },
    controller: { ...exampleDesign.controller, brownOut: `${from(1.9, 2.8).toFixed(2)} V ±${from(2, 6).toFixed(0)} %` },
    ambientCelsius: { from: cold, to: cold + from(10, 40) },
    age: { from: 0, to: random() < 0.5 ? 1 : 0.4 },
  }
}

/** Highest charge at which any row fails at any place, one after the other, on a walk twice as fine. */
function byBruteForce(design: Design, charges: number) {
  const walk = walkOf(readDesign(design), { charges })
  for (const charge of walk.charges) {
    const failing = walk.states.flatMap((state) =>
      walk.hold({ ...state, charge }).rows.filter(({ margin }) => margin.verdict !== 'holds'),
    )
    if (failing.length > 0) return { charge, ids: new Set(failing.map(({ id }) => id)) }
  }
  return null
}

/** Gives way on the upper half of the discharge, so that brute force has little to go through. */
const early: Design = {
  ...randomDesign(1),
  controller: { ...exampleDesign.controller, brownOut: '3.4 V ±4 %' },
}

/** Random designs beside the early one: none by default, `OHMWARD_SCEPTIC=20` takes twenty. */
const count = Number(process.env['OHMWARD_SCEPTIC'] ?? 0)
const designs: Readonly<Record<string, Design>> = {
  'a high brown-out': early,
  ...Object.fromEntries(Array.from({ length: count }, (_, i) => [`random design ${i + 1}`, randomDesign(i + 1)])),
}

describe('the first failure', () => {
  it.each(Object.keys(designs))(
    'is that of brute force: %s',
    (name) => {
      const design = designs[name]!
      const [coarse, fine] = [5, 9]
      const { first, usable } = checkDesign(design, { charges: coarse })
      const brute = byBruteForce(design, fine)
      if (brute === null) {
        expect(first).toBeNull()
        return
      }
      const charges = walkOf(readDesign(design), { charges: fine }).charges
      const step = charges[0]! - charges[1]!
      // Never later than brute force sees it, and not a step of the finer walk earlier.
      expect(first!.place.charge).toBeGreaterThanOrEqual(brute.charge - 1e-12)
      expect(first!.place.charge).toBeLessThanOrEqual(brute.charge + 2 * step)
      expect([first!.id, ...first!.together].some((id) => brute.ids.has(id))).toBe(true)
      expect(usable.share).toBeLessThanOrEqual(1 - brute.charge + 1e-9)
    },
    300_000,
  )
})
