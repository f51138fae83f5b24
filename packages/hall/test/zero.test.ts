import { describe, expect, it } from 'vitest'
import { exampleSensors, hallChanges } from '../src/index.js'
import { at, cell, checked, knife, marginNamed, part, perfect, reach, still } from './design.js'

/** Every expected value here is plain arithmetic on the stated figures. */
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

  it('a supply of the sensor that stands higher with the load off, where it is told', () => {
    const choice = { ...perfect, sensorSupply: '3 V', errors: [{ at: '1 A', allowed: '1 A' }] }
    const centre = (calibration: object) => {
      const { lower, upper } = checked({ ...choice, calibration } as never, at(3.3)).budgets['I_1']!.extremes
      return (lower + upper) / 2
    }
    // Ratiometric: the zero of 0.33 V at 3.3 V is 0.3 V at 3 V and 0.4 V at 4 V, where 1 A make 0.2 V times 3 V over 3.3 V.
    for (const kind of ['zero', 'zero each time']) {
      expect(centre({ kind }), kind).toBeCloseTo(1, 2)
      expect(centre({ kind, supply: '4 V' }), kind).toBeCloseTo(1 - 0.1 / (0.2 * (3 / 3.3)), 2)
    }
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

describe('a zero that is read each time while the load is off', () => {
  // 10 ohm of the sensor and 990 ohm before 10 nF: 10 µs. The sensor itself is fast.
  const filter = { resistance: 990, capacitance: '10 nF' }
  const fast = { ...perfect.sensor, bandwidth: '1 GHz' }
  const calibration = { kind: 'zero each time', samples: 1 } as const
  const errors = [{ at: '6 A', allowed: '90 %' }] as const
  const base = { ...perfect, sensor: fast, filter, calibration, errors, surroundings: { steadyField: 0 } } as const
  const pwm = (to: number, frequency = '10 kHz') => ({ frequency, duty: { from: 0.1, to } })
  const lowest = (more: object) => checked({ ...base, ...more } as never, at(3.3)).budgets['I_1']!.extremes.lower

  /** Amperes that a capacitor behind a resistor still shows of a current that has stopped, stepped in time. */
  const left = (amperes: number, seconds: number) => {
    let v = amperes
    for (let i = 0; i < 100_000; i++) v -= (v * seconds) / 100_000 / 10e-6
    return v
  }

  it('needs the off-time: 95 µs of settling and sampling don’t go into 1 µs', () => {
    // 1 µs of edge, 13 ln 2 · 10 µs, 2 µs of sampling and 1 µs of conversion.
    const needed = 1e-6 + 13 * Math.LN2 * 10e-6 + 3e-6
    const off = (to: number, more: object = {}) =>
      marginNamed(checked({ ...base, pwm: pwm(to), ...more } as never), 'off-window')
    expect(off(0.99)).toMatchObject({ verdict: 'fails' })
    expect(off(0.99).worst).toBeCloseTo(needed, 8)
    expect(off(0.99).limit).toBeCloseTo(1e-6, 12)
    expect(off(1)).toMatchObject({ verdict: 'fails', limit: 0 })
    expect(off(0.05 + 0.05).verdict).toBe('fails')
    expect(marginNamed(checked({ ...base, pwm: pwm(0.9, '1 kHz') } as never), 'off-window').verdict).toBe('holds')
    // What else is read in the off-time comes on top.
    const task = {
      name: 'rail',
      window: 'off',
      recovery: 0,
      settling: '92 us',
      acquisition: '2 us',
      conversion: '1 us',
    }
    expect(off(0.1, { pwm: pwm(0.9, '1 kHz'), otherTasks: [task] }).worst).toBeCloseTo(needed + 3e-6, 6)
  })

  it('is off by what the filter still holds: of 6 A, of a peak before, of what the wait leaves', () => {
    const step = 3.3 / 4096 / 0.2
    // Off for 30 µs: 1 µs of edge, sampled 3 µs before the load goes on again.
    expect(6 - lowest({ pwm: pwm(0.7) })).toBeCloseTo(left(6, 26e-6) + step, 2)
    expect(left(6, 26e-6)).toBeGreaterThan(0.4)
    expect(6 - lowest({ pwm: pwm(0.7), peakCurrent: '9 A' })).toBeCloseTo(left(9, 26e-6) + step, 2)
    // At full duty it is the current itself.
    expect(6 - lowest({ pwm: pwm(1) })).toBeCloseTo(6 + step, 1)
    // Long enough, but the firmware doesn't wait: here the reading misses as much as the zero holds.
    expect(6 - lowest({ pwm: pwm(0.5, '1 kHz'), wait: '21 us' })).toBeCloseTo(2 * left(6, 20e-6) + step, 2)
    expect(6 - lowest({ pwm: pwm(0.5, '1 kHz') })).toBeLessThan(3 * step)
  })

  it('of a filter that averages takes a time for which the load is held off', () => {
    const mean = { ...base, reading: 'averaged', pwm: pwm(0.9), errors: [{ at: '3 A', allowed: '90 %' }] } as const
    const slow = { ...mean, filter: { resistance: 990, capacitance: '1 uF' } }
    const held = (offTime: string) => checked({ ...slow, calibration: { ...calibration, offTime } } as never)
    expect(marginNamed(checked(slow as never), 'off-window').verdict).toBe('fails')
    // 1 ms of time constant: 13 ln 2 of it are 9.01 ms.
    expect(marginNamed(held('9 ms'), 'zero-off').verdict).toBe('fails')
    expect(marginNamed(held('9.02 ms'), 'zero-off').verdict).toBe('holds')
    expect(held('9.02 ms').margins.map(({ id }) => id)).not.toContain('off-window')
    const words = (more: object) => checked(more as never).assumptions.join(' ')
    expect(words({ ...slow, calibration: { ...calibration, offTime: '20 ms' } })).toContain('held off for 20 ms;')
    expect(words(base)).toContain('in the shortest off-time of the PWM, 100 µs')
  })

  it('can be mended: a smaller filter, a longer time off, a zero that is read once', () => {
    // 10 µs of off-time for 16 µs of settling.
    const short = {
      ...knife,
      calibration: 'zero each time',
      pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.99 } },
    }
    const { changes } = hallChanges(short as never, cell)
    const ids = changes.filter(({ mends }) => mends.some(({ id }) => id === 'off-window')).map(({ id }) => id)
    expect(ids).toEqual(expect.arrayContaining(['hold-off', 'zero']))
  })
})
