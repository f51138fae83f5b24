import { describe, expect, it } from 'vitest'
import { checkDecoupling } from '../src/index.js'
import { ringingKinds } from './ringing-kinds.js'

/** Under PWM over ranges all six are more than a check may follow. */
const kinds = ringingKinds

describe('a rail that could not be followed to its end', () => {
  it('holds no limit by the margin of another one: what is asked of the same waveform is as unsure', () => {
    const { margins, verdict } = checkDecoupling(
      {
        source: { resistance: '0.1 ohm ±20 %', inductance: '0.5 uH ±20 %' },
        capacitors: kinds,
        load: {
          resistance: '0.7 ohm ±5 %',
          rise: '1 us',
          pwm: { frequency: { from: 5e3, to: 5e4 }, duty: { from: 0.1, to: 0.9 } },
        },
        insertion: { railMaximum: '11 V' },
        limits: { brownOut: '1.5 V ±3 %' },
      },
      { openCircuit: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 }, ageYears: { from: 0, to: 5 } },
      { simulation: false },
    )
    const of = (id: string) => margins.find((one) => one.id === id)!
    for (const id of ['rated-voltage', 'rail-maximum']) {
      expect(of(id), id).toMatchObject({ verdict: 'not sure', reason: expect.stringContaining('more steps') })
    }
    // What no waveform is asked for is held as ever.
    expect(of('steady-sag').verdict).toBe('holds')
    expect(verdict).toBe('not sure')
  })
})
