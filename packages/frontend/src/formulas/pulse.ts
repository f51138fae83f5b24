import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const R_s: InputRange = ['ohm', 0.005, 0.3]
const R_b: InputRange = ['ohm', 0.3, 3]
const d_on: InputRange = ['1', 0.05, 1]
const x_on: InputRange = ['1', 0.1, 100]

const source =
  'capacitor that full rest charges and each pulse empties through source and load side by side, and no more than if it held the rail still: Kirchhoff; the energy that the source gives is largest for its mean current'

/** Time constant with which a load that is on empties the capacitors of the rail. */
export const railTime = /*#__PURE__*/ formula({
  symbol: 'tau_r',
  quantity: 'time constant of the rail while the load is on',
  unit: 's',
  inputs: { C_all: ['F', 1e-6, 1e-2], R_s, R_b },
  expression: 'C_all * R_s * R_b / (R_s + R_b)',
  compute: ({ C_all, R_s, R_b }) => (C_all * R_s * R_b) / (R_s + R_b),
  source: 'source and load are side by side for the capacitors',
})

/** How long a pulse lasts against the time constant with which it empties the capacitors of the rail. */
export const pulseLength = /*#__PURE__*/ formula({
  symbol: 'x_on',
  quantity: 'length of a pulse over the time constant of the rail',
  unit: '1',
  inputs: { d_on, f_PWM: ['Hz', 10, 1e5], tau_r: ['s', 1e-8, 1e-3] },
  expression: 'd_on / f_PWM / tau_r',
  compute: ({ d_on, f_PWM, tau_r }) => d_on / f_PWM / tau_r,
  source: 'definition',
})

/** What the rise of its current leaves of the power of a pulse. */
export const risingShare = /*#__PURE__*/ formula({
  symbol: 'k_rise',
  quantity: 'power of a pulse whose current rises slowly over one that rises at once',
  unit: '1',
  inputs: { t_rise: ['s', 0, 1e-4], f_PWM: ['Hz', 10, 1e3], d_on: ['1', 0.1, 1] },
  expression: '1 - 2 / 3 * min(t_rise * f_PWM / d_on, 1)',
  smooth: false,
  compute: ({ t_rise, f_PWM, d_on }) => 1 - (2 / 3) * Math.min((t_rise * f_PWM) / d_on, 1),
  source: 'mean square of a straight rise: a third; it falls at once',
})

const s_0: InputRange = ['1', 0, 1]

/** A current read at an instant of a pulse against the mean of that pulse, on a rail that falls from rest. */
export const sampleShare = /*#__PURE__*/ formula({
  symbol: 'k_smp',
  quantity: 'current at an instant of a pulse over its mean',
  unit: '1',
  inputs: { s_0, t_s: ['s', 0, 1e-2], tau_r: ['s', 1e-6, 1e-2], x_on },
  expression: '(1 + s_0 * exp(-t_s / tau_r)) / (1 + s_0 * (1 - exp(-x_on)) / x_on)',
  compute: ({ s_0, t_s, tau_r, x_on }) =>
    (1 + s_0 * Math.exp(-t_s / tau_r)) / (1 + (s_0 * (1 - Math.exp(-x_on))) / x_on),
  source: 'Kirchhoff; what the capacitors add, s_0 at the edge, fades with one time constant',
})

/** The mean current of such a pulse against what its power is made of, the square root of the mean of its square. */
export const meanShare = /*#__PURE__*/ formula({
  symbol: 'k_mean',
  quantity: 'mean current of a pulse over its effective one',
  unit: '1',
  inputs: { s_0, x_on },
  expression:
    '(1 + s_0 * (1 - exp(-x_on)) / x_on) / sqrt(1 + 2 * s_0 * (1 - exp(-x_on)) / x_on + s_0^2 * (1 - exp(-2 * x_on)) / (2 * x_on))',
  compute: ({ s_0, x_on }) => {
    const first = (s_0 * (1 - Math.exp(-x_on))) / x_on
    const square = (s_0 * s_0 * (1 - Math.exp(-2 * x_on))) / (2 * x_on)
    return (1 + first) / Math.sqrt(1 + 2 * first + square)
  },
  source: 'integrals over the pulse; what the capacitors add fades with one time constant',
})

/** What is still missing of a step of the rail at a pin behind a capacitor: one pole of the rail, a shorter one of the pin. */
export const stepLeft = /*#__PURE__*/ formula({
  symbol: 'a_left',
  quantity: 'unsettled share of a rail step at the pin',
  unit: '1',
  inputs: { t_p: ['s', 0, 1e-2], tau_r: ['s', 1e-3, 1e-2], tau_p: ['s', 1e-7, 5e-4] },
  expression: '(tau_r * exp(-t_p / tau_r) - tau_p * exp(-t_p / tau_p)) / (tau_r - tau_p)',
  compute: ({ t_p, tau_r, tau_p }) => {
    const [long, short] = [Math.max(tau_r, tau_p), Math.min(tau_r, tau_p)]
    if (long === 0 || t_p === Number.POSITIVE_INFINITY) return 0
    if (short === 0) return Math.exp(-t_p / long)
    // What the difference of two like exponentials comes to, also where they are the same.
    const z = t_p * (1 / short - 1 / long)
    return Math.exp(-t_p / long) * (1 + (t_p / long) * (z === 0 ? 1 : -Math.expm1(-z) / z))
  },
  source: 'step response of two poles in series',
})

/** By how much capacitors at the rail raise the mean current while a pulse lasts, at most. */
export const pulseCurrent = /*#__PURE__*/ formula({
  symbol: 'k_Ion',
  quantity: 'mean current of a pulse over that without capacitors, at most',
  unit: '1',
  inputs: { R_s, R_b, d_on, x_on },
  expression: 'min((R_s + R_b) / (d_on * R_s + R_b), 1 + R_s / R_b * (1 - exp(-x_on)) / x_on)',
  smooth: false,
  compute: ({ R_s, R_b, d_on, x_on }) =>
    Math.min((R_s + R_b) / (d_on * R_s + R_b), 1 + ((R_s / R_b) * (1 - Math.exp(-x_on))) / x_on),
  source,
})

/** By how much they raise the mean power while a pulse lasts, at most. */
export const pulsePower = /*#__PURE__*/ formula({
  symbol: 'k_Pon',
  quantity: 'mean power of a pulse over that without capacitors, at most',
  unit: '1',
  inputs: { R_s, R_b, d_on, x_on },
  expression:
    'min(((R_s + R_b) / (d_on * R_s + R_b))^2, 1 + 2 * R_s / R_b * (1 - exp(-x_on)) / x_on + (R_s / R_b)^2 * (1 - exp(-2 * x_on)) / (2 * x_on))',
  smooth: false,
  compute: ({ R_s, R_b, d_on, x_on }) => {
    const r = R_s / R_b
    const still = ((R_s + R_b) / (d_on * R_s + R_b)) ** 2
    const first = (2 * r * (1 - Math.exp(-x_on))) / x_on
    return Math.min(still, 1 + first + (r * r * (1 - Math.exp(-2 * x_on))) / (2 * x_on))
  },
  source,
})

/** How long a rail that rings between the inductance of its source and its capacitors stays below where it comes to: half a swing. */
export const ringLow = /*#__PURE__*/ formula({
  symbol: 't_low',
  quantity: 'half a swing of the rail, load on',
  unit: 's',
  inputs: { L_s: ['H', 1e-7, 1e-6], C_all: ['F', 1e-6, 1e-5], R_s: ['ohm', 0, 0.05], R_b: ['ohm', 1, 10] },
  expression: 'pi / sqrt(1 / (L_s * C_all) - (R_s / L_s - 1 / (R_b * C_all))^2 / 4)',
  compute: ({ L_s, C_all, R_s, R_b }) =>
    Math.PI / Math.sqrt(1 / (L_s * C_all) - (R_s / L_s - 1 / (R_b * C_all)) ** 2 / 4),
  source: 'damped oscillation of a loop of the second order, the load beside its capacitor',
})
