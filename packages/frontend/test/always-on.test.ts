import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { unpulsedText } from '../src/answer/texts.js'
import { rowAt } from './shared.js'

/** The knife at 100 Hz, its resistance read 2 ms after it is off, between two duties. */
const between = (from: number, to: number): Design => ({
  ...exampleDesign,
  pwm: { frequency: '100 Hz', duty: { from, to } },
  divider: { ...exampleDesign.divider, timing: { wait: '2 ms' } },
})

const offWindow = (given: Design) =>
  rowAt(walkOf(readDesign(given), { charges: 2 }), { charge: 1, celsius: 25, age: 0 }, 'hall/off-window')

it('a load that is on all the time is read before it is switched on, in no period; one that is pulsed at times, between two pulses', () => {
  // 2 ms don't fit into the tenth of 10 ms, nor into nothing.
  expect(offWindow(between(0.5, 0.9))!.verdict).toBe('fails')
  expect(offWindow(between(0.5, 1))!.verdict).toBe('fails')
  expect(offWindow(between(1, 1))?.verdict ?? 'holds').toBe('holds')
  expect(unpulsedText(readDesign(between(0.5, 1)))).toEqual([])
  expect(unpulsedText(readDesign(between(1, 1)))[0]).toMatch(/never pulsed/)
})
