import { describe, expect, it } from 'vitest'
import * as f from '../src/formulas/index.js'

/** A wave of 0 and 1 through one pole, stepped in time until it repeats: no closed form. */
function stepped(D: number, f_PWM: number, tau: number) {
  const steps = 40_000
  const dt = 1 / (f_PWM * steps)
  const factor = 1 - Math.exp(-dt / tau)
  let v = D
  let [low, high] = [Infinity, -Infinity]
  const periods = Math.ceil(30 * tau * f_PWM) + 2
  for (let n = 0; n < periods; n++) {
    low = Infinity
    high = -Infinity
    for (let i = 0; i < steps; i++) {
      v += ((i < D * steps ? 1 : 0) - v) * factor
      low = Math.min(low, v)
      high = Math.max(high, v)
    }
  }
  return { low, high }
}

describe('ripple of an averaged wave', () => {
  it.each([
    [0.5, 1e3, 1e-3],
    [0.1, 1e3, 5e-4],
    [0.8, 2e3, 2e-3],
  ])('is that of a filter stepped in time, duty %f', (D_PWM, f_PWM, tau_f) => {
    const { low, high } = stepped(D_PWM, f_PWM, tau_f)
    expect(f.rippleAbove({ D_PWM, f_PWM, tau_f })).toBeCloseTo(high - D_PWM, 4)
    expect(f.rippleBelow({ D_PWM, f_PWM, tau_f })).toBeCloseTo(D_PWM - low, 4)
  })

  it('is nothing at full duty, and 1/(8·f·tau) either way at half duty and a low corner', () => {
    expect(f.rippleAbove({ D_PWM: 1, f_PWM: 1e3, tau_f: 1e-3 })).toBeCloseTo(0, 12)
    expect(f.rippleBelow({ D_PWM: 1, f_PWM: 1e3, tau_f: 1e-3 })).toBeCloseTo(0, 12)
    expect(f.rippleAbove({ D_PWM: 0.5, f_PWM: 1e3, tau_f: 0.1 }) * 800).toBeCloseTo(1, 4)
  })
})

describe('noise', () => {
  it('has the bandwidth of two poles in series, integrated numerically', () => {
    const [BW_s, f_3] = [120e3, 34e3]
    let sum = 0
    const steps = 400_000
    // Substitution f = f_3·tan(u), so that the whole axis is covered.
    for (let i = 0; i < steps; i++) {
      const u = ((i + 0.5) / steps) * (Math.PI / 2)
      const x = f_3 * Math.tan(u)
      sum += (f_3 / Math.cos(u) ** 2 / ((1 + (x / BW_s) ** 2) * (1 + (x / f_3) ** 2))) * (Math.PI / 2 / steps)
    }
    expect(f.noiseBandwidth({ BW_s, f_3 }) / sum).toBeCloseTo(1, 6)
    expect(f.noiseBandwidth({ BW_s: 1e15, f_3 })).toBeCloseTo((Math.PI / 2) * f_3, 3)
  })

  it('has the variance of a mean that the sum over all pairs gives', () => {
    for (const [M, rho] of [
      [1, 0.7],
      [4, 0.5],
      [16, 0.9],
      [7, 0],
    ] as const) {
      let sum = 0
      for (let i = 0; i < M; i++) for (let j = 0; j < M; j++) sum += rho ** Math.abs(i - j)
      expect(f.meanVariance({ M_w: M, rho_n: rho })).toBeCloseTo(sum / M ** 2, 10)
    }
  })

  it('is density times the root of the bandwidth, 10 µV/√Hz over 10 kHz is 1 mV', () => {
    expect(f.outputNoise({ e_d: 10e-6, BW_n: 1e4 })).toBeCloseTo(1e-3, 12)
    expect(f.sampleCorrelation({ T_s: 2e-6, tau_f: 1e-6 })).toBeCloseTo(0.1353, 4)
  })
})

describe('settling', () => {
  const missing = (tau_f: number, tau_s: number, t: number) => {
    const steps = 200_000
    let [s, v] = [0, 0]
    for (let i = 0; i < steps; i++) {
      const half = (1 - s) * (1 - Math.exp(-t / steps / tau_s))
      v += (s + half / 2 - v) * (1 - Math.exp(-t / steps / tau_f))
      s += half
    }
    return 1 - v
  }

  it.each([
    [1e-6, 3e-7, 2e-6],
    [3e-7, 1.3e-6, 5e-6],
    [1e-6, 1.0001e-6, 3e-6],
    [1e-6, 1e-6, 3e-6],
  ])('misses what two poles stepped in time miss: %f and %f', (tau_f, tau_s, t_set) => {
    expect(f.unsettledShare({ tau_f, t_set, tau_s })).toBeCloseTo(missing(tau_f, tau_s, t_set), 4)
  })

  it('stands within half a count of N bits after the time needed, however the poles lie', () => {
    for (const N_bits of [8, 10, 12, 16]) {
      for (const tau_s of [1e-7, 0.9e-6, 1.1e-6, 5e-6]) {
        const t_set = f.neededWait({ t_edge: 0, N_bits, tau_s, tau_f: 1e-6 })
        expect(f.unsettledShare({ tau_f: 1e-6, t_set, tau_s })).toBeLessThanOrEqual(2 ** -(N_bits + 1))
      }
    }
    // The rise time alone would not do: a sensor slower than its filter misses a tenth of the step after 0.35/BW.
    const tau_s = f.sensorTime({ BW_s: 1e5 })
    expect(f.unsettledShare({ tau_f: 1e-9, t_set: 0.35 / 1e5, tau_s })).toBeCloseTo(0.11, 2)
    expect(f.neededWait({ t_edge: 5e-6, N_bits: 10, tau_s: 0, tau_f: 1e-6 })).toBeCloseTo(
      5e-6 + 11 * Math.LN2 * 1e-6,
      15,
    )
  })
})

describe('fields and currents', () => {
  it('a straight wire of 8 A at 10 mm makes 160 µT, and 40 dB of rejection leave a hundredth', () => {
    const B_f = f.strayField({ mu_0: f.MU_0, I_nb: 8, d_nb: 0.01 })
    expect(B_f).toBeCloseTo(160e-6, 8)
    expect(f.fieldCurrent({ B_f: 110e-6, C_B: 1.1e-3, CMFR_dB: 0 })).toBeCloseTo(0.1, 12)
    expect(f.fieldCurrent({ B_f: 110e-6, C_B: 1.1e-3, CMFR_dB: 40 })).toBeCloseTo(0.001, 12)
    expect(f.remanence({ e_h: 0.005, I_pk: 8 })).toBeCloseTo(0.04, 12)
  })

  it('the trip solves a straight line: gain 2 % high and 50 mA of offset make 8 A act at 7.794 A', () => {
    const line = (I: number) => 1.02 * I + 0.05
    const I_trip = f.actualTrip({ I_set: 8, I_z: 0, I_l0: 0.05, g_I: 1.02 })
    expect(line(I_trip)).toBeCloseTo(8, 12)
    expect(I_trip).toBeCloseTo(7.7941, 4)
    // The zero's reading taken off: the offset is gone, the gain stays.
    expect(f.actualTrip({ I_set: 8, I_z: 0.05, I_l0: 0.05, g_I: 1.02 })).toBeCloseTo(8 / 1.02, 12)
  })
})

describe('the duty of the largest ripple', () => {
  it.each([
    [1e3, 1e-5],
    [1e3, 1e-4],
    [1e3, 1e-3],
    [2e4, 1e-3],
  ])('is where no other duty is worse: %d Hz, %d s', (f_PWM, tau_f) => {
    const D_crest = f.crestDuty({ f_PWM, tau_f })
    const crest = (D_PWM: number) => f.rippleAbove({ D_PWM, f_PWM, tau_f })
    const trough = (D_PWM: number) => f.rippleBelow({ D_PWM, f_PWM, tau_f })
    for (let D = 0.001; D < 1; D += 0.001) {
      expect(crest(D)).toBeLessThanOrEqual(crest(D_crest) + 1e-12)
      expect(trough(D)).toBeLessThanOrEqual(trough(1 - D_crest) + 1e-12)
    }
  })
})

describe('the time constant needed for averaging', () => {
  it.each([0.01, 0.05, 0.2, 0.49])('leaves no more ripple at half duty than is allowed, a share of %d', (share) => {
    const f_PWM = 1e3
    const tau_f = f.averagingTime({ I_max: 1, f_PWM, E_I: share })
    const ripple = f.rippleAbove({ D_PWM: 0.5, f_PWM, tau_f })
    expect(ripple).toBeLessThanOrEqual(share)
    // At half duty: half the hyperbolic tangent of a quarter of the periods in a time constant.
    expect(ripple).toBeCloseTo(Math.tanh(1 / (4 * f_PWM * tau_f)) / 2, 9)
  })
})
