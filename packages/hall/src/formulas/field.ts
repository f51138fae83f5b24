import { formula } from '@ohmward/budget/formula'

/** Magnetic constant in H/m. CODATA 2018: 1.25663706212e-6. */
export const MU_0 = 1.25663706212e-6

/** Field of a long straight conductor at a distance. Pitfall E06. */
export const strayField = /*#__PURE__*/ formula({
  symbol: 'B_nb',
  quantity: 'field of a neighbouring conductor',
  unit: 'T',
  inputs: { mu_0: ['H/m', MU_0, MU_0], I_nb: ['A', 0, 200], d_nb: ['m', 1e-3, 1] },
  expression: 'mu_0 * I_nb / (2 * pi * d_nb)',
  compute: ({ mu_0, I_nb, d_nb }) => (mu_0 * I_nb) / (2 * Math.PI * d_nb),
  source: 'Biot and Savart: long straight conductor',
})

/** Current that a field pretends: over what the sensor's own conductor makes at its element, less what the element rejects. */
export const fieldCurrent = /*#__PURE__*/ formula({
  symbol: 'I_B',
  quantity: 'apparent current from a field',
  unit: 'A',
  inputs: { B_f: ['T', 0, 1e-2], C_B: ['T/A', 1e-5, 1e-1], CMFR_dB: ['1', 0, 80] },
  expression: 'B_f / (C_B * 10^(CMFR_dB / 20))',
  compute: ({ B_f, C_B, CMFR_dB }) => B_f / (C_B * 10 ** (CMFR_dB / 20)),
  source: 'definition of the coupling factor and of common-mode field rejection',
})

/** Zero shift that is left after a large current, as a share of it. Pitfall E05. */
export const remanence = /*#__PURE__*/ formula({
  symbol: 'I_h',
  quantity: 'zero shift after the peak current',
  unit: 'A',
  inputs: { e_h: ['1', 0, 0.05], I_pk: ['A', 0, 400] },
  expression: 'e_h * I_pk',
  compute: ({ e_h, I_pk }) => e_h * I_pk,
  source: 'data sheet: magnetic offset after an overcurrent',
})
