import { type Given, own, type PartFields } from '@ohmward/quantity'
import { type CelsiusPoint, curveSchema, readCurve } from './curve.js'

const path = (symbol: string, meaning: string) =>
  ({ symbol, unit: 'ohm', min: 0, max: 10, otherwise: 0, meaning }) as const

/** A cell with its power path, each element once. */
export const cellFields = {
  cellResistance: {
    symbol: 'R_cell',
    unit: 'ohm',
    min: 0,
    max: 10,
    meaning: 'internal resistance of the cell by direct current at 25 °C, new (the 1 kHz value is lower)',
  },
  ageFactor: {
    symbol: 'k_old',
    unit: '1',
    min: 1,
    max: 10,
    otherwise: 1.5,
    meaning:
      'by how much the cell resistance has grown at the oldest of the ages to cover, in a straight line from new',
  },
  contacts: /*#__PURE__*/ path('R_cont', 'cell contacts'),
  protection: /*#__PURE__*/ path('R_prot', 'protection circuit, both its switches'),
  switchResistance: /*#__PURE__*/ path('R_sw', 'power switches in the path, hot'),
  sensor: /*#__PURE__*/ path('R_sens', 'conductor of a current sensor'),
  connector: /*#__PURE__*/ path('R_conn', 'connectors'),
  wiring: /*#__PURE__*/ path('R_wire', 'wires and copper, there and back'),
  polarityDrop: {
    symbol: 'V_pol',
    unit: 'V',
    min: 0,
    max: 2,
    otherwise: 0,
    meaning:
      'forward voltage of a polarity diode in the path, cold; 0 for a transistor, whose resistance goes into the path',
  },
  inductance: {
    symbol: 'L',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: 0,
    meaning: 'inductance of the loop: about 1 µH for each metre of wire, there and back',
  },
} as const satisfies PartFields

/**
 * Resistance of a lithium-ion cell against its temperature, times that at 25 °C. Common practice, no source: two to three
 * times at 0 °C, four to six at -20 °C.
 */
const usual = '-20 degC: 5, 0 degC: 2.5, 25 degC: 1, 60 degC: 0.85'

/** A cell with what temperature does to it. */
export const cellRecord = /*#__PURE__*/ (() =>
  ({
    ...cellFields,
    temperature: /*#__PURE__*/ own<readonly CelsiusPoint[] | string>()(
      (given, field) => readCurve(given, { field, over: 'celsius', most: 100 }),
      {
        meaning: 'what temperature does to the cell resistance, times that at 25 °C; factors of at most 100',
        schema: curveSchema('celsius'),
        otherwise: usual,
      },
    ),
  }) as const)()

/** A cell with its power path, as its user writes it. */
export type Cell = Given<typeof cellRecord> & { readonly kind?: 'cell' }
