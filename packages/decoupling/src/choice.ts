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
import {
  type Capacitor,
  type Cell,
  capacitorFields,
  cellFields,
  insertionFields,
  type LimitedSupply,
  type LimitName,
  type Limits,
  type LogicRail,
  limitFields,
  logicFields,
  supplyFields,
  usualCellTemperature,
} from './parts.js'
import { type Curve, readCurve } from './points.js'

/** What is switched on the rail, and when. */
export type SwitchedLoad = (
  | { readonly current: Input }
  | { readonly resistance: Input }
  | { readonly power: Input }
) & {
  /** Time in which the load's current rises in a straight line to what it then draws; 0 unless told. */
  readonly rise?: number | string
  /** The same when it is switched off; the rise time unless told. */
  readonly fall?: number | string
  /** How long it stays on, from the beginning of the rise; for ever unless told. Not with `pwm`. */
  readonly duration?: number | string
  readonly pwm?: { readonly frequency: number | string; readonly duty: number | string }
  /** Power that the load must get, where a resistor is controlled by its duty. */
  readonly wantedPower?: Input
}

/** A rail as its designer chose it. */
export interface DecouplingChoice {
  readonly source: Cell | LimitedSupply
  /** One to six kinds: a list, or an object whose keys are their names. */
  readonly capacitors: readonly Capacitor[] | Readonly<Record<string, Capacitor>>
  readonly load: SwitchedLoad
  /** Current that is drawn all the time, the logic rail's included; 0 unless told. */
  readonly idle?: Input
  /** Minimum supplies; at least one. */
  readonly limits: Limits
  /** Whether the controller's brown-out reset is on; true unless told. */
  readonly brownOutEnabled?: boolean
  /** Without it everything lives on the rail itself. */
  readonly logicRail?: LogicRail
  /** Which limits count on the logic rail, where there is one: brown-out, clock and converter unless told. */
  readonly onLogicRail?: readonly LimitName[]
  readonly insertion?: PartInput<typeof insertionFields>
  /** Life that the capacitors must have, in hours; not asked unless told. */
  readonly wantedLifeHours?: number
}

/** What must be covered. */
export interface DecouplingConditions {
  /** Open-circuit voltage of the source, empty to full. */
  readonly openCircuit: Range
  /** Air around the parts, inside the case. */
  readonly ambientCelsius: Range
  /** Age of cell and capacitors; new to 5 years unless told. */
  readonly ageYears?: Range
}

type Read<F extends PartFields> = { readonly [W in keyof F]: Spread }
type Ends = { readonly from: number; readonly to: number }

/** A kind of capacitor that was read. */
export interface ReadCapacitor {
  readonly name: string
  readonly count: number
  readonly fields: Read<typeof capacitorFields>
  readonly bias: Curve | undefined
  readonly temperature: Curve | undefined
  readonly cold: Curve | undefined
}

/** A choice that was read, in SI units. */
export interface ReadDecoupling {
  readonly source:
    | { readonly kind: 'cell'; readonly fields: Read<typeof cellFields>; readonly temperature: Curve }
    | { readonly kind: 'limited supply'; readonly fields: Read<typeof supplyFields> }
  readonly capacitors: readonly ReadCapacitor[]
  readonly load: {
    readonly kind: 'current' | 'resistor' | 'power'
    readonly value: Spread
    readonly rise: number
    readonly fall: number
    readonly duration: number
    readonly pwm: { readonly frequency: number; readonly duty: number } | undefined
    readonly wantedPower: Spread | undefined
  }
  readonly idle: Spread
  readonly limits: { readonly [N in LimitName]?: Spread }
  readonly brownOutEnabled: boolean
  readonly logicRail: { readonly behind: 'diode' | 'resistor'; readonly fields: Read<typeof logicFields> } | undefined
  readonly onLogicRail: readonly LimitName[]
  readonly insertion: Read<typeof insertionFields>
  readonly wantedLifeHours: number | undefined
  readonly openCircuit: Ends
  readonly ambient: Ends
  readonly age: Ends
}

const required = ['source', 'capacitors', 'load', 'limits'] as const
const optional = ['idle', 'brownOutEnabled', 'logicRail', 'onLogicRail', 'insertion', 'wantedLifeHours'] as const
const limitNames = Object.keys(limitFields) as LimitName[]

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readDecoupling(choice: unknown, conditions: unknown): ReadDecoupling {
  const own = missingFields(choice, required, 'choice', optional)
  const around = missingFields(conditions, ['openCircuit', 'ambientCelsius'], 'conditions', ['ageYears'])
  const openCircuit = readRange(around.openCircuit, { field: 'openCircuit', unit: 'V', above: 0, max: 100 })
  const ambient = readRange(around.ambientCelsius, { field: 'ambientCelsius', unit: 'degC', min: -55, max: 150 })
  const ageGiven = around.ageYears ?? { from: 0, to: 5 }
  const age = readRange(ageGiven, { field: 'ageYears', unit: '1', min: 0, max: 50 })
  const source = readSource(own.source, ambient)
  const load = readLoad(own.load)
  const capacitors = readCapacitors(own.capacitors, openCircuit, ambient)
  const limits = readLimits(own.limits, openCircuit)
  const read: ReadDecoupling = {
    source,
    capacitors,
    load,
    idle: readSpread(own.idle ?? 0, { field: 'idle', unit: 'A', min: 0, max: 100 }),
    limits,
    brownOutEnabled: readBoolean(own.brownOutEnabled ?? true, 'brownOutEnabled'),
    logicRail: own.logicRail === undefined ? undefined : readLogic(own.logicRail),
    onLogicRail: readNames(own.onLogicRail ?? ['brownOut', 'clock', 'converter']),
    insertion: readPart(own.insertion ?? {}, insertionFields, 'insertion'),
    wantedLifeHours:
      own.wantedLifeHours === undefined
        ? undefined
        : readNumber(own.wantedLifeHours, { field: 'wantedLifeHours', unit: '1', above: 0, max: 1e6 }),
    openCircuit,
    ambient,
    age,
  }
  refuseTogether(read)
  refuseProtection(read)
  return read
}

function readSource(given: unknown, ambient: Ends): ReadDecoupling['source'] {
  const kind = typeof given === 'object' && given !== null ? (given as { kind?: unknown }).kind : undefined
  if (kind === 'limited supply') {
    const { kind: _, ...rest } = given as Record<string, unknown>
    return { kind, fields: readPart(rest, supplyFields, 'source') }
  }
  if (kind !== undefined && kind !== 'cell') {
    throw new InputError({ field: 'source.kind', value: kind, allowed: '"cell" or "limited supply"' })
  }
  const own = { ...(given as Record<string, unknown>) }
  const temperature = own['temperature'] ?? usualCellTemperature
  delete own['temperature']
  delete own['kind']
  const fields = readPart(typeof given === 'object' && given !== null ? own : given, cellFields, 'source')
  const curve = readCurve(temperature, { field: 'source.temperature', over: 'celsius', covers: ambient })
  return { kind: 'cell', fields, temperature: curve }
}

function readCapacitors(given: unknown, openCircuit: Ends, ambient: Ends): ReadCapacitor[] {
  const isList = Array.isArray(given)
  const entries = typeof given === 'object' && given !== null ? Object.entries(given) : []
  if (entries.length < 1 || entries.length > 6) {
    throw new InputError({
      field: 'capacitors',
      value: given,
      allowed: 'one to six kinds, as a list or by their names',
    })
  }
  return entries.map(([key, one]) => {
    const field = isList ? `capacitors[${key}]` : `capacitors.${key}`
    return readCapacitor(one, field, openCircuit, ambient, isList ? `capacitor ${Number(key) + 1}` : key)
  })
}

/** Reads one kind of capacitor. @throws InputError naming the field */
export function readCapacitor(
  given: unknown,
  field: string,
  openCircuit: Ends,
  ambient: Ends,
  key: string,
): ReadCapacitor {
  const words = Object.keys(capacitorFields)
  const own = missingFields(given, [], field, [...words, 'name', 'count', 'bias', 'temperature', 'cold'])
  const { name = key, count, bias, temperature, cold, ...rest } = own as Record<string, unknown>
  if (typeof name !== 'string' || name.trim() === '' || name.length > 80) {
    throw new InputError({ field: `${field}.name`, value: name, allowed: 'a name of 1 to 80 characters' })
  }
  const over = 'celsius' as const
  return {
    name,
    count: readNumber(count ?? 1, { field: `${field}.count`, unit: '1', integer: true, min: 1, max: 1000 }),
    fields: readPart(rest, capacitorFields, field),
    bias:
      bias === undefined
        ? undefined
        : readCurve(bias, {
            field: `${field}.bias`,
            over: 'volts',
            covers: { from: 0, to: openCircuit.to },
            falls: true,
          }),
    temperature:
      temperature === undefined
        ? undefined
        : readCurve(temperature, { field: `${field}.temperature`, over, covers: ambient }),
    cold: cold === undefined ? undefined : readCurve(cold, { field: `${field}.cold`, over, covers: ambient }),
  }
}

const loadKinds = {
  current: { kind: 'current', unit: 'A', max: 1e4 },
  resistance: { kind: 'resistor', unit: 'ohm', max: 1e6 },
  power: { kind: 'power', unit: 'W', max: 1e5 },
} as const

function readLoad(given: unknown): ReadDecoupling['load'] {
  const words = ['current', 'resistance', 'power'] as const
  const own = missingFields(given, [], 'load', [...words, 'rise', 'fall', 'duration', 'pwm', 'wantedPower'])
  const stated = words.filter((word) => own[word] !== undefined)
  const word = stated[0]
  if (word === undefined || stated.length > 1) {
    throw new InputError({ field: 'load', value: given, allowed: 'one of { current }, { resistance }, { power }' })
  }
  const { kind, unit, max } = loadKinds[word]
  const time = (value: unknown, field: string, more: { above?: number } = {}) =>
    readNumber(value, { field: `load.${field}`, unit: 's', min: 0, max: 1e7, ...more })
  const rise = time(own.rise ?? 0, 'rise')
  const fall = time(own.fall ?? rise, 'fall')
  const duration = own.duration === undefined ? Number.POSITIVE_INFINITY : time(own.duration, 'duration', { above: 0 })
  const pwm = own.pwm === undefined ? undefined : readPwm(own.pwm, kind)
  const on = pwm ? pwm.duty / pwm.frequency : duration
  if (pwm && own.duration !== undefined) {
    throw new InputError({ field: 'load.duration', value: own.duration, allowed: 'nothing beside load.pwm' })
  }
  if (rise > on) {
    const hint = 'The load would be switched off before it is on'
    throw new InputError({ field: 'load.rise', value: rise, unit: 's', allowed: `at most the on-time, ${on} s`, hint })
  }
  if (pwm && on + fall > 1 / pwm.frequency) {
    const allowed = `at most the off-time, ${1 / pwm.frequency - on} s`
    throw new InputError({ field: 'load.fall', value: fall, unit: 's', allowed })
  }
  const value = readSpread(own[word], { field: `load.${word}`, unit, above: 0, max })
  const wantedPower =
    own.wantedPower === undefined
      ? undefined
      : readSpread(own.wantedPower, { field: 'load.wantedPower', unit: 'W', above: 0, max: 1e5 })
  if (wantedPower && kind !== 'resistor') {
    throw new InputError({ field: 'load.wantedPower', value: own.wantedPower, allowed: 'only with load.resistance' })
  }
  return { kind, value, rise, fall, duration, pwm, wantedPower }
}

function readPwm(given: unknown, kind: string) {
  const own = missingFields(given, ['frequency', 'duty'], 'load.pwm')
  if (kind === 'power') {
    throw new InputError({ field: 'load.pwm', value: given, allowed: 'only with load.current or load.resistance' })
  }
  return {
    frequency: readNumber(own.frequency, { field: 'load.pwm.frequency', unit: 'Hz', above: 0, max: 1e8 }),
    duty: readNumber(own.duty, { field: 'load.pwm.duty', unit: '1', above: 0, below: 1 }),
  }
}

function readLimits(given: unknown, openCircuit: Ends): ReadDecoupling['limits'] {
  const own = missingFields(given, [], 'limits', limitNames)
  const names = limitNames.filter((name) => own[name] !== undefined)
  if (names.length === 0) {
    throw new InputError({ field: 'limits', value: given, allowed: `at least one of ${limitNames.join(', ')}` })
  }
  return Object.fromEntries(
    names.map((name) => {
      const { unit, above, max } = limitFields[name]
      const spread = readSpread(own[name], { field: `limits.${name}`, unit, above, max })
      if (spread.nominal >= openCircuit.to) {
        throw new InputError({
          field: `limits.${name}`,
          value: spread.nominal,
          unit: 'V',
          allowed: `less than the highest open-circuit voltage, ${openCircuit.to} V`,
          hint: 'The rail is below it even at rest on a full source',
        })
      }
      return [name, spread]
    }),
  )
}

function readLogic(given: unknown): NonNullable<ReadDecoupling['logicRail']> {
  const own = missingFields(given, ['behind'], 'logicRail', Object.keys(logicFields))
  const { behind, ...rest } = own as Record<string, unknown>
  if (behind !== 'diode' && behind !== 'resistor') {
    throw new InputError({ field: 'logicRail.behind', value: behind, allowed: '"diode" or "resistor"' })
  }
  if (behind === 'diode' && rest['forwardVoltage'] === undefined) {
    throw new InputError({ field: 'logicRail.forwardVoltage', value: undefined, allowed: 'a voltage with its spread' })
  }
  return { behind, fields: readPart(rest, logicFields, 'logicRail') }
}

function readBoolean(value: unknown, field: string): boolean {
  if (typeof value !== 'boolean') throw new InputError({ field, value, allowed: 'true or false' })
  return value
}

function readNames(given: unknown): readonly LimitName[] {
  const isName = (name: unknown): name is LimitName => limitNames.includes(name as LimitName)
  if (!Array.isArray(given) || !given.every(isName)) {
    throw new InputError({ field: 'onLogicRail', value: given, allowed: `a list of ${limitNames.join(', ')}` })
  }
  return given
}

/** Combinations without an answer, each said plainly. */
function refuseTogether({ source, capacitors, load, logicRail }: ReadDecoupling): void {
  if (source.kind === 'limited supply') return
  const { fields } = source
  const least = Object.entries(fields)
    .filter(([word]) => cellFields[word as keyof typeof cellFields].unit === 'ohm')
    .reduce((sum, [, { lower }]) => sum + lower, 0)
  const branches = logicRail?.behind === 'resistor' ? [] : capacitors
  const series = Math.max(0, ...capacitors.map((c) => c.fields.seriesResistance.lower))
  if (least === 0 && fields.inductance.lower === 0) {
    const hint = 'A source without resistance and inductance never sags: there is nothing to size'
    throw new InputError({ field: 'source.cellResistance', value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  if (least === 0 && series === 0) {
    const hint = 'Source resistance 0 with series resistance 0 rings for ever: give one of them'
    throw new InputError({ field: 'source.cellResistance', value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  const isInductive =
    fields.inductance.upper > 0 && branches.length > 0 && branches.every((c) => c.fields.seriesInductance.upper > 0)
  if (isInductive && load.kind !== 'power' && (load.rise === 0 || load.fall === 0)) {
    const hint = 'With inductance in the loop and in every capacitor a current cannot jump'
    const field = load.rise === 0 ? 'load.rise' : 'load.fall'
    throw new InputError({ field, value: 0, unit: 's', allowed: 'more than 0 s', hint })
  }
}

/** A protection that trips by the drop across its own switches needs their resistance. */
function refuseProtection({ source, insertion }: ReadDecoupling): void {
  const isProtected = source.kind === 'cell' && source.fields.protection.lower > 0
  for (const word of ['tripVoltage', 'shortVoltage'] as const) {
    if (insertion[word].upper === 0 || isProtected) continue
    const hint = 'The protection trips by the drop across its own switches: give source.protection'
    throw new InputError({
      field: `insertion.${word}`,
      value: insertion[word].nominal,
      unit: 'V',
      allowed: '0 V',
      hint,
    })
  }
}
