import type { ChooseOptions } from '@ohmward/budget'
import { InputError, missingFields, oneOf, readNumber, readSpread, type Series } from '@ohmward/quantity'
import type { MosfetChoice } from '../choice.js'
import type { Drive } from '../parts/drive.js'
import type { Transistor } from '../parts/transistor.js'

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

const required = ['transistors', 'load', 'pwm', 'thermal'] as const
const more = [
  'drive',
  'drives',
  'parallel',
  'edges',
  'freewheel',
  'polarityProtection',
  'wiring',
  'bursts',
  'lossLimit',
  'switchingShare',
  'contactAllowed',
  'edgeLimit',
  'series',
  'tolerance',
] as const
const seriesNames = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const

/** Reads what isn't part of a choice. @throws InputError naming the field */
export function readRequirement(requirement: MosfetRequirement): Wanted {
  missingFields(requirement, required, 'requirement', more)
  const { transistors, drive, drives, series = 'E6', tolerance = '1 %', ...base } = requirement
  readSpread(`1 ohm ±${tolerance}`, { field: 'tolerance', unit: 'ohm', min: 0 })
  if ((drive === undefined) === (drives === undefined)) {
    throw new InputError({ field: 'drive', value: drive, allowed: 'one drive, or several by name in "drives"' })
  }
  return {
    transistors: named(transistors, 'transistors'),
    drives: drives === undefined ? [['drive', drive!]] : named(drives, 'drives'),
    base,
    series: oneOf(series, seriesNames, 'series'),
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

function named<T>(given: Readonly<Record<string, T>>, field: string): (readonly [string, T])[] {
  const list = typeof given === 'object' && given !== null ? Object.entries(given) : []
  if (list.length > 0 && list.length <= 50) return list
  throw new InputError({ field, value: given, allowed: '1 to 50 of them by name' })
}
