import { formula } from '@ohmward/budget/formula'

export { ownReference, referenceOnRail } from '@ohmward/adc/formulas'

/** Excitation taken from the rail: one variable with all that is the rail. */
export const excitationFromRail = /*#__PURE__*/ formula({
  symbol: 'V_exc',
  quantity: 'excitation, the rail',
  unit: 'V',
  inputs: { V_rail: ['V', 0.5, 60] },
  expression: 'V_rail',
  compute: (x) => x.V_rail,
  source: 'one node',
})

/** Excitation taken from the converter's reference: one node, whatever that is. */
export const excitationFromReference = /*#__PURE__*/ formula({
  symbol: 'V_exc',
  quantity: "excitation, the converter's reference",
  unit: 'V',
  inputs: { V_ref: ['V', 0.5, 60] },
  expression: 'V_ref',
  compute: (x) => x.V_ref,
  source: 'one node',
})

/** Supply of the amplifier taken from the rail. */
export const amplifierOnRail = /*#__PURE__*/ formula({
  symbol: 'V_amp',
  quantity: 'supply of the amplifier, the rail',
  unit: 'V',
  inputs: { V_rail: ['V', 0.5, 60] },
  expression: 'V_rail',
  compute: (x) => x.V_rail,
  source: 'one node',
})
