import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { powerErrorOnce, powerErrorTwice, powerShareError } from '@ohmward/frontend/formulas'
import { describe, expect, it } from 'vitest'
import { powerOf } from '../src/answer/power.js'

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
      const e_P = powerErrorTwice({ e_bg, e_I: e_gain, k_q: 0.33 / (0.2 * I), e_k: powerShareError(way) })
      expect(shown(I_read) / truth - 1).toBeCloseTo(e_P, 9)
    }
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
    const rows = walkOf(readDesign(exampleDesign), { charges: 2 }).hold({ charge: 0.1, celsius: 0, age: 1 }).rows
    const [low, high] = ['hall/error-1', 'hall/error-2'].map((id) => rows.find((row) => row.id === id)!.margin.worst)
    const straight = low! + ((high! - low!) * (current.lower - 1)) / 5
    expect(error.voltageTimesCurrent!.upper).toBeGreaterThan(straight / current.lower)
    expect(straight / current.lower).toBeGreaterThan(high! / 6)
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
    const least = Math.max(error.voltageTimesCurrent!.lower, error.squareTimesResistance!.lower)
    expect(limit!.setPoint! / (1 + least)).toBeCloseTo(20, 9)
    expect(limit!.dutyWithoutReading * on.upper).toBeCloseTo(20, 9)
  })

  it('has the reference in it as often as the sensor makes it: a reference off by 1 % more', () => {
    const grown = (output: 'ratiometric' | 'fixed') => {
      const hall = {
        ...exampleDesign.hall,
        sensor: { ...exampleDesign.hall.sensor, output },
        sensorSupply: '3.3 V ±1 %',
      }
      const [one, two] = ['1 %', '2 %'].map((calibration) =>
        answerOf({ ...exampleDesign, hall, monitor: { ...exampleDesign.monitor, calibration } } as Design),
      )
      expect(one!.error.referenceEnters).toBe(output === 'fixed' ? 2 : 1)
      return (1 + two!.error.voltageTimesCurrent!.upper) / (1 + one!.error.voltageTimesCurrent!.upper)
    }
    expect(grown('ratiometric')).toBeCloseTo(1.02 / 1.01, 12)
    expect(grown('fixed')).toBeGreaterThan((1.02 / 1.01) ** 2)
  })
})
