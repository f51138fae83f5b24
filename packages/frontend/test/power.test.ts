import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { powerErrorOnce, powerErrorTwice, powerShareError, railReadError } from '@ohmward/frontend/formulas'
import { describe, expect, it } from 'vitest'
import { powerOf } from '../src/answer/power/power.js'
import { rowAt } from './shared.js'

/** Park and Miller's generator, 1988: between two ends. */
function drawsOf(seed: number): (from: number, to: number) => number {
  let state = seed
  return (from, to) => {
    state = (state * 16807) % 2147483647
    return from + ((to - from) * state) / 2147483647
  }
}

/** A board that reads a power: a converter on the rail, an internal reference, a current sensor, a load behind a switch. */
function boardOf(draw: (from: number, to: number) => number) {
  const [V_bg, V_nom, V_rail] = [1.1 * draw(0.91, 1.09), 1.1, draw(2.7, 4.2)]
  const [R_L, R_way, R_Lnom, R_waynom] = [draw(0.66, 0.74), draw(0.01, 0.06), 0.7, 0.03]
  const I = V_rail / (R_L + R_way)
  const e_gain = draw(-0.05, 0.05)
  // The rail as it is read: the code of the reference against the rail, worked back with the nominal reference.
  const V_read = V_nom / (V_bg / V_rail)
  const truth = I ** 2 * R_L
  const shown = (I_read: number) => (V_read * I_read * R_Lnom) / (R_Lnom + R_waynom)
  return { V_rail, V_read, I, e_gain, e_bg: V_nom / V_bg - 1, truth, shown, way: { R_L, R_way, R_Lnom, R_waynom } }
}

describe('a power as it is read, simulated board by board', () => {
  const draw = drawsOf(12345)
  const boards = Array.from({ length: 2000 }, () => boardOf(draw))

  it('has the reference in it once with a ratiometric sensor', () => {
    for (const { I, e_gain, e_bg, V_rail, truth, shown, way } of boards) {
      // Output 0.1 of the supply and 20 mV/A at 3.3 V; the code is a share of the same supply.
      const code = (V_rail * (0.1 + (0.02 / 3.3) * (1 + e_gain) * I)) / V_rail
      const I_read = (code - 0.1) / (0.02 / 3.3)
      const e_P = powerErrorOnce({ e_bg, e_I: e_gain, e_k: powerShareError(way) })
      expect(shown(I_read) / truth - 1).toBeCloseTo(e_P, 9)
    }
  })

  it('has it in twice with a sensor whose output is fixed', () => {
    for (const { I, e_gain, e_bg, V_rail, V_read, truth, shown, way } of boards) {
      const code = (0.33 + 0.2 * (1 + e_gain) * I) / V_rail
      const I_read = (code * V_read - 0.33) / 0.2
      const e_P = powerErrorTwice({ e_bg, e_I: e_gain, e_q: e_bg, k_q: 0.33 / (0.2 * I), e_k: powerShareError(way) })
      expect(shown(I_read) / truth - 1).toBeCloseTo(e_P, 9)
    }
  })

  it('has of a zero that was read only what the reference has moved since', () => {
    for (const { I, e_gain, e_bg, V_rail, V_read, truth, shown, way } of boards) {
      // The zero as volts, read at rest with a reference that read 1 % less then; the rail itself falls out of a code that is worked back.
      const moved = 0.01
      const zero = (0.33 / 4.1) * (4.1 * (1 + e_bg - moved))
      const code = (0.33 + 0.2 * (1 + e_gain) * I) / V_rail
      const I_read = (code * V_read - zero) / 0.2
      const e_P = powerErrorTwice({ e_bg, e_I: e_gain, e_q: moved, k_q: 0.33 / (0.2 * I), e_k: powerShareError(way) })
      expect(shown(I_read) / truth - 1).toBeCloseTo(e_P, 9)
    }
  })

  it('has in the rail what the converter adds to the code of the reference', () => {
    // 1.1 V at 3.7 V are 1218 counts of 4096; 5 of them too few, and a gain of 0.1 % too much.
    const code = (1.1 / 3.7) * 4096
    const read = (1.1 * 4096) / (code * 1.001 - 5)
    expect(railReadError({ e_bg: 0, e_gain: 0.001, n_err: -5, code_bg: code })).toBeCloseTo(read / 3.7 - 1, 12)
  })
})

const answerOf = (given: Design) => powerOf(walkOf(readDesign(given), { charges: 2 }))

describe('the error of the power', () => {
  const { error, on } = answerOf(exampleDesign)

  it('is that of the current that flows, not of the largest that the sensor reads', () => {
    // The current is known to 8 % at 6 A and to 0.3 A at 1 A: at the 3.5 A of an empty cold cell its share is larger.
    const { current } = walkOf(readDesign(exampleDesign), { charges: 2 }).solve({
      charge: { from: 1, to: 0.1 },
      celsius: { from: 0, to: 50 },
      age: { from: 0, to: 1 },
    })
    expect(current.lower).toBeLessThan(4)
    const walk = walkOf(readDesign(exampleDesign), { charges: 2 })
    const place = { charge: 0.1, celsius: 0, age: 1 }
    const [low, high] = ['hall/error-1', 'hall/error-2'].map((id) => rowAt(walk, place, id)!.worst)
    const straight = low! + ((high! - low!) * (current.lower - 1)) / 5
    expect(error.voltageTimesCurrent!.upper).toBeGreaterThan(straight / current.lower)
    expect(straight / current.lower).toBeGreaterThan(high! / 6)
  })

  it('has once a reference that the current is not read against', () => {
    const hall = {
      ...exampleDesign.hall,
      sensor: { ...exampleDesign.hall.sensor, output: 'fixed' },
      sensorSupply: '3.3 V ±1 %',
      converter: { ...exampleDesign.hall.converter, reference: { kind: 'absolute', voltage: '2.5 V ±0.2 %' } },
    }
    expect(answerOf({ ...exampleDesign, hall } as Design).error.referenceEnters).toBe(1)
  })

  it('has of a zero that was stored only its drift, where the sensor is read against the rail', () => {
    const of = (calibration: 'none' | 'zero') => {
      const hall = {
        ...exampleDesign.hall,
        sensor: { ...exampleDesign.hall.sensor, output: 'fixed' },
        sensorSupply: '3.3 V ±1 %',
        calibration,
      }
      return answerOf({ ...exampleDesign, hall } as Design).error.voltageTimesCurrent!
    }
    // 6 mV of zero error over 0.2 V/A are 30 mA, nearly 1 % of the least current; what the zero's own reading adds is less.
    expect(of('none').upper - of('zero').upper).toBeGreaterThan(0.002)
    expect(of('none').upper - of('zero').upper).toBeLessThan(0.01)
  })

  it('grows with what is not known of the way from board to load', () => {
    const path = exampleDesign.supply.path.map((one) =>
      one.name === 'connector of the blade' ? { ...one, resistance: '5 mohm ±100 %' } : one,
    )
    const loose = answerOf({ ...exampleDesign, supply: { ...exampleDesign.supply, path } })
    expect(loose.error.voltageTimesCurrent!.upper).toBeGreaterThan(error.voltageTimesCurrent!.upper)
  })

  it('enters the set point: full cells shown at it stay within the limit', () => {
    const { limit } = answerOf(exampleDesign)
    const leastOf = ({ voltageTimesCurrent, squareTimesResistance }: typeof error) =>
      Math.max(voltageTimesCurrent!.lower, squareTimesResistance!.lower)
    // Shorter pulses, of which the wait shows less, keep the limit whatever is read.
    expect(limit!.setPoint! / (1 + leastOf(error))).toBeGreaterThan(20)
    const duty = { from: limit!.dutyWithoutReading, to: exampleDesign.pwm.duty.to }
    const long = answerOf({ ...exampleDesign, pwm: { ...exampleDesign.pwm, duty } })
    expect(limit!.setPoint! / (1 + leastOf(long.error))).toBeCloseTo(20, 9)
    // The capacitors of the rail give a little more than the duty's share.
    expect(limit!.dutyWithoutReading * on.upper).toBeLessThan(20)
    expect(limit!.dutyWithoutReading * on.upper).toBeGreaterThan(19.8)
  })

  it('has the reference in it as often as the sensor makes it: a reference off by 1 % more', () => {
    const grown = (output: 'ratiometric' | 'fixed', zero: 'none' | 'zero each time') => {
      const hall = {
        ...exampleDesign.hall,
        calibration: zero,
        sensor: { ...exampleDesign.hall.sensor, output },
        sensorSupply: '3.3 V ±1 %',
      }
      // Without bursts nobody says when the cells are read: they are followed to their lowest voltage, wherever the stop acts before.
      const { bursts: _, ...followed } = exampleDesign
      const [one, two] = ['1 %', '2 %'].map((calibration) =>
        answerOf({ ...followed, hall, monitor: { ...exampleDesign.monitor, calibration } } as Design),
      )
      expect(one!.error.referenceEnters).toBe(output === 'fixed' ? 2 : 1)
      return (1 + two!.error.voltageTimesCurrent!.upper) / (1 + one!.error.voltageTimesCurrent!.upper)
    }
    expect(grown('ratiometric', 'none')).toBeCloseTo(1.02 / 1.01, 12)
    expect(grown('fixed', 'none')).toBeGreaterThan((1.02 / 1.01) ** 2)
    // A zero that is read just before is off by as much.
    expect(grown('fixed', 'zero each time')).toBeCloseTo((1.02 / 1.01) ** 2, 12)
  })
})

describe('bursts per charge', () => {
  it('are no more than at the temperature between the ends at which the cells resist least', () => {
    const at = (from: number, to: number) => {
      const source = { ...exampleDesign.supply.source, temperatureFactor: '0 degC: 2.5, 20 degC: 0.3, 40 degC: 2.5' }
      const design = { ...exampleDesign, supply: { ...exampleDesign.supply, source }, ambientCelsius: { from, to } }
      return answerOf(design as Design).bursts!.count!
    }
    const [all, least, cold, warm] = [at(0, 40), at(20, 20), at(0, 0), at(40, 40)]
    // Less resistance lets more current flow: each burst takes more of the charge.
    expect(least.lower).toBeLessThan(Math.min(cold.lower, warm.lower))
    expect(all.lower).toBeLessThanOrEqual(least.lower * (1 + 1e-9))
    expect(all.upper).toBeGreaterThanOrEqual(Math.max(cold.upper, warm.upper) * (1 - 1e-9))
  })
})
