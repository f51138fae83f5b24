import type { InputRange } from '@ohmward/budget'
import { formula } from '@ohmward/budget/formula'

const R_gi: InputRange = ['ohm', 0, 50]
const n: InputRange = ['1', 1, 8]
const R_p: InputRange = ['ohm', 100, 1e7]
const R_g: InputRange = ['ohm', 0, 1e4]
const source = 'series and parallel connection, seen from the gate'

/** Resistance through which the gate charges, with a resistor from gate to source beside it. */
export const dividedPathOn = /*#__PURE__*/ formula({
  symbol: 'R_gon',
  quantity: 'resistance that charges the gate',
  unit: 'ohm',
  inputs: { R_ser: ['ohm', 0.1, 1e5], R_p, R_gi, n },
  expression: 'R_ser * R_p / (R_ser + R_p) + R_gi / n',
  compute: ({ R_ser, R_p, R_gi, n }) => (R_ser * R_p) / (R_ser + R_p) + R_gi / n,
  source,
})

/** Resistance through which the gate charges, with nothing beside it. */
export const wholePathOn = /*#__PURE__*/ formula({
  symbol: 'R_gon',
  quantity: 'resistance that charges the gate',
  unit: 'ohm',
  inputs: { R_ser: ['ohm', 0.1, 1e5], R_gi, n },
  expression: 'R_ser + R_gi / n',
  compute: ({ R_ser, R_gi, n }) => R_ser + R_gi / n,
  source,
})

/** Resistance through which a drive that pulls both ways discharges the gate, a resistor from gate to source helping. */
export const dividedPathOff = /*#__PURE__*/ formula({
  symbol: 'R_goff',
  quantity: 'resistance that discharges the gate',
  unit: 'ohm',
  inputs: { R_snk: ['ohm', 0.1, 1e4], R_g, R_p, R_gi, n },
  expression: '(R_snk + R_g) * R_p / (R_snk + R_g + R_p) + R_gi / n',
  compute: ({ R_snk, R_g, R_p, R_gi, n }) => ((R_snk + R_g) * R_p) / (R_snk + R_g + R_p) + R_gi / n,
  source,
})

/** Resistance through which a drive that pulls both ways discharges the gate. */
export const wholePathOff = /*#__PURE__*/ formula({
  symbol: 'R_goff',
  quantity: 'resistance that discharges the gate',
  unit: 'ohm',
  inputs: { R_snk: ['ohm', 0.1, 1e4], R_g, R_gi, n },
  expression: 'R_snk + R_g + R_gi / n',
  compute: ({ R_snk, R_g, R_gi, n }) => R_snk + R_g + R_gi / n,
  source,
})

/** Only the resistor from gate to source discharges the gate: the slow edge. Pitfall H04. */
export const passivePathOff = /*#__PURE__*/ formula({
  symbol: 'R_goff',
  quantity: 'resistance that discharges the gate',
  unit: 'ohm',
  inputs: { R_p, R_gi, n },
  expression: 'R_p + R_gi / n',
  compute: ({ R_p, R_gi, n }) => R_p + R_gi / n,
  source,
})

/** The same with the pull resistor on the driver's side of the gate resistor. */
export const passivePathOffThroughGate = /*#__PURE__*/ formula({
  symbol: 'R_goff',
  quantity: 'resistance that discharges the gate',
  unit: 'ohm',
  inputs: { R_p, R_g, R_gi, n },
  expression: 'R_p + R_g + R_gi / n',
  compute: ({ R_p, R_g, R_gi, n }) => R_p + R_g + R_gi / n,
  source,
})

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
