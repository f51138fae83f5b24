import { exactly, list, part, range, record, spread, word } from '@ohmward/quantity'
import { tapField } from '@ohmward/supply'
import {
  capacitorRecord,
  insertionFields,
  limitFields,
  limitNames,
  logicFields,
  sourcePart,
  supplyPart,
} from '../parts/index.js'
import { loadRecord } from './load.js'

/** A table of a part, each of its fields one that may be left out. */
const optional = <const F>(field: F) => ({ ...field, optional: true }) as const

const logicMeaning = { meaning: 'a logic rail of its own; without it everything runs from the rail itself' }
const behind = { behind: /*#__PURE__*/ word(['diode', 'resistor'], { meaning: 'what feeds the logic rail' }) }
const capacitor = /*#__PURE__*/ part(capacitorRecord, {
  meaning: 'one kind of capacitor, as its data sheet states one part of it',
})

/** What doesn't depend on how it is written. */
const common = /*#__PURE__*/ (() =>
  ({
    load: /*#__PURE__*/ part(loadRecord, { meaning: 'what is switched on the rail, and when' }),
    idle: /*#__PURE__*/ spread({
      symbol: 'I_0',
      unit: 'A',
      min: 0,
      max: 100,
      otherwise: 0,
      meaning: "current that is drawn all the time, the logic rail's included",
    }),
    limits: /*#__PURE__*/ part(
      {
        brownOut: /*#__PURE__*/ optional(limitFields.brownOut),
        clock: /*#__PURE__*/ optional(limitFields.clock),
        sensor: /*#__PURE__*/ optional(limitFields.sensor),
        amplifier: /*#__PURE__*/ optional(limitFields.amplifier),
        converter: /*#__PURE__*/ optional(limitFields.converter),
      },
      { meaning: 'minimum supplies; at least one' },
    ),
    brownOutEnabled: /*#__PURE__*/ word([true, false], {
      otherwise: true,
      meaning: "whether the controller's brown-out reset is on",
    }),
    onLogicRail: /*#__PURE__*/ list(word(limitNames, { meaning: 'a limit' }), {
      least: 0,
      most: limitNames.length,
      optional: true,
      meaning: 'which limits count on the logic rail, where there is one: brown-out, clock and converter by default',
    }),
    insertion: /*#__PURE__*/ part(insertionFields, { meaning: 'limits at insertion of the cell' }),
    tap: tapField,
    wantedLifeHours: /*#__PURE__*/ exactly({
      unit: '1',
      above: 0,
      max: 1e6,
      optional: true,
      meaning: 'required life of the capacitors, in hours; none by default',
    }),
  }) as const)()

/** What a rail is made of. */
export const choiceRecord = /*#__PURE__*/ (() =>
  /*#__PURE__*/ record({
    source: supplyPart,
    capacitors: /*#__PURE__*/ list(capacitor, { least: 1, most: 6, meaning: 'the kinds of capacitor on the rail' }),
    logicRail: /*#__PURE__*/ part({ ...behind, ...logicFields }, { ...logicMeaning, optional: true }),
    ...common,
  }))()

/** What must be covered. */
export const conditionsRecord = /*#__PURE__*/ (() =>
  /*#__PURE__*/ record({
    openCircuit: /*#__PURE__*/ range({
      unit: 'V',
      above: 0,
      max: 100,
      optional: true,
      meaning: 'open-circuit voltage of the source, empty to full; a port states its own',
    }),
    charge: /*#__PURE__*/ range({
      unit: '1',
      min: 0,
      max: 1,
      optional: true,
      meaning: 'charge of the cells, 0 to 1, in place of the open-circuit voltage',
    }),
    ambientCelsius: /*#__PURE__*/ range({
      unit: 'degC',
      min: -55,
      max: 150,
      meaning: 'air around the parts, inside the case',
    }),
    ageYears: /*#__PURE__*/ range({
      unit: '1',
      min: 0,
      max: 50,
      otherwise: { from: 0, to: 5 },
      meaning: 'age of cell and capacitors in years; at the oldest they count as at the end of life',
    }),
  }))()

const inside = (given: unknown, word: string): unknown =>
  typeof given === 'object' && given !== null && Object.hasOwn(given, word)
    ? (given as Record<string, unknown>)[word]
    : undefined

/** What a logic rail is made of: behind a diode its forward voltage must be stated. */
function logicOf(given: unknown) {
  const { otherwise: _, ...stated } = logicFields.forwardVoltage
  const drop = inside(given, 'behind') === 'diode' && { forwardVoltage: stated }
  return part({ ...behind, ...logicFields, ...drop }, { ...logicMeaning, optional: true })
}

/** The record of a choice as it is written: a source as plain numbers, capacitors by their names. */
export function recordFor(choice: unknown) {
  const capacitors = inside(choice, 'capacitors')
  return record({
    source: sourcePart(inside(choice, 'source')),
    capacitors:
      capacitors === undefined || Array.isArray(capacitors) ? choiceRecord.fields.capacitors : named(capacitors),
    logicRail: logicOf(inside(choice, 'logicRail')),
    ...common,
  })
}

/** Kinds of capacitor by their names. */
const named = (given: unknown) =>
  /*#__PURE__*/ part(
    Object.fromEntries(
      Object.keys(typeof given === 'object' && given !== null ? given : {}).map((key) => [key, capacitor]),
    ),
    { meaning: 'the kinds of capacitor on the rail, by their names' },
  )
