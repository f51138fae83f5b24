import { type Check, exactly, type Given, InputError, type Read, readRecord, record, spread } from '@ohmward/quantity'
import { valueAt } from '../curve/curve.js'
import { points } from '../curve/points.js'
import { publishedCurves } from './published.js'

const celsius = { word: 'celsius', unit: 'degC', min: -60, max: 125 } as const
const charge = { word: 'charge', unit: '1', min: 0, max: 1 } as const
const factor = { word: 'factor', unit: '1', min: 0.1, max: 100 } as const

/** What a cell's data sheet states, each for one cell; what it doesn't state has a value that can be seen and changed. */
export const cellFields = {
  inSeries: /*#__PURE__*/ exactly({
    symbol: 'n_s',
    unit: '1',
    min: 1,
    max: 100,
    integer: true,
    otherwise: 1,
    meaning: 'cells in series',
  }),
  openCircuit: /*#__PURE__*/ points(
    {
      x: charge,
      y: { word: 'voltage', unit: 'V', min: 0.5, max: 5 },
      ends: [0, 1],
      rises: 'strictly',
      named: publishedCurves,
    },
    {
      meaning: 'open-circuit voltage of one cell against its charge, 0 to 1: a published curve by its name, or points',
    },
  ),
  openCircuitSpread: /*#__PURE__*/ spread({
    symbol: 'e_oc',
    unit: 'V',
    magnitude: true,
    min: -0.5,
    max: 0.5,
    otherwise: 0.03,
    meaning: 'how far a cell may be off the curve, hysteresis included, either way (common practice, no source)',
  }),
  openCircuitSpreadEmpty: /*#__PURE__*/ spread({
    symbol: 'e_low',
    unit: 'V',
    magnitude: true,
    min: -0.5,
    max: 0.5,
    otherwise: 0.05,
    meaning:
      'what is added to it near empty, where cells of one type diverge: in full below a tenth of the charge, tapering to none at a quarter (four measured cells, whose ends of charge lie within 2 % of each other)',
  }),
  capacity: /*#__PURE__*/ spread({
    symbol: 'Q_cell',
    unit: 'C',
    above: 0,
    max: 1e7,
    meaning: 'capacity when new, with its tolerance',
  }),
  capacityLeft: /*#__PURE__*/ spread({
    symbol: 'k_Q',
    unit: '1',
    above: 0,
    max: 1,
    otherwise: 0.8,
    meaning: 'share of the capacity left at the end of life (common practice, no source)',
  }),
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_cell',
    unit: 'ohm',
    min: 0,
    max: 100,
    meaning: 'dc resistance, new, at 25 °C and half charge, with its spread (the 1 kHz value is lower)',
  }),
  temperatureFactor: /*#__PURE__*/ points(
    { x: celsius, y: factor },
    {
      otherwise: '-20 degC: 5, 0 degC: 2.5, 25 degC: 1, 60 degC: 0.85',
      meaning: "factor of the resistance against the cell's temperature (common practice, no source)",
    },
  ),
  chargeFactor: /*#__PURE__*/ points(
    { x: charge, y: factor, ends: [0, 1] },
    {
      otherwise: '0: 2.5, 0.1: 1.6, 0.2: 1.2, 0.5: 1, 1: 1',
      meaning: 'factor of the resistance against the charge (common practice, no source)',
    },
  ),
  ageFactor: /*#__PURE__*/ spread({
    symbol: 'k_old',
    unit: '1',
    min: 1,
    max: 20,
    otherwise: 2,
    meaning: 'factor of the resistance at the end of life (common practice, no source)',
  }),
  continuousCurrent: /*#__PURE__*/ exactly({
    symbol: 'I_cont',
    unit: 'A',
    above: 0,
    max: 1e4,
    meaning: 'largest continuous discharge current',
  }),
  pulseCurrent: /*#__PURE__*/ exactly({
    symbol: 'I_pulse',
    unit: 'A',
    above: 0,
    max: 1e4,
    optional: true,
    meaning: 'largest discharge current in pulses; the continuous one by default',
  }),
  lowestVoltage: /*#__PURE__*/ exactly({
    symbol: 'V_end',
    unit: 'V',
    above: 0,
    max: 5,
    otherwise: 3,
    meaning: 'voltage at rest at which the use of one cell ends: the cut-off (common practice, no source)',
  }),
  damageVoltage: /*#__PURE__*/ exactly({
    symbol: 'V_dmg',
    unit: 'V',
    above: 0,
    max: 5,
    otherwise: 2.5,
    meaning: 'voltage at rest below which a cell is permanently damaged (common practice, no source)',
  }),
  protectionVoltage: /*#__PURE__*/ spread({
    symbol: 'V_prot',
    unit: 'V',
    above: 0,
    max: 5,
    optional: true,
    meaning:
      'voltage of one cell at its terminals at which its protection disconnects the load, with its limits; where it is not given, it is assumed to act before damage',
  }),
  hazardVoltage: /*#__PURE__*/ exactly({
    symbol: 'V_haz',
    unit: 'V',
    min: 0,
    max: 5,
    otherwise: 1.5,
    meaning: 'voltage at rest below which a cell must never be recharged (common practice, no source)',
  }),
  selfDischarge: /*#__PURE__*/ spread({
    symbol: 's_mon',
    unit: '1',
    min: 0,
    max: 1,
    otherwise: { nominal: 0.02, lower: 0.01, upper: 0.05, distribution: { kind: 'rectangular' } },
    meaning:
      'share of the charge that it loses in a month, a protection on the cell included (notes of the trade: 1 to 2 %, and about 3 % for the protection)',
  }),
} as const

const inOrder: Check = (read: Read<typeof cellFields>, field) => {
  const { hazardVoltage, damageVoltage, lowestVoltage, openCircuit, continuousCurrent, pulseCurrent } = read
  const at = field === '' ? '' : `${field}.`
  const volts = (word: string, value: number, allowed: string) =>
    new InputError({ field: at + word, value, unit: 'V', allowed })
  if (hazardVoltage > damageVoltage)
    throw volts('hazardVoltage', hazardVoltage, `at most the damageVoltage, ${damageVoltage} V`)
  if (damageVoltage > lowestVoltage)
    throw volts('damageVoltage', damageVoltage, `at most the lowestVoltage, ${lowestVoltage} V`)
  const full = valueAt(openCircuit, 1)
  if (lowestVoltage >= full)
    throw volts('lowestVoltage', lowestVoltage, `less than the voltage of the full cell, ${full} V`)
  const { protectionVoltage } = read
  if (protectionVoltage !== undefined && protectionVoltage.upper >= full)
    throw volts('protectionVoltage', protectionVoltage.upper, `less than the voltage of the full cell, ${full} V`)
  if (pulseCurrent !== undefined && pulseCurrent < continuousCurrent) {
    const allowed = `at least the continuousCurrent, ${continuousCurrent} A`
    throw new InputError({ field: `${at}pulseCurrent`, value: pulseCurrent, unit: 'A', allowed })
  }
}

/** A cell, as a record. */
export const cellRecord = /*#__PURE__*/ record(cellFields, inOrder)

/** A cell as its user writes it. */
export type Cell = Given<typeof cellRecord>

/** A cell that was read, in SI units. */
export type ReadCell = Read<typeof cellRecord>

/**
 * Reads a cell.
 *
 * @param field - where it is, in the caller's words: `cell`
 * @throws InputError naming the field: one missing or unknown, a curve that doesn't rise or doesn't go from empty to full,
 *   voltages that aren't in order (hazard, damage, cut-off, full)
 */
export const readCell = (given: unknown, field = 'cell'): ReadCell => readRecord(cellRecord, given, field, `${field}.`)
