import type { AnyFormula } from '@ohmward/budget'
import type { PlaceSymbol } from './follow.js'

/** What a table is looked up by. It stands among the formulas, so that what is behind a symbol is found through tables. */
const lookUp = (symbol: PlaceSymbol, by: PlaceSymbol): AnyFormula =>
  Object.assign(() => Number.NaN, {
    symbol,
    quantity: 'looked up in a table of the data sheet',
    unit: '1',
    inputs: { [by]: ['1', 0, 1] as const },
    expression: by,
    source: 'data sheet',
  })

const line = [/*#__PURE__*/ lookUp('R_gua', 'V_GS'), /*#__PURE__*/ lookUp('R_typ', 'V_GS')]
const pulse = [
  /*#__PURE__*/ lookUp('P_25', 't_slow'),
  /*#__PURE__*/ lookUp('Z_p', 't_on'),
  /*#__PURE__*/ lookUp('Z_pc', 't_con'),
  /*#__PURE__*/ lookUp('Z_pk', 't_pk'),
]

/**
 * The line of the on-resistance goes with the gate voltage where there is more than one, the safe power with the edge,
 * the thermal impedance with the pulse.
 */
export const lookUps = (lines: number): readonly AnyFormula[] => (lines > 1 ? [...line, ...pulse] : pulse)
