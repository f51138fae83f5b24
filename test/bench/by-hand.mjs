/**
 * What somebody would write by hand who wants one number from one chain, fast: one loop, a ziggurat (Marsaglia and
 * Tsang 2000, 256 layers), a selection for the ends. Shares no code with the packages.
 */
let a = 1
let b = 2
let c = 3
let d = 4

function word() {
  const t = (((a + b) | 0) + d) | 0
  d = (d + 1) | 0
  a = b ^ (b >>> 9)
  b = (c + (c << 3)) | 0
  c = (((c << 21) | (c >>> 11)) + t) | 0
  return t
}

const R = 3.6541528853610088
const V = 0.00492867323399
const x = new Float64Array(257)
x[0] = V / Math.exp(-0.5 * R * R)
x[1] = R
for (let i = 1; i < 255; i++) x[i + 1] = Math.sqrt(-2 * Math.log(V / x[i] + Math.exp(-0.5 * x[i] * x[i])))
const w = x.map((edge) => edge * 2 ** -31)
const f = x.map((edge) => Math.exp(-0.5 * edge * edge))

export function uniform() {
  return ((word() >>> 0) + 0.5) * 2 ** -32
}

export function normal() {
  for (;;) {
    const bits = word()
    const i = bits & 255
    const z = bits * w[i]
    if (Math.abs(z) < x[i + 1]) return z
    if (i === 0) {
      for (;;) {
        const t = -Math.log(uniform()) / R
        if (-2 * Math.log(uniform()) >= t * t) return z < 0 ? -R - t : R + t
      }
    }
    if (f[i] + uniform() * (f[i + 1] - f[i]) < Math.exp(-0.5 * z * z)) return z
  }
}

/** The value of rank `k`: quickselect with the median of three as pivot. */
export function select(values, k) {
  let from = 0
  let to = values.length - 1
  while (from < to) {
    const p = values[from]
    const q = values[(from + to) >> 1]
    const r = values[to]
    const pivot = Math.max(Math.min(p, q), Math.min(Math.max(p, q), r))
    let i = from
    let j = to
    while (i <= j) {
      while (values[i] < pivot) i++
      while (values[j] > pivot) j--
      if (i <= j) {
        const kept = values[i]
        values[i++] = values[j]
        values[j--] = kept
      }
    }
    if (j < k) from = i
    if (k < i) to = j
  }
  return values[k]
}

/** Mean, standard deviation and 95 % interval of the chain in `chain.mjs`, with its inputs written out. */
export function simulateByHand(trials) {
  const values = new Float64Array(trials)
  let sum = 0
  for (let n = 0; n < trials; n++) {
    const V_exc = 3.7
    const R_sw = 15 + 10 * uniform()
    const R_ref = 99 + 2 * uniform()
    const R_x = 0.7
    const R_lead = 0.005 + 0.01 * uniform()
    const V_emf = 2e-6 * normal()
    const R_f = 99e3 + 2e3 * uniform()
    const R_g = 990 + 20 * uniform()
    const V_os = -10e-6 + 20e-6 * uniform()
    const dT = -25 + 50 * uniform()
    const I_b = 100e-12
    const INL = -1.5 + 3 * uniform()
    const noise = 0.6 * normal()
    const current = (V_exc - 0.05) / (R_sw + R_ref + R_x + R_lead)
    const V_in = current * (R_x + R_lead) + V_emf
    const parallel = (R_f * R_g) / (R_f + R_g)
    const V_error = V_os + 0.05e-6 * dT + I_b * (1e3 - parallel) + 0.5 * 20e-12 * (1e3 + parallel) + V_in / 1e5
    const G = 1 + R_f / R_g
    const G_real = G / (1 + G / 1e6)
    const V_out = Math.min(Math.max(G_real * (V_in + V_error), 0.01), V_exc - 0.01)
    const code = (V_out / V_exc) * 4096 * (1 + 0.0005) + 1 + INL + noise
    const ratio = code / 4096 / 101
    const value = (120 * ratio) / (1 - ratio)
    values[n] = value
    sum += value
  }
  const mean = sum / trials
  let squares = 0
  for (let n = 0; n < trials; n++) squares += (values[n] - mean) ** 2
  const u = Math.sqrt(squares / (trials - 1))
  return { mean, u, interval: [select(values, Math.round(0.025 * trials)), select(values, Math.round(0.975 * trials))] }
}
