import { exampleConverters } from '@ohmward/adc'
import { extremes, relativeSlack } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import {
  checkDivider,
  type DividerChoice,
  type DividerConditions,
  dividerModel,
  exampleAmplifiers,
} from '../src/index.js'
import { cell, check, ideal, idealConverter, knife, knifeAtRail, margin, quiet } from './design.js'

/** A choice in which a handful of tolerances is left, so that every corner can be looked at. */
const reduced: DividerChoice = {
  ...ideal,
  reference: '47 ohm ±1 %',
  referencePart: { temperatureCoefficient: 1e-4 },
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %', ratioDrift: 0 },
  amplifier: {
    ...ideal.amplifier,
    offsetVoltage: '0.5 mV',
    offsetDrift: '5 uV/K',
    highOutputDrop: '20 mV',
    lowOutput: '20 mV',
  },
  excitationSwitch: { resistance: '10 ohm ±20 %', saturation: '50 mV', currentLimit: '0.1 A' },
}

/** The smallest and largest of a quantity over every corner of the limits and the conditions: by brute force, by hand. */
function corners(quantity: (x: Corner) => number, R_x: number): [number, number] {
  let [low, high] = [Infinity, -Infinity]
  for (let mask = 0; mask < 2 ** 9; mask++) {
    const end = (bit: number, a: number, b: number) => ((mask >> bit) & 1 ? b : a)
    const x: Corner = {
      V: end(0, 3, 4.2),
      T: end(1, -25, 25),
      R_ref: 47 * end(2, 0.99, 1.01),
      alpha: end(3, -1e-4, 1e-4),
      R_f: 22e3 * end(4, 0.99, 1.01),
      R_g: 1e3 * end(5, 0.99, 1.01),
      V_os: end(6, -5e-4, 5e-4),
      D_os: end(7, -5e-6, 5e-6),
      R_sw: 10 * end(8, 0.8, 1.2),
      R_x,
    }
    const value = quantity(x)
    low = Math.min(low, value)
    high = Math.max(high, value)
  }
  return [low, high]
}
type Corner = Record<'V' | 'T' | 'R_ref' | 'alpha' | 'R_f' | 'R_g' | 'V_os' | 'D_os' | 'R_sw' | 'R_x', number>

/** Self-heating of the reference at 1 % duty and 150 K/W. */
function warm({ V, T, R_ref, alpha, R_sw, R_x }: Corner): number {
  const P = ((V - 0.05) / (R_ref + R_sw + R_x)) ** 2 * R_ref
  return R_ref * (1 + alpha * (T + 1.5 * P))
}
const current = (x: Corner) => (x.V - 0.05) / (warm(x) + x.R_sw + x.R_x)
const output = (x: Corner) => (1 + x.R_f / x.R_g) * (current(x) * x.R_x + x.V_os + x.D_os * x.T)

describe('the worst case of each margin is that of all corners', () => {
  const { margins } = check(reduced)
  const of = (id: string) => margins.find((one) => one.id === id)!

  it('headroom: room below the highest output, at the largest load', () => {
    const [least] = corners((x) => x.V - 0.02 - output(x), 1.2)
    // What the test leaves out: resistor noise of some 0.1 mV at the output.
    expect(Math.abs(of('headroom').slack - least)).toBeLessThan(1e-3)
    expect(of('headroom').at).toMatchObject({ V_rail: 3 })
    expect(of('headroom').limit).toBeCloseTo(2.98, 9)
  })

  it('dead zone: lowest amplifier output, at the smallest load', () => {
    const [least] = corners((x) => output(x) - 0.02, 0.5)
    expect(Math.abs(of('dead-zone').slack - least)).toBeLessThan(1e-3)
    expect(of('dead-zone').limit).toBe(0.02)
  })

  it('test current and dissipation, at the smallest load', () => {
    const [, most] = corners(current, 0.5)
    expect(of('test-current').worst).toBeCloseTo(most, 9)
    expect(of('test-current').limit).toBe(0.1)
    const [, power] = corners((x) => current(x) ** 2 * warm(x) * 0.01, 0.5)
    expect(of('dissipation').worst).toBeCloseTo(power, 9)
    expect(of('dissipation').limit).toBe(0.125)
  })

  it('common mode, either end', () => {
    const [, most] = corners((x) => current(x) * x.R_x, 1.2)
    expect(Math.abs(of('common-mode-high').worst - 3.3 + of('common-mode-high').slack)).toBeLessThan(1e-9)
    expect(of('common-mode-high').slack).toBeGreaterThan(3.3 - most)
    const [least] = corners((x) => current(x) * x.R_x, 0.5)
    expect(of('common-mode-low').worst).toBeCloseTo(least, 9)
    expect(of('common-mode-low').slack).toBeCloseTo(least + 0.3, 9)
  })

  it.each([
    ['error-smallest', 0.5],
    ['error-nominal', 0.7],
    ['error-largest', 1.2],
  ])('%s', (id, R_x) => {
    const indicated = (x: Corner) => {
      const r = (output(x) * 3.6) / (x.V * 23 * 3.55)
      return (57 * r) / (1 - r)
    }
    const [low, high] = corners(indicated, R_x)
    const reach = Math.max(high - R_x, R_x - low)
    // Rounding of half a count, 0.4 mohm here, and noise of resistors come on top.
    const count = (0.5 / 4096 / 23) * ((57 + R_x) ** 2 / 57) * (3.6 / 3.55)
    expect(of(id).worst).toBeGreaterThan(reach + 0.9 * count)
    expect(of(id).worst).toBeLessThan(reach + 3 * count)
    expect(of(id).limit).toBeCloseTo(0.05 * R_x, 12)
    expect(of(id).slack).toBeCloseTo(of(id).limit - of(id).worst, 12)
    const ends = [3, 4.2].map((V) => corners((x) => (x.V === V ? Math.abs(indicated(x) - R_x) : 0), R_x)[1])
    // Where both ends of the rail are as bad, what was left out here decides.
    const apart = ends[0]! - ends[1]!
    expect([apart > -count && 3, apart < count && 4.2]).toContain(of(id).at['V_rail'])
  })
})

describe('margins without spread', () => {
  it('settling: recovery, slewing, amplifier, filter', () => {
    const slow = { ...knife, timing: { filter: '20 us', wait: '400 us' } }
    // The slowest loop is that of the largest noise gain: a percent in each resistor is two in their ratio.
    const amplifier = (percent: number) => {
      const gain = 1 + (22 * (1 + percent / 100)) / (1 - percent / 100)
      return 50e-6 + 4.2 / 0.7e6 + (13 * Math.LN2 * gain) / (2 * Math.PI * 1.5e6)
    }
    const found = margin(slow, 'settling')
    expect(found.worst).toBeCloseTo(amplifier(1) + 13 * Math.LN2 * 20e-6, 12)
    expect(found.limit).toBe(400e-6)
    // A difference amplifier of the same resistors has a noise gain of one more than its signal gain.
    expect(margin(knifeAtRail, 'settling').worst).toBeCloseTo(amplifier(0.1), 12)
    const supplied = margin({ ...knife, amplifierSupply: '5 V' }, 'settling')
    expect(supplied.worst).toBeCloseTo(amplifier(1) + 0.8 / 0.7e6, 12)
  })

  it('acquisition: source and switch into the sampling capacitor', () => {
    const found = margin({ ...knife, timing: { filterResistance: '10 kohm' } }, 'acquisition')
    expect(found.worst).toBeCloseTo(11e3 * 8e-12 * 13 * Math.LN2, 15)
    expect(found.limit).toBe(2e-6)
  })

  it('supply of the amplifier, at both ends', () => {
    expect(margin(knife, 'supply-low')).toMatchObject({ worst: 3, limit: 1.8, verdict: 'holds' })
    expect(margin(knife, 'supply-high')).toMatchObject({ worst: 4.2, limit: 5.5, verdict: 'holds' })
    const own = { ...knife, amplifierSupply: '5.4 V ±5 %' }
    expect(margin(own, 'supply-high').worst).toBeCloseTo(5.67, 9)
    expect(margin(own, 'supply-high').verdict).toBe('fails')
  })

  it('series resistance while the load is driven and by undershoot: a milliampere beyond 0.3 V', () => {
    expect(margin({ ...knife, amplifierSupply: '3.3 V' }, 'driven')).toMatchObject({ worst: 1000, verdict: 'holds' })
    expect(margin({ ...knife, amplifierSupply: '3.3 V' }, 'driven').limit).toBeCloseTo(600, 9)
    expect(margin(knife, 'undershoot').limit).toBeCloseTo(700, 9)
    expect(margin({ ...knife, surroundings: { protectionResistance: '470 ohm' } }, 'undershoot').verdict).toBe('fails')
    expect(margin(knifeAtRail, 'undershoot').worst).toBeCloseTo(999, 9)
  })
})

describe('the answer of a check', () => {
  it('orders its margins by relative slack and takes the worst verdict', () => {
    for (const choice of [knife, { ...knife, error: '1 %' }]) {
      const { margins, verdict } = check(choice)
      const slacks = margins.map(relativeSlack)
      expect(slacks).toEqual([...slacks].sort((a, b) => a - b))
      expect(verdict).toBe(margins.some((one) => one.verdict === 'fails') ? 'fails' : 'holds')
    }
    expect(check(knife).verdict).toBe('holds')
    expect(check({ ...knife, error: '1 %' }).verdict).toBe('fails')
  })

  it('says in words what decides', () => {
    expect(check(knife).summary).toMatch(
      /^Holds: tightest is the error at the smallest load, with .* to spare\. At 700 mΩ expect ±14 mΩ \(95 %\), at worst ±31\.\d mΩ\.$/,
    )
    expect(check({ ...knife, error: '1 %' }).summary).toMatch(
      /^Fails: the error at the .* load is .*Ω over its limit\. At/,
    )
  })

  it('expects no certain reading from an output that stands at its end', () => {
    // The output clips, so nothing varies; what it reads is wrong all the same.
    const clipped = check({ ...knife, gainResistors: { feedback: '200 kohm', ground: '1 kohm' } })
    const { linear } = clipped.budgets.R_ind
    expect(0.7 - linear.estimate).toBeGreaterThan(0.4)
    expect(clipped.summary).toMatch(/At 700 mΩ expect ±4\d0 mΩ \(95 %\), at worst ±4\d\d mΩ\.$/)
  })

  it('finds the worst error of a load of 0 ohm, whose reading only a few boards lift off the lowest output', () => {
    const choice = {
      ...knife,
      load: { from: 0, to: 1.2, nominal: 0.7 },
      error: '20 mohm',
      amplifier: exampleAmplifiers.cmosRailToRail,
    }
    const { inputs, model, row } = dividerModel(choice, cell)
    const found = margin(choice, 'error-smallest')
    for (const V_rail of [3, 4.2]) {
      for (const T_d of [-25, 25]) {
        const { upper } = extremes({ ...inputs, R_x: 0, V_rail, T_d } as never, model as never, { row })
        expect(found.worst).toBeGreaterThanOrEqual(upper - 1e-12)
      }
    }
    // By hand at 3 V, 0.3 V below the specified supply: 3 mV, 8 uV/K for 25 K, 70 dB; 60 dB of the
    // half supply of 3.3 V at which it is specified; converter, bias and resistors add to it.
    const volts = 3e-3 + 2e-4 + 0.3 / 3162 + 1.65 / 1000
    expect(found.worst).toBeGreaterThan((volts * 47) / 3)
    expect(found.worst).toBeLessThan(1.2 * ((volts * 47) / 3))
  })

  it('warns of what flows back into an excitation below the rail', () => {
    const back = (choice: typeof knife) => check(choice).cautions.find(({ id }) => id === 'back-feed')?.text
    // 4.2 V on the load, 3 V behind 46.53 ohm.
    expect(back({ ...knife, excitation: '3 V' })).toContain('26 mA')
    expect(back({ ...knife, excitation: '5 V' })).toBeUndefined()
    expect(back(knife)).toBeUndefined()
  })

  it('gives budgets at three loads, whose shares sum to one', () => {
    const { budgets } = checkDivider(knife, cell, { simulation: { seed: 7, maximumTrials: 20_000 } })
    expect(Object.keys(budgets)).toEqual(['R_ind_smallest', 'R_ind', 'R_ind_largest'])
    for (const { linear, simulation, comparison, extremes } of Object.values(budgets)) {
      expect(linear.contributions.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
      expect(simulation!.u / linear.u).toBeGreaterThan(0.98)
      expect(simulation!.u / linear.u).toBeLessThan(1.02)
      expect(simulation!.within).toBeGreaterThan(0.99)
      expect(simulation!.minimum).toBeGreaterThan(extremes.lower)
      expect(comparison!.text).not.toBe('')
    }
    expect(check(knife).budgets.R_ind.simulation).toBeUndefined()
    expect(budgets.R_ind.quantity).toMatch(/nominal/)
  })

  it('accepts by probability where asked', () => {
    // At worst 3.06 sigma or so away: fails at its worst case, holds for 95 of 100 boards.
    const choice = { ...knife, error: '4 %' }
    expect(check(choice).verdict).toBe('fails')
    expect(checkDivider(choice, cell, { accept: 0.95, simulation: false }).verdict).toBe('holds')
    expect(checkDivider(choice, cell, { accept: 0.9999999, simulation: false }).verdict).toBe('fails')
    expect(margin(choice, 'error-nominal').probability).toBeGreaterThan(0.99)
  })

  it('survives JSON', () => {
    const answer = check({ ...knife, calibration: { kind: 'zero' }, pedestal: 0.02 })
    expect(JSON.parse(JSON.stringify(answer))).toEqual(answer)
  })

  it('takes an allowed error as a resistance or as a share', () => {
    expect(margin({ ...knife, error: '20 mohm' }, 'error-largest').limit).toBe(0.02)
    expect(margin({ ...knife, error: '5 %' }, 'error-largest').limit).toBeCloseTo(0.06, 12)
    expect(margin({ ...knife, error: '20 mohm' }, 'resolution').limit).toBe(0.01)
  })

  it('says what was taken by default, each with its value and unit', () => {
    const said = check(knife).assumptions.join('\n')
    expect(said).toMatch(/The power switch is off/)
    expect(said).toMatch(/Four wires/)
    expect(said).toMatch(/one variable at one instant/)
    expect(said).toMatch(/No calibration/)
    expect(said).toMatch(/surroundings\.leadResistance = 0 Ω \(wires, traces/)
    expect(said).toMatch(/surroundings\.undershoot = 1 V \(/)
    expect(said).toMatch(/gainResistors\.ratioDrift = ±100 ppm\/K \(/)
    expect(said).toMatch(/referencePart\.ratedPower = 250 mW \(/)
    expect(said).toMatch(/timing\.samples = 1 \(/)
    expect(said).not.toMatch(/surroundings\.thermoelectric = 5 µV\/K/)
    expect(said).toMatch(/surroundings\.thermoelectric = ±5 µV\/K \(/)
    const other = check({
      ...knife,
      wires: 2,
      calibration: { kind: 'zero and span', resistor: '1 ohm' },
      excitation: '3 V',
      gainResistors: { ...knife.gainResistors, ratioDrift: 1e-5 },
    }).assumptions.join('\n')
    expect(other).toMatch(/Two wires: leads and contacts/)
    expect(other).toMatch(/different nodes/)
    expect(other).toMatch(/a short and a known resistor/)
    expect(other).not.toMatch(/gainResistors\.ratioDrift/)
    expect(check({ ...knife, calibration: { kind: 'zero' } }).assumptions.join()).toMatch(/by a short at/)
    const absolute = { ...knife, converter: exampleConverters['12-bit converter with its own reference'] }
    expect(check(absolute).assumptions.join()).toMatch(/different nodes/)
  })
})

describe('inputs of the model', () => {
  const inputs = (choice: DividerChoice, conditions: DividerConditions = cell) =>
    dividerModel(choice, conditions).inputs

  it('noise of amplifier, resistors and converter, three standard deviations to a limit', () => {
    // 60 nV and 4kT at 300 K of 1 kohm before one input, 22 kohm beside 1 kohm at the other, over pi/2 of the bandwidth
    // that twice the least product leaves at a gain of 23.
    const resistors = 1000 + (22_000 * 1000) / 23_000
    const density = Math.sqrt(60e-9 ** 2 + 4 * 1.380649e-23 * 300 * resistors)
    const sigma = density * Math.sqrt((Math.PI / 2) * ((2 * 1.5e6) / 23))
    expect(inputs(knife)['V_n']).toMatchObject({ nominal: 0, distribution: { kind: 'normal', coverage: 3 } })
    expect((inputs(knife)['V_n'] as { upper: number }).upper / (3 * sigma)).toBeCloseTo(1, 9)
    const averaged = { ...knife, timing: { samples: 16, filter: '1 ms' } }
    const filtered = (3 * density * Math.sqrt(1 / (4 * 1e-3))) / 4
    expect((inputs(averaged)['V_n'] as { upper: number }).upper / filtered).toBeCloseTo(1, 9)
    expect((inputs(knife)['e_n'] as { upper: number }).upper).toBeCloseTo(2.1, 9)
    expect((inputs(averaged)['e_n'] as { upper: number }).upper).toBeCloseTo(
      3 * Math.sqrt((0.7 ** 2 + 1 / 12) / 16), // rounding averages out with the noise
      9,
    )
    expect(inputs({ ...ideal, surroundings: quiet })['e_n']).toMatchObject({ lower: 0, upper: 0 })
  })

  it('decibels as ratios either way, the loop gain to one side', () => {
    const { m_ps, m_cm, a_ol } = inputs({ ...knife, amplifier: exampleAmplifiers.cmosRailToRail }) as never as Record<
      string,
      { lower: number; upper: number }
    >
    expect(m_cm).toMatchObject({ lower: -1e-3, upper: 1e-3 })
    expect(m_ps!.upper).toBeCloseTo(10 ** -3.5, 12)
    expect(a_ol!.lower).toBe(0)
    expect(a_ol!.upper).toBeCloseTo(10 ** -4.5, 12)
  })

  it('thermoelectric voltage from both of its causes, either way', () => {
    const emf = { ...knife, surroundings: { thermoelectric: '40 uV/K', junctionDifference: '20 K' } }
    expect(inputs(emf)['V_emf']).toMatchObject({ nominal: 0, lower: -8e-4, upper: 8e-4 })
  })

  it('conditions, whose nominal value stays within them', () => {
    expect(inputs(knife)['V_rail']).toMatchObject({ nominal: 3.6, lower: 3, upper: 4.2 })
    expect(inputs(knife)['T_d']).toMatchObject({ nominal: 0, lower: -25, upper: 25 })
    const hot = { ...cell, ambientCelsius: { from: 60, to: 80 }, nominalRail: '5 V' }
    expect(inputs(knife, hot)['T_d']).toMatchObject({ nominal: 35, lower: 35, upper: 55 })
    expect(inputs(knife, hot)['V_rail']).toMatchObject({ nominal: 4.2 })
    expect(inputs(knife, hot)['V_excn']).toBe(5)
    expect(inputs(knife, hot)['V_refn']).toBe(5)
  })

  it('the firmware’s constants: nominal values', () => {
    const choice: DividerChoice = {
      ...knife,
      pedestal: '0.02 ±0.001',
      surroundings: { leadResistance: '30 mohm ±10 mohm' },
      excitationSwitch: { resistance: '25 ohm ±40 %', saturation: '20 mV ±10 mV' },
      excitation: '3 V ±1 %',
      converter: { ...idealConverter, reference: { kind: 'absolute', voltage: '2.5 V ±0.2 %' } },
    }
    expect(inputs(choice)).toMatchObject({
      R_refn: 47,
      R_swn: 25,
      R_leadn: 0.03,
      V_satn: 0.02,
      V_excn: 3,
      V_refn: 2.5,
      G_n: 23,
      p_pedn: 0.02,
    })
    expect(inputs(knifeAtRail)).toMatchObject({ R_cn: 1000, g_n: 22 })
  })
})
