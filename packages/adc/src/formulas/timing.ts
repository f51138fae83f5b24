import { formula } from '@ohmward/budget/formula'

const period = 'one converter in one PWM period: each window holds its tasks'

/** From its readiness to its end a task takes its samples, one acquisition and one conversion each. */
export const samplingTime = /*#__PURE__*/ formula({
  symbol: 't_samples',
  quantity: 'time of the samples',
  unit: 's',
  inputs: { n_samples: ['1', 1, 1024], t_acq: ['s', 0, 1], t_conv: ['s', 0, 1] },
  expression: 'n_samples * (t_acq + t_conv)',
  compute: ({ n_samples, t_acq, t_conv }) => n_samples * (t_acq + t_conv),
  source: period,
})

/** Smallest duty whose on-time holds the on-window. */
export const shortestDuty = /*#__PURE__*/ formula({
  symbol: 'D_min',
  quantity: 'smallest duty',
  unit: '1',
  inputs: { t_on: ['s', 0, 1], f_PWM: ['Hz', 0.1, 1e6] },
  expression: 't_on * f_PWM',
  compute: ({ t_on, f_PWM }) => t_on * f_PWM,
  source: period,
})

/** Largest duty whose off-time holds the off-window; negative where the period itself is too short. */
export const longestDuty = /*#__PURE__*/ formula({
  symbol: 'D_max',
  quantity: 'largest duty',
  unit: '1',
  inputs: { t_off: ['s', 0, 1], f_PWM: ['Hz', 0.1, 1e6] },
  expression: '1 - t_off * f_PWM',
  compute: ({ t_off, f_PWM }) => 1 - t_off * f_PWM,
  source: period,
})

/** Highest PWM frequency at which a range of duty leaves both windows. */
export const highestFrequency = /*#__PURE__*/ formula({
  symbol: 'f_max',
  quantity: 'highest PWM frequency',
  unit: 'Hz',
  inputs: { D_lo: ['1', 0, 1], t_on: ['s', 1e-7, 1], D_hi: ['1', 0, 1], t_off: ['s', 1e-7, 1] },
  expression: 'min(D_lo / t_on, (1 - D_hi) / t_off)',
  compute: ({ D_lo, t_on, D_hi, t_off }) => Math.min(D_lo / t_on, (1 - D_hi) / t_off),
  source: period,
  smooth: false,
})

/** Spare time in the on-window. */
export const onSlack = /*#__PURE__*/ formula({
  symbol: 's_on',
  quantity: 'spare time in the on-window',
  unit: 's',
  inputs: { D_PWM: ['1', 0, 1], f_PWM: ['Hz', 0.1, 1e6], t_on: ['s', 0, 1] },
  expression: 'D_PWM / f_PWM - t_on',
  compute: ({ D_PWM, f_PWM, t_on }) => D_PWM / f_PWM - t_on,
  source: period,
})

/** Spare time in the off-window. */
export const offSlack = /*#__PURE__*/ formula({
  symbol: 's_off',
  quantity: 'spare time in the off-window',
  unit: 's',
  inputs: { D_PWM: ['1', 0, 1], f_PWM: ['Hz', 0.1, 1e6], t_off: ['s', 0, 1] },
  expression: '(1 - D_PWM) / f_PWM - t_off',
  compute: ({ D_PWM, f_PWM, t_off }) => (1 - D_PWM) / f_PWM - t_off,
  source: period,
})

/**
 * On-window of a filtered sensor: its own rise `0.35/BW`, the filter to half a count, then sampling. Pitfall E08.
 */
export const sensorWindow = /*#__PURE__*/ formula({
  symbol: 't_sensor',
  quantity: 'on-window needed by a filtered sensor',
  unit: 's',
  inputs: { BW_s: ['Hz', 1, 1e7], N_bits: ['1', 1, 32], tau: ['s', 1e-9, 1], t_acq: ['s', 0, 1] },
  expression: '0.35 / BW_s + (N_bits + 1) * log(2) * tau + t_acq',
  compute: ({ BW_s, N_bits, tau, t_acq }) => 0.35 / BW_s + (N_bits + 1) * Math.log(2) * tau + t_acq,
  source: 'rise time of one pole 0.35/BW; step response of one pole',
})

/**
 * Ripple, peak to peak over the on-value, that one pole leaves of a PWM wave in steady state; exact. For frequencies
 * well above its corner f_3 it tends to `2·pi·(f_3/f)·D·(1 - D)`. Pitfall E08.
 */
export const averagedRipple = /*#__PURE__*/ formula({
  symbol: 'ripple_pp',
  quantity: 'ripple of the averaged wave',
  unit: '1',
  inputs: { D_PWM: ['1', 0.01, 0.99], f_PWM: ['Hz', 100, 1e5], tau: ['s', 1e-5, 1e-2] },
  expression:
    '(1 - exp(-D_PWM / (f_PWM * tau))) * (1 - exp(-(1 - D_PWM) / (f_PWM * tau))) / (1 - exp(-1 / (f_PWM * tau)))',
  compute: ({ D_PWM, f_PWM, tau }) =>
    ((1 - Math.exp(-D_PWM / (f_PWM * tau))) * (1 - Math.exp(-(1 - D_PWM) / (f_PWM * tau)))) /
    (1 - Math.exp(-1 / (f_PWM * tau))),
  source: 'step response of one pole, periodic steady state (derived in the test)',
})
