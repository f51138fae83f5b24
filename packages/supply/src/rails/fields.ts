import {
  type Check,
  exactly,
  type Given,
  InputError,
  kinds,
  name,
  type Read,
  readRecord,
  record,
  spread,
  word,
} from '@ohmward/quantity'
import { points } from '../curve/points.js'

const holdUp = /*#__PURE__*/ spread({
  symbol: 'C_h',
  unit: 'F',
  above: 0,
  max: 100,
  meaning: 'hold-up capacitor with its tolerance, after all losses',
})

/** A linear regulator, as its data sheet states it. */
export const regulatorFields = {
  voltage: /*#__PURE__*/ spread({
    symbol: 'V_set',
    unit: 'V',
    above: 0,
    max: 100,
    meaning: 'output with its tolerance, line and load included',
  }),
  dropout: /*#__PURE__*/ points(
    {
      x: { word: 'current', unit: 'A', min: 0, max: 100 },
      y: { word: 'voltage', unit: 'V', min: 0, max: 10 },
      rises: 'or stays',
    },
    {
      optional: true,
      meaning: 'largest dropout voltage against the current; nothing is assumed beyond the last point',
    },
  ),
  dropoutResistance: /*#__PURE__*/ spread({
    symbol: 'R_do',
    unit: 'ohm',
    min: 0,
    max: 1e4,
    optional: true,
    meaning: 'dropout as a resistance, instead of points',
  }),
  currentLimit: /*#__PURE__*/ exactly({
    symbol: 'I_regmax',
    unit: 'A',
    above: 0,
    max: 100,
    meaning: 'guaranteed output current',
  }),
  quiescentCurrent: /*#__PURE__*/ spread({
    symbol: 'I_q',
    unit: 'A',
    min: 0,
    max: 1,
    meaning: 'its ground current; that in dropout, if higher',
  }),
  inDrawer: /*#__PURE__*/ word(['on', 'off'], {
    otherwise: 'on',
    meaning: 'whether it stays on in the drawer; its ground current then counts without being listed',
  }),
  lowestInput: /*#__PURE__*/ exactly({
    symbol: 'V_inmin',
    unit: 'V',
    min: 0,
    max: 100,
    otherwise: 0,
    meaning: 'lowest input at which it works',
  }),
  highestInput: /*#__PURE__*/ exactly({
    symbol: 'V_inmax',
    unit: 'V',
    above: 0,
    max: 1000,
    optional: true,
    meaning: 'highest input allowed',
  }),
  responseTime: /*#__PURE__*/ spread({
    symbol: 't_resp',
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 50e-6,
    meaning: 'response time to a load step (common practice, no source)',
  }),
  outputCapacitance: /*#__PURE__*/ spread({
    symbol: 'C_out',
    unit: 'F',
    above: 0,
    max: 1,
    otherwise: '1 uF ±50 %',
    meaning: 'capacitor at its output, with its tolerance, after all losses (common practice, no source)',
  }),
  outputSeriesResistance: /*#__PURE__*/ spread({
    symbol: 'ESR_out',
    unit: 'ohm',
    min: 0,
    max: 100,
    otherwise: 0.02,
    meaning: 'series resistance of that capacitor (common practice, no source)',
  }),
  thermalResistance: /*#__PURE__*/ exactly({
    symbol: 'R_threg',
    unit: 'K/W',
    min: 0,
    max: 1e4,
    otherwise: 250,
    meaning: 'junction to ambient, as mounted (common practice, no source for a small package)',
  }),
  highestJunction: /*#__PURE__*/ exactly({
    symbol: 'T_regmax',
    unit: 'degC',
    min: 0,
    max: 300,
    otherwise: 125,
    meaning: 'highest junction temperature (common practice, no source)',
  }),
} as const

/** A diode with a hold-up capacitor behind it. */
export const diodeFields = {
  forwardVoltage: /*#__PURE__*/ spread({
    symbol: 'V_f0',
    unit: 'V',
    min: 0,
    max: 3,
    meaning: 'forward voltage at a current, 25 °C, with its spread',
  }),
  forwardAt: /*#__PURE__*/ exactly({
    symbol: 'I_f0',
    unit: 'A',
    above: 0,
    max: 1e3,
    meaning: 'current of that forward voltage',
  }),
  secondVoltage: /*#__PURE__*/ exactly({
    symbol: 'V_f1',
    unit: 'V',
    min: 0,
    max: 3,
    optional: true,
    meaning: 'typical forward voltage at a second current',
  }),
  secondAt: /*#__PURE__*/ exactly({
    symbol: 'I_f1',
    unit: 'A',
    above: 0,
    max: 1e3,
    optional: true,
    meaning: 'the second current',
  }),
  emission: /*#__PURE__*/ spread({
    symbol: 'n_f',
    unit: '1',
    min: 0.5,
    max: 4,
    otherwise: { nominal: 1.2, lower: 1, upper: 2, distribution: { kind: 'rectangular' } },
    meaning: 'emission coefficient, where no second point is stated (common practice, no source)',
  }),
  drift: /*#__PURE__*/ spread({
    symbol: 'k_f',
    unit: 'V/K',
    min: 0,
    max: 0.01,
    otherwise: '1.5 mV/K ±0.7 mV/K',
    meaning: 'fall of the forward voltage with temperature: a cold diode drops more (common practice, no source)',
  }),
  reverseLeakage: /*#__PURE__*/ spread({
    symbol: 'I_rev',
    unit: 'A',
    min: 0,
    max: 0.1,
    otherwise: 10e-6,
    meaning: 'reverse leakage, hot (common practice, no source)',
  }),
  capacitance: holdUp,
} as const

/** A resistor with a hold-up capacitor behind it. */
export const resistorFields = {
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_iso',
    unit: 'ohm',
    above: 0,
    max: 1e5,
    meaning: 'resistor between the rails',
  }),
  capacitance: holdUp,
} as const

const whole: Check = (read: { readonly kind: string }, field) => {
  if (isRegulator(read)) {
    const { dropout, dropoutResistance } = read
    if ((dropout === undefined) === (dropoutResistance === undefined)) {
      const allowed = 'points, or dropoutResistance instead'
      throw new InputError({ field: `${field}.dropout`, value: dropout, allowed })
    }
  }
  if (!isDiode(read)) return
  const { secondVoltage, secondAt, forwardVoltage, forwardAt } = read
  if (secondVoltage === undefined && secondAt === undefined) return
  if (secondVoltage === undefined || secondAt === undefined) {
    const missing = secondAt === undefined ? 'secondAt' : 'secondVoltage'
    throw new InputError({
      field: `${field}.${missing}`,
      value: undefined,
      allowed: 'a value, as the other half of the point is given',
    })
  }
  if (secondAt !== forwardAt && (secondVoltage - forwardVoltage.nominal) * (secondAt - forwardAt) > 0) return
  const allowed = 'higher than forwardVoltage at a current above forwardAt, or lower at one below'
  throw new InputError({ field: `${field}.secondVoltage`, value: secondVoltage, unit: 'V', allowed })
}

const isRegulator = (read: { readonly kind: string }): read is Regulator => read.kind === 'regulator'
const isDiode = (read: { readonly kind: string }): read is Diode => read.kind === 'diode'

/** A rail behind another: its name, the rail that feeds it, and what stands between the two. */
export const railFields = {
  name: /*#__PURE__*/ name({ meaning: 'what it is called' }),
  source: /*#__PURE__*/ name({ meaning: 'the rail that feeds it, by its name' }),
  through: /*#__PURE__*/ kinds(
    { direct: {}, regulator: regulatorFields, diode: diodeFields, resistor: resistorFields },
    { check: whole, meaning: 'part between the two: none, a linear regulator, a diode or a resistor' },
  ),
} as const

/** A rail, as a record. */
export const railRecord = /*#__PURE__*/ record(railFields)

/** A rail behind another as its user writes it. */
export type Rail = Given<typeof railRecord>

/** A rail that was read, in SI units. */
export type ReadRail = Read<typeof railRecord>

/** A regulator that was read. */
export type Regulator = { readonly kind: 'regulator' } & Read<typeof regulatorFields>

/** A diode that was read. */
export type Diode = { readonly kind: 'diode' } & Read<typeof diodeFields>

/** A resistor that was read. */
export type Resistor = { readonly kind: 'resistor' } & Read<typeof resistorFields>

/**
 * Reads a rail.
 *
 * @param field - where it is, in the caller's words: `rails[1]`
 * @throws InputError naming the field: a regulator with two dropouts or none, a diode with half a second point
 */
export const readRail = (given: unknown, field = 'rail'): ReadRail => readRecord(railRecord, given, field, `${field}.`)
