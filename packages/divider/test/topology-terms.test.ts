import { exampleConverters } from '@ohmward/adc'
import { changesOf } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import {
  checkDivider,
  type DividerChoice,
  type DividerConditions,
  divider,
  dividerRemedies,
  exampleAmplifiers,
  readingAtRail,
  sizeDivider,
} from '../src/index.js'
import { cell, knife, knifeAtRail } from './design.js'

const check = (choice: DividerChoice, conditions: DividerConditions = cell) =>
  checkDivider(choice, conditions, { simulation: false })
const named = ({ margins }: ReturnType<typeof check>, id: string) => {
  const found = margins.find((margin) => margin.id === id)
  expect(found, id).toBeDefined()
  return found!
}

describe('a difference amplifier', () => {
  it('drifts with both of its pairs, one up and one down at worst', () => {
    const { at } = named(check({ ...knifeAtRail, error: '5 %' }), 'error-smallest')
    expect(Math.abs(at['alpha_G']!)).toBe(1e-4)
    expect(at['alpha_P']).toBe(-at['alpha_G']!)
  })

  it('puts the difference of both drifts of the common mode on the output', () => {
    // R_b/R_a up by δ puts V g/(1 + g) δ on the output; R_d/R_c down by δ as much, less g δ V_x of the wanted signal.
    const later = { V_cms: 0, V_age: 0, V_add: 0, e_add: 0, s_set: 0, d_ref: 0, d_G: 0, d_P: 0 }
    const none = {
      R_lead: 0,
      R_con: 0,
      R_ds: 0,
      I_off: 0,
      V_emf: 0,
      I_o: 0,
      R_sh: 0,
      alpha_ref: 0,
      R_thref: 0,
      d_m: 0,
      ...later,
    }
    const amplifier = {
      V_os: 0,
      D_os: 0,
      V_ps: 3,
      m_ps: 0,
      m_cm: 0,
      V_n: 0,
      V_oh: 0,
      V_ol: 0,
      I_b: 0,
      I_os: 0,
      a_ol: 0,
    }
    const converter = { I_pin: 0, R_filt: 0, N_bits: 12, h_code: 0.5, e_gain: 0, e_offset: 0, e_INL: 0, e_q: 0, e_n: 0 }
    const nominal = { R_refn: 47, R_swn: 0, R_leadn: 0, V_satn: 0, V_excn: 3, V_refn: 3, R_cn: 1e3, g_n: 22 }
    const at = { V_exc: 3, V_amp: 3, V_ref: 3, R_x: 0.7, kappa: 0, V_sat: 0, R_sw: 0, R_ref: 47 }
    const parts = { R_a: 1e3, R_b: 22e3, R_c: 1e3, R_d: 22e3 }
    const x = { ...none, ...amplifier, ...converter, ...nominal, ...at, ...parts, T_d: 25 }
    const at25 = (alpha_P: number, alpha_G: number) => readingAtRail({ ...x, alpha_P, alpha_G })
    const { V_want, V_x } = at25(0, 0)
    const drift = 25e-4
    const common = (3 * 22 * drift) / 23
    expect(at25(1e-4, -1e-4).V_want - V_want).toBeCloseTo(2 * common - 22 * drift * V_x, 4)
    expect(at25(1e-4, 1e-4).V_want - V_want).toBeCloseTo(22 * drift * V_x, 4)
  })

  it('is told from what can be calibrated', () => {
    const calibration = { kind: 'zero' } as const
    const zero = named(check({ ...knifeAtRail, calibration }), 'zero')
    expect(zero.verdict).toBe('fails')
    // With a short the output of a difference amplifier stands at its lowest level: no calibration mends that.
    // All that is known for a zero, and nothing of what other rows would like.
    const known = { zero: dividerRemedies['zero'] ?? [] }
    const { changes, untried } = changesOf(divider, known, { ...knifeAtRail, calibration }, cell)
    expect(known.zero.length).toBeGreaterThan(1)
    expect(untried).toEqual([])
    const mending = changes.filter(({ mends }) => mends.some(({ id }) => id === 'zero')).map(({ id }) => id)
    expect(mending).toEqual(['no-calibration'])
    const { load, amplifier, converter } = knifeAtRail
    const wanted = { load, error: '5 %', amplifier, converter, rail: cell.rail, topology: 'load at rail' } as const
    expect(() => sizeDivider({ ...wanted, calibration })).toThrow(/^calibration = an object: allowed is "none"/)
  })
})

describe('a temperature from the load', () => {
  const thermometry = { element: { coefficient: 4e-3 }, hotCelsius: 200, error: 20 } as const
  const hot = (more: object) => check({ ...knife, thermometry: { ...thermometry, ...more } })

  it('may be higher than it is read: the hottest spot counts with that', () => {
    const answer = hot({ limitCelsius: 260 })
    const error = named(answer, 'temperature').worst
    const spot = named(answer, 'hot-spot')
    expect(error).toBeGreaterThan(5)
    // Hotter by at least what the reading may miss, and by no more than if all of that grew with the rise.
    expect(spot.worst).toBeGreaterThan(25 + 1.3 * (200 + error - 25))
    expect(spot.worst).toBeLessThan(25 + 1.3 * (200 + error / (1 - error / 175) - 25) + 1e-6)
    expect(spot.nominal).toBeCloseTo(252.5, 9)
    expect(spot.verdict).toBe('fails')
  })

  it('holds the lower end of a limit, and the upper one of a factor', () => {
    expect(named(hot({ limitCelsius: '300 degC ±30 K' }), 'hot-spot').limit).toBe(270)
    const factor = named(hot({ limitCelsius: 300, hotSpotFactor: '1.3 ±0.1' }), 'hot-spot')
    expect(factor.worst).toBeGreaterThan(25 + 1.4 * 175)
    expect(factor.nominal).toBeCloseTo(252.5, 9)
  })

  it('takes no tolerance where one value is meant', () => {
    expect(() => hot({ hotCelsius: '200 degC ±20 K' })).toThrow(
      /^thermometry\.hotCelsius = "200 degC ±20 K": .*It takes one number, without a tolerance/,
    )
    const load = { ...knife.load, nominal: '0.7 ohm ±20 %' }
    expect(() => check({ ...knife, load })).toThrow(/^load\.nominal = .*It takes one number, without a tolerance/)
  })

  it('stores its cold value at any rail of the range', () => {
    const choice: DividerChoice = {
      load: { from: 0.5, to: 1.6, nominal: 0.7 },
      error: '8 %',
      reference: '33 ohm ±1 %',
      gainResistors: { feedback: '15 kohm ±1 %', ground: '1 kohm ±1 %' },
      amplifier: exampleAmplifiers.zeroDrift,
      converter: exampleConverters['12-bit controller converter'],
      excitationSwitch: { resistance: '2 ohm ±1 ohm', saturation: '0.1 V ±0.05 V' },
      surroundings: { leadResistance: '50 mohm ±10 mohm', contactVariation: '5 mohm' },
      thermometry: {
        element: { coefficient: '4000 ppm/K ±5 %', curvature: 0 },
        restCelsius: '25 degC ±2 K',
        hotCelsius: 250,
        error: 28,
      },
    }
    // Hot with an empty cell, stored with a full one, by a second reader's own node equations: 30.6 K.
    const { worst, verdict, at } = named(check(choice), 'temperature')
    expect(verdict).toBe('fails')
    expect(worst).toBeGreaterThan(30.5)
    expect(worst).toBeLessThan(31.5)
    expect(at['V_rail']).not.toBe(at['V_railr'])
  })

  it('says what is taken for the reading at rest', () => {
    const said = hot({}).assumptions.join(' ')
    expect(said).toContain('23 °C to 27 °C')
    expect(said).toContain('at any rail of the range')
    expect(said).toContain('1.3 times')
  })
})

describe('a filter before the converter', () => {
  /** Counts missing of a full scale: both capacitors stepped in time, the sampling one empty at first. */
  function missed(tau: number, R: number, t_acq: number) {
    const { switchResistance, samplingCapacitance } = { switchResistance: 1e3, samplingCapacitance: 8e-12 }
    const C = tau / R
    const dt = 1e-10
    let [v, u] = [1, 0]
    for (let t = 0; t < t_acq; t += dt) {
      const i = (v - u) / switchResistance
      v += (dt * ((1 - v) / R - i)) / C
      u += (dt * i) / samplingCapacitance
    }
    return (1 - u) * 4096
  }

  const converter = {
    ...knife.converter,
    switchResistance: 1e3,
    samplingCapacitance: 8e-12,
    acquisitionTime: 2e-6,
  } as DividerChoice['converter']
  const filtered = (filter: number) =>
    check({ ...knife, converter, timing: { filter, filterResistance: '1 kohm', wait: '10 ms' } })

  it.each([1e-6, 10e-6, 200e-6])('gives its charge to the sampling capacitor: %d s', (tau) => {
    const { worst, limit, verdict } = named(filtered(tau), 'sampling')
    expect(worst).toBeCloseTo(missed(tau, 1e3, 2e-6), 1)
    expect(limit).toBe(0.5)
    expect(verdict).toBe(worst > 0.5 ? 'fails' : 'holds')
  })

  it('is no matter of the source alone then', () => {
    expect(filtered(10e-6).margins.map(({ id }) => id)).not.toContain('acquisition')
    expect(check(knife).margins.map(({ id }) => id)).toContain('acquisition')
  })
})

it('warns of a pulse beyond the rating of the reference resistor', () => {
  const warned = (reference: string) =>
    check({ ...knife, reference, excitationSwitch: { currentLimit: '2 A' } }).cautions.some(({ id }) => id === 'pulse')
  expect(warned('3.9 ohm')).toBe(true)
  // (4.2 V)²/75 Ω is 0.24 W.
  expect(warned('75 ohm')).toBe(false)
})

it('says how much that pulse is: the most that any board of a divider takes', () => {
  const most = (reference: string, load: string, resistance: number) => {
    const { cautions } = check({
      ...{
        ...knife,
        reference,
        referencePart: { ratedPower: '0.1 W' },
        load: { from: load, to: '30 ohm' },
        error: '50 %',
      },
      ...{ excitationSwitch: { resistance, currentLimit: '2 A' }, surroundings: { leadResistance: 0.5 } },
    })
    return cautions.find(({ id }) => id === 'pulse')?.text
  }
  // 4.2 V over 9 + 0.5 + 0.5 + 0.5 ohm are 0.4 A: 1.44 W in 9 ohm. With 21 ohm beside it 11 ohm take more: 0.13 A, 190 mW, for 176 mW in 9 ohm.
  expect(most('10 ohm ±10 %', '0.5 ohm', 0.5)).toContain('takes up to 1.5 W,')
  expect(most('10 ohm ±10 %', '20 ohm', 0.5)).toContain('takes up to 190 mW,')
})

it('refuses a calibration whose two readings may be the same', () => {
  const twice = { kind: 'zero and span', short: '1 ohm', resistor: '1 ohm' } as const
  expect(() => check({ ...knife, calibration: twice })).toThrow(/^calibration\.resistor = 1 ohm: allowed is more than/)
})
