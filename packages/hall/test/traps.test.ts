import { exampleConverters } from '@ohmward/adc'
import { describe, expect, it } from 'vitest'
import { exampleSensors } from '../src/index.js'
import { cell, checked, knife, marginNamed } from './design.js'

const five = exampleSensors.fiveVoltTwoWay
const ten = exampleConverters['10-bit controller converter']
const fiveVolts = { rail: { from: '5 V', to: '5 V' }, ambientCelsius: { from: 25, to: 25 } }

describe('pitfalls of a Hall sensor', () => {
  it('E01 supply below the sensor minimum: a cell is below the 5 V class over its whole range', () => {
    const margin = marginNamed(checked({ sensor: five }), 'supply-low')
    expect(margin).toMatchObject({ worst: 3, limit: 4.5, slack: -1.5, verdict: 'fails', catches: ['E01'] })
    expect(marginNamed(checked({ sensor: five }, { ...cell, rail: { from: 4, to: 4.2 } }), 'supply-low').verdict).toBe(
      'fails',
    )
    expect(marginNamed(checked(), 'supply-low').slack).toBeCloseTo(0.3, 12)
    expect(marginNamed(checked({ sensorSupply: '5 V ±2 %' }), 'supply-low').worst).toBeCloseTo(4.9, 12)
    expect(marginNamed(checked({ sensorSupply: '6 V ±2 %' }), 'supply-high')).toMatchObject({ verdict: 'fails' })
  })

  it('E02 5 V sensor into a 3.3 V converter: it clips at 8 A, and 2 % of its supply is half an ampere', () => {
    const choice = { sensor: five, sensorSupply: '5 V ±2 %', current: { from: 0, to: '9 A' } } as const
    const rail = { rail: { from: '3.3 V', to: '3.3 V' }, ambientCelsius: { from: 25, to: 25 } }
    const a = checked(choice, rail)
    expect(marginNamed(a, 'converter-high')).toMatchObject({ verdict: 'fails', catches: ['E02'] })
    expect(marginNamed(a, 'converter-high').nominal).toBeCloseTo((2.5 + 0.9) * 1.02, 3)
    // Sensor at its supply: (5.1 - 3.3 - 0.3) V over 330 ohm and the sensor's 10 ohm, less 1 %.
    expect(marginNamed(a, 'clamp').worst).toBeCloseTo(1.5 / (330 * 0.99 + 10), 6)
    expect(marginNamed(a, 'clamp').verdict).toBe('fails')
    const error = marginNamed(a, 'error-1').worst
    const exact = marginNamed(checked({ ...choice, sensorSupply: '5 V' }, rail), 'error-1').worst
    expect(error - exact).toBeGreaterThan(0.45)
    expect(error - exact).toBeLessThan(0.65)
    const divided = { ...choice, divider: { top: '3.3 kohm ±1 %', bottom: '4.7 kohm ±1 %' } }
    expect(marginNamed(checked(divided, rail), 'converter-high').verdict).toBe('holds')
    expect(marginNamed(checked(divided, rail), 'clamp').verdict).toBe('holds')
  })

  it('E03 ratiometry isn’t perfect: the shift is there even on a shared reference, and a zero at the same rail removes it', () => {
    const perfect = { ...five, zeroSupplyError: 0 }
    const at = { rail: { from: '5.5 V', to: '5.5 V' }, ambientCelsius: { from: 25, to: 25 } }
    const reach = (sensor: typeof five, more = {}) => {
      const { extremes } = checked({ sensor, ...more } as never, at).budgets['I_1']!
      return extremes.upper - extremes.lower
    }
    // 1 % of 2.5 V at the end of the supply range is 25 mV, 0.25 A either way at 100 mV/A.
    expect((reach(five) - reach(perfect as never)) / 2).toBeCloseTo(0.25, 3)
    const each = { calibration: { kind: 'zero each time' } }
    expect(reach(five, each) - reach(perfect as never, each)).toBeCloseTo(0, 6)
    // A zero at another rail leaves it.
    const once = { calibration: { kind: 'zero', rail: '5 V' } }
    expect((reach(five, once) - reach(perfect as never, once)) / 2).toBeCloseTo(0.25, 3)
  })

  it('E04 zero offset and drift: ±40 mV are 0.4 A; a zero leaves the drift since then', () => {
    const share = (calibration: never, conditions = fiveVolts) => {
      const { extremes } = checked({ sensor: five, calibration }, conditions).budgets['I_1']!
      return (extremes.upper - extremes.lower) / 2
    }
    const without = (word: string, calibration: never, conditions = fiveVolts) => {
      const sensor = { ...five, [word]: 0 } as never
      const { extremes } = checked({ sensor, calibration }, conditions).budgets['I_1']!
      return (extremes.upper - extremes.lower) / 2
    }
    const none = 'none' as never
    const zero = { kind: 'zero' } as never
    expect(share(none) - without('zeroError', none)).toBeCloseTo(0.4, 3)
    expect(share(zero) - without('zeroError', zero)).toBeCloseTo(0, 9)
    const hot = { ...fiveVolts, ambientCelsius: { from: 65, to: 65 } }
    // 300 µV/K over 40 K are 12 mV, 0.12 A; the conductor's 36 A² · 0.9 · 1.2 mohm · 50 K/W add 1.9 K.
    const kelvin = 40 + 36 * 0.9 * 1.2e-3 * 50
    expect(share(zero, hot) - without('zeroDrift', zero, hot)).toBeCloseTo((300e-6 * kelvin) / 0.1, 3)
    const each = { kind: 'zero each time' } as never
    expect(share(each, hot) - without('zeroDrift', each, hot)).toBeCloseTo(0, 9)
  })

  it('E05 magnetic hysteresis: 0.5 % of the peak, which only a zero after the pulse removes', () => {
    const reach = (calibration: never, peakCurrent: string, sensor: object = five) => {
      const { extremes } = checked({ sensor, calibration, peakCurrent } as never, fiveVolts).budgets['I_1']!
      return (extremes.upper - extremes.lower) / 2
    }
    const none = 'none' as never
    expect(reach(none, '20 A') - reach(none, '20 A', { ...five, hysteresis: 0 })).toBeCloseTo(0.1, 3)
    const zero = { kind: 'zero' } as never
    expect(reach(zero, '20 A') - reach(zero, '20 A', { ...five, hysteresis: 0 })).toBeCloseTo(0.1, 3)
    const each = { kind: 'zero each time' } as never
    expect(reach(each, '20 A') - reach(each, '20 A', { ...five, hysteresis: 0 })).toBeCloseTo(0, 9)
  })

  it('E06 stray field: 8 A at 10 mm read as 0.13 A on a single element, the earth’s field as 0.04 A', () => {
    const reach = (surroundings: object, sensor: object = five) => {
      const { extremes } = checked({ sensor, surroundings } as never, fiveVolts).budgets['I_1']!
      return (extremes.upper - extremes.lower) / 2
    }
    const quiet = reach({ steadyField: 0 })
    expect(reach({ steadyField: 0, neighbourCurrent: '8 A', neighbourDistance: '10 mm' }) - quiet).toBeCloseTo(
      160e-6 / 1.2e-3,
      3,
    )
    expect(reach({ steadyField: '50 uT' }) - quiet).toBeCloseTo(50e-6 / 1.2e-3, 3)
    const differential = { ...five, fieldRejectionDb: 40 }
    const near = { steadyField: 0, neighbourCurrent: '8 A', neighbourDistance: '10 mm' }
    expect(reach(near, differential) - reach({ steadyField: 0 }, differential)).toBeCloseTo(160e-8 / 1.2e-3, 5)
    expect(checked().cautions.some(({ id, catches }) => id === 'stray' && catches?.includes('E06'))).toBe(true)
  })

  it('E07 resolution and noise: 49 mA a count at 5 V, 10 bits, 100 mV/A; averaging helps once there is noise', () => {
    const choice = { sensor: { ...five, noiseDensity: 0 }, converter: { ...ten, noise: 0 } } as never
    const step = (samples: number, more: object = choice) =>
      marginNamed(checked({ ...(more as object), timing: { samples } }, fiveVolts), 'resolution')
    expect(step(1)).toMatchObject({ limit: 0.25, catches: ['E07'] })
    expect(step(1).worst).toBeCloseTo(5 / 1024 / 0.1, 9)
    // Without noise sixty-four samples are one.
    expect(step(64).worst).toBeCloseTo(5 / 1024 / 0.1, 9)
    const noisy = { ...(choice as object), converter: { ...ten, noise: '0.6 LSB' } }
    expect(step(64, noisy).worst).toBeLessThan(0.001)
    const noise = (samples: number) =>
      marginNamed(checked({ ...noisy, timing: { samples } } as never, fiveVolts), 'noise').worst
    expect(noise(1)).toBeCloseTo(6.6 * 0.6 * (5 / 1024 / 0.1), 9)
    // The rounding of each sample is noise of its own then, 1/12 of a count squared.
    expect(noise(16) / noise(1)).toBeCloseTo(Math.sqrt((0.36 + 1 / 12) / 16) / 0.6, 3)
  })

  it('E08 filter against the window: 2 kHz and 10 bits need 607 µs, 1 kHz at 20 % has 200 µs', () => {
    const filter = { resistance: 7948, capacitance: 10e-9 }
    const sensor = { ...five, outputResistance: 10, bandwidth: '1 GHz' }
    const on = checked(
      { sensor, converter: ten, filter, timing: { edge: 0 }, pwm: { frequency: 1e3, duty: { from: 0.2, to: 0.9 } } },
      fiveVolts,
    )
    const window = marginNamed(on, 'on-window')
    expect(window).toMatchObject({ limit: 0.0002, verdict: 'fails', catches: ['E08'] })
    // Sampling (12 µs) and conversion (92 µs) come after the settling.
    expect(window.worst * 1e6).toBeCloseTo(607 + 12 + 92, 0)
    const early = checked({ sensor, converter: ten, filter, timing: { edge: 0 }, wait: '80 us' }, fiveVolts)
    expect(marginNamed(early, 'settling')).toMatchObject({ limit: 80e-6, verdict: 'fails' })
    // And the reading is short by what the filter still misses: a time constant leaves 37 % of 6 A.
    expect(early.budgets['I_2']!.linear.nominal).toBeCloseTo(6 * (1 - Math.exp(-80e-6 / (7958 * 10e-9))), 2)
    const averaged = checked({
      reading: 'averaged',
      filter: { resistance: 1e4, capacitance: '16 nF' },
      pwm: { frequency: '20 kHz', duty: { from: 0.5, to: 0.5 } },
    })
    // 20 times the corner leave 7.8 % peak to peak, half of it either way, of 6 A.
    expect(marginNamed(averaged, 'ripple').worst).toBeCloseTo(6 * 0.039, 2)
  })

  it('E09 power from an averaged current: a quarter of the truth at 25 %', () => {
    const choice = {
      reading: 'averaged',
      power: 'squared reading',
      filter: { resistance: 1e4, capacitance: '10 uF' },
      pwm: { frequency: '1 kHz', duty: { from: 0.25, to: 1 } },
    } as const
    expect(marginNamed(checked(choice), 'power')).toMatchObject({ worst: 0.25, verdict: 'fails', catches: ['E09'] })
    const full = { ...choice, pwm: { frequency: '1 kHz', duty: { from: 1, to: 1 } } }
    expect(marginNamed(checked(full), 'power').verdict).toBe('holds')
    const ids = (power: 'voltage times reading') => checked({ ...choice, power }).margins.map(({ id }) => id)
    expect(ids('voltage times reading')).not.toContain('power')
    const own = { ...knife, power: 'squared reading' } as const
    expect(checked(own).margins.map(({ id }) => id)).not.toContain('power')
    expect(checked(own).cautions.map(({ id }) => id)).toContain('on-power')
  })

  it('E10 one-direction use of a bidirectional part: 6 A use a quarter of the half that is there', () => {
    const sensor = { ...five, highOutputDrop: 0, lowOutput: 0 }
    const margin = marginNamed(checked({ sensor, leastUse: 0.4 }, fiveVolts), 'range')
    expect(margin.worst).toBeCloseTo(0.6 / 2.5, 12)
    expect(margin).toMatchObject({ limit: 0.4, verdict: 'fails', catches: ['E10'] })
    expect(checked().cautions.some(({ id }) => id === 'sign')).toBe(true)
    // Unless a share is asked for it is advice: a sound sensor doesn't fail by it.
    const advised = checked({ sensor }, fiveVolts)
    expect(advised.margins.map(({ id }) => id)).not.toContain('range')
    expect(advised.cautions.find(({ id }) => id === 'little-used')!.text).toContain('24 % of the sensor')
    expect(checked().cautions.map(({ id }) => id)).not.toContain('little-used')
    expect(
      marginNamed(checked({ sensor, leastUse: 0.4, current: { from: '-18 A', to: '6 A' } }, fiveVolts), 'range').worst,
    ).toBeCloseTo(1.8 / 2.5, 12)
  })

  it('F05 quotient near zero: a reading below ten counts is not divided by', () => {
    const step = 3.6 / 4096 / (0.2 * (3.6 / 3.3))
    const margin = marginNamed(checked({ divideFrom: '0.1 A' }), 'quotient')
    expect(margin.worst).toBeCloseTo(0.1 / step, 6)
    expect(margin).toMatchObject({ limit: 10, verdict: 'holds', catches: ['F05'] })
    expect(marginNamed(checked({ divideFrom: '30 mA' }), 'quotient').verdict).toBe('fails')
  })

  it('K11 over-current window: above the largest normal current, below what is withstood, and not beyond saturation', () => {
    const trip = { current: '8 A', normal: '6.5 A', withstand: '10 A' }
    const a = checked({ trip })
    expect(a.trip!.interval[0]).toBe(marginNamed(a, 'trip-false').worst)
    expect(a.trip!.interval[1]).toBe(marginNamed(a, 'trip-late').worst)
    for (const id of ['trip-false', 'trip-late', 'trip-reach']) {
      expect(marginNamed(a, id)).toMatchObject({ verdict: 'holds', catches: ['K11'] })
      expect(marginNamed(a, id).probability).toBeGreaterThan(0.999)
    }
    expect(marginNamed(checked({ trip: { ...trip, normal: '7.9 A' } }), 'trip-false').verdict).toBe('fails')
    expect(marginNamed(checked({ trip: { ...trip, withstand: '8.1 A' } }), 'trip-late').verdict).toBe('fails')
    // The sensor ends at (3.15 - 0.33) V over 200 mV/A, some 14 A: a level of 16 A is never read.
    const never = checked({ trip: { current: '16 A', normal: '6.5 A', withstand: '20 A' } })
    expect(marginNamed(never, 'trip-reach').verdict).toBe('fails')
    expect(a.cautions.map(({ id }) => id)).toContain('blanking')
  })
})
