import { describe, expect, it } from 'vitest'
import { exampleSensors } from '../src/index.js'
import { at, checked, knife, part, perfect, reach, still } from './design.js'

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
