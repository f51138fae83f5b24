import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkDivider, type DividerChoice } from '../src/index.js'
import { ideal, idealConverter } from './design.js'

/*
 * A load that the test current heats, everything else being ideal: at a constant current it settles where R = R₀ (1 + α I² R R_th), so that
 * it has grown by g/(1 - g) of itself, g = α I² R₀ R_th, and from g = 1 on it settles nowhere.
 */

const volts = 3.3
const still = { rail: { from: volts, to: volts }, ambientCelsius: { from: 25, to: 25 } }
const alpha = 0.004
const [from, to] = [0.5, 1.2]
const powerIn = (R: number) => (volts / (47 + R)) ** 2 * R

/** What is shown of the largest load, steadily measured, whose growth at first is `g`; and its row. */
function warmed(g: number, coefficient = alpha, error = 0.05) {
  const choice: DividerChoice = {
    ...ideal,
    error: `${100 * error} %`,
    converter: { ...idealConverter, bits: 24 },
    timing: { measuringDuty: 1, wait: '20 ms', samples: 65536 },
    load: {
      from,
      to,
      nominal: 0.7,
      temperatureCoefficient: coefficient,
      thermalResistance: g / (alpha * powerIn(to)),
      heatCapacity: 1,
    },
  }
  const { margins } = checkDivider(choice, still, { simulation: false })
  return {
    warmed: margins.find(({ id }) => id === 'error-warmed')!,
    warming: margins.find(({ id }) => id === 'warming')!,
  }
}

describe('a load that the test current cannot change', () => {
  it.each([
    ['without a temperature coefficient', { temperatureCoefficient: 0, thermalResistance: 100, heatCapacity: 1 }, 0],
    ['that nothing warms', { temperatureCoefficient: alpha, thermalResistance: 0, heatCapacity: 1 }, 0],
    ['but for both of them', { temperatureCoefficient: alpha, thermalResistance: 100, heatCapacity: 1 }, 2],
  ])('has no row of its warming: %s', (_, more, rows) => {
    const choice = { ...ideal, error: '5 %', load: { from, to, nominal: 0.7, ...more } }
    const { margins } = checkDivider(choice, still, { simulation: false })
    expect(margins.filter(({ id }) => /warm/.test(id)).length).toBe(rows)
  })
})

describe('a load that one short pulse of the test current heats', () => {
  it('takes its energy into its heat capacity: P t / C, in proportion to the time', () => {
    const grown = (wait: string) => {
      const load = { from, to, nominal: 0.7, temperatureCoefficient: alpha, thermalResistance: 1e4, heatCapacity: 1e-3 }
      const timing = { measuringDuty: 1e-9, wait, samples: 1 }
      const choice: DividerChoice = {
        ...ideal,
        error: '50 %',
        converter: { ...idealConverter, bits: 24 },
        timing,
        load,
      }
      return checkDivider(choice, still, { simulation: false }).margins.find(({ id }) => id === 'warming')!.worst
    }
    // 20 ms and 40 ms of a time constant of 10 s.
    expect(grown('20 ms') / ((alpha * powerIn(to) * 0.02) / 1e-3)).toBeCloseTo(1, 1)
    expect(grown('40 ms') / grown('20 ms')).toBeCloseTo(2, 1)
  })
})

describe('a load that its test current heats', () => {
  it('reads off by what it grows, its growth taken with it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 0.85, noNaN: true }), (g) => {
        const { warmed: row, warming } = warmed(g)
        expect(row.worst / ((to * g) / (1 - g))).toBeCloseTo(1, 2)
        expect(row.verdict).toBe(g / (1 - g) < 0.0499 ? 'holds' : g / (1 - g) > 0.0501 ? 'fails' : row.verdict)
        expect(warming.worst).toBeGreaterThan(0.99 * g)
      }),
      { numRuns: 25 },
    )
  })

  it('runs away from a growth of all of itself on: no error that is asked for holds there', () => {
    for (const g of [0.92, 1, 1.001, 1.5, 2]) {
      const { warmed: row } = warmed(g, alpha, 0.5)
      expect(row.verdict, `${g}`).toBe('fails')
      // Told as ten times what it is at first, which is more than it grows anywhere below.
      expect(row.worst / (10 * g * to)).toBeCloseTo(1, 2)
    }
  })

  it('whose resistance falls reads low by what that is at first: it heats itself less and less', () => {
    for (const g of [0.01, 0.1, 0.5]) {
      expect(warmed(g, -alpha).warmed.worst / (to * g)).toBeCloseTo(1, 2)
    }
  })

  it('of which either sign may be has the worse of both', () => {
    const either = { nominal: 0, lower: -alpha, upper: alpha / 10, distribution: { kind: 'rectangular' } } as const
    expect(warmed(0.5, either as never).warmed.worst / (to * 0.5)).toBeCloseTo(1, 2)
    const other = { ...either, lower: -alpha / 10, upper: alpha }
    expect(warmed(0.5, other as never).warmed.worst / to).toBeCloseTo(1, 2)
  })
})
