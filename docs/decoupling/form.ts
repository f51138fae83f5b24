import {
  decouplingConditions,
  decouplingRecord,
  exampleCapacitors,
  exampleChoice,
  exampleConditions,
} from '@ohmward/decoupling'
import { exampleCells } from '@ohmward/supply'
import type { Texts } from '../.vitepress/theme/block.ts'
import { makeForm } from '../.vitepress/theme/form/make-form.ts'

const {
  capacitors: [polymer, ceramic],
  ...rest
} = exampleChoice

/** The hot knife, its capacitors by names. */
const knife = {
  choice: {
    ...rest,
    capacitors: { bulk: polymer, second: { count: 1, ...ceramic } },
  },
  conditions: exampleConditions,
}

const pwm = (frequency: string, duty: string): Texts => ({
  'choice.load.pwm.frequency.from': frequency,
  'choice.load.pwm.frequency.to': frequency,
  'choice.load.pwm.duty.from': duty,
  'choice.load.pwm.duty.to': duty,
})

const load = (more: Texts): Texts => ({
  'choice.load.resistance': exampleChoice.load.resistance,
  'choice.load.current': '',
  'choice.load.power': '',
  'choice.load.rise': exampleChoice.load.rise,
  'choice.load.duration': '',
  ...pwm('', ''),
  ...more,
})

/** The loads and controllers to choose from; with the first controller no capacitor helps. */
export const loads = {
  'blade on, and stays on': load({}),
  'burst of 100 µs': load({ 'choice.load.duration': '100 us' }),
  'PWM of 100 Hz, nearly always on': load({
    'choice.load.rise': '20 us',
    ...pwm('100 Hz', '0.9'),
  }),
  'PWM of 20 kHz, half of the time': load({
    'choice.load.rise': '1 us',
    ...pwm('20 kHz', '0.5'),
  }),
}
export const controllers = {
  'brown-out at 2.7 V': { 'choice.limits.brownOut': exampleChoice.limits.brownOut },
  'brown-out at 2.1 V': { 'choice.limits.brownOut': '2.1 V ±3 %' },
}

/** The examples as one part each, and none. */
const { wetAluminium, polymer: polymerPart, ceramic: ceramicPart } = exampleCapacitors
const classes = (count: number) => ({
  wetAluminium: { count, ...wetAluminium },
  polymer: { count, ...polymerPart },
  ceramic: { count, ...ceramicPart },
})

/** The form of the bulk capacitor, filled for the sailmaker's hot knife. */
export const form = makeForm({
  id: 'decoupling',
  call: 'checkDecoupling',
  choice: decouplingRecord,
  conditions: decouplingConditions,
  demo: knife,
  names: { 'choice.capacitors': ['bulk', 'second', 'third'] },
  rooms: { 'choice.source.path': 5 },
  groups: [
    {
      id: 'load',
      title: 'Load',
      preset: { label: 'what the blade does', choices: loads },
      note: 'Give one of resistance, current and power. Without a length of a burst the load stays on.',
      takes: ['choice.load', 'choice.idle'],
    },
    {
      id: 'limits',
      title: 'Lowest supplies',
      preset: { label: 'controller', choices: controllers },
      note: 'Each counts at its largest value.',
      takes: ['choice.limits'],
    },
    {
      id: 'bulk',
      title: 'First kind of capacitor',
      classes: { label: 'class', path: 'choice.capacitors.bulk', of: classes(2) },
      note: 'Typical values, not a real product.',
      folded: 'the limits of its data sheet',
      takes: ['choice.capacitors.bulk'],
    },
    {
      id: 'second',
      title: 'Second kind beside it',
      classes: { label: 'class', path: 'choice.capacitors.second', of: { none: {}, ...classes(1) } },
      folded: 'the limits of its data sheet',
      takes: ['choice.capacitors.second'],
    },
    {
      id: 'third',
      title: 'Third kind',
      classes: { label: 'class', path: 'choice.capacitors.third', of: { none: {}, ...classes(1) } },
      folded: 'the limits of its data sheet',
      takes: ['choice.capacitors.third'],
    },
    {
      id: 'source',
      title: 'Cell and power path',
      classes: {
        label: 'cell',
        path: 'choice.source.source',
        of: Object.fromEntries(Object.entries(exampleCells).map(([name, cell]) => [name, { kind: 'cell', ...cell }])),
      },
      folded: 'the cell, and the resistances of the path, each once',
      takes: ['choice.source', 'choice.tap'],
    },
    { id: 'conditions', title: 'What must be covered', takes: ['conditions'] },
    {
      id: 'logic',
      title: 'Logic rail of its own',
      folded: 'a diode or a resistor, and a capacitor that holds it up',
      takes: ['choice.logicRail', 'choice.onLogicRail', 'choice.brownOutEnabled'],
    },
    {
      id: 'insertion',
      title: 'Insertion and protection',
      folded: 'contact, protection circuit, absolute maximum, life',
      takes: ['choice.insertion', 'choice'],
    },
  ],
  outputs: (_, assessment) => {
    const { limits: all } = assessment as unknown as { limits: readonly { volts: number; place: string }[] }
    const limit = all.find(({ place }) => place === 'rail')
    const window = limit ? { window: [limit.volts, Infinity] as const } : {}
    return [{ name: 'V_min', label: 'lowest rail', ...window }]
  },
})
