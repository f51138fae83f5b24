import { formula, type InputRange } from '@ohmward/budget'

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
