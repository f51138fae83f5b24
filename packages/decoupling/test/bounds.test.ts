import { describe, expect, it } from 'vitest'
import { circuit, respondTo } from '../src/waveform/inside.js'
import { base, bulk, check } from './usual-rail.js'

const ceramic = { name: 'ceramic', capacitance: 47e-6, ratedVoltage: 10, seriesResistance: 3e-3 }

describe('what no part has is refused, with its field', () => {
  it.each([
    [{ capacitors: [{ ...bulk, capacitance: 1e-100 }] }, /capacitance = 1e-100.* F/],
    [{ capacitors: [{ ...bulk, seriesResistance: 1e-30 }] }, /seriesResistance = 1e-30 ohm/],
    [{ capacitors: [{ ...bulk, seriesInductance: 1e-30 }] }, /seriesInductance = 1e-30 H/],
    [{ capacitors: [{ ...bulk, seriesInductance: 5e-6 }] }, /seriesInductance = /],
    [{ load: { current: 8, rise: 1e-20 } }, /load.rise = 1e-20 s/],
    [{ source: { resistance: 1e6 }, load: { power: 1 } }, /source.resistance = 1000000 ohm.*at most 100 ohm/],
    [{ load: { current: 8, pwm: { frequency: 1e8, duty: 0.5 } } }, /load.pwm.frequency = /],
  ])('%j', (more, message) => {
    expect(() => check({ ...base, ...more } as never)).toThrow(message)
  })
})

it('follows a constant power to its collapse beside the largest source resistance that is taken', () => {
  const [V, R, C, r, P] = [3.7, 100, 1e-3, 0.01, 5]
  const c = circuit({ voltage: V, resistance: R, inductance: 0 }, [{ capacitance: C, resistance: r, inductance: 0 }], 0)
  const { collapse } = respondTo(c, { kind: 'power', power: P }, { rise: 0, fall: 0, duration: 1 })
  // The rail v solves (V - v)/R + (q - v)/r = P/v; time is the integral of the capacitor's q over its current, by midpoints.
  const last = (2 * Math.sqrt((1 / R + 1 / r) * P) - V / R) * r
  let time = 0
  const steps = 100_000
  const width = (V - last) / steps
  for (let k = 0; k < steps; k++) {
    const q = last + (k + 0.5) * width
    const [g, s] = [1 / R + 1 / r, V / R + q / r]
    const v = (s + Math.sqrt(s * s - 4 * g * P)) / (2 * g)
    time += (C * r * width) / (q - v)
  }
  expect(collapse! / time).toBeCloseTo(1, 4)
})

describe('what takes long to follow', () => {
  it('ends with a bound below all that a ringing can do: a loop with hardly any loss, for a day', () => {
    const source = { voltage: 4, resistance: 1e-9, inductance: 1e-6 }
    const c = circuit(source, [{ capacitance: 1e-6, resistance: 1e-6, inductance: 0 }], 0)
    const found = respondTo(c, { kind: 'current', current: 1 }, { rise: 0, fall: 0, duration: 1e5 })
    // An undamped loop falls by the current times its characteristic impedance, 1 ohm, and comes back as far.
    expect(found.lowest.value).toBeCloseTo(3, 2)
  })

  it.each([
    [
      'large capacitance without series resistance',
      {
        capacitors: [
          { ...bulk, seriesResistance: 0 },
          { ...ceramic, capacitance: 50 },
        ],
      },
    ],
    ['a ceramic with 1 uH', { capacitors: [bulk, { ...ceramic, seriesInductance: 1e-6 }] }],
    ['47 pF', { capacitors: [bulk, { ...ceramic, capacitance: '47 pF' }] }],
    [
      'series resistances of 50 %',
      {
        capacitors: [
          { ...bulk, seriesResistance: '10 mohm ±50 %' },
          { ...ceramic, seriesResistance: '3 mohm ±50 %' },
        ],
      },
    ],
  ])('answers with finite numbers: %s', (_, more) => {
    const load = { current: 3, rise: '1 us', pwm: { frequency: 20e3, duty: 0.5 } }
    const { margins } = check({ ...base, ...more, load } as never)
    for (const { worst, slack } of margins) expect(Number.isFinite(worst) && Number.isFinite(slack)).toBe(true)
  })
})

it('a spread without ends never leaves what is physical', () => {
  const capacitors = [{ ...bulk, seriesResistance: '10 mohm ±90 % normal k=2' }]
  expect(() => check({ ...base, capacitors } as never)).not.toThrow()
})
