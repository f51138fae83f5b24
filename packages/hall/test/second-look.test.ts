import { exampleConverters } from '@ohmward/adc'
import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { exampleSensors, type HallChoice, type HallConditions, hallModel, sizeHall } from '../src/index.js'
import { cell, checked, knife, marginNamed } from './design.js'

/** Every expected value here is plain arithmetic on the stated figures. */
const at = (rail: number, celsius = 25): HallConditions => ({
  rail: { from: rail, to: rail },
  ambientCelsius: { from: celsius, to: celsius },
})
const reach = (more: object, conditions: HallConditions) => {
  const { extremes } = checked(more as Partial<HallChoice>, conditions).budgets['I_1']!
  return (extremes.upper - extremes.lower) / 2
}
/** How far one field of the sensor moves the reading at 1 A. */
const part = (word: string, conditions: HallConditions, more: object = {}, sensor: object = knife.sensor) =>
  reach({ ...more, sensor }, conditions) - reach({ ...more, sensor: { ...sensor, [word]: 0 } }, conditions)

/** A sensor and a converter without errors of their own. */
const still = {
  sensitivityError: 0,
  sensitivityDrift: 0,
  zeroError: 0,
  zeroDrift: 0,
  zeroSupplyError: 0,
  sensitivitySupplyError: 0,
  nonlinearity: 0,
  hysteresis: 0,
  noiseDensity: 0,
  fieldRejectionDb: 120,
} as const
const perfect = {
  sensor: { ...knife.sensor, ...still },
  converter: { ...knife.converter, offset: 0, gain: 0, nonlinearity: 0, noise: 0, leakage: 0 },
}

describe('ratiometry error', () => {
  it('is reached at either end of the rated supply, however far the rated one is from it', () => {
    // 0.6 % of 0.33 V over 200 mV/A, 9.9 mA: at 5.5 V, at 2.7 V though that is nearer, and half of it half-way there.
    expect(part('zeroSupplyError', at(5.5))).toBeCloseTo(0.0099, 6)
    expect(part('zeroSupplyError', at(2.7))).toBeCloseTo(0.0099, 6)
    expect(part('zeroSupplyError', at(3))).toBeCloseTo(0.0099 / 2, 6)
    expect(part('zeroSupplyError', at(3.3))).toBeCloseTo(0, 9)
    expect(part('sensitivitySupplyError', at(2.7))).toBeCloseTo(0.006, 6)
  })

  it('where the rated supply is an end itself, has the slope of the other side', () => {
    const sensor = { ...knife.sensor, supplyMinimum: '3.3 V' }
    expect(part('zeroSupplyError', at(2.2), {}, sensor)).toBeCloseTo(0.0099 / 2, 6)
    expect(part('zeroSupplyError', at(3.3), {}, { ...sensor, supplyMaximum: '3.3 V' })).toBe(0)
  })
})

describe('what a zero does not take away', () => {
  const leaky = { ...perfect, filter: { resistance: 9990, capacitance: '100 nF' } }
  const leakage = (calibration: object) => {
    const own = (leak: string) => ({ ...leaky, calibration, converter: { ...perfect.converter, leakage: leak } })
    return reach(own('200 nA'), at(3.3)) - reach(own('0 A'), at(3.3))
  }

  it('leakage that comes with the heat: 200 nA through 10 kohm, 2 mV, 10 mA; a fresh zero sees it, too', () => {
    expect(leakage({ kind: 'zero' })).toBeCloseTo(0.01, 6)
    expect(leakage({ kind: 'zero each time' })).toBeCloseTo(0, 9)
  })

  it('remanence of a peak the other way, where current flows both ways', () => {
    const sensor = { ...exampleSensors.wideSupplyTwoWay, hysteresis: '0.5 %' }
    const shift = (from: number) =>
      part('hysteresis', at(3.3), { calibration: { kind: 'zero' }, current: { from, to: 6 }, peakCurrent: 10 }, sensor)
    expect(shift(0)).toBeCloseTo(0.05, 6)
    expect(shift(-6)).toBeCloseTo(0.1, 6)
  })

  it('a rail that stands higher with the load off, where it is told', () => {
    const sensor = { ...exampleSensors.fiveVoltFixedOneWay, ...still, sensitivity: '200 mV/A' }
    const choice = { ...perfect, sensor, sensorSupply: '5 V', errors: [{ at: '1 A', allowed: '1 A' }] }
    const centre = (calibration: object) => {
      const { lower, upper } = checked({ ...choice, calibration } as never, at(3)).budgets['I_1']!.extremes
      return (lower + upper) / 2
    }
    // The code of 0.5 V falls from a sixth of the scale at 3 V to an eighth at 4 V: 0.125 V/3 V of it, over 200 mV/A.
    expect(centre({ kind: 'zero each time' })).toBeCloseTo(1, 2)
    expect(centre({ kind: 'zero each time', rail: '4 V' })).toBeCloseTo(1 + (0.5 * 3 * (1 / 3 - 1 / 4)) / 0.2, 2)
    const caution = (rail?: string) =>
      checked({ calibration: { kind: 'zero each time', ...(rail && { rail }) } }).cautions.map(({ id }) => id)
    expect(caution()).toContain('zero-rail')
    expect(caution('4.2 V')).not.toContain('zero-rail')
  })

  it('the warmth of the sensor’s own conductor', () => {
    const sensor = { ...knife.sensor, conductorResistance: '5 mohm' }
    const pwm = { frequency: '1 kHz', duty: { from: 0.1, to: 1 } }
    // 36 A² · 5 mohm · 40 K/W are 7.2 K; 60 µV/K over 200 mV/A.
    expect(part('zeroDrift', at(3.3), { pwm, calibration: { kind: 'zero' } }, sensor)).toBeCloseTo(
      (7.2 * 60e-6) / 0.2,
      6,
    )
    expect(checked({ pwm, sensor }).assumptions.join(' ')).toContain('up to 7.2 K warmer')
  })
})

describe('an averaged reading', () => {
  // 10 kohm · 1 µF, 1 kHz: a tenth of a time constant in a period.
  const choice = {
    ...perfect,
    reading: 'averaged',
    filter: { resistance: 9990, capacitance: '1 uF' },
    errors: [{ at: '3 A', allowed: '0.2 A' }],
    trip: { current: '5 A', normal: '3 A', withstand: '7 A' },
  } as const

  it('trips on the crest of its ripple, and late in its trough', () => {
    const { level, interval } = checked(choice, at(3.3)).trip!
    // Half duty: the crest stands tanh(1/40)/2 above the mean of one half.
    expect(interval[0]).toBeCloseTo(level / (1 + Math.tanh(1 / 40)), 3)
    // A tenth of duty, summed period by period: what 0.01 time constants put in decays by 0.09 until the next.
    let trough = 0
    for (let n = 0; n < 1000; n++) trough += (1 - Math.exp(-0.01)) * Math.exp(-0.09 - 0.1 * n)
    expect(interval[1]).toBeCloseTo((level * 0.1) / trough, 3)
    const [low, high] = checked({ ...choice, filter: { resistance: 330, capacitance: '1 nF' } }, at(3.3)).trip!.interval
    expect(low).toBeLessThan(level / 1.9)
    expect(high).toBeGreaterThan(1000)
  })

  it('has its crest held against the full scale', () => {
    const margin = marginNamed(checked(choice, at(3.3)), 'converter-high')
    let crest = 0
    for (let n = 0; n < 1000; n++) crest += (1 - Math.exp(-0.09)) * Math.exp(-0.1 * n)
    expect(margin.nominal).toBeCloseTo(0.33 + 0.9 * 6 * 0.2, 9)
    expect(margin.worst).toBeCloseTo(0.33 + crest * 6 * 0.2, 5)
  })
})

describe('a trip', () => {
  const text = (more: object) =>
    checked({ trip: { current: 8, normal: 6.5, withstand: 10 }, ...more }).cautions.find(({ id }) => id === 'slow-trip')

  it('says how late it is: the next on-window, and all its samples', () => {
    // 64 windows of 1 ms, and some 16 µs of settling in the first.
    expect(text({ timing: { samples: 64 } })!.text).toContain('64 ms')
    expect(text({})!.text).toContain('1 ms')
    // On direct current the filter alone: 13·ln 2 time constants of 330 ohm · 100 µF until half a count of 12 bits is left.
    const slow = { resistance: '330 ohm', capacitance: '100 uF' }
    const [, seconds] = /up to ([\d.]+) ms/.exec(text({ pwm: undefined, filter: slow })!.text)!
    expect(Number(seconds) / (13 * Math.LN2 * 33)).toBeCloseTo(1, 1)
  })
})

describe('the summary', () => {
  it('counts what every board is off with the spread about it', () => {
    // 50 µs after the edge a filter of 10 kohm · 10 nF misses exp(-0.5) of 6 A.
    const slow = {
      ...perfect,
      filter: { resistance: 9990, capacitance: '10 nF' },
      wait: '51 us',
      timing: { edge: '1 us' },
    }
    const [, expected] = /expect ±([\d.]+) A/.exec(checked(slow, at(3.3)).summary)!
    expect(Math.abs(Number(expected) - 6 * Math.exp(-0.5))).toBeLessThan(0.1)
  })
})

describe('rounding under noise that a slow filter makes alike', () => {
  it('is no less than what simulated samples of one window leave', () => {
    const choice = {
      ...knife,
      sensor: { ...knife.sensor, noiseDensity: '10 uV/Hz^0.5' },
      converter: { ...knife.converter, noise: 0 },
      filter: { resistance: '990 ohm', capacitance: '68 nF' },
      timing: { samples: 16, samplesPerWindow: 16 },
    } as const
    const { inputs } = hallModel(choice, cell, 1)
    const limit = (name: string) => (inputs[name] as Spread).upper
    const said = Math.hypot(limit('e_q') / Math.sqrt(3), limit('e_n') / 3)
    // One pole of 68 µs, samples 3 µs apart; the noise of 10 µV/√Hz in π/2 · 2.29 kHz, in counts of 3.6 V/4096.
    const rho = Math.exp(-3 / 68)
    const sigma = (10e-6 * Math.sqrt((Math.PI / 2) * 2290)) / (3.6 / 4096)
    let seed = 1
    const uniform = () => {
      seed = (seed * 48271) % 2147483647
      return seed / 2147483647
    }
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    let squares = 0
    const trials = 4000
    for (let n = 0; n < trials; n++) {
      const place = uniform()
      let noise = sigma * normal()
      let sum = 0
      for (let i = 0; i < 16; i++) {
        sum += Math.round(place + noise) - place - noise
        noise = rho * noise + sigma * Math.sqrt(1 - rho * rho) * normal()
      }
      squares += (sum / 16) ** 2
    }
    const left = Math.sqrt(squares / trials)
    // Independent samples would leave 1/√12/4 of a count.
    expect(left).toBeGreaterThan(1.05 / Math.sqrt(12) / 4)
    expect(said).toBeGreaterThan(0.98 * left)
    expect(said).toBeLessThan(3 * left)
  })
})

describe('sizing', () => {
  const wish = {
    converter: exampleConverters['12-bit controller converter'],
    current: { from: 0, to: 6 },
    errors: [
      { at: 1, allowed: 0.4 },
      { at: 6, allowed: 0.1 },
    ],
    pwm: { frequency: 1000, duty: { from: 0.1, to: 0.9 } },
  } as const

  it('turns a sensor down once for what no filter mends', () => {
    const { rejected } = sizeHall({ ...wish, rail: { from: 3, to: 4.2 }, most: 1 })
    const five = rejected.filter(({ sensor }) => sensor === 'fiveVoltTwoWay')
    expect(five.map(({ parts, margin }) => [parts.reading, margin])).toEqual([
      ['on-window', 'supply-low'],
      ['averaged', 'supply-low'],
    ])
    expect(five[0]!.reason).toContain('short by 1.5 V')
  })

  it('counts the divider into the filter’s time constant', () => {
    const divider = { top: '10 kohm ±1 %', bottom: '18 kohm ±1 %' }
    const sensors = { one: exampleSensors.fiveVoltFixedOneWay }
    const { choices, rejected } = sizeHall({
      ...wish,
      reading: 'on-window',
      divider,
      sensors,
      sensorSupply: '5 V',
      rail: { from: 3.25, to: 3.35 },
    })
    const all = [...choices.map(({ parts }) => parts), ...rejected.map(({ parts }) => parts)]
    expect(all.length).toBeGreaterThan(0)
    for (const { filter } of all) {
      const farad =
        Number.parseFloat(String(filter!.capacitance)) * (String(filter!.capacitance).includes('n') ? 1e-9 : 1e-12)
      // 100 µs hold 13 · ln 2 time constants of 6.4 kohm and the filter's own resistor.
      expect(farad * 6.4e3 * 13 * Math.LN2).toBeLessThan(100e-6)
    }
  })
})
