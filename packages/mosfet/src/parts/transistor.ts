import {
  exactly,
  type Given,
  InputError,
  joined,
  own,
  type Read,
  readNumber,
  readRecord,
  type Spread,
  spread,
  word,
} from '@ohmward/quantity'
import type { CapacitancePoint } from '../datasheet/capacitance.js'
import type { ImpedancePoint } from '../datasheet/impedance.js'
import { type OnResistanceInput, readOnResistance, readPoints } from '../datasheet/points.js'
import type { SafePulse } from '../datasheet/pulse.js'
import { lawField } from '../datasheet/read-law.js'
import type { OnResistancePoint } from '../datasheet/table.js'
import { copperResistance } from '../formulas/curves.js'
import type { LawText } from '../junction/law.js'
import { transistorFields } from './transistor-fields.js'

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
  onResistance: /*#__PURE__*/ own<string | readonly OnResistanceInput[]>()(readOnResistance, {
    schema: table,
    meaning: 'guaranteed lines of the on-resistance, voltages ascending: 1.8 V: 32 mohm typ 22 mohm; 4.5 V: 12 mohm',
  }),
  between: /*#__PURE__*/ word(['step', 'straight'], {
    otherwise: 'step',
    meaning:
      'on-resistance between two lines: in a step, that of the lower voltage holding up to the next, which is what is guaranteed; or in a straight line',
  }),
  leastShare: /*#__PURE__*/ exactly({
    symbol: 'a_low',
    unit: '1',
    min: 0,
    max: 1,
    otherwise: 0.2,
    meaning: 'least on-resistance of any lot, as a share of the typical: no data sheet states it',
  }),
  temperatureLaw: lawField,
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
    min: 1e-9,
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
  /** How the on-resistance runs between two lines. */
  readonly between: 'step' | 'straight'
  /** Least on-resistance of any lot, as a share of the typical. */
  readonly leastShare: number
  readonly law: LawText
  readonly copper: readonly CopperPoint[] | undefined
  readonly transientImpedance: readonly ImpedancePoint[] | undefined
  readonly safePulses: readonly SafePulse[] | undefined
  readonly reverseCurve: readonly CapacitancePoint[] | undefined
  readonly avalancheEnergy: number | undefined
}

/**
 * Reads a transistor.
 *
 * @param path - where it stands, in the caller's words
 * @throws InputError naming the field: points not ascending, no guaranteed line, a negative magnitude, fields missing
 */
export function readTransistor(given: unknown, path = 'transistor'): ReadTransistor {
  refuseNegatives(given, path)
  return transistorOf(readRecord({ fields: transistorRecord }, given, path, `${path}.`), path)
}

/** A transistor of its record. @throws InputError where the plateau doesn't lie above the threshold */
export function transistorOf(read: Read<typeof transistorRecord>, path = 'transistor'): ReadTransistor {
  const { channel, onResistance, temperatureLaw: law, copper, transientImpedance, safePulses } = read
  const { reverseCurve, avalancheEnergy, leastShare, between } = read
  const { plateauVoltage, thresholdVoltage } = read
  if (plateauVoltage.lower <= thresholdVoltage.lower) {
    throw new InputError({
      field: `${path}.plateauVoltage`,
      value: plateauVoltage.lower,
      unit: 'V',
      allowed: `more than the smallest threshold, ${thresholdVoltage.lower} V`,
    })
  }
  const tables = { onResistance, law, copper, transientImpedance, safePulses, reverseCurve }
  return { channel, fields: read, leastShare, between, ...tables, avalancheEnergy: avalancheEnergy?.lower }
}

/**
 * P-channel data sheets print negative voltages and currents: the hint says what to write.
 *
 * @throws InputError naming the first field of a transistor that was given with a sign
 */
export function refuseNegatives(given: unknown, path = 'transistor'): void {
  if (typeof given !== 'object' || given === null) return
  for (const [word, value] of Object.entries(given)) {
    if (!Object.hasOwn(transistorFields, word)) continue
    const isNegative =
      (typeof value === 'number' && value < 0) || (typeof value === 'string' && /^\s*[-\u2212]/.test(value))
    if (!isNegative) continue
    const hint = 'All values are magnitudes: leave the sign out, also where a P-channel data sheet prints one'
    throw new InputError({ field: `${path}.${word}`, value, allowed: 'a magnitude, 0 or more', hint })
  }
}

const kelvinPerWatt = /*#__PURE__*/ exactly({
  unit: 'K/W',
  above: 0,
  meaning: 'thermal resistance, junction to ambient',
})
const seconds = /*#__PURE__*/ exactly({ unit: 's', above: 0, meaning: 'length of the pulse' })
const copperFields = {
  squareMillimetres: /*#__PURE__*/ exactly({ unit: '1', above: 0, meaning: 'copper area in mm²' }),
  kelvinPerWatt,
} as const
const impedanceFields = { seconds, kelvinPerWatt } as const
const capacitanceFields = {
  volts: /*#__PURE__*/ exactly({ unit: 'V', min: 0, max: 2000, meaning: 'drain-source voltage' }),
  farads: /*#__PURE__*/ exactly({ unit: 'F', above: 0, max: 1e-7, meaning: 'capacitance there' }),
} as const
const safeFields = {
  seconds,
  watts: /*#__PURE__*/ exactly({ unit: 'W', above: 0, meaning: 'power allowed' }),
} as const

function copperPoints(given: unknown, field: string) {
  return readPoints(given, field, copperFields, 'falling')
}

function impedancePoints(given: unknown, field: string) {
  return readPoints(given, field, impedanceFields, 'rising')
}

function capacitancePoints(given: unknown, field: string) {
  return readPoints(given, field, capacitanceFields, 'falling', 2)
}

function safePoints(given: unknown, field: string) {
  return readPoints(given, field, safeFields, 'falling')
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
