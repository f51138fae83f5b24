import {
  exactly,
  type Given,
  type Input,
  InputError,
  joined,
  own,
  type PartFields,
  part,
  type Read,
  readNumber,
  readRecord,
  record,
  type Spread,
  spread,
  word,
} from '@ohmward/quantity'
import type { CapacitancePoint } from '../datasheet/capacitance.js'
import type { ImpedancePoint } from '../datasheet/impedance.js'
import { readLaw, readOnResistance, readPoints } from '../datasheet/points.js'
import type { SafePulse } from '../datasheet/pulse.js'
import type { OnResistancePoint } from '../datasheet/table.js'
import { copperResistance } from '../formulas/curves.js'
import type { LawInput, LawText } from '../junction/law.js'

/**
 * What a transistor's data sheet states, by the words of its fields. All are magnitudes: a P-channel data sheet prints
 * many of them negative, leave the sign out.
 */
export const transistorFields = {
  thresholdVoltage: {
    symbol: 'V_th',
    unit: 'V',
    above: 0,
    max: 20,
    meaning: 'threshold at 25 °C, smallest to largest',
  },
  thresholdFall: {
    symbol: 'k_th',
    unit: 'V/K',
    min: 0,
    max: 0.02,
    otherwise: 3e-3,
    meaning: 'fall of the threshold with temperature',
  },
  gateSourceMaximum: {
    symbol: 'V_GSmax',
    unit: 'V',
    above: 0,
    max: 100,
    meaning: 'absolute maximum of the gate-source voltage',
  },
  drainSourceMaximum: { symbol: 'V_DSmax', unit: 'V', above: 0, max: 2000, meaning: 'rated drain-source voltage' },
  currentMaximum: {
    symbol: 'I_Dmax',
    unit: 'A',
    above: 0,
    max: 1000,
    meaning: 'rated continuous drain current, mounted as yours',
  },
  junctionMaximumCelsius: {
    symbol: 'T_lim',
    unit: 'degC',
    min: 50,
    max: 250,
    otherwise: 150,
    meaning: 'rated junction temperature',
  },
  gateCharge: { symbol: 'Q_g', unit: 'C', above: 0, max: 1e-5, meaning: 'total gate charge at your drive level' },
  gateSourceCharge: { symbol: 'Q_gs', unit: 'C', above: 0, max: 1e-5, meaning: 'gate charge up to the plateau' },
  gateDrainCharge: { symbol: 'Q_gd', unit: 'C', above: 0, max: 1e-5, meaning: 'gate charge over the plateau' },
  plateauVoltage: { symbol: 'V_pl', unit: 'V', above: 0, max: 20, meaning: 'gate-source voltage of the plateau' },
  gateResistance: {
    symbol: 'R_gi',
    unit: 'ohm',
    min: 0,
    max: 100,
    otherwise: 2,
    meaning: 'resistance inside the gate',
  },
  outputCapacitance: { symbol: 'C_oss', unit: 'F', min: 0, max: 1e-7, otherwise: 0, meaning: 'output capacitance' },
  inputCapacitance: { symbol: 'C_iss', unit: 'F', above: 0, max: 1e-7, meaning: 'input capacitance' },
  reverseCapacitance: {
    symbol: 'C_gd',
    unit: 'F',
    min: 0,
    max: 1e-7,
    otherwise: 0,
    meaning: 'reverse transfer capacitance at a high drain voltage, where it is small',
  },
  gateLeakage: {
    symbol: 'I_leak',
    unit: 'A',
    min: 0,
    max: 1e-3,
    otherwise: 1e-6,
    meaning: 'leakage of gate and drive, hot, largest',
  },
} as const satisfies PartFields

/** One point of thermal resistance against copper. */
export interface CopperPoint {
  readonly squareMillimetres: number
  readonly kelvinPerWatt: number
}

/** A table of a data sheet: points, or one text. */
const table = { type: ['array', 'string'] }

/** What a transistor is made of: the fields of its data sheet, its channel, and its tables. */
export const transistorRecord = /*#__PURE__*/ joined(transistorFields, {
  channel: /*#__PURE__*/ word(['N', 'P'], { meaning: 'channel: N on the low side, P on the high side' }),
  onResistance: /*#__PURE__*/ own<
    string | readonly { readonly gateSource: Input; readonly maximum: Input; readonly typical?: Input }[]
  >()(readOnResistance, {
    schema: table,
    meaning: 'guaranteed lines of R_DS(on), voltages ascending: 1.8 V: 32 mohm typ 22 mohm; 4.5 V: 12 mohm',
  }),
  leastShare: /*#__PURE__*/ exactly({
    symbol: 'a_low',
    unit: '1',
    min: 0,
    max: 1,
    otherwise: 0.2,
    meaning: 'least on-resistance of any lot, as a share of the typical: no data sheet states it',
  }),
  temperatureLaw: /*#__PURE__*/ own<LawInput>()(readLaw, {
    schema: { type: 'object' },
    meaning: 'how the on-resistance goes with temperature: a line, a power, or points of a curve',
  }),
  copper: /*#__PURE__*/ own<string | readonly CopperPoint[]>()(copperPoints, {
    schema: table,
    optional: true,
    meaning:
      "thermal resistance against copper area in mm², where the board's own isn't known: 40: 115 K/W; 650: 48 K/W",
  }),
  transientImpedance: /*#__PURE__*/ own<string | readonly ImpedancePoint[]>()(impedancePoints, {
    schema: table,
    optional: true,
    meaning: 'transient thermal impedance from junction to ambient, single pulse: 1 ms: 1.1 K/W; 10 ms: 3.4 K/W',
  }),
  safePulses: /*#__PURE__*/ own<string | readonly SafePulse[]>()(safePoints, {
    schema: table,
    optional: true,
    meaning: 'power of a single pulse that the safe operating area allows at your voltage, case at 25 °C: 1 ms: 105 W',
  }),
  reverseCurve: /*#__PURE__*/ own<string | readonly CapacitancePoint[]>()(capacitancePoints, {
    schema: table,
    optional: true,
    meaning:
      'reverse transfer capacitance against drain-source voltage, at two voltages or more, instead of one value: 0 V: 900 pF; 15 V: 110 pF',
  }),
  avalancheEnergy: /*#__PURE__*/ spread({
    symbol: 'E_AS',
    unit: 'J',
    above: 0,
    optional: true,
    meaning: 'rated single-pulse avalanche energy',
  }),
} as const)

/** A transistor as its user writes it. */
export type Transistor = Given<typeof transistorRecord>

/** A transistor that was read. */
export interface ReadTransistor {
  readonly channel: 'N' | 'P'
  readonly fields: { readonly [W in keyof typeof transistorFields]: Spread }
  readonly onResistance: readonly OnResistancePoint[]
  /** Least on-resistance of any lot, as a share of the typical. */
  readonly leastShare: number
  readonly law: LawText
  readonly copper: readonly CopperPoint[] | undefined
  readonly transientImpedance: readonly ImpedancePoint[] | undefined
  readonly safePulses: readonly SafePulse[] | undefined
  readonly reverseCurve: readonly CapacitancePoint[] | undefined
  readonly avalancheEnergy: number | undefined
}

const alone = /*#__PURE__*/ record({ transistor: /*#__PURE__*/ part(transistorRecord, { meaning: 'transistor' }) })

/**
 * Reads a transistor.
 *
 * @throws InputError naming the field: points not ascending, no guaranteed line, a negative magnitude, fields missing
 */
export function readTransistor(transistor: unknown): ReadTransistor {
  refuseNegatives(transistor)
  return transistorOf(readRecord(alone, { transistor }, 'choice').transistor)
}

/** A transistor of its record. @throws InputError where the plateau doesn't lie above the threshold */
export function transistorOf(read: Read<typeof transistorRecord>): ReadTransistor {
  const { channel, onResistance, temperatureLaw: law, copper, transientImpedance, safePulses } = read
  const { reverseCurve, avalancheEnergy, leastShare } = read
  const { plateauVoltage, thresholdVoltage } = read
  if (plateauVoltage.lower <= thresholdVoltage.lower) {
    throw new InputError({
      field: 'transistor.plateauVoltage',
      value: plateauVoltage.lower,
      unit: 'V',
      allowed: `more than the smallest threshold, ${thresholdVoltage.lower} V`,
    })
  }
  const tables = { onResistance, law, copper, transientImpedance, safePulses, reverseCurve }
  return { channel, fields: read, leastShare, ...tables, avalancheEnergy: avalancheEnergy?.lower }
}

/**
 * P-channel data sheets print negative voltages and currents: the hint says what to write.
 *
 * @throws InputError naming the first field of a transistor that was given with a sign
 */
export function refuseNegatives(given: unknown): void {
  if (typeof given !== 'object' || given === null) return
  for (const [word, value] of Object.entries(given)) {
    if (!Object.hasOwn(transistorFields, word)) continue
    const isNegative =
      (typeof value === 'number' && value < 0) || (typeof value === 'string' && /^\s*[-\u2212]/.test(value))
    if (!isNegative) continue
    const hint = 'All values are magnitudes: leave the sign out, also where a P-channel data sheet prints one'
    throw new InputError({ field: `transistor.${word}`, value, allowed: 'a magnitude, 0 or more', hint })
  }
}

function copperPoints(given: unknown, field: string) {
  const specs = { squareMillimetres: { unit: '1', above: 0 }, kelvinPerWatt: { unit: 'K/W', above: 0 } } as const
  return readPoints(given, field, specs, 'falling')
}

function impedancePoints(given: unknown, field: string) {
  const specs = { seconds: { unit: 's', above: 0 }, kelvinPerWatt: { unit: 'K/W', above: 0 } } as const
  return readPoints(given, field, specs, 'rising')
}

function capacitancePoints(given: unknown, field: string) {
  const specs = { volts: { unit: 'V', min: 0, max: 2000 }, farads: { unit: 'F', above: 0, max: 1e-7 } } as const
  return readPoints(given, field, specs, 'falling', 2)
}

function safePoints(given: unknown, field: string) {
  const specs = { seconds: { unit: 's', above: 0 }, watts: { unit: 'W', above: 0 } } as const
  return readPoints(given, field, specs, 'falling')
}

/**
 * Thermal resistance at a copper area, K/W: straight in both logarithms between the points, never beyond them.
 *
 * @returns the area that was read, mm², and the resistance
 */
export function resistanceOfCopper(
  points: readonly CopperPoint[],
  given: unknown,
  field: string,
): { area: number; resistance: number } {
  const first = points[0]!
  const last = points[points.length - 1]!
  const area = readNumber(given, { field, unit: '1', min: first.squareMillimetres, max: last.squareMillimetres })
  let i = 1
  while (i < points.length - 1 && points[i]!.squareMillimetres < area) i++
  const a = points[i - 1] ?? first
  const b = points[i] ?? last
  if (a === b || a.squareMillimetres === b.squareMillimetres) return { area, resistance: a.kelvinPerWatt }
  const resistance = copperResistance({
    R_1: a.kelvinPerWatt,
    R_2: b.kelvinPerWatt,
    A_1: a.squareMillimetres,
    A_2: b.squareMillimetres,
    A_cu: area,
  })
  return { area, resistance }
}
