import { type Converter, type ReadConverter, readConverter } from '@ohmward/adc'
import {
  type Input,
  InputError,
  missingFields,
  type PartFields,
  type PartInput,
  type Range,
  readNumber,
  readPart,
  readRange,
  readSpread,
  type Spread,
} from '@ohmward/quantity'
import { type Amplifier, amplifierFields } from './amplifier.js'
import { type Calibration, type ReadCalibration, readCalibration } from './calibration.js'
import { exactly } from './exactly.js'
import {
  excitationSwitchFields,
  gainFields,
  loadFields,
  referenceFields,
  surroundingsFields,
  timingFields,
} from './parts.js'
import { type ReadThermometry, readThermometry, type Thermometry } from './thermometry.js'

/** A low-ohm measurement as its designer chose it. */
export interface DividerChoice {
  /** Resistances that must be read, and what the load is like. */
  readonly load: Range & PartInput<typeof loadFields>
  /** Largest error wanted: a share of the reading (`'3 %'`) or a resistance (`'20 mohm'`). */
  readonly error: number | string
  /** `load at ground` unless told; `load at rail` takes a difference amplifier. */
  readonly topology?: 'load at ground' | 'load at rail'
  /** 2: leads count as load. 4 (unless told): sensed at the load's own terminals. */
  readonly wires?: 2 | 4
  /** `'rail'` unless told, or a voltage of its own. */
  readonly excitation?: 'rail' | Input
  readonly excitationSwitch?: PartInput<typeof excitationSwitchFields>
  /** Reference resistor in series with the load. */
  readonly reference: Input
  readonly referencePart?: PartInput<typeof referenceFields>
  readonly gainResistors: PartInput<typeof gainFields>
  /** Share of the reference voltage added to the output, so that a negative offset still reads. 0 unless told. */
  readonly pedestal?: Input
  readonly surroundings?: PartInput<typeof surroundingsFields>
  readonly amplifier: Amplifier
  /** `'rail'` unless told, or a supply of its own. */
  readonly amplifierSupply?: 'rail' | Input
  readonly converter: Converter
  readonly timing?: PartInput<typeof timingFields>
  readonly calibration?: Calibration
  readonly thermometry?: Thermometry
}

/** What must be covered while the measurement works. */
export interface DividerConditions {
  /** The rail at the moment of the measurement, sagged by whatever is on then. */
  readonly rail: Range
  /** Air around the board, inside the case. */
  readonly ambientCelsius: Range
  /** Rail that the firmware's constants assume where a constant needs one; the middle of the range unless told. */
  readonly nominalRail?: number | string
}

type Read<F extends PartFields> = { [W in keyof F]: Spread }

/** A choice that was read: every part by its words, in SI. */
export interface ReadChoice {
  readonly load: Read<typeof loadFields> & { readonly from: number; readonly to: number }
  readonly error: { readonly kind: 'share' | 'ohm'; readonly value: number }
  readonly topology: 'load at ground' | 'load at rail'
  readonly kappa: 0 | 1
  readonly excitation: Spread | undefined
  readonly excitationSwitch: Read<typeof excitationSwitchFields>
  readonly reference: Spread
  readonly referencePart: Read<typeof referenceFields>
  readonly gainResistors: Read<typeof gainFields>
  readonly pedestal: Spread
  readonly surroundings: Read<typeof surroundingsFields>
  readonly amplifier: Read<typeof amplifierFields>
  readonly amplifierSupply: Spread | undefined
  readonly converter: ReadConverter
  readonly timing: Read<typeof timingFields>
  readonly calibration: ReadCalibration
  readonly thermometry: ReadThermometry | undefined
  readonly rail: { readonly from: number; readonly to: number }
  readonly nominalRail: number
  readonly ambient: { readonly from: number; readonly to: number }
}

const required = ['load', 'error', 'reference', 'gainResistors', 'amplifier', 'converter'] as const
const optional = [
  'topology',
  'wires',
  'excitation',
  'excitationSwitch',
  'referencePart',
  'pedestal',
  'surroundings',
  'amplifierSupply',
  'timing',
  'calibration',
  'thermometry',
] as const

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readChoice(choice: unknown, conditions: unknown): ReadChoice {
  const own = missingFields(choice, required, 'choice', optional)
  const around = missingFields(conditions, ['rail', 'ambientCelsius'], 'conditions', ['nominalRail'])
  const load = readLoad(own.load)
  const rail = readRange(around.rail, { field: 'rail', unit: 'V', above: 0, max: 60 })
  const gainResistors = readPart(own.gainResistors, gainFields, 'gainResistors')
  const topology = oneOf(own.topology ?? 'load at ground', ['load at ground', 'load at rail'] as const, 'topology')
  return {
    load,
    error: readError(own.error, load.from),
    topology,
    kappa: oneOf(own.wires ?? 4, [2, 4] as const, 'wires') === 2 ? 1 : 0,
    excitation: railOr(own.excitation, 'excitation'),
    excitationSwitch: readPart(own.excitationSwitch ?? {}, excitationSwitchFields, 'excitationSwitch'),
    reference: readSpread(own.reference, { field: 'reference', unit: 'ohm', above: 0, max: 1e6 }),
    referencePart: readPart(own.referencePart ?? {}, referenceFields, 'referencePart'),
    gainResistors,
    pedestal: readSpread(own.pedestal ?? 0, {
      field: 'pedestal',
      unit: '1',
      min: 0,
      max: topology === 'load at ground' ? 0.9 : 0,
    }),
    surroundings: readPart(own.surroundings ?? {}, surroundingsFields, 'surroundings'),
    amplifier: readPart(own.amplifier, amplifierFields, 'amplifier'),
    amplifierSupply: railOr(own.amplifierSupply, 'amplifierSupply'),
    converter: readConverter(own.converter),
    timing: readPart(own.timing ?? {}, timingFields, 'timing'),
    calibration: readCalibration(own.calibration),
    thermometry: own.thermometry === undefined ? undefined : readThermometry(own.thermometry),
    rail,
    nominalRail: readNumber(around.nominalRail ?? (rail.from + rail.to) / 2, {
      field: 'nominalRail',
      unit: 'V',
      above: 0,
      max: 60,
    }),
    ambient: readRange(around.ambientCelsius, { field: 'ambientCelsius', unit: 'degC', min: -55, max: 125 }),
  }
}

function readLoad(given: unknown): ReadChoice['load'] {
  const own = missingFields(given, ['from', 'to'], 'load', Object.keys(loadFields))
  const { from, to, ...rest } = own as Record<string, unknown>
  const range = readRange({ from, to }, { field: 'load', unit: 'ohm', min: 0, max: 100 })
  if (range.to === 0) throw new InputError({ field: 'load.to', value: to, unit: 'ohm', allowed: 'more than 0 ohm' })
  const read = readPart({ nominal: (range.from + range.to) / 2, ...rest }, loadFields, 'load')
  exactly(read.nominal, 'load.nominal', 'ohm')
  if (!(read.nominal.nominal >= range.from && read.nominal.nominal <= range.to)) {
    throw new InputError({
      field: 'load.nominal',
      value: read.nominal.nominal,
      unit: 'ohm',
      allowed: `from ${range.from} to ${range.to} ohm`,
    })
  }
  return { ...range, ...read }
}

/** The error wanted: `'3 %'` and bare shares below, `'20 mohm'` as resistance. */
function readError(given: unknown, smallest: number): ReadChoice['error'] {
  const share = typeof given === 'number' || (typeof given === 'string' && given.trim().endsWith('%'))
  if (share && smallest === 0) {
    throw new InputError({
      field: 'error',
      value: given,
      allowed: 'a resistance where the load may be 0 ohm, such as "20 mohm"',
    })
  }
  if (share) return { kind: 'share', value: readNumber(given, { field: 'error', unit: '1', above: 0, max: 1 }) }
  return { kind: 'ohm', value: readNumber(given, { field: 'error', unit: 'ohm', above: 0, max: 100 }) }
}

function railOr(given: unknown, field: string): Spread | undefined {
  return given === undefined || given === 'rail'
    ? undefined
    : readSpread(given, { field, unit: 'V', above: 0, max: 60 })
}

/** One of a few words. */
export function oneOf<const W extends string | number>(given: unknown, words: readonly W[], field: string): W {
  if (words.includes(given as W)) return given as W
  throw new InputError({ field, value: given, allowed: words.map((word) => JSON.stringify(word)).join(' or ') })
}
