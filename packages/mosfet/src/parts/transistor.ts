import {
  type Input,
  InputError,
  missingFields,
  type PartFields,
  type PartInput,
  readNumber,
  readPart,
  readSpread,
  type Spread,
} from '@ohmward/quantity'
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
    meaning: 'reverse transfer capacitance',
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

/** A transistor as its user writes it. */
export type Transistor = PartInput<typeof transistorFields> & {
  readonly channel: 'N' | 'P'
  /** Guaranteed lines of R_DS(on), voltages ascending; as a text `1.8 V: 32 mohm typ 22 mohm; 4.5 V: 12 mohm`. */
  readonly onResistance:
    | string
    | readonly { readonly gateSource: Input; readonly maximum: Input; readonly typical?: Input }[]
  readonly temperatureLaw: LawInput
  /** Thermal resistance from junction to ambient against copper area in mm², `40: 115 K/W; 650: 48 K/W`; where the board's own isn't known. */
  readonly copper?: string | readonly CopperPoint[]
  /** Transient thermal impedance from junction to ambient, single pulse, `1 ms: 1.1 K/W; 10 ms: 3.4 K/W`. */
  readonly transientImpedance?: string | readonly ImpedancePoint[]
  /** Power of a single pulse that the safe operating area allows at your voltage, case at 25 °C, `1 ms: 105 W`. */
  readonly safePulses?: string | readonly SafePulse[]
  /** Rated single-pulse avalanche energy. */
  readonly avalancheEnergy?: Input
}

/** A transistor that was read. */
export interface ReadTransistor {
  readonly channel: 'N' | 'P'
  readonly fields: { readonly [W in keyof typeof transistorFields]: Spread }
  readonly onResistance: readonly OnResistancePoint[]
  readonly law: LawText
  readonly copper: readonly CopperPoint[] | undefined
  readonly transientImpedance: readonly ImpedancePoint[] | undefined
  readonly safePulses: readonly SafePulse[] | undefined
  readonly avalancheEnergy: number | undefined
}

const own = ['channel', 'onResistance', 'temperatureLaw'] as const
const extras = ['copper', 'transientImpedance', 'safePulses', 'avalancheEnergy'] as const

/**
 * Reads a transistor.
 *
 * @param field - where it is, in the caller's words: `transistor`
 * @throws InputError naming the field: points not ascending, no guaranteed line, a negative magnitude, fields missing
 */
export function readTransistor(input: unknown, field = 'transistor'): ReadTransistor {
  const words = Object.keys(transistorFields) as (keyof typeof transistorFields)[]
  const required = words.filter((word) => !('otherwise' in transistorFields[word]))
  const given = missingFields(input, [...own, ...required], field, [...words, ...extras])
  const { channel, onResistance, temperatureLaw, copper, transientImpedance, safePulses, avalancheEnergy, ...rest } =
    given
  if (channel !== 'N' && channel !== 'P') {
    throw new InputError({ field: `${field}.channel`, value: channel, allowed: '"N" or "P"' })
  }
  for (const word of words) refuseNegative(rest[word], `${field}.${word}`)
  const fields = readPart(rest, transistorFields, field)
  const lines = readOnResistance(onResistance, `${field}.onResistance`)
  if (fields.plateauVoltage.lower <= fields.thresholdVoltage.lower) {
    throw new InputError({
      field: `${field}.plateauVoltage`,
      value: fields.plateauVoltage.lower,
      unit: 'V',
      allowed: `more than the smallest threshold, ${fields.thresholdVoltage.lower} V`,
    })
  }
  return {
    channel,
    fields,
    onResistance: lines,
    law: readLaw(temperatureLaw, `${field}.temperatureLaw`),
    copper: copper === undefined ? undefined : copperPoints(copper, `${field}.copper`),
    transientImpedance:
      transientImpedance === undefined ? undefined : impedancePoints(transientImpedance, `${field}.transientImpedance`),
    safePulses: safePulses === undefined ? undefined : safePoints(safePulses, `${field}.safePulses`),
    avalancheEnergy:
      avalancheEnergy === undefined
        ? undefined
        : readSpread(avalancheEnergy, { field: `${field}.avalancheEnergy`, unit: 'J', above: 0 }).lower,
  }
}

/** P-channel data sheets print negative voltages and currents: the hint says what to write. */
function refuseNegative(value: unknown, field: string): void {
  const negative =
    (typeof value === 'number' && value < 0) || (typeof value === 'string' && /^\s*[-\u2212]/.test(value))
  if (!negative) return
  const hint = 'All values are magnitudes: leave the sign out, also where a P-channel data sheet prints one'
  throw new InputError({ field, value, allowed: 'a magnitude, 0 or more', hint })
}

const copperPoints = (given: unknown, field: string) =>
  readPoints(
    given,
    field,
    { squareMillimetres: { unit: '1', above: 0 }, kelvinPerWatt: { unit: 'K/W', above: 0 } },
    'falling',
  )

const impedancePoints = (given: unknown, field: string) =>
  readPoints(given, field, { seconds: { unit: 's', above: 0 }, kelvinPerWatt: { unit: 'K/W', above: 0 } }, 'rising')

const safePoints = (given: unknown, field: string) =>
  readPoints(given, field, { seconds: { unit: 's', above: 0 }, watts: { unit: 'W', above: 0 } }, 'falling')

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
