import { InputError, missingFields, readNumber, readPart, readRange, readSpread } from '@ohmward/quantity'
import {
  capacitorFields,
  cellFields,
  insertionFields,
  type LimitName,
  limitFields,
  logicFields,
  supplyFields,
  usualCellTemperature,
} from '../parts/parts.js'
import type { ReadCapacitor, ReadDecoupling } from './choice.js'
import { readCurve } from './points.js'
import { readLoad } from './read-load.js'
import { refuseProtection, refuseTogether } from './refuse.js'

type Ends = { readonly from: number; readonly to: number }

const required = ['source', 'capacitors', 'load', 'limits'] as const
const optional = ['idle', 'brownOutEnabled', 'logicRail', 'onLogicRail', 'insertion', 'wantedLifeHours'] as const
const limitNames = /*#__PURE__*/ Object.keys(limitFields) as LimitName[]

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
    oldest: age.to,
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
  const curve = readCurve(temperature, {
    field: 'source.temperature',
    over: 'celsius',
    covers: ambient,
    most: 100,
  })
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
            most: 1,
          }),
    temperature:
      temperature === undefined
        ? undefined
        : readCurve(temperature, { field: `${field}.temperature`, over, covers: ambient, most: 2 }),
    cold:
      cold === undefined ? undefined : readCurve(cold, { field: `${field}.cold`, over, covers: ambient, most: 1000 }),
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
