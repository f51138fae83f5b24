import { describe, expect, it } from 'vitest'
import { endVoltageOfPower, mostPower } from '../src/formulas/index.js'
import { circuit, respondTo, type Source, voltageAt } from '../src/waveform/inside.js'

const bulk = { capacitance: 1e-3, resistance: 0.05, inductance: 0 }
const source: Source = { voltage: 3.7, resistance: 0.1, inductance: 0 }
const forever = { rise: 0, duration: Number.POSITIVE_INFINITY, fall: 0 }

/** Rail by Runge and Kutta's fourth-order steps: one capacitor, the load's current from the quadratic at the rail. */
function byRungeKutta(power: number, time: number): number {
  const G = 1 / source.resistance + 1 / bulk.resistance
  const rail = (vc: number): number => {
    const J = source.voltage / source.resistance + vc / bulk.resistance
    return (J + Math.sqrt(J * J - 4 * G * power)) / (2 * G)
  }
  const slope = (vc: number): number => (rail(vc) - vc) / (bulk.resistance * bulk.capacitance)
  const steps = 2000
  const h = time / steps
  let vc = source.voltage
  for (let n = 0; n < steps; n++) {
    const a = slope(vc)
    const b = slope(vc + (h / 2) * a)
    const c = slope(vc + (h / 2) * b)
    const d = slope(vc + h * c)
    vc += (h / 6) * (a + 2 * b + 2 * c + d)
  }
  return rail(vc)
}

describe('a constant power', () => {
  it.each([5, 20, 34])('of %d W is that of a Runge-Kutta solution', (power) => {
    const response = respondTo(circuit(source, [bulk], 0), { kind: 'power', power }, { ...forever, duration: 5e-3 })
    for (const time of [1e-5, 1e-4, 4e-4, 2e-3]) {
      expect(Math.abs(voltageAt(response, time) - byRungeKutta(power, time))).toBeLessThan(1e-6)
    }
  })

  it.each([
    [3e-7, 'creeps'],
    [3e-5, 'rings'],
  ])('on a loop of %d H, which %s, is that of a Runge-Kutta solution, through its fall too', (inductance) => {
    const [power, duration, fall] = [12, 3e-3, 1e-4]
    const { voltage, resistance } = source
    const { capacitance, resistance: ESR } = bulk
    const c = circuit({ voltage, resistance, inductance }, [bulk], 0)
    const response = respondTo(c, { kind: 'power', power }, { rise: 0, duration, fall })
    // The source's current and the load's meet in the capacitor's resistance; the load's is power / rail.
    const railAt = (i: number, vc: number, on: boolean, drawn: number): number => {
      if (!on) return vc + ESR * (i - drawn)
      const a = vc + ESR * i
      return (a + Math.sqrt(a * a - 4 * ESR * power)) / 2
    }
    let [i, vc, left] = [0, voltage, 0]
    const slopes = (x: number, y: number, t: number): readonly [number, number] => {
      const on = t < duration
      const v = railAt(x, y, on, on ? 0 : left * Math.max(0, 1 - (t - duration) / fall))
      return [(voltage - resistance * x - v) / inductance, (v - y) / (ESR * capacitance)]
    }
    let worst = 0
    const go = (from: number, to: number, steps: number, on: boolean): void => {
      const h = (to - from) / steps
      for (let n = 0; n < steps; n++) {
        const t = from + n * h
        if (n % 100 === 50) {
          const v = railAt(i, vc, on, left * (1 - (t - duration) / fall))
          worst = Math.max(worst, Math.abs(voltageAt(response, t) - v))
        }
        // The ends of the interval belong to it: slopes just inside.
        const [a, b] = slopes(i, vc, t + 1e-9 * h)
        const [p, q] = slopes(i + (h / 2) * a, vc + (h / 2) * b, t + h / 2)
        const [r, s] = slopes(i + (h / 2) * p, vc + (h / 2) * q, t + h / 2)
        const [u, w] = slopes(i + h * r, vc + h * s, t + h * (1 - 1e-9))
        i += (h / 6) * (a + 2 * p + 2 * r + u)
        vc += (h / 6) * (b + 2 * q + 2 * s + w)
      }
    }
    go(0, duration, 60_000, true)
    left = power / railAt(i, vc, true, 0)
    go(duration, duration + fall, 4000, false)
    expect(worst).toBeLessThan(1e-6)
    expect(response.pieces.filter(({ phase }) => phase === 'on').length).toBeGreaterThan(5)
  })

  it('ends a step that stays where it settles, not at a wiggle of its last digits', () => {
    const c = circuit({ ...source, inductance: 3e-7 }, [bulk], 0.01)
    const { lowest } = respondTo(c, { kind: 'power', power: 15 }, { rise: 2e-5, duration: forever.duration, fall: 0 })
    expect(lowest).toMatchObject({ time: null, kind: 'end' })
    expect(lowest.value).toBeCloseTo(endVoltageOfPower({ V_rest: 3.7 - 0.1 * 0.01, R_s: 0.1, P_L: 15 }), 7)
  })

  it('settles where the quadratic says, just below the largest power', () => {
    const V_rest = 3.7
    for (const part of [0.1, 0.5, 0.9, 0.99]) {
      const P_L = part * mostPower({ V_rest, R_s: 0.1 })
      const { lowest, collapse } = respondTo(circuit(source, [bulk], 0), { kind: 'power', power: P_L }, forever)
      expect(collapse).toBeNull()
      expect(Math.abs(lowest.value - endVoltageOfPower({ V_rest, R_s: 0.1, P_L }))).toBeLessThan(1e-6)
    }
  })

  it('collapses above V²/4R, later with more capacitance, and a short burst survives on the capacitor', () => {
    const power = 1.1 * mostPower({ V_rest: 3.7, R_s: 0.1 })
    const at = (capacitance: number, duration = Number.POSITIVE_INFINITY) =>
      respondTo(
        circuit(source, [{ ...bulk, resistance: 0.01, capacitance }], 0),
        { kind: 'power', power },
        { ...forever, duration },
      )
    const small = at(1e-3)
    const large = at(1e-2)
    expect(small.collapse).not.toBeNull()
    expect(small.lowest.value).toBe(0)
    expect(large.collapse! / small.collapse!).toBeCloseTo(10, 2)
    expect(at(1e-2, 0.5 * large.collapse!).collapse).toBeNull()
    expect(at(1e-2, 0.5 * large.collapse!).lowest.value).toBeGreaterThan(0)
  })

  it('collapses at once when even the first instant has no solution', () => {
    const { collapse } = respondTo(circuit(source, [bulk], 0), { kind: 'power', power: 1000 }, forever)
    expect(collapse).toBe(0)
  })

  it('with a rise time and a loop inductance meets the power at the end of the rise', () => {
    const c = circuit({ ...source, inductance: 3e-7 }, [bulk], 0.01)
    const timing = { rise: 2e-5, duration: 3e-3, fall: 1e-5 }
    const response = respondTo(c, { kind: 'power', power: 15 }, timing)
    const { piece } = response.pieces.find(({ phase }) => phase === 'rise')!
    const current = piece.load.slope * piece.duration
    expect(current * voltageAt(response, timing.rise)).toBeCloseTo(15, 9)
  })

  it('makes an undamped loop oscillate until it collapses, and a damped one settle', () => {
    // Small-signal: the loop is stable while L/(R·C) stays below V²/P.
    const rail = (inductance: number, capacitance: number) =>
      respondTo(
        circuit({ ...source, inductance }, [{ capacitance, resistance: 0.01, inductance: 0 }], 0),
        { kind: 'power', power: 10 },
        forever,
      )
    expect(rail(1e-5, 2e-5).collapse).not.toBeNull()
    expect(rail(1e-6, 1e-3).collapse).toBeNull()
    expect(rail(1e-6, 1e-3).pieces.length).toBeLessThan(400)
  })
})
