import { formula } from '@ohmward/budget/formula'

/**
 * The one place where a sign is: `s_ch` is +1 for an N-channel transistor and -1 for a P-channel one. Everywhere else
 * gate-source, drain-source and drain values are magnitudes, positive when the transistor conducts.
 */
export const gateSourceMagnitude = /*#__PURE__*/ formula({
  symbol: 'V_mag',
  quantity: 'magnitude of the gate-source voltage',
  unit: 'V',
  inputs: { s_ch: ['1', -1, 1], V_gate: ['V', 0, 20], V_src: ['V', 0, 20] },
  expression: 's_ch * (V_gate - V_src)',
  compute: ({ s_ch, V_gate, V_src }) => s_ch * (V_gate - V_src),
  source: 'convention: N-channel +1, P-channel -1',
})

/**
 * Voltage that the drive puts across gate and source before any divider: its supply less what the pin, the transistor's
 * saturation, the follower's base-emitter voltage or the driver's output loses.
 */
export const driveLevel = /*#__PURE__*/ formula({
  symbol: 'V_drv',
  quantity: 'level that the drive delivers',
  unit: 'V',
  inputs: { V_sup: ['V', 1.5, 20], V_drop: ['V', 0, 1] },
  expression: 'V_sup - V_drop',
  compute: ({ V_sup, V_drop }) => V_sup - V_drop,
  source: 'Kirchhoff',
})

/** Resistance in series with the gate while it is switched on: the drive's own and the gate resistor. */
export const seriesResistance = /*#__PURE__*/ formula({
  symbol: 'R_ser',
  quantity: 'resistance from drive to gate',
  unit: 'ohm',
  inputs: { R_drv: ['ohm', 0, 1e5], R_g: ['ohm', 0, 1e4] },
  expression: 'R_drv + R_g',
  compute: ({ R_drv, R_g }) => R_drv + R_g,
  source: 'series connection',
})

/** Level at the gate where a resistor from gate to source divides it. Pitfall H03. */
export const dividedLevel = /*#__PURE__*/ formula({
  symbol: 'V_G',
  quantity: 'level at the gate',
  unit: 'V',
  inputs: { V_drv: ['V', 0.5, 20], R_p: ['ohm', 100, 1e7], R_ser: ['ohm', 0, 1e5] },
  expression: 'V_drv * R_p / (R_ser + R_p)',
  compute: ({ V_drv, R_p, R_ser }) => (V_drv * R_p) / (R_ser + R_p),
  source: 'Kirchhoff',
})

/** The same where the drive charges the gate through its pull-up. */
export const pullSeriesResistance = /*#__PURE__*/ formula({
  symbol: 'R_ser',
  quantity: 'resistance from pull-up supply to gate',
  unit: 'ohm',
  inputs: { R_p: ['ohm', 100, 1e6], R_g: ['ohm', 0, 1e4] },
  expression: 'R_p + R_g',
  compute: ({ R_p, R_g }) => R_p + R_g,
  source: 'series connection',
})

/** Level at the gate where the pull resistor sits on the drive's side of the gate resistor: the better place. */
export const driveSideLevel = /*#__PURE__*/ formula({
  symbol: 'V_G',
  quantity: 'level at the gate',
  unit: 'V',
  inputs: { V_drv: ['V', 0.5, 20], R_p: ['ohm', 100, 1e7], R_drv: ['ohm', 0, 1e3] },
  expression: 'V_drv * R_p / (R_drv + R_p)',
  compute: ({ V_drv, R_p, R_drv }) => (V_drv * R_p) / (R_drv + R_p),
  source: 'Kirchhoff',
})

/** Level at the gate where nothing there draws current. */
export const wholeLevel = /*#__PURE__*/ formula({
  symbol: 'V_G',
  quantity: 'level at the gate',
  unit: 'V',
  inputs: { V_drv: ['V', 0.5, 20] },
  expression: 'V_drv',
  compute: ({ V_drv }) => V_drv,
  source: 'no current into a gate at rest',
})

/** What the load current takes from the gate drive in copper that both share. With the load itself there: pitfall H13. */
export const sourceLift = /*#__PURE__*/ formula({
  symbol: 'V_lift',
  quantity: 'source lift',
  unit: 'V',
  inputs: { I_max: ['A', 0.01, 100], R_sh: ['ohm', 0, 0.1] },
  expression: 'I_max * R_sh',
  compute: ({ I_max, R_sh }) => I_max * R_sh,
  source: 'Ohm',
})

/** Gate-source voltage that is left to conduct with, as a magnitude. Pitfall H01. */
export const gateSourceVoltage = /*#__PURE__*/ formula({
  symbol: 'V_GS',
  quantity: 'gate-source voltage, switched on',
  unit: 'V',
  inputs: { V_G: ['V', 1, 20], V_lift: ['V', 0, 0.5] },
  expression: 'V_G - V_lift',
  compute: ({ V_G, V_lift }) => V_G - V_lift,
  source: 'Kirchhoff',
})

/** Highest gate-source voltage: rail at rest, nothing lost. */
export const highestGateSource = /*#__PURE__*/ formula({
  symbol: 'V_GShigh',
  quantity: 'highest gate-source voltage',
  unit: 'V',
  inputs: { V_oc: ['V', 1, 60] },
  expression: 'V_oc',
  compute: ({ V_oc }) => V_oc,
  source: 'the drive can pull the gate over the whole rail',
})

/** The same where the drive has a supply of its own. */
export const highestRegulatedGateSource = /*#__PURE__*/ formula({
  symbol: 'V_GShigh',
  quantity: 'highest gate-source voltage',
  unit: 'V',
  inputs: { V_reg: ['V', 1, 20] },
  expression: 'V_reg',
  compute: ({ V_reg }) => V_reg,
  source: 'the drive can pull the gate over the whole supply',
})
