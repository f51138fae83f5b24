import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { readingAtRail, readingOf } from '../src/index.js'
import { firmware, real, shared, solve } from './circuits.js'

const close = (value: number, wanted: number, scale = Math.abs(wanted)) =>
  expect(Math.abs(value - wanted)).toBeLessThanOrEqual(1e-9 * scale + 1e-15)

/** What each chain has alike: the resistance between the sense points and the rest of the loop, from the parts. */
function loop(
  x: {
    V_exc: number
    V_sat: number
    R_x: number
    kappa: number
    R_lead: number
    R_con: number
    R_ds: number
    R_sw: number
    R_ref: number
    alpha_ref: number
    T_d: number
    d_ref: number
    R_thref: number
    d_m: number
  },
  R_sh = 0,
) {
  const wire = x.R_lead + x.R_con
  const [inside, outside] = x.kappa === 1 ? [wire, 0] : [0, wire]
  const span = x.R_x + inside + x.R_ds + R_sh
  // Self-heating by the current of a cold reference resistor: one step of the thermal loop.
  const cold = (x.V_exc - x.V_sat) / (x.R_ref + x.R_sw + outside + span)
  const hot = x.T_d + x.R_thref * x.d_m * cold ** 2 * x.R_ref
  return { span, outer: x.R_sw + outside + x.R_ref * (1 + x.alpha_ref * hot + x.d_ref) }
}

/** Codes and the firmware's share of the loop voltage from an output voltage. */
function converted(
  x: {
    I_pin: number
    e_add: number
    s_set: number
    V_amp: number
    R_filt: number
    V_ref: number
    N_bits: number
    e_gain: number
    e_offset: number
    e_INL: number
    e_q: number
    e_n: number
    h_code: number
  },
  V_out: number,
) {
  const scale = 2 ** x.N_bits
  const code =
    ((V_out * (1 + x.e_add) + x.s_set * Math.max(x.V_amp, x.V_ref) - x.I_pin * x.R_filt) / x.V_ref) *
      scale *
      (1 + x.e_gain) +
    x.e_offset +
    x.e_INL +
    x.e_q +
    x.e_n
  return Math.min(Math.max(code, x.h_code), scale - 1 + x.h_code) / scale
}

describe('the chain of a load at ground', () => {
  const own = fc.record({
    I_leak: real(-1e-7, 1e-7),
    R_p: real(0, 1e4),
    R_f: real(1e3, 5e4),
    R_g: real(500, 5e3),
    a_ol: real(0, 1e-3),
    p_ped: real(0, 0.1),
    G_n: real(2, 50),
    p_pedn: real(0, 0.1),
  })

  it('agrees with the nodal equations of the whole circuit', () => {
    fc.assert(
      fc.property(shared, firmware, own, (s, n, o) => {
        const x = { ...s, ...n, ...o }
        const y = readingOf(x)
        const { span, outer } = loop(x, x.R_sh)
        // Sense node and foot of the load: excitation through the outer resistance, leakage of the power switch, the span,
        // and the ground that others' current shares.
        const own = span - x.R_sh
        const ground = Math.max(x.R_sh, 1e-12)
        const [node] = solve(
          [
            [1 / outer + 1 / own, -1 / own],
            [-1 / own, 1 / own + 1 / ground],
          ],
          [(x.V_exc - x.V_sat) / outer + x.I_off, x.I_o],
        )
        const V_x = node! + x.V_emf
        expect(Math.abs(y.V_x - V_x)).toBeLessThan(1e-8)
        // Amplifier: unknown inverting node and output; the bias currents flow through the resistors themselves.
        const V_off = x.V_os + x.D_os * x.T_d + (x.V_amp - x.V_ps) * x.m_ps + x.V_age
        const into = { plus: x.I_b + x.I_os / 2, minus: x.I_b - x.I_os / 2 }
        const R_f = x.R_f * (1 + x.alpha_G * x.T_d + x.d_G)
        const V_plus = V_x + (V_x - x.V_cms) * x.m_cm + V_off + x.V_add + x.V_n + x.I_leak * x.R_p + into.plus * x.R_p
        const loaded = [
          // At the inverting node; its bias current through R_f and R_g.
          [1 / R_f + 1 / x.R_g, -1 / R_f],
          // The amplifier: V_out * a_ol = V_plus - V_minus.
          [1, x.a_ol],
        ]
        const [, V_fb] = solve(loaded, [into.minus, V_plus])
        // The package takes the resistance seen at the inverting input at 25 °C: the bias term of second order.
        const want = V_fb! + x.p_ped * x.V_ref
        expect(Math.abs(y.V_want - want)).toBeLessThan(1e-9 + 2 * Math.abs(into.minus * (R_f - x.R_f)) + 1e-9 * want)
        const V_out = Math.max(x.V_ol, Math.min(y.V_want, x.V_amp - x.V_oh))
        close(y.V_out, V_out)
        const share = converted(x, y.V_out)
        const r = ((share - x.p_pedn) * x.V_refn) / (x.G_n * (x.V_excn - x.V_satn))
        close(y.r, r, 1)
        // The firmware: resistance of a divider whose other half is the nominal one.
        const nominal = x.R_refn + x.R_swn + (x.kappa === 0 ? x.R_leadn : 0)
        const R_ind = nominal / (1 / r - 1) - (x.kappa === 1 ? x.R_leadn : 0)
        expect(Math.abs(y.R_ind - R_ind)).toBeLessThanOrEqual(1e-7 * (Math.abs(R_ind) + 1))
      }),
      { numRuns: 150, seed: 1 },
    )
  })
})

describe('the chain of a load at the rail', () => {
  const own = fc.record({
    R_a: real(500, 5e3),
    R_b: real(5e3, 5e4),
    R_c: real(500, 5e3),
    R_d: real(5e3, 5e4),
    alpha_P: real(-1e-4, 1e-4),
    a_ol: real(0, 1e-3),
    R_cn: real(500, 5e3),
    g_n: real(5, 50),
    d_P: real(-0.005, 0.005),
  })

  it('agrees with the nodal equations of the whole circuit', () => {
    fc.assert(
      fc.property(shared, firmware, own, (s, n, o) => {
        // Without errors in the feedback loop of the amplifier all nodes can be solved at once.
        const x = { ...s, ...n, ...o, I_b: 0, I_os: 0, V_emf: 0, I_o: 0 }
        const y = readingAtRail(x)
        const { span, outer: board } = loop(x)
        const outer = board + x.R_sh
        const V_off = x.V_os + x.D_os * x.T_d + (x.V_amp - x.V_ps) * x.m_ps + x.V_age
        const g = (x.R_d / x.R_c) * (1 + x.alpha_G * x.T_d + x.d_G)
        const R_d = g * x.R_c
        // The other pair drifts by itself.
        const R_b = x.R_b * (1 + x.alpha_P * x.T_d + x.d_P)
        const [plus] = solve([[1 / x.R_a + 1 / R_b]], [x.V_exc / x.R_a])
        const error = V_off + (plus! - x.V_cms) * x.m_cm + x.V_n + x.V_add
        // Nodes: lower sense point, inverting input, output.
        const nodes = [
          [1 / span + 1 / outer + 1 / x.R_c, -1 / x.R_c, 0],
          [-1 / x.R_c, 1 / x.R_c + 1 / R_d, -1 / R_d],
          [0, 1, x.a_ol],
        ]
        const [V_m, , V_out] = solve(nodes, [x.V_exc / span + x.V_sat / outer - x.I_off, 0, plus! + error])
        // The package lets the input resistor end at the ideal input voltage; the rest of the error voltage moves
        // the lower sense point by the span over the input resistor: below a per cent of that error.
        const slip = (Math.abs(error) + Math.abs(V_out! * x.a_ol)) * (span / x.R_c)
        expect(Math.abs(y.V_m - V_m!)).toBeLessThanOrEqual(slip + 1e-9)
        expect(Math.abs(y.V_want - V_out!)).toBeLessThanOrEqual(1.1 * (g + 1) * slip + 1e-9 * Math.abs(V_out!) + 1e-12)
        close(y.V_cm, plus!)
        expect(Math.abs(y.I_t - (x.V_exc - y.V_m) / span)).toBeLessThan(1e-9)
        const V_limited = Math.max(x.V_ol, Math.min(y.V_want, x.V_amp - x.V_oh))
        const r = (converted(x, V_limited) * x.V_refn) / (x.g_n * x.V_excn)
        close(y.r, r, 1)
        // The firmware, by the same node with nominal values: current out of the lower sense point.
        const nominal = x.R_refn + x.R_swn + (x.kappa === 0 ? x.R_leadn : 0)
        const V_low = x.V_excn * (1 - r)
        const V_in = (x.V_excn * x.g_n) / (1 + x.g_n)
        const current = (V_low - x.V_satn) / nominal + (V_low - V_in) / x.R_cn
        const R_ind = (x.V_excn * r) / current - (x.kappa === 1 ? x.R_leadn : 0)
        expect(Math.abs(y.R_ind - R_ind)).toBeLessThanOrEqual(1e-7 * (Math.abs(R_ind) + 1))
      }),
      { numRuns: 150, seed: 2 },
    )
  })

  const later = { V_cms: 0, V_age: 0, V_add: 0, e_add: 0, s_set: 0, d_ref: 0, d_G: 0, d_P: 0 }

  it('drops bias currents in the resistors that they flow through', () => {
    const zero = {
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
    const parts = { R_a: 1000, R_b: 22e3, R_c: 1010, R_d: 21e3, alpha_G: 0, alpha_P: 0, a_ol: 0 }
    const amplifier = { V_os: 0, D_os: 0, V_ps: 3, m_ps: 0, m_cm: 0, V_n: 0, V_oh: 0, V_ol: 0, I_b: 2e-7, I_os: 6e-8 }
    const converter = { I_pin: 0, R_filt: 0, N_bits: 12, h_code: 0.5, e_gain: 0, e_offset: 0, e_INL: 0, e_q: 0, e_n: 0 }
    const nominal = { R_refn: 47, R_swn: 0, R_leadn: 0, V_satn: 0, V_excn: 3, V_refn: 3, R_cn: 1000, g_n: 22 }
    const x = { ...zero, ...parts, ...amplifier, ...converter, ...nominal }
    const at = { V_exc: 3, V_amp: 3, V_ref: 3, T_d: 0, R_x: 0.7, kappa: 0, V_sat: 0, R_sw: 0, R_ref: 47 }
    const y = readingAtRail({ ...x, ...at })
    // The currents flow out of the inputs, as the sign of a PNP input's: node by node.
    const [plus] = solve([[1 / 1000 + 1 / 22e3]], [3 / 1000 + 2e-7 + 3e-8])
    const [, out] = solve(
      [
        [1 / 1010 + 1 / 21e3, -1 / 21e3],
        [1, 0],
      ],
      [y.V_m / 1010 + 2e-7 - 3e-8, plus!],
    )
    expect(Math.abs(y.V_want - out!)).toBeLessThan(1e-12)
  })
})
