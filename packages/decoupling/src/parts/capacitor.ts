import { exactly, type Given, name, own, type PartFields } from '@ohmward/quantity'
import { type CelsiusPoint, curveSchema, readCurve, type VoltPoint } from './curve.js'

/** One kind of capacitor, as its data sheet states one part of it. */
export const capacitorFields = {
  capacitance: {
    symbol: 'C_r',
    hasTolerance: true,
    unit: 'F',
    min: 1e-12,
    max: 100,
    meaning: 'rated capacitance with its tolerance',
  },
  ratedVoltage: { symbol: 'V_r', unit: 'V', above: 0, max: 1000, meaning: 'rated voltage' },
  seriesResistance: {
    symbol: 'ESR_r',
    unit: 'ohm',
    min: 0,
    max: 100,
    meaning:
      'equivalent series resistance at 20 °C: its largest value (insertion and ripple also count its least share); better a range; 0, or at least 1 uohm',
  },
  seriesInductance: {
    symbol: 'ESL',
    unit: 'H',
    min: 0,
    max: 1e-6,
    otherwise: 0,
    meaning: 'equivalent series inductance, mounted; 0, or at least 1 pH',
  },
  ageing: {
    symbol: 'a_dec',
    unit: '1',
    min: 0,
    max: 0.1,
    otherwise: 0,
    meaning: 'share of the capacitance lost in each decade of hours (class II ceramics)',
  },
  wornCapacitance: {
    symbol: 'k_worn',
    unit: '1',
    above: 0,
    max: 1,
    otherwise: 1,
    meaning: 'share of the capacitance left at the oldest of the ages to cover (electrolytics)',
  },
  wornResistance: {
    symbol: 'k_dry',
    unit: '1',
    min: 1,
    max: 20,
    otherwise: 1,
    meaning: 'growth factor of the series resistance at the oldest of the ages to cover (electrolytics)',
  },
  rippleCurrent: {
    symbol: 'I_rip',
    unit: 'A',
    min: 0,
    max: 1000,
    otherwise: 0,
    meaning: 'rated ripple current at your frequency and temperature; 0: not stated',
  },
  thermalResistance: {
    symbol: 'R_thC',
    unit: 'K/W',
    min: 0,
    max: 1000,
    otherwise: 60,
    meaning: 'thermal resistance of one part to the air',
  },
  lifeHours: {
    symbol: 't_rated',
    unit: '1',
    min: 0,
    max: 1e6,
    otherwise: 0,
    meaning: 'rated life in hours at the rated temperature; 0: none (ceramic)',
  },
  lifeCelsius: { symbol: 'T_rated', unit: 'degC', min: 40, max: 200, otherwise: 105, meaning: 'rated temperature' },
  volume: {
    symbol: 'vol',
    unit: '1',
    min: 0,
    max: 1e6,
    otherwise: 0,
    meaning: 'volume of one part with its place on the board, mm³; 0: not stated',
  },
} as const satisfies PartFields

/** A kind of capacitor with its number, its name and its curves. */
export const capacitorRecord = /*#__PURE__*/ (() =>
  ({
    name: /*#__PURE__*/ name(
      {
        meaning: 'what it is called; by default its key in an object, its place in a list',
        optional: true,
      },
      80,
    ),
    count: /*#__PURE__*/ exactly({
      symbol: 'n_C',
      unit: '1',
      integer: true,
      min: 1,
      max: 1000,
      otherwise: 1,
      meaning: 'how many in parallel',
    }),
    ...capacitorFields,
    bias: /*#__PURE__*/ own<readonly VoltPoint[] | string>()(
      (given, field) => readCurve(given, { field, over: 'volts', falls: true, most: 1 }),
      {
        meaning:
          'share of the capacitance left under dc bias: small-signal factors as in data sheets, dQ/dV at that voltage over that at 0 V; none lost by default',
        schema: curveSchema('volts'),
        optional: true,
      },
    ),
    temperature: /*#__PURE__*/ own<readonly CelsiusPoint[] | string>()(
      (given, field) => readCurve(given, { field, over: 'celsius', most: 2 }),
      {
        meaning: 'factors of the capacitance against temperature, at most 2; none by default',
        schema: curveSchema('celsius'),
        optional: true,
      },
    ),
    cold: /*#__PURE__*/ own<readonly CelsiusPoint[] | string>()(
      (given, field) => readCurve(given, { field, over: 'celsius', most: 1000 }),
      {
        meaning:
          'factors of the series resistance against temperature, at most 1000: cold wet electrolytics; none by default',
        schema: curveSchema('celsius'),
        optional: true,
      },
    ),
  }) as const)()

/** A kind of capacitor as its user writes it. */
export type Capacitor = Given<typeof capacitorRecord>
