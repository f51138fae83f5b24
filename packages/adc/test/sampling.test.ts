import { exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import * as f from '../src/formulas/index.js'
import { missedCounts } from '../src/index.js'

describe('sampling through the filter', () => {
  const parts = { R_src: 1e3, C_f: 470e-12, R_sw: 1e4, C_sh: 15e-12 }

  /** What the sampling capacitor misses of 1 V after a time, both sections stepped (no closed form). */
  function missing(t_acq: number, { R_src, C_f, R_sw, C_sh }: typeof parts): number {
    let [v1, v2] = [1, 0]
    const dt = t_acq / 400_000
    for (let i = 0; i < 400_000; i++) {
      const i2 = (v1 - v2) / R_sw
      v1 += (((1 - v1) / R_src - i2) / C_f) * dt
      v2 += (i2 / C_sh) * dt
    }
    return 1 - v2
  }

  it.each([
    ['filter and switch alike', parts, 1e-6],
    ['large filter', { ...parts, C_f: 4.7e-9 }, 2e-6],
    ['small filter', { ...parts, C_f: 20e-12 }, 0.5e-6],
  ])('misses what two sections, stepped in time, miss: %s', (_, x, t_acq) => {
    const tau_1 = f.slowSection(x)
    const tau_2 = f.fastSection({ ...x, tau_1 })
    expect(tau_1).toBeGreaterThan(tau_2)
    const loss = f.burstLoss({ ...x, code_ideal: 1, tau_1, tau_2, t_acq, M_w: 1, T_s: 1, T_i: 1 })
    expect(loss / missing(t_acq, x)).toBeCloseTo(1, 3)
  })

  it('loses more the closer the samples', () => {
    const tau_1 = f.slowSection(parts)
    const tau_2 = f.fastSection({ ...parts, tau_1 })
    const at = (T_i: number) =>
      f.burstLoss({ ...parts, code_ideal: 4096, tau_1, tau_2, t_acq: 1e-6, M_w: 1, T_s: T_i, T_i })
    expect(at(2e-6)).toBeGreaterThan(at(1e-3) * 1.01)
    expect(at(1e-3)).toBeCloseTo(at(1), 9)
  })

  /** What the last sample of a burst misses of 1 V, bursts and pauses stepped until each is like the one before. */
  function missingInBurst(x: typeof parts & { t_acq: number; M_w: number; T_s: number; T_i: number }): number {
    const { R_src, C_f, R_sw, C_sh, t_acq, M_w, T_s, T_i } = x
    let v1 = 1
    let missed = 0
    for (let burst = 0; burst < 8; burst++) {
      for (let sample = 0; sample < M_w; sample++) {
        let v2 = 0
        const steps = 4000
        const dt = t_acq / steps
        for (let i = 0; i < steps; i++) {
          const i2 = (v1 - v2) / R_sw
          v1 += (((1 - v1) / R_src - i2) / C_f) * dt
          v2 += (i2 / C_sh) * dt
        }
        missed = 1 - v2
        const pause = sample < M_w - 1 ? T_s - t_acq : T_i - (M_w - 1) * T_s - t_acq
        v1 = 1 - (1 - v1) * Math.exp(-pause / (R_src * C_f))
      }
    }
    return missed
  }

  it.each([
    ['a few samples, far apart bursts', { ...parts, C_f: 100e-9, R_sw: 1e3, C_sh: 8e-12 }, 2e-6, 4, 3e-6, 1e-3],
    ['bursts that the filter still feels at the next one', { ...parts, C_f: 1e-6, R_sw: 1e3 }, 2e-6, 16, 3e-6, 1e-3],
    ['a single sample', { ...parts, C_f: 10e-9, R_sw: 1e3 }, 2e-6, 1, 2e-6, 50e-6],
  ])('misses at the end of a burst what stepping it misses: %s', (_, x, t_acq, M_w, T_s, T_i) => {
    const tau_1 = f.slowSection(x)
    const tau_2 = f.fastSection({ ...x, tau_1 })
    const loss = f.burstLoss({ ...x, code_ideal: 1, tau_1, tau_2, t_acq, M_w, T_s, T_i })
    const stepped = missingInBurst({ ...x, t_acq, M_w, T_s, T_i })
    // Between samples the filter is alone and a little faster than with the sampling capacitor at it.
    expect(loss).toBeGreaterThan(stepped * 0.999)
    expect(loss).toBeLessThan(stepped * 1.03)
    const burst = { samples: M_w, interval: T_s }
    const missed = missedCounts({ ...x, capacitance: exact(x.C_f), bits: 12, t_acq, T_s: T_i, burst })
    expect(missed / stepped / 4096).toBeGreaterThan(0.999)
    expect(missed / stepped / 4096).toBeLessThan(1.03)
    // A burst without an end misses more.
    const endless = { ...x, code_ideal: 1, tau_1, tau_2, t_acq, M_w: 1, T_s, T_i: T_s }
    if (M_w > 1) expect(f.burstLoss(endless)).toBeGreaterThan(1.5 * loss)
  })
})
