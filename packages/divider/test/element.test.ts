import { describe, expect, it } from 'vitest'
import { checkDivider, type DividerChoice, type Thermometry } from '../src/index.js'
import { tungstenCurve } from '../src/thermometry/tungsten.js'
import { ideal } from './design.js'

/** A wire of 0.5 ohm at rest, ideal parts, one board temperature and one rail: what the element does stands alone. */
const still = { rail: { from: 3.6, to: 3.6 }, ambientCelsius: { from: 25, to: 25 } }
const wire: DividerChoice = {
  ...ideal,
  load: { from: 0.1, to: 3, nominal: 0.5 },
  gainResistors: { feedback: '10 kohm', ground: '1 kohm', ratioDrift: 0 },
  converter: { ...ideal.converter, bits: 24 },
  timing: { filter: '10 ms', wait: '1 s', samples: 65536 },
}
const worst = (thermometry: Thermometry) => {
  const { margins } = checkDivider({ ...wire, thermometry }, still, { simulation: false })
  return margins.find(({ id }) => id === 'temperature')!.worst
}

/** IEC 60751, positive temperatures. */
const platinum = (t: number) => 1 + 3.9083e-3 * t - 5.775e-7 * t * t
const platinumCelsius = (W: number) =>
  (-3.9083e-3 + Math.sqrt(3.9083e-3 ** 2 + 4 * 5.775e-7 * (1 - W))) / (2 * -5.775e-7)

describe('a platinum element', () => {
  // Tolerances as the standard prints them at 200 °C, and at 25 °C by its formula.
  it.each([
    ['A', 0.55, 0.2],
    ['B', 1.3, 0.425],
  ] as const)('of class %s is off by its tolerance, hot and at rest', (name, hot, rest) => {
    const error = worst({ element: { platinum: name }, restCelsius: 25, hotCelsius: 200, error: 20 })
    // Hot it is as if warmer by the one, at rest as if colder by the other; the firmware knows neither.
    const ratio = platinum(200 + hot) / platinum(25 - rest)
    expect(error).toBeCloseTo(platinumCelsius(ratio * platinum(25)) - 200, 2)
  })

  it('is of class B by default, and no class reaches further than the standard says', () => {
    const t = { restCelsius: 25, hotCelsius: 200, error: 20 } as const
    expect(worst({ ...t, element: 'platinum' })).toBe(worst({ ...t, element: { platinum: 'B' } }))
    const at = (element: Thermometry['element'], hotCelsius: number) => () => worst({ ...t, element, hotCelsius })
    expect(at('platinum', 700)).toThrow(/hotCelsius = 700 degC: allowed is from -196 to 600 degC \(class B/)
    expect(at({ platinum: 'AA' }, 300)).toThrow(/to 250 degC \(class AA/)
    expect(at({ platinum: 'calibrated' }, 800)).not.toThrow()
    expect(at({ platinum: 'D' as 'A' }, 200)).toThrow(/^thermometry\.element\.platinum = "D"/)
  })

  it('is off by what its calibration leaves', () => {
    const error = worst({
      element: { platinum: 'calibrated' },
      restCelsius: 25,
      hotCelsius: 200,
      error: 20,
      lawError: '0.5 K',
    })
    expect(error).toBeCloseTo(platinumCelsius((platinum(200.5) / platinum(24.5)) * platinum(25)) - 200, 2)
  })
})

describe('a measured curve', () => {
  const points = [
    [20, 1],
    [200, 1.7],
    [300, 2.1],
  ] as const

  it('is taken as far as it was measured, and no further', () => {
    const at = (restCelsius: number, hotCelsius: number) => () =>
      worst({ element: points, restCelsius, hotCelsius, error: 50 })
    expect(at(20, 300)).not.toThrow()
    expect(at(25, 900)).toThrow(/hotCelsius = 900 degC: allowed is from 20 to 300 degC \(its points\)/)
    expect(at(0, 200)).toThrow(/restCelsius = 0 degC: allowed is from 20 to 300 degC/)
  })
})

describe('a straight line', () => {
  /** Resistivity of tungsten in 1e-8 ohm m at 293 and 300 K and each 100 K on (handbook of chemistry and physics; from memory). */
  const tungsten = [
    [300, 5.44],
    [400, 7.83],
    [500, 10.3],
    [600, 13.0],
    [700, 15.7],
    [800, 18.6],
    [900, 21.5],
  ] as const
  const cold = 5.28

  // What tables of coefficients give at 20 °C, and, from 500 K on, the slope of this table there: 5.28 to 5.44 over 7 K, two digits.
  const slope = (5.44 / 5.28 - 1) / 7
  const places = [4.5e-3, 4.4e-3, slope].flatMap((alpha) =>
    tungsten.slice(alpha === slope ? 2 : 1).map(([kelvin, rho]) => [kelvin, rho, alpha] as const),
  )

  it.each(places)(
    'says how far it is off for tungsten at %d K, of %d, by a coefficient of %d/K',
    (kelvin, rho, alpha) => {
      // What a line from 20 °C reads at the true resistance.
      const t = kelvin - 273.15
      const read = 20 + (rho / cold - 1) / alpha
      const claimed = worst({ element: { coefficient: alpha }, restCelsius: 20, hotCelsius: t, error: 500 })
      expect(claimed).toBeGreaterThan(Math.abs(read - t))
      // From 600 K on the table bends by 1.9e-4 to 3.3e-4 for each kelvin, of the 3.5e-4 that the line allows for.
      if (kelvin >= 600) expect(claimed).toBeLessThan(1.9 * Math.abs(read - t))
    },
  )

  it.each(tungsten.slice(1))(
    'and the curve of tungsten reads another table at %d K within its tolerance',
    (kelvin, rho) => {
      const t = kelvin - 273.15
      const read = tungstenCurve.celsius((rho / cold) * tungstenCurve.ratio(20))
      const claimed = worst({ element: 'tungsten', restCelsius: 20, hotCelsius: t, error: 500 })
      expect(claimed).toBeGreaterThan(Math.abs(read - t))
      // Two handbooks differ by up to 3 % of the rise: a curve that is off by more fails.
      expect(Math.abs(read - t)).toBeLessThan(0.035 * (t - 20))
      expect(claimed).toBeLessThan(0.04 * t + 5)
    },
  )

  it('tells of nickel and iron, which bend by more than the line allows for', () => {
    const cautions = (element: Thermometry['element']) =>
      checkDivider({ ...wire, thermometry: { element, restCelsius: 25, hotCelsius: 125, error: 50 } }, still, {
        simulation: false,
      }).cautions
    // 100 K of 0.12 % a kelvin: 12 % of the rise; of iron's 0.16 % 16 %.
    expect(cautions({ coefficient: 0.006 }).find(({ id }) => id === 'straight-line')!.text).toContain(
      'by 12 K and 16 K',
    )
    expect(cautions({ coefficient: 0.006, curvature: '2000 ppm/K' }).map(({ id }) => id)).not.toContain('straight-line')
    expect(cautions('platinum').map(({ id }) => id)).not.toContain('straight-line')
  })

  it('may be referred to any temperature that a sheet states', () => {
    // A sheet: 0.35 ohm at 65 °C, 3500 ppm/K there. At rest, 25 °C, 1 - 0.14 of it; at 165 °C 1 + 0.35 of it.
    const element = { coefficient: '3500 ppm/K ±5 %', curvature: 0, atCelsius: 65 } as const
    const error = worst({ element, restCelsius: 25, hotCelsius: 165, error: 100 })
    const ratio = (alpha: number) => (1 + alpha * 100) / (1 - alpha * 40)
    const read = (alpha: number) => 65 + (ratio(alpha) * (1 - 0.0035 * 40) - 1) / 0.0035
    expect(error).toBeCloseTo(read(0.0035 * 1.05) - 165, 1)
  })

  it('bends by its curvature', () => {
    const t = { restCelsius: 25, hotCelsius: 225, error: 50 } as const
    // 200 K of 3.5e-4 a kelvin: 7 % of the rise, up or down.
    expect(worst({ ...t, element: { coefficient: 0.004 } })).toBeCloseTo(14, 1)
    expect(worst({ ...t, element: { coefficient: 0.004, curvature: '100 ppm/K' } })).toBeCloseTo(4, 1)
  })
})
