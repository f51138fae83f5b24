import { exampleConverters } from '@ohmward/adc'
import type { Margin } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { remedies } from '../src/changes/index.js'
import {
  actualGain,
  amplifierTimeConstant,
  biasVoltage,
  ceilingResistance,
  coefficientError,
  countResistance,
  dilutionError,
  junctionVoltage,
  loadWarming,
  neededWait,
  resistanceError,
  storedWarmError,
} from '../src/formulas/index.js'
import { type DividerChoice, type DividerConditions, exampleAmplifiers } from '../src/index.js'
import { check, ideal, idealAmplifier, idealConverter, knife, knifeAtRail, margin } from './design.js'

/** Rows for which nothing in the choice can be changed: only the requirement can. */
const withoutChange = ['hot-spot']

/** The margin catches the pitfall: it fails with one choice, holds with the other, and something is known to do about it. */
function caught(
  trap: string,
  id: string,
  failing: DividerChoice,
  passing: DividerChoice,
  at?: [bad: DividerConditions, good: DividerConditions],
): Margin {
  const bad = margin(failing, id, at?.[0])
  expect(bad.verdict, `${id} should fail`).toBe('fails')
  expect(bad.slack).toBeLessThan(0)
  expect(bad.catches).toContain(trap)
  expect(remedies[id]?.length ?? 0, id).toBeGreaterThan(withoutChange.includes(id) ? -1 : 0)
  const good = margin(passing, id, at?.[1])
  expect(good.verdict, `${id} should hold`).toBe('holds')
  expect(good.slack).toBeGreaterThanOrEqual(0)
  return bad
}
const cautions = (choice: DividerChoice) => check(choice).cautions
const warned = (choice: DividerChoice, trap: string) => cautions(choice).some(({ catches }) => catches?.includes(trap))

/** Reference case of the pitfalls: 47 ohm from 3.3 V, gain 40, ten bits, a load of 0.5 ohm. */
const fixed: DividerConditions = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
const reference: DividerChoice = {
  ...ideal,
  load: { from: 0.3, to: 0.6, nominal: 0.5 },
  gainResistors: { feedback: '39 kohm', ground: '1 kohm', ratioDrift: 0 },
  converter: { ...idealConverter, bits: 10 },
}
const amplifier = (changes: object) => ({ ...reference, amplifier: { ...idealAmplifier, ...changes } })

describe('pitfalls A: the amplifier', () => {
  it('A01 output cannot reach the rail', () => {
    const drop = (changes: object, V = 3.3) =>
      margin(
        { ...amplifier({ highOutputDrop: '1.5 V' }), load: { from: 0.3, nominal: 0.5, to: 0.6, ...changes } },
        'headroom',
        {
          ...fixed,
          rail: { from: V, to: V },
        },
      )
    // The case's ceiling at 3.3 V is 0.65 ohm, 558 of 1024 codes; at 2.8 V it is 0.55 ohm.
    const chain = { R_out: 47, p_ped: 0, V_sat: 0, G_a: 40 }
    expect(ceilingResistance({ ...chain, V_hi: 1.8, V_ref: 3.3, V_exc: 3.3 })).toBeCloseTo(0.65, 2)
    expect(ceilingResistance({ ...chain, V_hi: 1.3, V_ref: 2.8, V_exc: 2.8 })).toBeCloseTo(0.55, 2)
    expect(Math.trunc((drop({}).limit / 3.3) * 1024)).toBe(558)
    expect(drop({ to: 0.64 }).verdict).toBe('holds')
    expect(drop({ to: 0.66 }).verdict).toBe('fails')
    expect(drop({ to: 0.54 }, 2.8).verdict).toBe('holds')
    expect(drop({ to: 0.56 }, 2.8).verdict).toBe('fails')
    // Decided at the sagged rail, not at the fresh cell's.
    const sagging = { ...fixed, rail: { from: 2.8, to: 4.2 } }
    const failing = caught('A01', 'headroom', amplifier({ highOutputDrop: '1.5 V' }), reference, [sagging, sagging])
    expect(failing.at).toMatchObject({ V_rail: 2.8 })
    caught('A01', 'supply-low', amplifier({ supplyMinimum: '3 V' }), reference, [sagging, sagging])
  })

  it('A01 output beyond the converter’s reference', () => {
    const converter = (voltage: string) => ({
      ...idealConverter,
      bits: 10,
      reference: { kind: 'absolute', voltage } as const,
    })
    // 40 times 3.3 V 0.6/47.6 is 1.66 V.
    caught(
      'A01',
      'full-scale',
      { ...reference, converter: converter('1.6 V') },
      { ...reference, converter: converter('1.7 V') },
      [fixed, fixed],
    )
    const supplied = {
      ...reference,
      amplifierSupply: '5 V',
      gainResistors: { feedback: '99 kohm', ground: '1 kohm', ratioDrift: 0 },
    }
    expect(margin(supplied, 'headroom', fixed).verdict).toBe('holds')
    expect(margin(supplied, 'full-scale', fixed).verdict).toBe('fails')
    // What runs from the rail that the converter reads against stays below it: nothing of its own to hold.
    expect(check(reference, fixed).margins.map(({ id }) => id)).not.toContain('full-scale')
  })

  it('A02 output cannot reach ground', () => {
    const floor = { gainResistors: { feedback: '2 kohm', ground: '1 kohm', ratioDrift: 0 } }
    // 20 mV of floor at gain 40 and 70 mA are 7 mohm: 0.02/40/0.07.
    const at = (from: number) =>
      margin({ ...amplifier({ lowOutput: '20 mV' }), load: { from, to: 0.6 } }, 'dead-zone', fixed)
    expect(at(0.0067).verdict).toBe('fails')
    expect(at(0.0076).verdict).toBe('holds')
    caught('A02', 'dead-zone', { ...amplifier({ lowOutput: '80 mV' }), ...floor }, reference, [fixed, fixed])
    // A difference amplifier has to sink what flows back through its feedback resistor.
    const sinking = (sinkCurrent: string) => ({
      ...knifeAtRail,
      amplifier: { ...exampleAmplifiers.zeroDrift, sinkCurrent },
    })
    // 22/23 of 4.2 V over 22 kohm: 182 uA, more than the tens of microamperes of a bipolar output.
    expect(caught('A02', 'sink', sinking('30 uA'), sinking('0.2 mA')).worst).toBeCloseTo((4.2 * 22) / 23 / 21978, 5)
    expect(warned(knife, 'A02')).toBe(true)
  })

  it('A03 offset swamps millivolts', () => {
    const typical = margin({ ...amplifier({ offsetVoltage: '2 mV' }), error: '40 mohm' }, 'error-nominal', fixed)
    const most = margin({ ...amplifier({ offsetVoltage: '7 mV' }), error: '40 mohm' }, 'error-nominal', fixed)
    // 29 and 101 mohm at 70 mA: the offset over the current that really flows, 3.3/47.5 A, and the divider's curvature.
    for (const [{ worst }, volts] of [
      [typical, 2e-3],
      [most, 7e-3],
    ] as const) {
      const r = 0.5 / 47.5 + volts / 3.3
      const exact = (47 * r) / (1 - r) - 0.5
      expect(worst).toBeGreaterThan(exact)
      expect(worst).toBeLessThan(exact + 1.5e-3)
      expect(exact / (volts / 0.07)).toBeGreaterThan(0.98)
      expect(exact / (volts / 0.07)).toBeLessThan(1.05)
    }
    const given = (offsetVoltage: string) => ({ ...amplifier({ offsetVoltage }), error: '40 mohm' })
    caught('A03', 'error-nominal', given('7 mV'), given('10 uV'), [fixed, fixed])
    // Drift counts over the temperatures: 20 uV/K over 25 K is half a millivolt, 7 mohm.
    const drifting = { ...amplifier({ offsetDrift: '20 uV/K' }), error: '8 mohm' }
    const warm = { ...fixed, ambientCelsius: { from: 25, to: 50 } }
    caught('A03', 'error-nominal', drifting, drifting, [warm, fixed])
  })

  it('A04 zero reading clipped at ground', () => {
    const zero = (pedestal: number) =>
      ({
        ...amplifier({ offsetVoltage: '3 mV', lowOutput: '15 mV' }),
        pedestal,
        calibration: { kind: 'zero' },
      }) as const
    const failing = caught('A04', 'zero', zero(0), zero(0.05), [fixed, fixed])
    // -3 mV times 40: -120 mV are wanted, resistor noise apart.
    expect(failing.worst).toBeCloseTo(-0.12, 2)
    expect(failing.limit).toBeCloseTo(0.015 + (2 * 3.3) / 1024, 9)
  })

  it('A05 input common mode near the positive rail', () => {
    const atRail = (commonModeHighDrop: string) => ({
      ...knifeAtRail,
      amplifier: { ...exampleAmplifiers.zeroDrift, commonModeHighDrop },
    })
    // The inputs stand at 22/23 of the rail; a bipolar input ends 2 V below it.
    caught('A05', 'common-mode-high', atRail('2 V'), atRail('-0.1 V'))
    caught('A05', 'common-mode-low', amplifier({ commonModeLow: '0.5 V' }), reference)
    expect(margin({ ...knife, amplifier: exampleAmplifiers.bipolarSingleSupply }, 'common-mode-high').verdict).toBe(
      'holds',
    )
    expect(warned(knifeAtRail, 'A05')).toBe(true)
    expect(warned(knife, 'A05')).toBe(false)
  })

  it('A06 input driven below ground', () => {
    // 8 A in 100 ns across 0.1 uH: 8 V below ground, 7.7 V of which 1 mA must drop.
    const edge = (protectionResistance: string) => ({ ...knife, surroundings: { undershoot: 8, protectionResistance } })
    expect(caught('A06', 'undershoot', edge('1 kohm'), edge('8.2 kohm')).limit).toBeCloseTo(7700, 6)
  })

  it('A07 sense amplifier sees full battery while the load is driven', () => {
    // 0.7 MHz at gain 100: 173 us to half a count of ten bits.
    const tau = amplifierTimeConstant({ G_noise: 100, GBW: 0.7e6 })
    expect(11 * Math.LN2 * tau * 1e6).toBeCloseTo(173, 0)
    const hundred = (wait: string) => ({
      ...amplifier({ gainBandwidth: '0.7 MHz', recovery: '30 us' }),
      gainResistors: { feedback: '99 kohm', ground: '1 kohm', ratioDrift: 0 },
      timing: { wait },
    })
    caught('A07', 'settling', hundred('200 us'), hundred('210 us'), [fixed, fixed])
    // 4.2 V on the line, an amplifier at 2.5 V: 1.4 V of which 1 mA must drop.
    const driven = (protectionResistance: string) => ({
      ...knife,
      amplifierSupply: '2.5 V',
      surroundings: { protectionResistance, undershoot: 0 },
    })
    expect(caught('A07', 'driven', driven('1 kohm'), driven('1.5 kohm')).limit).toBeCloseTo(1400, 6)
    // An amplifier at 5 V before a pin at 3 V: 1.7 V.
    const pin = (filterResistance: string) => ({ ...knife, amplifierSupply: '5 V', timing: { filterResistance } })
    expect(caught('A07', 'pin', pin('100 ohm'), pin('1.8 kohm')).limit).toBeCloseTo(1700, 6)
  })

  it('A08 gain and ratio tolerance', () => {
    const tolerant = (t: string, reference_ = '47 ohm'): DividerChoice => ({
      ...reference,
      reference: reference_,
      error: '2.5 %',
      converter: { ...idealConverter, bits: 16 },
      gainResistors: { feedback: `39 kohm ±${t}`, ground: `1 kohm ±${t}`, ratioDrift: 0 },
    })
    // Two 1 % parts at gain 40: 1.95 % of the gain; with a 1 % reference 2.95 %. Exact quotients are a little larger.
    const gain = margin(tolerant('1 %'), 'error-nominal', fixed).worst / 0.5
    expect(gain).toBeGreaterThan(0.0195)
    expect(gain).toBeLessThan(0.0205)
    const all = caught('A08', 'error-nominal', tolerant('1 %', '47 ohm ±1 %'), tolerant('0.1 %', '47 ohm ±1 %'), [
      fixed,
      fixed,
    ])
    expect(all.worst / 0.5).toBeGreaterThan(0.0295)
    expect(all.worst / 0.5).toBeLessThan(0.031)
    // rss of the linear budget: 1.7 % for limits, over the root of three for what is rectangular.
    const { linear } = check(tolerant('1 %', '47 ohm ±1 %'), fixed).budgets.R_ind
    expect((linear.u / 0.5) * Math.sqrt(3)).toBeCloseTo(0.017, 3)
    // A difference amplifier of 1 % parts passes the common mode: at gain 22 it is useless, and says so.
    const pairs = (t: string) => ({
      ...knifeAtRail,
      error: '10 %',
      gainResistors: { feedback: `22 kohm ±${t}`, ground: `1 kohm ±${t}` },
    })
    caught('A08', 'error-smallest', pairs('1 %'), pairs('0.1 %'))
    expect(warned(knifeAtRail, 'A08')).toBe(true)
  })

  it('A09 bias current times resistance', () => {
    // 250 nA and 50 nA of offset current in 39 k parallel 1 k: 0.27 mV, 4 mohm at 70 mA.
    const R_fg = 39e3 / 40
    const volts = Math.abs(biasVoltage({ I_b: 250e-9, I_os: -50e-9, I_leak: 0, R_p: 0, R_fg }))
    expect(volts * 1e3).toBeCloseTo(0.27, 2)
    expect((volts / 0.07) * 1e3).toBeCloseTo(4, 0)
    const biased = (protectionResistance: number): DividerChoice => ({
      ...amplifier({ biasCurrent: '250 nA', offsetCurrent: '50 nA' }),
      error: '3 mohm',
      surroundings: { ...ideal.surroundings, protectionResistance },
    })
    // Matched resistances leave the offset current alone.
    caught('A09', 'error-nominal', biased(0), biased(975), [fixed, fixed])
  })

  it('A10 bandwidth and slew at high gain', () => {
    const pulse = (wait: string) => ({
      ...amplifier({ gainBandwidth: '1 MHz', slewRate: '0.3 V/us' }),
      timing: { wait },
    })
    // 11 ln 2 times 40/(2 pi 1 MHz) and 3.3 V at 0.3 V/us: 48.5 + 11 us.
    const bad = caught('A10', 'settling', pulse('50 us'), pulse('60 us'), [fixed, fixed])
    expect(bad.worst * 1e6).toBeCloseTo(48.54 + 11, 1)
    expect(neededWait({ t_rec: 0, V_hi: 3, SR: 0.3e6, t_settle: 0, t_filter: 0 })).toBeCloseTo(10e-6, 12)
    expect(actualGain({ G: 1000, a_ol: 1e-6 })).toBeCloseTo(1000 / 1.001, 9)
  })
})

describe('pitfalls B: connections and physics', () => {
  it('B01 no gain at all', () => {
    const count = (G_n: number) =>
      countResistance({
        R_refn: 47,
        R_swn: 0,
        kappa: 0,
        R_leadn: 0,
        r: 0.5 / 47.5,
        V_refn: 3.3,
        N_bits: 10,
        G_n,
        V_excn: 3.3,
        V_satn: 0,
      })
    // 46 mohm and 1.15 mohm a count at 70 mA; with the divider's own current and curvature 47 and 1.17.
    expect((count(1) * 1e3) / 46).toBeCloseTo(1.02, 1)
    expect((count(40) * 1e3) / 1.15).toBeCloseTo(1.02, 1)
    const gain = (feedback: string) => ({ ...reference, gainResistors: { feedback, ground: '1 kohm', ratioDrift: 0 } })
    const none = caught('B01', 'resolution', gain('1 ohm'), gain('39 kohm'), [fixed, fixed])
    // A share of the smallest load, where a count weighs most.
    expect(none.limit).toBeCloseTo((0.05 * Number(reference.load.from)) / 2, 12)
    const atRail = caught(
      'B01',
      'resolution',
      { ...gain('100 ohm'), topology: 'load at rail' },
      { ...gain('39 kohm'), topology: 'load at rail' },
      [fixed, fixed],
    )
    expect(atRail.worst).toBeGreaterThan(0.4)
  })

  it('B02 two-wire: leads, contacts, trace', () => {
    const wired = (wires: 2 | 4): DividerChoice => ({
      ...reference,
      wires,
      surroundings: { ...ideal.surroundings, leadResistance: '50 mohm ±50 mohm', contactVariation: '10 mohm' },
    })
    const two = caught('B02', 'error-nominal', wired(2), wired(4), [fixed, fixed])
    expect(two.worst).toBeGreaterThan(0.06)
    expect(two.worst).toBeLessThan(0.063)
    expect(check(wired(2)).assumptions.join()).toMatch(/Two wires/)
    // 1 mm by 10 mm of 35 um copper are 4.9 mohm.
    expect((0.01 / 58e6 / 1e-3 / 35e-6) * 1e3).toBeCloseTo(4.9, 1)
  })

  it('B03 sense tap in the current path', () => {
    const ground = (groundCurrent: number) => ({
      ...reference,
      surroundings: { ...ideal.surroundings, groundCurrent, sharedGround: '5 mohm' },
    })
    // 8 A in 5 mohm are 40 mV: more than the 35 mV of the load itself.
    const bad = caught('B03', 'error-nominal', ground(8), ground(0), [fixed, fixed])
    expect(bad.worst).toBeGreaterThan(0.5)
  })

  it('B04 switch resistance counted as load', () => {
    const inside = (switchInSpan: string) => ({ ...reference, surroundings: { ...ideal.surroundings, switchInSpan } })
    // 20 mohm in 0.5 ohm are 4 %, 30 hot 6 %.
    const bad = caught('B04', 'error-nominal', inside('30 mohm'), inside('20 mohm'), [fixed, fixed])
    expect(bad.worst / 0.5).toBeGreaterThan(0.06)
    expect(bad.worst / 0.5).toBeLessThan(0.063)
    expect(warned(inside('20 mohm'), 'B04')).toBe(true)
    expect(warned(reference, 'B04')).toBe(false)
  })

  it('B05 thermal voltages', () => {
    const junction = (thermoelectric: string): DividerChoice => ({
      ...reference,
      error: '5 mohm',
      surroundings: { ...ideal.surroundings, thermoelectric, junctionDifference: '20 K' },
    })
    // 20 K of nickel-iron are 0.8 mV, 11 mohm; of a tin-lead joint 0.1 mV, 1.4 mohm.
    expect((junctionVoltage({ S_emf: 40e-6, T_j: 20 }) / 0.07) * 1e3).toBeCloseTo(11.4, 1)
    expect((junctionVoltage({ S_emf: 5e-6, T_j: 20 }) / 0.07) * 1e3).toBeCloseTo(1.4, 1)
    caught('B05', 'error-nominal', junction('40 uV/K'), junction('5 uV/K'), [fixed, fixed])
  })

  it('B06 test current heats the load', () => {
    // 10 ms of 1 A in 1 ohm and 0.046 J/K: 0.22 K. 70 mA steady in 1 ohm at 500 K/W: 2.5 K.
    const R_thx = 1e5
    expect(loadWarming({ I_t: 1, R_x: 1, R_thx, d_m: 0, t_wait: 10e-3, tau_x: R_thx * 0.046 })).toBeCloseTo(0.22, 2)
    expect(loadWarming({ I_t: 0.07, R_x: 1, R_thx: 500, d_m: 1, t_wait: 0, tau_x: 1 })).toBeCloseTo(2.45, 9)
    const thin = (measuringDuty: number): DividerChoice => ({
      ...reference,
      error: '1 %',
      timing: { measuringDuty, wait: '1 ms' },
      load: { ...reference.load, temperatureCoefficient: 0.004, thermalResistance: 2000, heatCapacity: 0.046 },
    })
    // 69 mA in 0.6 ohm, 2000 K/W: 5.8 K and 2.3 % at full duty.
    caught('B06', 'warming', thin(1), thin(0.01), [fixed, fixed])
    expect(margin(thin(1), 'warming', fixed).worst / (0.004 * (3.3 / 47.6) ** 2 * 0.6 * 2000)).toBeCloseTo(1, 2)
    const falling = { ...thin(1), load: { ...thin(1).load, temperatureCoefficient: -0.004 } }
    expect(margin(falling, 'warming', fixed).verdict).toBe('fails')
  })

  it('B07 series resistor overdissipates', () => {
    const rated = (ratedPower: string, measuringDuty = 1): DividerChoice => ({
      ...reference,
      load: { from: 0.001, to: 0.6 },
      referencePart: { ...ideal.referencePart!, ratedPower },
      timing: { measuringDuty },
    })
    // 3.3 V over 47 ohm: 0.23 W, too much for 0.125 W at full duty.
    expect(caught('B07', 'dissipation', rated('125 mW'), rated('500 mW'), [fixed, fixed]).worst).toBeCloseTo(0.23, 2)
    expect(margin(rated('125 mW', 0.05), 'dissipation', fixed).verdict).toBe('holds')
    const limited = (currentLimit: string) => ({ ...reference, excitationSwitch: { currentLimit } })
    caught('B07', 'test-current', limited('20 mA'), limited('80 mA'), [fixed, fixed])
  })

  it('B08 cell voltage moves between the two readings', () => {
    // 3 % of sag is 3 % of error where the reference is absolute, nothing where it is the rail.
    const absolute = {
      ...reference,
      error: '2 %',
      converter: { ...idealConverter, reference: { kind: 'absolute', voltage: '3.3 V' } },
    } as const
    const sagging = { rail: { from: 3.2, to: 3.4 }, ambientCelsius: fixed.ambientCelsius }
    expect(caught('B08', 'ratio', absolute, absolute, [sagging, fixed]).worst).toBeCloseTo(0.1 / 3.3, 6)
    expect(margin(absolute, 'error-nominal', sagging).verdict).toBe('fails')
    expect(margin({ ...reference, error: '2 %' }, 'error-nominal', sagging).verdict).toBe('holds')
    expect(check({ ...reference, error: '2 %' }, sagging).margins.map(({ id }) => id)).not.toContain('ratio')
  })

  it('B09 wrong ohms at other values', () => {
    // A fixed offset in resistance grows with the square of the loop: seen at each end of the range, not in the middle.
    const wide: DividerChoice = {
      ...amplifier({ offsetVoltage: '1 mV' }),
      reference: '4.7 ohm',
      gainResistors: { feedback: '1.5 kohm', ground: '1 kohm', ratioDrift: 0 },
      load: { from: 0.2, nominal: 0.7, to: 3 },
      error: '5 mohm',
    }
    const [small, middle, large] = ['smallest', 'nominal', 'largest'].map(
      (name) => margin(wide, `error-${name}`, fixed).worst,
    )
    expect(small!).toBeLessThan(middle!)
    expect(large! / small!).toBeCloseTo((7.7 / 4.9) ** 2, 0)
    caught('B09', 'error-largest', wide, { ...wide, load: { from: 0.2, to: 0.7 } }, [fixed, fixed])
  })

  it('B10 averaging cannot fix contact movement', () => {
    const moving: DividerChoice = {
      ...knife,
      wires: 2,
      surroundings: { contactVariation: '30 mohm' },
      timing: { samples: 20 },
    }
    expect(warned(moving, 'B10')).toBe(true)
    expect(warned({ ...moving, wires: 4 }, 'B10')).toBe(false)
    expect(cautions(moving).find(({ id }) => id === 'contacts')!.text).toMatch(/cause \d\d % of the variance/)
    // The share of the contacts doesn't fall with more readings.
    const worst = (samples: number) => margin({ ...moving, timing: { samples } }, 'error-nominal').worst
    expect(worst(1000) / worst(20)).toBeGreaterThan(0.95)
  })
})

describe('pitfalls C: hot and cold resistance', () => {
  const still = { rail: { from: 3.6, to: 3.6 }, ambientCelsius: { from: 25, to: 25 } }
  const hot = (thermometry: object, more: Partial<DividerChoice> = {}): DividerChoice => ({
    ...ideal,
    load: { from: 0.4, to: 1.2, nominal: 0.5 },
    timing: { filter: '10 ms', wait: '1 s', samples: 65536 },
    converter: { ...idealConverter, bits: 24 },
    ...more,
    thermometry: {
      element: { coefficient: 1e-3, curvature: 0 },
      restCelsius: 25,
      hotCelsius: 225,
      error: 30,
      ...thermometry,
    } as never,
  })

  it('C01 cold value stored while warm', () => {
    // 60 K too warm, 1000 ppm/K, a rise of 200 K: 68 K too low.
    expect(storedWarmError({ T_e: 60, alpha: 1e-3, T_rise: 200 })).toBeCloseTo(-68, 0)
    const bad = caught('C01', 'temperature', hot({ restExcess: 60 }), hot({}), [still, still])
    expect(bad.worst).toBeCloseTo((60 * 1.2) / 1.06, 0)
    expect(warned(hot({}), 'C01')).toBe(true)
    expect(warned(knife, 'C01')).toBe(false)
  })

  it('C02 coefficient spread', () => {
    // 920 ppm/K assumed, 1200 there: 200 K shown as 261; the other way 153.
    expect(200 + coefficientError({ alpha: 1.2e-3, alpha_n: 0.92e-3, T_rise: 200 })).toBeCloseTo(261, 0)
    expect(200 + coefficientError({ alpha: 0.92e-3, alpha_n: 1.2e-3, T_rise: 200 })).toBeCloseTo(153, 0)
    const spread = { nominal: 0.92e-3, lower: 0.88e-3, upper: 1.2e-3, distribution: { kind: 'rectangular' } }
    const bad = caught('C02', 'temperature', hot({ element: { coefficient: spread, curvature: 0 } }), hot({}), [
      still,
      still,
    ])
    expect(bad.worst).toBeCloseTo(61, 0)
  })

  it('C03 alloy with too little coefficient', () => {
    // 1 % of the resistance of nickel-chrome: 59 K. 10 mohm on 0.1 ohm of nickel: 17 K; on 0.15 of stainless steel: 56 K.
    expect(resistanceError({ dR: 0.01, R_rest: 1, alpha: 1.7e-4 })).toBeCloseTo(59, 0)
    expect(resistanceError({ dR: 0.01, R_rest: 0.1, alpha: 6e-3 })).toBeCloseTo(17, 0)
    expect(resistanceError({ dR: 0.01, R_rest: 0.15, alpha: 1.2e-3 })).toBeCloseTo(56, 0)
    const noisy = {
      surroundings: ideal.surroundings!,
      amplifier: { ...idealAmplifier, offsetVoltage: '0.2 mV', offsetDrift: 0 },
      wires: 2 as const,
    }
    caught(
      'C03',
      'temperature',
      hot({ element: { coefficient: 2e-5, curvature: 0 }, error: 1 }, noisy),
      hot({ element: { coefficient: 6e-3, curvature: 0 }, hotCelsius: 125, error: 1 }, noisy),
      [still, still],
    )
    expect(() => check(hot({ element: { coefficient: '10 ppm/K ±30 ppm/K' } }))).toThrow(/another sensor/)
  })

  it('C04 fixed lead resistance dilutes the coefficient', () => {
    // 50 mohm in series with 150: 200 K shown as 150.
    expect(200 + dilutionError({ T_rise: 200, R_fix: 0.05, R_rest: 0.15 })).toBeCloseTo(150, 9)
    // The firmware takes leads for 0; the real ones have up to 50 mohm.
    const leads = { nominal: 0, lower: 0, upper: 0.05, distribution: { kind: 'rectangular' } } as const
    const diluted = (wires: 2 | 4) =>
      hot(
        {},
        {
          wires,
          load: { from: 0.1, to: 1, nominal: 0.15 },
          surroundings: { ...ideal.surroundings, leadResistance: leads },
        },
      )
    const bad = caught('C04', 'temperature', diluted(2), diluted(4), [still, still])
    expect(bad.worst).toBeCloseTo(50, 0)
    // Where 200 K show as 150, what shows as 200 K are 267, and 1.3 times that at the hottest spot.
    const shown = hot(
      { limitCelsius: 400 },
      {
        wires: 2,
        load: { from: 0.1, to: 1, nominal: 0.15 },
        surroundings: { ...ideal.surroundings, leadResistance: leads },
      },
    )
    expect(Math.abs(margin(shown, 'hot-spot', still).worst - (25 + (1.3 * 200) / 0.75))).toBeLessThan(1)
  })

  it('C05 hot spots and average temperature', () => {
    const limited = (limitCelsius: number) => hot({ limitCelsius })
    // A rise of 200 K may be 260 K at the hottest spot.
    expect(caught('C05', 'hot-spot', limited(280), limited(290), [still, still]).worst).toBeCloseTo(285, 2)
    expect(margin(hot({ limitCelsius: 280, hotSpotFactor: 1.2 }), 'hot-spot', still).worst).toBeCloseTo(265, 2)
    expect(warned(hot({}), 'C05')).toBe(true)
  })

  it('C06 sampling too early after switch-off', () => {
    const early = (waitAfterOff: string) => hot({ elementTimeConstant: '0.5 s', waitAfterOff })
    expect(caught('C06', 'equalised', early('1 s'), early('1.5 s'), [still, still]).worst).toBe(1.5)
    expect(check(hot({}), still).margins.map(({ id }) => id)).not.toContain('equalised')
  })
})

describe('pitfalls D: converter, reference, sampling', () => {
  it('D01 source impedance and sampling time', () => {
    // 10 k and 10 k into 15 pF, ten bits: 2.3 us.
    const converter = (acquisitionTime: string) => ({
      ...exampleConverters['10-bit controller converter'],
      acquisitionTime,
    })
    const source = (acquisitionTime: string) => ({
      ...knife,
      converter: converter(acquisitionTime),
      timing: { filterResistance: '10 kohm' },
    })
    expect(caught('D01', 'acquisition', source('2 us'), source('2.5 us')).worst * 1e6).toBeCloseTo(2.3, 1)
  })

  it('D02 reference switch not settled', () => {
    const early = (wait: string) => ({ ...knife, timing: { referenceSettling: '250 us', wait } })
    expect(caught('D02', 'reference-start', early('200 us'), early('300 us')).worst).toBe(250e-6)
    expect(check(knife).margins.map(({ id }) => id)).not.toContain('reference-start')
  })

  it('D03 internal reference used as absolute, D04 its step grows with the square of the rail: the reading uses neither', () => {
    const { text, catches } = cautions(knife).find(({ id }) => id === 'rail-reading')!
    expect(catches).toEqual(['D03', 'D04'])
    expect(text).toMatch(/tolerance.*square/)
    // Where somebody does, the error says so: 9 % of reference.
    const bandgap = {
      ...reference,
      converter: { ...idealConverter, reference: { kind: 'absolute', voltage: '3.3 V ±9 %' } },
    } as const
    const bad = margin(bandgap, 'error-nominal', fixed)
    expect(bad.verdict).toBe('fails')
    expect(bad.worst / 0.5).toBeGreaterThan(0.09)
  })

  it('D05 supply used as reference of something absolute', () => {
    const own = { ...reference, error: '2 %', excitation: '3.3 V' }
    const wide = { rail: { from: 3.2, to: 3.4 }, ambientCelsius: fixed.ambientCelsius }
    caught('D05', 'ratio', own, own, [wide, fixed])
  })

  it('D06 averaging without noise', () => {
    const averaged = (noise: string) => ({
      ...knife,
      converter: { ...exampleConverters['12-bit controller converter'], noise },
      timing: { samples: 64 },
    })
    expect(warned(averaged('0.2 LSB'), 'D06')).toBe(true)
    expect(warned(averaged('0.7 LSB'), 'D06')).toBe(false)
    expect(warned({ ...averaged('0.2 LSB'), timing: { samples: 1 } }, 'D06')).toBe(false)
    // Offset, gain and nonlinearity stay.
    expect(margin(averaged('0.7 LSB'), 'error-nominal').worst / margin(knife, 'error-nominal').worst).toBeGreaterThan(
      0.9,
    )
  })

  it('D07 sampling on switching edges', () => {
    const soon = (wait: string) => ({ ...knife, timing: { wait } })
    caught('D07', 'settling', soon('20 us'), soon('100 us'))
    expect(check(knife).assumptions).toContain('The power switch is off while measuring.')
  })

  it('D08 floating pin, open load', () => {
    // The largest load and its error must still read below the highest output: 40 times 3.3 V 0.63/47.63 is 1.746 V.
    const open = (highOutputDrop: string) => amplifier({ highOutputDrop })
    caught('D08', 'open-load', open('1.57 V'), open('1.5 V'), [fixed, fixed])
    expect(margin(open('1.57 V'), 'headroom', fixed).verdict).toBe('holds')
    expect(warned(knife, 'D08')).toBe(true)
  })

  it('D09 battery tapped after fuse, switch or diode', () => {
    expect(cautions(knife).find(({ id }) => id === 'tap')!.text).toMatch(/fuse, switch or diode/i)
    expect(warned(knife, 'D09')).toBe(true)
  })
})

it('every pitfall from A01 to D09 is named by a margin or a caution', () => {
  const choices: DividerChoice[] = [
    {
      ...knife,
      wires: 2,
      amplifierSupply: '5 V',
      excitation: '3 V',
      calibration: { kind: 'zero' },
      surroundings: { contactVariation: '50 mohm', switchInSpan: '10 mohm' },
    },
    { ...knifeAtRail, timing: { samples: 4, referenceSettling: '70 us' }, converter: { ...idealConverter } },
    {
      ...knife,
      load: { ...knife.load, temperatureCoefficient: 0.004, thermalResistance: 100 },
      thermometry: { element: 'platinum', hotCelsius: 100, error: 5, elementTimeConstant: 1, limitCelsius: 200 },
    },
  ]
  const answers = choices.map((choice) => check(choice))
  const named = new Set(
    answers.flatMap((one) => [...one.margins, ...one.cautions].flatMap(({ catches = [] }) => catches)),
  )
  const wanted = [
    ['A', 10],
    ['B', 10],
    ['C', 6],
    ['D', 9],
  ] as const
  for (const [letter, count] of wanted)
    for (let n = 1; n <= count; n++)
      expect([...named], 'named somewhere').toContain(`${letter}${String(n).padStart(2, '0')}`)
})
