import {
  type Capacitor,
  capacitorFields,
  cellFields,
  exampleCapacitors,
  exampleChoice,
  insertionFields,
  limitFields,
  logicFields,
} from '@ohmward/decoupling'
import { readRange } from '@ohmward/quantity'
import type { Field, Form, Texts } from '../.vitepress/theme/block.ts'
import { inWords, partFields } from '../.vitepress/theme/part-fields.ts'

/** The parts whose fields the form shows, by the library's own tables. */
export const parts = {
  cell: { path: 'choice.source', table: cellFields },
  bulk: { path: 'choice.capacitors.bulk', table: capacitorFields },
  second: { path: 'choice.capacitors.second', table: capacitorFields },
  limits: { path: 'choice.limits', table: limitFields },
  logic: { path: 'choice.logicRail', table: logicFields },
  insertion: { path: 'choice.insertion', table: insertionFields },
}

const curves = ['bias', 'temperature', 'cold'] as const

/** A capacitor of the examples as texts: its points as people write them. */
function capacitorTexts(path: string, part: Capacitor, count = '1'): Texts {
  const texts: Record<string, string> = { [`${path}.count`]: count }
  for (const word of Object.keys(capacitorFields))
    texts[`${path}.${word}`] = String(part[word as keyof Capacitor] ?? '')
  for (const word of curves) {
    const points = (part[word] ?? []) as readonly { volts?: number; celsius?: number; factor: number }[]
    texts[`${path}.${word}`] = points
      .map(({ volts, celsius, factor }) => `${volts === undefined ? `${celsius} degC` : `${volts} V`}: ${factor}`)
      .join(', ')
  }
  return texts
}

const classes = (path: string, count?: string): Readonly<Record<string, Texts>> =>
  Object.fromEntries(
    Object.entries(exampleCapacitors).map(([name, part]) => [inWords(name), capacitorTexts(path, part, count)]),
  )

const none = (path: string): Texts =>
  Object.fromEntries(Object.keys(capacitorTexts(path, exampleCapacitors.ceramic)).map((id) => [id, '']))

const [polymer, ceramic] = exampleChoice.capacitors

/** Fields of a kind of capacitor, filled from texts. */
const capacitorForm = (path: string, demo: Texts): Field[] => [
  {
    id: `${path}.count`,
    label: 'parts in parallel',
    unit: '1',
    min: 1,
    max: 1000,
    integer: true,
    plain: true,
    demo: demo[`${path}.count`]!,
  },
  ...partFields({ path, table: capacitorFields }).map((field) => ({ ...field, demo: demo[field.id]! })),
  ...(
    [
      ['bias', 'what dc bias leaves, as points'],
      ['temperature', 'what temperature does to the capacitance'],
      ['cold', 'what temperature does to the series resistance'],
    ] as const
  ).map(
    ([word, label]): Field => ({ id: `${path}.${word}`, label, unit: '1', free: true, demo: demo[`${path}.${word}`]! }),
  ),
]

const load = (more: Texts): Texts => ({
  'choice.load.resistance': exampleChoice.load.resistance,
  'choice.load.current': '',
  'choice.load.power': '',
  'choice.load.rise': exampleChoice.load.rise,
  'choice.load.duration': '',
  'choice.load.pwm.frequency': '',
  'choice.load.pwm.duty': '',
  ...more,
})

const limits = (brownOut: string, clock: string, more: Texts = {}): Texts => ({
  'choice.limits.brownOut': brownOut,
  'choice.limits.clock': clock,
  'choice.limits.sensor': '',
  'choice.limits.amplifier': '1.8 V',
  'choice.limits.converter': '',
  ...more,
})

/** The loads and controllers to choose from; the second controller is the case that no capacitor saves. */
export const loads = {
  'blade on, and stays on': load({}),
  'burst of 100 µs': load({ 'choice.load.duration': '100 us' }),
  'PWM of 20 kHz, half of the time': load({
    'choice.load.rise': '1 us',
    'choice.load.pwm.frequency': '20 kHz',
    'choice.load.pwm.duty': '0.5',
  }),
}
export const controllers = {
  'brown-out at 2.1 V': limits('2.1 V ±5 %', '1.7 V'),
  'brown-out at 2.7 V, sensor from 2.7 V': limits('2.7 V ±5 %', '2.4 V', { 'choice.limits.sensor': '2.7 V' }),
}

const plainly = { plain: true } as const
const isDiode = { id: 'choice.logicRail.behind', is: ['diode'] }
const isResistor = { id: 'choice.logicRail.behind', is: ['resistor'] }
const isIsolated = { id: 'choice.logicRail.behind', is: ['diode', 'resistor'] }
const logicDemo: Texts = {
  forwardVoltage: '0.3 V ±0.05 V',
  resistance: '10 ohm ±1 %',
  capacitance: '470 uF ±20 %',
  current: '5 mA',
}
const { cell, bulk, second, logic, insertion } = parts

/** The form of the bulk capacitor, filled for the sailmaker's hot knife. */
export const form: Form = {
  id: 'decoupling',
  call: 'checkDecoupling',
  arguments: ['choice', 'conditions'],
  groups: [
    {
      id: 'load',
      title: 'Load',
      preset: { label: 'what the blade does', choices: loads },
      note: 'Give one of resistance, current and power. Without a length of a burst the load stays on.',
      fields: [
        {
          id: 'choice.load.resistance',
          label: 'resistance of the blade',
          symbol: 'R_L',
          unit: 'ohm',
          above: 0,
          max: 1e6,
        },
        { id: 'choice.load.current', label: 'or a constant current', symbol: 'I_step', unit: 'A', above: 0, max: 1e4 },
        { id: 'choice.load.power', label: 'or a constant power', symbol: 'P_L', unit: 'W', above: 0, max: 1e5 },
        { id: 'choice.load.rise', label: 'rise time of its current', symbol: 't_r', unit: 's', min: 0, ...plainly },
        {
          id: 'choice.load.duration',
          label: 'length of a burst',
          symbol: 't_on',
          unit: 's',
          above: 0,
          ...plainly,
          otherwise: 'it stays on',
        },
        { id: 'choice.load.pwm.frequency', label: 'PWM frequency', unit: 'Hz', above: 0, max: 1e8, ...plainly },
        { id: 'choice.load.pwm.duty', label: 'PWM duty', symbol: 'D', unit: '1', above: 0, below: 1, ...plainly },
        {
          id: 'choice.idle',
          label: 'current drawn all the time',
          symbol: 'I_0',
          unit: 'A',
          min: 0,
          max: 100,
          demo: exampleChoice.idle,
        },
      ].map((field) => ({ demo: loads['blade on, and stays on'][field.id] ?? '', ...field }) as Field),
    },
    {
      id: 'limits',
      title: 'Lowest supplies',
      preset: { label: 'controller and sensor', choices: controllers },
      note: 'Each counts at its largest value.',
      fields: partFields(parts.limits).map((field) => ({
        ...field,
        demo: controllers['brown-out at 2.1 V'][field.id]!,
      })),
    },
    {
      id: 'bulk',
      title: 'First kind of capacitor',
      preset: { label: 'class', choices: classes(bulk.path, '2') },
      note: 'Typical values, not a real product.',
      folded: 'the limits of its data sheet',
      fields: capacitorForm(bulk.path, capacitorTexts(bulk.path, polymer, '2')),
    },
    {
      id: 'second',
      title: 'Second kind beside it',
      preset: { label: 'class', choices: { none: none(second.path), ...classes(second.path) } },
      folded: 'the limits of its data sheet',
      fields: capacitorForm(second.path, capacitorTexts(second.path, ceramic)),
    },
    {
      id: 'source',
      title: 'Cell and power path',
      folded: 'the resistances of the path, each once',
      fields: partFields({ ...cell, given: exampleChoice.source }),
    },
    {
      id: 'conditions',
      title: 'What must be covered',
      fields: [
        {
          id: 'conditions.openCircuit.from',
          label: 'cell at rest, nearly empty',
          unit: 'V',
          above: 0,
          max: 100,
          demo: '3.0 V',
        },
        { id: 'conditions.openCircuit.to', label: 'cell at rest, full', unit: 'V', above: 0, max: 100, demo: '4.2 V' },
        {
          id: 'conditions.ambientCelsius.from',
          label: 'coldest air in the case',
          unit: 'degC',
          min: -55,
          max: 150,
          demo: '0 degC',
        },
        {
          id: 'conditions.ambientCelsius.to',
          label: 'warmest air in the case',
          unit: 'degC',
          min: -55,
          max: 150,
          demo: '50 degC',
        },
        { id: 'conditions.ageYears.from', label: 'youngest device, years', unit: '1', min: 0, max: 50, demo: '0' },
        { id: 'conditions.ageYears.to', label: 'oldest device, years', unit: '1', min: 0, max: 50, demo: '5' },
      ].map((field) => ({ ...field, ...plainly }) as Field),
    },
    {
      id: 'logic',
      title: 'Logic rail of its own',
      fields: [
        { id: 'choice.logicRail.behind', label: 'behind', unit: '1', words: ['', 'diode', 'resistor'], demo: '' },
        ...partFields({ ...logic, given: logicDemo }).map((field) => {
          const word = field.id.slice(field.id.lastIndexOf('.') + 1)
          const when = word.startsWith('forward') ? isDiode : word === 'resistance' ? isResistor : isIsolated
          return { ...field, when }
        }),
      ],
    },
    {
      id: 'insertion',
      title: 'Insertion and protection',
      folded: 'contact, protection circuit, absolute maximum',
      fields: partFields({ ...insertion, given: exampleChoice.insertion }),
    },
  ],
  outputs: ({ conditions }, assessment) => {
    const { limits: all } = assessment as unknown as { limits: readonly { volts: number; place: string }[] }
    const limit = all.find(({ place }) => place === 'rail')
    const { to } = readRange(conditions.openCircuit, { field: 'openCircuit', unit: 'V' })
    return [{ name: 'V_min', label: 'lowest rail', ...(limit && { window: [limit.volts, to] as const }) }]
  },
}
