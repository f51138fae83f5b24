import {
  type Input,
  InputError,
  missingFields,
  type PartFields,
  type PartInput,
  readPart,
  readSpread,
  type Spread,
} from '@ohmward/quantity'

/** The resistor that holds the gate off; in an inverting drive the pull-up that the transistor pulls against. */
const pullFields = {
  resistance: { symbol: 'R_p', unit: 'ohm', above: 0, max: 1e8, meaning: 'resistance of the pulling resistor' },
  ratedPower: {
    symbol: 'P_prated',
    unit: 'W',
    above: 0,
    max: 100,
    otherwise: 0.1,
    meaning: 'its rated power at the ambient',
  },
} as const satisfies PartFields

const common = {
  gateResistor: { symbol: 'R_g', unit: 'ohm', min: 0, max: 1e6, otherwise: 0, meaning: 'resistor before the gate' },
  pinLeakage: {
    symbol: 'I_pinleak',
    unit: 'A',
    min: 0,
    max: 1e-3,
    otherwise: 1e-6,
    meaning: 'leakage of the pin while it is an input, hot',
  },
} as const satisfies PartFields

/** A drive that pulls both ways: a controller's pin or a driver circuit. */
const directFields = {
  ...common,
  resistance: { symbol: 'R_drv', unit: 'ohm', above: 0, max: 1e5, meaning: 'output resistance, switching on' },
  sinkResistance: { symbol: 'R_snk', unit: 'ohm', above: 0, max: 1e5, meaning: 'output resistance, switching off' },
  drop: {
    symbol: 'V_drop',
    unit: 'V',
    min: 0,
    max: 20,
    otherwise: 0,
    meaning: 'voltage lost beside the resistance, switched on',
  },
  offLevel: {
    symbol: 'V_off',
    unit: 'V',
    min: 0,
    max: 20,
    otherwise: 0,
    meaning: 'voltage left on the gate, switched off',
  },
  currentMaximum: { symbol: 'I_pinmax', unit: 'A', above: 0, max: 100, meaning: 'largest peak current allowed' },
  supplyMinimum: {
    symbol: 'V_supmin',
    unit: 'V',
    min: 0,
    max: 100,
    otherwise: 0,
    meaning: 'lowest supply at which it works',
  },
} as const satisfies PartFields

/** One emitter follower, or a complementary pair. */
const followerFields = {
  ...common,
  resistance: {
    symbol: 'R_drv',
    unit: 'ohm',
    above: 0,
    max: 1e5,
    otherwise: 10,
    meaning: 'output resistance of the follower',
  },
  baseEmitter: {
    symbol: 'V_BE',
    unit: 'V',
    min: 0.2,
    max: 2,
    otherwise: '0.7 V ±0.1 V',
    meaning: 'base-emitter voltage',
  },
  currentMaximum: {
    symbol: 'I_pinmax',
    unit: 'A',
    above: 0,
    max: 100,
    otherwise: 0.2,
    meaning: 'largest peak current allowed',
  },
} as const satisfies PartFields

/** One inverting bipolar transistor against a pull-up. */
const inverterFields = {
  ...common,
  saturation: { symbol: 'V_CE', unit: 'V', min: 0, max: 2, otherwise: '0.2 V ±0.1 V', meaning: 'saturation voltage' },
  baseEmitter: {
    symbol: 'V_BE',
    unit: 'V',
    min: 0.2,
    max: 2,
    otherwise: '0.7 V ±0.1 V',
    meaning: 'base-emitter voltage, conducting',
  },
  baseOff: {
    symbol: 'V_BEoff',
    unit: 'V',
    above: 0,
    max: 2,
    otherwise: 0.4,
    meaning: 'base voltage below which it surely blocks, hot',
  },
  baseResistor: { symbol: 'R_b', unit: 'ohm', above: 0, max: 1e7, meaning: 'resistor before the base' },
  highLevel: {
    symbol: 'V_high',
    unit: 'V',
    above: 0,
    max: 20,
    meaning: 'high level of the pin that drives the base, lowest',
  },
  currentGain: { symbol: 'h_FE', unit: '1', min: 5, max: 1e4, otherwise: 50, meaning: 'current gain in use, smallest' },
} as const satisfies PartFields

interface Shared {
  /** Where the pulling resistor sits: `gate`, or on the `drive`'s side of the gate resistor. */
  readonly pull?: PartInput<typeof pullFields> & { readonly at: 'gate' | 'drive' }
  /** What the drive lives on: the sagged rail (unless told), the rail behind a diode, or a regulated voltage. */
  readonly supply?: 'rail' | { readonly diode: Input } | { readonly regulated: Input }
  /** The controller's weak pull, during reset, towards the level that switches on. Absent: the pin floats. */
  readonly resetPull?: Input
}

/** A gate drive as its user writes it. */
export type Drive =
  | (Shared &
      PartInput<typeof directFields> & {
        readonly kind: 'pin' | 'driver'
        /** High level of the pin where it doesn't reach the rail: it then leaves a P-channel gate partly driven. */
        readonly highLevel?: Input
      })
  | (Shared & PartInput<typeof followerFields> & { readonly kind: 'follower'; readonly complementary?: boolean })
  | (Shared &
      PartInput<typeof inverterFields> & {
        readonly kind: 'inverting transistor'
        /** Resistor from base to emitter. */
        readonly basePullDown?: Input
        /** Resistor from the rail to the base that holds the transistor on, and an N-channel load off, during reset. */
        readonly basePullUp?: Input
      })

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

const tables = {
  pin: { fields: directFields, more: ['highLevel'] },
  driver: { fields: directFields, more: ['highLevel'] },
  follower: { fields: followerFields, more: ['complementary'] },
  'inverting transistor': { fields: inverterFields, more: ['basePullDown', 'basePullUp'] },
} as const

/** The published tables of drives: from the words of a drive's fields to symbols. */
export const driveFields = {
  direct: directFields,
  follower: followerFields,
  inverter: inverterFields,
  pull: pullFields,
} as const

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
  const read = readPart(rest, pullFields, field)
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
