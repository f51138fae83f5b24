import type { ChooseOptions } from '@ohmward/budget'
import {
  InputError,
  kinds,
  missingFields,
  own,
  readNumber,
  readRecord,
  readSpread,
  record,
  type Series,
  word,
} from '@ohmward/quantity'
import { fields, type MosfetChoice } from '../choice.js'
import { type Drive, driveField, driveRecord } from '../parts/drive.js'
import { readTransistor, type Transistor } from '../parts/transistor.js'

/** What a switch must do; transistor, drive, gate resistor and pull resistor are looked for. */
export interface MosfetRequirement extends Omit<MosfetChoice, 'transistor' | 'drive'> {
  /** Candidates by name. */
  readonly transistors: Readonly<Record<string, Transistor>>
  /** The drive; its gate resistor, and its pull resistor where it has one, are replaced by preferred values. */
  readonly drive?: Drive
  /** Or several by name. */
  readonly drives?: Readonly<Record<string, Drive>>
  /** Series of preferred values (IEC 60063); E6 by default. */
  readonly series?: Series
  /** Tolerance of the resistors; `'1 %'` by default. */
  readonly tolerance?: string
}

/** How it is sized. */
export interface SizeOptions extends Pick<ChooseOptions<MosfetChoice>, 'cost' | 'accept'> {
  /** How many choices are wanted, one for each transistor and drive; 3 by default. */
  readonly most?: number
  /** Full checks for each transistor and drive, at most, once one holds; 16 by default. */
  readonly checks?: number
}

/** A requirement that was read. */
export interface Wanted {
  readonly transistors: readonly (readonly [name: string, Transistor])[]
  readonly drives: readonly (readonly [name: string, Drive])[]
  readonly base: Omit<MosfetChoice, 'transistor' | 'drive'>
  readonly series: Series
  readonly tolerance: string
}

const seriesNames = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const
const byName = { schema: { type: 'object', minProperties: 1, maxProperties: 50 } } as const

/** What a requirement is made of: a choice whose transistor and drive are candidates, and what resistors there are. */
export const requirementRecord = /*#__PURE__*/ (() => {
  const { transistor: _, drive: __, ...others } = fields
  return record({
    ...others,
    transistors: own<MosfetRequirement['transistors']>()(readTransistors, { ...byName, meaning: 'candidates by name' }),
    drive: kinds(driveRecord, {
      optional: true,
      meaning: 'the drive; its gate resistor and pull resistor are what is sized',
    }),
    drives: own<MosfetRequirement['drives']>()(readDrives, {
      ...byName,
      optional: true,
      meaning: 'or several drives by name',
    }),
    series: word(seriesNames, { otherwise: 'E6', meaning: 'preferred values (IEC 60063)' }),
    tolerance: own<string>()(readTolerance, {
      schema: { type: 'string' },
      otherwise: '1 %',
      meaning: 'tolerance of the resistors',
    }),
  } as const)
})()

/**
 * Reads a requirement: all of it, each candidate under its own name, before any of them is looked at.
 *
 * @throws InputError naming the field: `transistors.spare.gateCharge`
 */
export function readRequirement(requirement: MosfetRequirement): Wanted {
  const { series, tolerance } = readRecord(requirementRecord, requirement, 'requirement')
  const { transistors, drive, drives, series: _, tolerance: __, ...base } = requirement
  if ((drive === undefined) === (drives === undefined)) {
    throw new InputError({ field: 'drive', value: drive, allowed: 'one drive, or several by name in "drives"' })
  }
  return {
    transistors: Object.entries(transistors),
    drives: Object.entries(drives ?? { drive: drive! }),
    base,
    series,
    tolerance,
  }
}

/** Reads how it is sized. @throws InputError naming the option */
export function readOptions(options: SizeOptions): SizeOptions & { readonly most: number; readonly checks: number } {
  missingFields(options, [], 'options', ['most', 'checks', 'cost', 'accept'])
  const { most = 3, checks = 16, ...rest } = options
  return {
    ...rest,
    most: readNumber(most, { field: 'most', unit: '1', integer: true, min: 1, max: 50 }),
    checks: readNumber(checks, { field: 'checks', unit: '1', integer: true, min: 1, max: 10_000 }),
  }
}

function readTransistors(given: unknown, field: string): unknown {
  for (const [name, one] of Object.entries(named(given, field))) readTransistor(one, `${field}.${name}`)
  return given
}

function readDrives(given: unknown, field: string): unknown {
  const drives = named(given, field)
  const each = Object.fromEntries(Object.keys(drives).map((name) => [name, driveField]))
  return readRecord({ fields: each }, drives, field, `${field}.`)
}

function readTolerance(given: unknown, field: string): string {
  if (typeof given !== 'string') throw new InputError({ field, value: given, allowed: 'a text such as 1 %' })
  readSpread(`1 ohm ±${given}`, { field, unit: 'ohm', min: 0 })
  return given
}

function named(given: unknown, field: string): object {
  const names = typeof given === 'object' && given !== null ? Object.keys(given) : []
  if (names.length > 0 && names.length <= 50 && names.every(({ length }) => length <= 100)) return given as object
  throw new InputError({ field, value: given, allowed: '1 to 50 of them by name' })
}
