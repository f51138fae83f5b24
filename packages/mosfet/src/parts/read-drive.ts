import { InputError, missingFields, type PartFields, readPart, readSpread, type Spread } from '@ohmward/quantity'
import { type Drive, driveFields } from './drive.js'

/** A drive that was read: numbers by symbol, with what isn't there at 0. */
export interface ReadDrive {
  readonly kind: Drive['kind']
  readonly complementary: boolean
  readonly pull: 'gate' | 'drive' | 'none'
  readonly supply: 'rail' | 'regulated'
  readonly hasHighLevel: boolean
  readonly hasResetPull: boolean
  readonly hasBasePullDown: boolean
  readonly hasBasePullUp: boolean
  readonly spreads: Readonly<Record<DriveSymbol, Spread>>
}

const driveSymbols = [
  'R_g',
  'I_pinleak',
  'R_drv',
  'R_snk',
  'V_drop',
  'V_off',
  'I_pinmax',
  'V_supmin',
  'V_BE',
  'V_CE',
  'V_BEoff',
  'R_b',
  'V_high',
  'h_FE',
  'R_p',
  'P_prated',
  'V_hold',
  'V_reg',
  'R_weak',
  'R_be',
  'R_bp',
] as const
type DriveSymbol = (typeof driveSymbols)[number]

const nothing: Spread = { nominal: 0, lower: 0, upper: 0, distribution: { kind: 'exact' } }
const shared = ['pull', 'supply', 'resetPull'] as const

const tables = /*#__PURE__*/ (() =>
  ({
    pin: { fields: driveFields.direct, more: ['highLevel'] },
    driver: { fields: driveFields.direct, more: ['highLevel'] },
    follower: { fields: driveFields.follower, more: ['complementary', 'basePullDown'] },
    'inverting transistor': { fields: driveFields.inverter, more: ['basePullDown', 'basePullUp'] },
  }) as const)()

/** Reads a drive for a transistor of this channel. @throws InputError naming the field */
export function readDrive(input: unknown, channel: 'N' | 'P', field = 'drive'): ReadDrive {
  const kind = (input as { kind?: unknown } | null | undefined)?.kind
  if (typeof kind !== 'string' || !Object.hasOwn(tables, kind)) {
    throw new InputError({
      field: `${field}.kind`,
      value: kind,
      allowed: Object.keys(tables)
        .map((k) => `"${k}"`)
        .join(', '),
    })
  }
  const { fields, more } = tables[kind as Drive['kind']] as { fields: PartFields; more: readonly string[] }
  const words = Object.keys(fields)
  const required = words.filter((word) => fields[word]!.otherwise === undefined)
  const given = missingFields(input, ['kind', ...required], field, [...words, ...shared, ...more]) as Record<
    string,
    unknown
  >
  const rest = Object.fromEntries(words.filter((word) => word in given).map((word) => [word, given[word]]))
  const parts = readPart(rest, fields, field)
  const spreads = Object.fromEntries(driveSymbols.map((symbol) => [symbol, nothing])) as Record<DriveSymbol, Spread>
  for (const word of words) spreads[fields[word]!.symbol as DriveSymbol] = parts[word]!
  const optional = (word: string, symbol: DriveSymbol, unit: 'V' | 'ohm') => {
    if (given[word] === undefined) return false
    spreads[symbol] = readSpread(given[word], {
      field: `${field}.${word}`,
      unit,
      above: 0,
      max: unit === 'V' ? 100 : 1e8,
    })
    return true
  }
  const flags = {
    hasHighLevel: optional('highLevel', 'V_high', 'V') && kind !== 'inverting transistor',
    hasResetPull: optional('resetPull', 'R_weak', 'ohm'),
    hasBasePullDown: optional('basePullDown', 'R_be', 'ohm'),
    hasBasePullUp: optional('basePullUp', 'R_bp', 'ohm'),
  }
  const complementary = given.complementary === true
  if (given.complementary !== undefined && typeof given.complementary !== 'boolean') {
    throw new InputError({ field: `${field}.complementary`, value: given.complementary, allowed: 'true or false' })
  }
  const pull = readPull(given.pull, `${field}.pull`, spreads)
  if (pull === 'none' && (kind === 'inverting transistor' || (kind === 'follower' && !complementary))) {
    throw new InputError({
      field: `${field}.pull`,
      value: given.pull,
      allowed: 'a resistor: this drive pulls one way only',
    })
  }
  const supply = readSupply(given.supply, `${field}.supply`, spreads)
  if (channel === 'P' && (supply === 'regulated' || spreads.V_hold.upper > 0)) {
    throw new InputError({
      field: `${field}.supply`,
      value: 'another than the rail',
      allowed: '"rail": the source of a P-channel switch is the rail',
    })
  }
  if (channel === 'N') withoutHighLevel(flags.hasHighLevel, given.highLevel, `${field}.highLevel`)
  return { kind: kind as Drive['kind'], complementary, pull, supply, ...flags, spreads }
}

function withoutHighLevel(has: boolean, value: unknown, field: string): void {
  if (!has) return
  const hint = 'For an N-channel switch give the level as the supply of the drive'
  throw new InputError({ field, value, allowed: 'nothing here', hint })
}

function readPull(given: unknown, field: string, into: Record<DriveSymbol, Spread>): ReadDrive['pull'] {
  if (given === undefined) return 'none'
  const { at, ...rest } = missingFields(given, ['at', 'resistance'], field, ['ratedPower'])
  if (at !== 'gate' && at !== 'drive')
    throw new InputError({ field: `${field}.at`, value: at, allowed: '"gate" or "drive"' })
  const read = readPart(rest, driveFields.pull, field)
  into.R_p = read.resistance
  into.P_prated = read.ratedPower
  return at
}

function readSupply(given: unknown, field: string, into: Record<DriveSymbol, Spread>): ReadDrive['supply'] {
  if (given === undefined || given === 'rail') return 'rail'
  const own = missingFields(given, [], field, ['diode', 'regulated'])
  if ((own.diode === undefined) === (own.regulated === undefined)) {
    throw new InputError({ field, value: given, allowed: '"rail", { diode } or { regulated }' })
  }
  if (own.diode !== undefined) {
    into.V_hold = readSpread(own.diode, { field: `${field}.diode`, unit: 'V', min: 0, max: 5 })
    return 'rail'
  }
  into.V_reg = readSpread(own.regulated, { field: `${field}.regulated`, unit: 'V', above: 0, max: 100 })
  return 'regulated'
}
