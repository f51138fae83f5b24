import { describe, expect, it } from 'vitest'
import { checkDecoupling } from '../src/index.js'

/** Six kinds on a ringing loop under PWM over ranges: more than a check may follow. */
const kinds = [
  ['1 mF', '20 mohm', '8 nH'],
  ['470 uF', '30 mohm', '6 nH'],
  ['220 uF', '40 mohm', '5 nH'],
  ['100 uF', '50 mohm', '4 nH'],
  ['47 uF', '10 mohm', '2 nH'],
  ['10 uF', '5 mohm', '1 nH'],
].map(([capacitance, seriesResistance, seriesInductance]) => ({
  capacitance: `${capacitance} ±20 %`,
  seriesResistance: `${seriesResistance} ±30 %`,
  seriesInductance: `${seriesInductance} ±20 %`,
  ratedVoltage: 10,
  rippleCurrent: 3,
  wornCapacitance: 0.8,
  wornResistance: 2,
}))

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
