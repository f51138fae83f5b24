import { type MarginSpec, marginOf } from '@ohmward/budget'
import { type Input, relative } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import {
  acquisitionError,
  acquisitionNeeded,
  averagedNoise,
  averagedResidual,
  averagedRipple,
  averagingBits,
  bledLevel,
  convertedCode,
  cutOffLanding,
  ditheredHalfWidth,
  groundBounce,
  pinVoltage,
  railFromReference,
  railResolution,
  referenceCode,
  referenceShift,
  referenceWait,
  reservoirError,
  reservoirNeeded,
  sensorWindow,
  tapDrop,
} from '../src/formulas/index.js'
import { averaged, nearEdge, schedule } from '../src/index.js'
import {
  absoluteHighMargin,
  absoluteLowMargin,
  acquisitionMargin,
  cutOffHighMargin,
  cutOffLowMargin,
  ditherMargin,
  edgeMargin,
  openLoadMargin,
  openPinMargin,
  railStepMargin,
  referenceWaitMargin,
  reservoirMargin,
  tapMargin,
  windowMargin,
} from './limits.js'

/** Slack of a margin over its inputs' limits; the margin must say which pitfall it catches. */
function slack<K extends string>(spec: MarginSpec<K>, inputs: Record<NoInfer<K>, Input>, trap: string): number {
  const margin = marginOf(spec, { inputs, conditions: [] })
  expect(margin.catches).toContain(trap)
  expect(margin.verdict).toBe(margin.slack >= 0 ? 'holds' : 'fails')
  return margin.slack
}

/** Normal distribution function by the midpoint rule: an own, slow route, good to 1e-9. */
function normalCdf(z: number): number {
  if (z < -9) return 0
  if (z > 9) return 1
  const steps = 4000
  const h = (z + 9) / steps
  let sum = 0
  for (let i = 0; i < steps; i++) sum += Math.exp(-((-9 + (i + 0.5) * h) ** 2) / 2)
  return (sum * h) / Math.sqrt(2 * Math.PI)
}

/** Mean of floor(x + sigma·normal) + ½, minus x: what averaging for ever leaves of the rounding. */
function meanRounding(x: number, sigma: number): number {
  let mean = 0
  for (let k = -8; k <= 9; k++) mean += 1 - normalCdf((k - x) / sigma)
  return mean - 9 + 0.5 - x
}

describe('pitfalls of converter, reference and sampling', () => {
  it('D01 source impedance: the sampling time that leaves half a count, and the one that does not', () => {
    const x = { R_s: 10e3, R_sw: 10e3, C_sh: 15e-12, N_bits: 10 }
    const t_need = acquisitionNeeded(x)
    expect(acquisitionError({ ...x, t_acq: t_need })).toBeCloseTo(2 ** -11, 12)
    expect(slack(acquisitionMargin, { ...x, t_acq: 12e-6 }, 'D01')).toBeCloseTo(12e-6 - t_need, 12)
    expect(slack(acquisitionMargin, { ...x, t_acq: 12e-6, R_s: 1e6 }, 'D01')).toBeLessThan(0)
    expect(pinVoltage({ V_s: 2, s_acq: 0.25, I_leak: 1e-6, R_s: 1e5 })).toBeCloseTo(1.4, 12)
  })

  it('D01 reservoir: half a count at most from one sample, and what a train of samples settles to', () => {
    const x = { N_bits: 10, C_sh: 15e-12, R_s: 1e5 }
    const C_need = reservoirNeeded(x)
    expect(slack(reservoirMargin, { ...x, C_res: 100e-9 }, 'D01')).toBeCloseTo(100e-9 - C_need, 15)
    expect(slack(reservoirMargin, { ...x, C_res: 10e-9 }, 'D01')).toBeLessThan(0)
    expect(reservoirError({ ...x, C_res: C_need, T_s: 10 })).toBeCloseTo(0.5, 3)
    // The same train of samples, one after the other.
    const [C_res, T_s] = [10e-9, 200e-6]
    let before = 1
    let sampled = 1
    for (let i = 0; i < 2000; i++) {
      sampled = (before * C_res) / (C_res + x.C_sh)
      before = 1 - (1 - sampled) * Math.exp(-T_s / (x.R_s * C_res))
    }
    expect(reservoirError({ ...x, C_res, T_s })).toBeCloseTo(1024 * (1 - sampled), 9)
    // Much faster than the recharge it is a resistive load T/C_sh, whatever the reservoir.
    expect(reservoirError({ ...x, C_res: 1e-6, T_s: 1e-4 })).toBeCloseTo(
      (1024 * 1e5 * 15e-12) / (1e-4 + 1e5 * 15e-12),
      1,
    )
  })

  it('D02 reference switch: the longer of start-up and the capacitor at its pin', () => {
    const none = { t_start: 70e-6, n_tau: 8, R_refint: 32e3, C_refpin: 0 }
    const bare = referenceWait(none)
    expect(bare).toBe(70e-6)
    expect(slack(referenceWaitMargin, { ...none, t_wait: 10e-6 }, 'D02')).toBeCloseTo(-60e-6, 12)
    expect(slack(referenceWaitMargin, { ...none, t_wait: 250e-6 }, 'D02')).toBeGreaterThan(0)
    const filtered = referenceWait({ t_start: 70e-6, n_tau: 8, R_refint: 32e3, C_refpin: 100e-9 })
    expect(filtered).toBeCloseTo(25.6e-3, 12)
    expect(slack(referenceWaitMargin, { ...none, C_refpin: 100e-9, t_wait: 10e-3 }, 'D02')).toBeLessThan(0)
  })

  it('D03 internal reference as absolute: the cut-off lands 9 % off', () => {
    const V_land = cutOffLanding({ V_cut: 3, V_bg: 1.1 * 0.91, V_bgnom: 1.1 })
    expect(V_land).toBeCloseTo(2.73, 12)
    const inputs = { V_cut: 3, V_bg: relative(1.1, 0.09), V_bgnom: 1.1, V_band: 0.2 }
    for (const margin of [cutOffLowMargin, cutOffHighMargin]) {
      expect(slack(margin, inputs, 'D03')).toBeCloseTo(-0.07, 9)
      expect(slack(margin, { ...inputs, V_band: 0.3 }, 'D03')).toBeCloseTo(0.03, 9)
    }
    // The rail that firmware reads with the nominal reference is off by the same ratio, the other way round.
    const code_bg = referenceCode({ V_bg: 1.1 * 0.91, N_bits: 10, V_rail: 3 })
    expect(railFromReference({ V_bg: 1.1, N_bits: 10, code_bg })).toBeCloseTo(3 / 0.91, 12)
  })

  it('D04 one over the code: a count is worth twice as much at 4.2 V as at 3.0 V', () => {
    const high = railResolution({ V_rail: 4.2, V_bg: 1.1, N_bits: 10 })
    const low = railResolution({ V_rail: 3, V_bg: 1.1, N_bits: 10 })
    expect(high / low).toBeCloseTo(1.96, 12)
    const step = { V_bg: 1.1, N_bits: 10, dV_allowed: 10e-3 }
    expect(slack(railStepMargin, { ...step, V_rail: 4.2 }, 'D04')).toBeCloseTo(10e-3 - high, 12)
    expect(slack(railStepMargin, { ...step, V_rail: 3 }, 'D04')).toBeGreaterThan(0)
    // Near the derivative: the difference of two neighbouring codes.
    const code_bg = referenceCode({ V_bg: 1.1, N_bits: 10, V_rail: 3 })
    const difference =
      railFromReference({ V_bg: 1.1, N_bits: 10, code_bg }) -
      railFromReference({ V_bg: 1.1, N_bits: 10, code_bg: code_bg + 1 })
    expect(difference).toBeCloseTo(low, 4)
  })

  it('D05 supply as reference: an absolute channel reads wrong by the ratio, a ratiometric one does not', () => {
    const e_ref = referenceShift({ V_assumed: 3.3, V_ref: 3.35 })
    expect(e_ref).toBeCloseTo(-0.0149, 4)
    const rails = { V_assumed: 3.3, V_ref: 3.35 }
    expect(slack(absoluteLowMargin, { ...rails, e_allowed: 0.01 }, 'D05')).toBeCloseTo(0.01 + e_ref, 12)
    expect(slack(absoluteLowMargin, { ...rails, e_allowed: 0.02 }, 'D05')).toBeGreaterThan(0)
    const sagging = {
      V_assumed: 3.3,
      V_ref: { nominal: 3.3, lower: 3, upper: 3.3, distribution: { kind: 'rectangular' } },
    } as const
    expect(slack(absoluteHighMargin, { ...sagging, e_allowed: 0.05 }, 'D05')).toBeCloseTo(0.05 - 0.1, 9)
  })

  it('D06 averaging: no bits without noise, none off the systematic part', () => {
    expect([4, 16, 64].map((M_avg) => averagingBits({ M_avg }))).toEqual([1, 2, 3].map((n) => expect.closeTo(n, 12)))
    expect(slack(ditherMargin, { n_rms: 0.3 }, 'D06')).toBeCloseTo(-0.2, 12)
    expect(slack(ditherMargin, { n_rms: 0.7 }, 'D06')).toBeCloseTo(0.2, 12)
    expect(averagedResidual({ e_sys: 2, n_rms: 1, M_avg: 1e4 })).toBeCloseTo(2, 4)
    expect(averaged(0, 64).halfWidth).toBe(0.5)
    expect(averaged(0.7, 64).noise).toBeCloseTo(averagedNoise({ n_rms: 0.7, M_avg: 64 }), 5)
  })

  it('D06 averaging: what the noise leaves of the rounding is bounded at every place between two codes', () => {
    for (const sigma of [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]) {
      let worst = 0
      for (let x = 0; x < 1; x += 1 / 64) worst = Math.max(worst, Math.abs(meanRounding(x, sigma)))
      const bound = ditheredHalfWidth({ n_rms: sigma })
      expect(worst, `${sigma}`).toBeLessThanOrEqual(bound + 1e-8)
      // Not idle: from a third of a count on, the first harmonic is nearly all of it.
      if (sigma >= 0.3) expect(worst).toBeGreaterThan(0.85 * bound)
    }
    expect(ditheredHalfWidth({ n_rms: 0.5 })).toBeLessThan(0.003)
  })

  it('D07 edges: a shared ground moves the code, samples within five time constants are flagged', () => {
    expect(groundBounce({ I_step: 8, R_gnd: 5e-3, V_ref: 3.3, N_bits: 10 })).toBeCloseTo(12.4, 1)
    expect(slack(edgeMargin, { t_edge: 40e-6, tau: 10e-6 }, 'D07')).toBeCloseTo(-10e-6, 12)
    expect(slack(edgeMargin, { t_edge: 60e-6, tau: 10e-6 }, 'D07')).toBeCloseTo(10e-6, 12)
    const { on } = schedule([
      { name: 'current', window: 'on', recovery: 0, settling: 40e-6, acquisition: 2e-6, conversion: 2e-6 },
    ])
    expect(nearEdge(on, 1e-3, 10e-6)).toEqual(['current'])
  })

  it('D08 floating pin: a bleed resistor gives it a level, and open is told from the largest load', () => {
    expect(bledLevel({ I_leak: 50e-9, R_bleed: 100e3 })).toBeCloseTo(5e-3, 12)
    expect(slack(openPinMargin, { I_leak: 50e-9, R_bleed: relative(100e3, 0.05), V_detect: 10e-3 }, 'D08')).toBeCloseTo(
      4.75e-3,
      9,
    )
    expect(slack(openLoadMargin, { R_open: 3, R_max: 2, U_R: 0.2 }, 'D08')).toBeCloseTo(0.8, 12)
    expect(slack(openLoadMargin, { R_open: 2.1, R_max: 2, U_R: 0.2 }, 'D08')).toBeCloseTo(-0.1, 12)
  })

  it('D09 tap after fuse and diode: their drop is the error', () => {
    const dV_tap = tapDrop({ I_cell: 8, R_series: 0.02, V_F: 0.3 })
    expect(dV_tap).toBeCloseTo(0.46, 12)
    expect(slack(tapMargin, { I_cell: 8, R_series: 0.02, V_F: 0.3, dV_allowed: 0.1 }, 'D09')).toBeCloseTo(-0.36, 12)
    expect(slack(tapMargin, { I_cell: 1, R_series: 0.02, V_F: 0, dV_allowed: 0.1 }, 'D09')).toBeCloseTo(0.08, 12)
  })

  it('E08 filter against the PWM window: 607 µs do not go into 200 µs; the ripple is that of the wave itself', () => {
    const tau = 1 / (2 * Math.PI * 2e3)
    expect(sensorWindow({ BW_s: 1e5, N_bits: 10, tau, t_acq: 2e-6 })).toBeCloseTo(3.5e-6 + 606.75e-6 + 2e-6, 8)
    const t_tasks = sensorWindow({ BW_s: 1e5, N_bits: 10, tau, t_acq: 2e-6 })
    expect(slack(windowMargin, { t_window: 0.2e-3, t_tasks }, 'E08')).toBeCloseTo(0.2e-3 - t_tasks, 12)
    const [D_PWM, f_PWM] = [0.3, 5e3]
    let v = 0
    let top = 0
    for (let i = 0; i < 200; i++) {
      top = 1 - (1 - v) * Math.exp(-D_PWM / (f_PWM * tau))
      v = top * Math.exp(-(1 - D_PWM) / (f_PWM * tau))
    }
    expect(averagedRipple({ D_PWM, f_PWM, tau })).toBeCloseTo(top - v, 12)
  })

  it('converts in the order of a data sheet: offset and nonlinearity add, the gain scales', () => {
    expect(convertedCode({ code_ideal: 500, e_gain: 0.01, e_offset: 2, e_INL: -1, e_q: 0.5, e_n: 0 })).toBeCloseTo(
      506.5,
      12,
    )
  })
})
