import { absoluteReference } from '@ohmward/adc/formulas'
import { at, formula, type Values } from '@ohmward/budget'

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

/** Reference of the converter taken from the rail. */
export const referenceOnRail = /*#__PURE__*/ formula({
  symbol: 'V_ref',
  quantity: 'reference of the converter, the rail',
  unit: 'V',
  inputs: { V_rail: ['V', 0.5, 60] },
  expression: 'V_rail',
  compute: (x) => x.V_rail,
  source: 'one node',
})

/** A reference of its own, at the temperature of the board. */
export const ownReference = /*#__PURE__*/ at(absoluteReference, 'V_ref', (x: Values<'V_ref0' | 'TC_ref' | 'T_d'>) => ({
  V_ref0: x.V_ref0,
  TC_ref: x.TC_ref,
  dT: x.T_d,
}))
