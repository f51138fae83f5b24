import { describe, expect, it } from 'vitest'
import { checkDecoupling } from '../src/index.js'
import { ringingKinds } from './ringing-kinds.js'

/** Three of them make seven quantities that ring, here with pulses over ranges. */
const kinds = ringingKinds.slice(0, 3)

describe('three kinds under PWM over ranges', () => {
  it('are followed to the end', () => {
    const { margins } = checkDecoupling(
      {
        source: { resistance: '0.1 ohm ±20 %', inductance: '0.5 uH ±20 %' },
        capacitors: kinds,
        load: {
          current: '5 A ±5 %',
          rise: '1 us',
          pwm: { frequency: { from: 5e3, to: 5e4 }, duty: { from: 0.1, to: 0.9 } },
        },
        limits: { brownOut: '1.5 V ±3 %' },
      },
      { openCircuit: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 }, ageYears: { from: 0, to: 5 } },
      { simulation: false },
    )
    expect(margins.filter(({ reason }) => reason?.includes('more steps')).map(({ id }) => id)).toEqual([])
    expect(margins.length).toBeGreaterThan(6)
  })
})
