import { checkDesign, type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { expect, it } from 'vitest'
import { powerOf } from '../src/answer/power/power.js'
import { powerRows } from '../src/answer/whole-rows/power.js'
import { linesOf } from '../src/command/print.js'
import { mended } from './shared.js'

const verdicts = (edges: string, more: object = {}, edge?: string) => {
  const design = {
    ...mended,
    ...more,
    mosfet: { ...mended.mosfet, edges },
    divider: { ...mended.divider, timing: { ...mended.divider.timing, ...(edge !== undefined && { edge }) } },
    requirements: { ...mended.requirements, power: '5 W', powerError: '40 %' },
  } as unknown as Design
  const walk = walkOf(readDesign(design), { charges: 2 })
  return Object.fromEntries(powerRows(walk, powerOf(walk)).map(({ id, margin }) => [id, margin.verdict]))
}

/** Power of a winding in pulses over that of a resistance, once they repeat: the current goes on through a diode without a drop; steps of time. */
function shareOfWinding(duty: number, tau: number, period: number): number {
  const steps = 4000
  let [current, square] = [0, 0]
  for (let n = 0; n < 40 * steps; n++) {
    if (n % steps === 0) square = 0
    const drive = n % steps < duty * steps ? 1 : 0
    current += ((drive - current) / tau) * (period / steps)
    square += current ** 2 / steps
  }
  return square / duty
}

it('a winding whose current goes on takes as little as the square of the duty: what its power would hold by is not sure', () => {
  expect(shareOfWinding(0.3, 1e-5, 1e-2)).toBeCloseTo(1, 2)
  expect(shareOfWinding(0.3, 5e-2, 1e-2)).toBeCloseTo(0.3, 2)
  expect(verdicts('resistive')).toMatchObject({ 'power/reaches': 'holds', 'power/error': 'holds' })
  expect(verdicts('resistive')['power/winding']).toBeUndefined()
  const wound = { 'power/reaches': 'not sure', 'power/error': 'not sure' }
  expect(verdicts('clamped inductive')).toMatchObject({ ...wound, 'power/winding': 'not sure' })
  // How long its current goes on may be told; the rest of the power is as unsure.
  expect(verdicts('clamped inductive', {}, '0.1 ms')['power/winding']).toBeUndefined()
  // On for good it is a resistance.
  const pwm = { ...exampleDesign.pwm, duty: { from: 1, to: 1 } }
  expect(verdicts('clamped inductive', { pwm })).toMatchObject({ 'power/reaches': 'holds' })
})

it('prints a time that nobody tells as not known', () => {
  const { timing: { edge: _, ...timing } = {}, ...divider } = mended.divider as Design['divider']
  const design = {
    ...mended,
    divider: { ...divider, timing },
    mosfet: { ...mended.mosfet, edges: 'clamped inductive' },
  }
  const answer = checkDesign(design as Design, { charges: 2 })
  const { margin } = answer.rows.find(({ id }) => id === 'power/winding')!
  expect(margin).toMatchObject({ verdict: 'not sure', isUnknown: true })
  expect(linesOf(answer).find((line) => line.includes('freewheeling time of a winding'))).toContain('not known')
})
