import { exampleConverters } from '@ohmward/adc'
import { extremes, propagate, simulate } from '@ohmward/budget'
import {
  checkDivider,
  type DividerChoice,
  type DividerConditions,
  dividerModel,
  dividerOverRail,
  exampleAmplifiers,
  platinumCelsius,
  platinumRatio,
  readingAtRail,
  readingOf,
  sizeDivider,
} from '@ohmward/divider'
import { type Input, InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const cell: DividerConditions = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }
const knife: DividerChoice = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '5 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
}
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const check = (choice: DividerChoice, conditions = cell) => checkDivider(choice, conditions, { simulation: false })

/** Every number of a chain's inputs that is a resistance, whichever chain. */
const resistances = ['R_x', 'R_sw', 'R_ref', 'R_lead', 'R_con', 'R_ds', 'R_sh', 'R_p', 'R_f', 'R_g', 'R_filt']
const more = ['R_a', 'R_b', 'R_c', 'R_d', 'R_refn', 'R_swn', 'R_leadn', 'R_cn']

describe('every resistor times k', () => {
  const nothing = {
    ...{
      T_d: 20,
      alpha_ref: 1e-4,
      alpha_G: 1e-4,
      alpha_P: -1e-4,
      V_emf: 1e-5,
      I_o: 0.1,
      I_off: 1e-4,
      V_os: 1e-4,
      D_os: 1e-6,
      V_ps: 3,
    },
    ...{ V_exc: 3.3, V_amp: 3.3, V_ref: 3.3, V_sat: 0.05, R_thref: 100, d_m: 0.5, m_ps: 1e-4, m_cm: 1e-4, V_n: 1e-5 },
    ...{
      I_b: 1e-7,
      I_os: 1e-8,
      I_leak: 1e-8,
      a_ol: 1e-4,
      p_ped: 0.01,
      V_oh: 0.02,
      V_ol: 0.02,
      I_pin: 1e-8,
      N_bits: 12,
    },
    ...{ h_code: 0.5, e_gain: 1e-3, e_offset: 1, e_INL: 1, e_q: 0.2, e_n: 0.1, V_satn: 0.04, V_excn: 3.3, V_refn: 3.3 },
    ...{ G_n: 23, p_pedn: 0.01, g_n: 22, R_sw: 10, R_lead: 0.05, R_con: 0.01, R_ds: 0.01, R_sh: 0.001, R_p: 1e3 },
    ...{ R_f: 22e3, R_g: 1e3, R_filt: 1e3, R_a: 1e3, R_b: 22e3, R_c: 1005, R_d: 21.9e3, R_swn: 11, R_leadn: 0.04 },
    ...{ R_cn: 1e3, R_ref: 47, R_refn: 47 },
    ...{ V_cms: 1.6, V_age: 1e-4, V_add: 1e-5, e_add: 1e-3, s_set: 1e-4, d_ref: 1e-3, d_G: 1e-3, d_P: -1e-3 },
  }
  it('and every current over k, heating with it, leaves ratio, codes and R_ind/R_ref alone', () => {
    fc.assert(
      fc.property(real(0.1, 10), real(0.4, 3), fc.constantFrom(0, 1), (k, R_x, kappa) => {
        const x = { ...nothing, R_x, kappa }
        const scaled: Record<string, number> = { ...x }
        for (const name of [...resistances, ...more]) scaled[name] = scaled[name]! * k
        for (const name of ['I_b', 'I_os', 'I_leak', 'I_pin', 'I_off', 'I_o']) scaled[name] = scaled[name]! / k
        // A dissipation falls by k: the thermal resistance makes it good.
        scaled['R_thref'] = x.R_thref * k
        for (const read of [readingOf, readingAtRail] as ((x: never) => {
          r: number
          code_out: number
          R_ind: number
        })[]) {
          const [a, b] = [read(x as never), read(scaled as never)]
          expect(Math.abs(b.r / a.r - 1)).toBeLessThan(1e-9)
          expect(Math.abs(b.code_out / a.code_out - 1)).toBeLessThan(1e-9)
          expect(Math.abs(b.R_ind / (k * a.R_ind) - 1)).toBeLessThan(1e-9)
        }
      }),
      { numRuns: 100, seed: 3 },
    )
  })
})

describe('a wider tolerance', () => {
  const widened: ((w: number) => DividerChoice)[] = [
    (w) => ({ ...knife, reference: `47 ohm ±${w} %` }),
    (w) => ({ ...knife, gainResistors: { feedback: `22 kohm ±${w} %`, ground: '1 kohm ±1 %' } }),
    (w) => ({ ...knife, amplifier: { ...knife.amplifier, offsetVoltage: w * 1e-4 } }),
    (w) => ({ ...knife, wires: 2, surroundings: { contactVariation: w * 1e-3 } }),
    (w) => ({ ...knife, converter: { ...knife.converter, nonlinearity: w } }),
    (w) => ({
      ...knife,
      excitationSwitch: {
        resistance: { nominal: 20, lower: 20 - w, upper: 20 + w, distribution: { kind: 'rectangular' } },
      },
    }),
  ]
  it('never improves a worst-case margin', () => {
    fc.assert(
      fc.property(fc.constantFrom(...widened), real(0.1, 3), real(1.05, 3), (of, w, factor) => {
        const [narrow, wide] = [check(of(w)), check(of(w * factor))]
        for (const before of narrow.margins) {
          const after = wide.margins.find(({ id }) => id === before.id)!
          expect(after.slack, before.id).toBeLessThanOrEqual(before.slack + 1e-9 * Math.abs(before.limit))
        }
      }),
      { numRuns: 10, seed: 4 },
    )
  })

  it('nor do wider conditions', () => {
    const narrow = check(knife, {
      rail: { from: 3.3, to: 3.9 },
      ambientCelsius: { from: 15, to: 35 },
      nominalRail: 3.6,
    })
    const wide = check(knife, { ...cell, nominalRail: 3.6 })
    for (const before of narrow.margins) {
      const after = wide.margins.find(({ id }) => id === before.id)!
      expect(after.slack, before.id).toBeLessThanOrEqual(before.slack + 1e-9 * Math.abs(before.limit))
    }
  })
})

describe('the three answers about one reading', () => {
  const choices: DividerChoice[] = [
    knife,
    { ...knife, topology: 'load at rail', gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %' } },
    { ...knife, pedestal: 0.02, calibration: { kind: 'zero and span', resistor: '1 ohm ±0.2 %' } },
  ]
  /** The model at one rail and temperature, what is normal cut to a rectangle of the same limits. */
  const bounded = (choice: DividerChoice) => {
    const { inputs, model, row, fill } = dividerModel(choice, cell)
    const fixed: Record<string, Input> = { ...inputs, V_rail: 3.3, T_d: 10 }
    const cut = Object.entries(fixed).map(([name, input]) => [
      name,
      typeof input === 'object' && input.distribution.kind === 'normal'
        ? { ...input, distribution: { kind: 'rectangular' as const } }
        : input,
    ])
    return { inputs: Object.fromEntries(cut) as typeof inputs, model, options: { row, fill }, row }
  }

  it.each(choices.map((choice, i) => [i, choice] as const))('no sample lies beyond the extremes: %i', (_, choice) => {
    const { inputs, model, options, row } = bounded(choice)
    const { lower, upper } = extremes(inputs, model, { row })
    const { minimum, maximum } = simulate(inputs, model, { ...options, seed: 5, maximumTrials: 50_000 })
    expect(minimum).toBeGreaterThanOrEqual(lower)
    expect(maximum).toBeLessThanOrEqual(upper)
  })

  it.each(choices.map((choice, i) => [i, choice] as const))(
    'linear and simulated uncertainty agree: %i',
    (_, choice) => {
      const { inputs, model, options, row } = bounded(choice)
      const linear = propagate(inputs, model, { row })
      const simulated = simulate(inputs, model, { ...options, seed: 6, maximumTrials: 50_000 })
      expect(Math.abs(simulated.u / linear.u - 1)).toBeLessThan(0.02)
      expect(Math.abs(simulated.mean - linear.estimate)).toBeLessThan(0.02 * linear.u)
    },
  )

  it('the same seed gives the same answer', () => {
    const once = () => checkDivider(knife, cell, { simulation: { seed: 11, maximumTrials: 20_000 } })
    expect(once()).toEqual(once())
    const other = checkDivider(knife, cell, { simulation: { seed: 12, maximumTrials: 20_000 } })
    expect(other.budgets.R_ind.simulation!.interval).not.toEqual(once().budgets.R_ind.simulation!.interval)
  })
})

describe('hostile input', () => {
  const hostile = fc.constantFrom<unknown>(
    ...[
      NaN,
      Infinity,
      -Infinity,
      -0,
      0,
      1e308,
      -1e308,
      1e-308,
      1,
      -1,
      0.5,
      '',
      ' ',
      'x',
      '1 2',
      '47 ohm',
      '5 V',
      '1 %',
    ],
    ...['1 ohm ±200 %', null, undefined, true, [], {}, [1, 2], { __proto__: null, nominal: 1 }, () => 1, 10n],
    { nominal: 1, lower: 2, upper: 0, distribution: { kind: 'rectangular' } },
    JSON.parse('{"__proto__": {"from": 1}}'),
  )
  const paths = fc.constantFrom(
    ...['reference', 'error', 'topology', 'wires', 'excitation', 'pedestal', 'amplifierSupply', 'calibration'],
    ...['load', 'load.from', 'load.to', 'load.nominal', 'load.heatCapacity', 'load.thermalResistance', 'gainResistors'],
    ...['gainResistors.feedback', 'gainResistors.ratioDrift', 'amplifier', 'amplifier.offsetVoltage', 'timing'],
    ...['amplifier.openLoopGainDb', 'amplifier.gainBandwidth', 'amplifier.lowOutput', 'converter', 'converter.bits'],
    ...['converter.noise', 'converter.gain', 'converter.reference', 'timing.wait', 'timing.samples', 'timing.filter'],
    ...['surroundings.leadResistance', 'surroundings.undershoot', 'excitationSwitch.saturation', 'thermometry'],
    ...['thermometry.element', 'thermometry.hotCelsius', 'thermometry.restCelsius', 'thermometry.error', 'rail'],
    ...['rail.from', 'ambientCelsius', 'ambientCelsius.to', 'nominalRail'],
  )
  /** Every number in an answer is finite, down to the last one. */
  const finite = (value: unknown, path = ''): void => {
    if (typeof value === 'number') expect(Number.isFinite(value), `${path} = ${value}`).toBe(true)
    else if (typeof value === 'object' && value !== null)
      for (const [key, part] of Object.entries(value)) finite(part, `${path}.${key}`)
  }
  const answered = (run: () => unknown) => {
    try {
      finite(run())
    } catch (error) {
      if (!(error instanceof InputError)) throw error
    }
  }
  const base = {
    ...knife,
    ...cell,
    load: { ...knife.load, temperatureCoefficient: 0.004, thermalResistance: 10 },
    thermometry: { element: { coefficient: 0.004 }, hotCelsius: 100, error: 20 },
  }
  const changed = (changes: readonly (readonly [string, unknown])[]) => {
    const copy = structuredClone(base) as Record<string, unknown>
    for (const [path, value] of changes) {
      const [first, second] = path.split('.') as [string, string?]
      if (second === undefined) copy[first] = value
      else copy[first] = { ...(copy[first] as object), [second]: value }
    }
    const { rail, ambientCelsius, nominalRail, ...choice } = copy
    return [choice, { rail, ambientCelsius, ...(nominalRail !== undefined && { nominalRail }) }] as [never, never]
  }

  it('to a check gives the library’s own error or finite numbers', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(paths, hostile), { minLength: 1, maxLength: 2 }), (changes) => {
        const [choice, conditions] = changed(changes)
        answered(() => checkDivider(choice, conditions, { simulation: false }))
      }),
      { numRuns: 150, seed: 7 },
    )
  })

  it('to every other verb as well', () => {
    fc.assert(
      fc.property(paths, hostile, hostile, (path, value, other) => {
        const [choice, conditions] = changed([[path, value]])
        answered(() => dividerModel(choice, conditions).inputs)
        answered(() => dividerOverRail(choice, conditions, other as number))
        answered(() => platinumRatio(other as number))
        answered(() => platinumCelsius(other as number))
        answered(() => sizeDivider(other as never))
        answered(() => checkDivider(other as never, conditions))
        answered(() => checkDivider(choice, other as never))
      }),
      { numRuns: 40, seed: 8 },
    )
  })
})
