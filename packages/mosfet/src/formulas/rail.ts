import { formula } from '@ohmward/budget'

/**
 * Largest load current: an ideal switch into a load resistance, behind the source. A data sheet gives no smallest
 * R_DS(on), so this is the deepest sag that the load can make.
 */
export const largestCurrent = /*#__PURE__*/ formula({
  symbol: 'I_max',
  quantity: 'load current with an ideal switch',
  unit: 'A',
  inputs: { V_oc: ['V', 1, 60], R_s: ['ohm', 0, 1], R_L: ['ohm', 0.05, 100], R_sh: ['ohm', 0, 0.1] },
  expression: 'V_oc / (R_s + R_L + R_sh)',
  compute: ({ V_oc, R_s, R_L, R_sh }) => V_oc / (R_s + R_L + R_sh),
  source: 'Ohm',
})

/** The same where the load holds its current, whatever the rail does. */
export const heldLargestCurrent = /*#__PURE__*/ formula({
  symbol: 'I_max',
  quantity: 'load current, held by the load',
  unit: 'A',
  inputs: { I_set: ['A', 0.01, 100] },
  expression: 'I_set',
  compute: ({ I_set }) => I_set,
  source: 'constant-current load',
})

/** Rail while the load draws its largest current. */
export const saggedRail = /*#__PURE__*/ formula({
  symbol: 'V_rail',
  quantity: 'sagged rail',
  unit: 'V',
  inputs: { V_oc: ['V', 2, 60], I_max: ['A', 0.01, 20], R_s: ['ohm', 0, 0.1] },
  expression: 'V_oc - I_max * R_s',
  compute: ({ V_oc, I_max, R_s }) => V_oc - I_max * R_s,
  source: 'Ohm',
})

/** Supply of a gate drive that hangs from the sagged rail, behind a diode or directly (`V_hold` = 0). Pitfall H02. */
export const driveSupply = /*#__PURE__*/ formula({
  symbol: 'V_sup',
  quantity: 'supply of the gate drive',
  unit: 'V',
  inputs: { V_rail: ['V', 1.5, 60], V_hold: ['V', 0, 1] },
  expression: 'V_rail - V_hold',
  compute: ({ V_rail, V_hold }) => V_rail - V_hold,
  source: 'Kirchhoff',
})

/** Supply of a gate drive that stands on its own regulator. */
export const regulatedSupply = /*#__PURE__*/ formula({
  symbol: 'V_sup',
  quantity: 'supply of the gate drive, regulated',
  unit: 'V',
  inputs: { V_reg: ['V', 1, 20] },
  expression: 'V_reg',
  compute: ({ V_reg }) => V_reg,
  source: 'a supply of its own',
})
