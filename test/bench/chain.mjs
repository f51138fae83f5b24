/**
 * A low-ohm measurement as one chain, for the benchmarks: 25 inputs, of which ten vary, none of them a real part.
 * Excitation through a switch and a reference resistor, two wires, an amplifier, a ratiometric converter, and the
 * firmware's inverse with nominal values.
 */
export function reading(x) {
  const current = (x.V_exc - x.V_sat) / (x.R_sw + x.R_ref + x.R_x + x.R_lead)
  const V_in = current * (x.R_x + x.R_lead) + x.V_emf
  const parallel = (x.R_f * x.R_g) / (x.R_f + x.R_g)
  const V_error =
    x.V_os + x.drift * x.dT + x.I_b * (x.R_p - parallel) + 0.5 * x.I_os * (x.R_p + parallel) + V_in / x.CMRR
  const G = 1 + x.R_f / x.R_g
  const G_real = G / (1 + G / x.A_ol)
  const wanted = G_real * (V_in + V_error)
  const V_out = Math.min(Math.max(wanted, x.V_low), x.V_exc - x.V_high)
  const code = (V_out / x.V_exc) * x.full * (1 + x.gain_error) + x.code_offset + x.INL + x.noise
  const ratio = code / x.full / x.G_nom
  return ((x.R_ref_nom + x.R_sw_nom) * ratio) / (1 - ratio)
}

const exact = (nominal) => nominal
const limits = (nominal, half) => ({
  nominal,
  lower: nominal - half,
  upper: nominal + half,
  distribution: { kind: 'rectangular' },
})
const normal = (nominal, u) => ({
  nominal,
  lower: nominal - 2 * u,
  upper: nominal + 2 * u,
  distribution: { kind: 'normal', coverage: 2 },
})

export const inputs = {
  V_exc: exact(3.7),
  V_sat: exact(0.05),
  R_sw: limits(20, 5),
  R_ref: limits(100, 1),
  R_x: exact(0.7),
  R_lead: limits(0.01, 0.005),
  V_emf: normal(0, 2e-6),
  R_f: limits(100e3, 1e3),
  R_g: limits(1e3, 10),
  V_os: limits(0, 10e-6),
  drift: exact(0.05e-6),
  dT: limits(0, 25),
  I_b: exact(100e-12),
  I_os: exact(20e-12),
  R_p: exact(1e3),
  CMRR: exact(1e5),
  A_ol: exact(1e6),
  V_low: exact(0.01),
  V_high: exact(0.01),
  full: exact(4096),
  gain_error: exact(0.0005),
  code_offset: exact(1),
  INL: limits(0, 1.5),
  noise: normal(0, 0.6),
  G_nom: exact(101),
  R_ref_nom: exact(100),
  R_sw_nom: exact(20),
}

/** The model's argument from row `i`, as one literal. */
export const row = (c, i) => ({
  V_exc: c.V_exc[i],
  V_sat: c.V_sat[i],
  R_sw: c.R_sw[i],
  R_ref: c.R_ref[i],
  R_x: c.R_x[i],
  R_lead: c.R_lead[i],
  V_emf: c.V_emf[i],
  R_f: c.R_f[i],
  R_g: c.R_g[i],
  V_os: c.V_os[i],
  drift: c.drift[i],
  dT: c.dT[i],
  I_b: c.I_b[i],
  I_os: c.I_os[i],
  R_p: c.R_p[i],
  CMRR: c.CMRR[i],
  A_ol: c.A_ol[i],
  V_low: c.V_low[i],
  V_high: c.V_high[i],
  full: c.full[i],
  gain_error: c.gain_error[i],
  code_offset: c.code_offset[i],
  INL: c.INL[i],
  noise: c.noise[i],
  G_nom: c.G_nom[i],
  R_ref_nom: c.R_ref_nom[i],
  R_sw_nom: c.R_sw_nom[i],
})

/** The block's own loop over the rows. */
export const fill = (c, out, n) => {
  for (let i = 0; i < n; i++) out[i] = reading(row(c, i))
}

/** The same chain for mathjs; its value is the only entry of the result set. */
export const expression = `
parallel = (R_f * R_g) / (R_f + R_g);
V_in = (V_exc - V_sat) / (R_sw + R_ref + R_x + R_lead) * (R_x + R_lead) + V_emf;
V_error = V_os + drift * dT + I_b * (R_p - parallel) + 0.5 * I_os * (R_p + parallel) + V_in / CMRR;
G = 1 + R_f / R_g;
V_out = min(max(G / (1 + G / A_ol) * (V_in + V_error), V_low), V_exc - V_high);
code = V_out / V_exc * full * (1 + gain_error) + code_offset + INL + noise;
r = code / full / G_nom;
(R_ref_nom + R_sw_nom) * r / (1 - r)`
