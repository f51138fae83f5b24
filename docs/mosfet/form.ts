import {
  choiceRecord,
  conditionsRecord,
  exampleChoice,
  exampleConditions,
  exampleDrives,
  exampleTransistors,
} from '@ohmward/mosfet'
import { makeForm } from '../.vitepress/theme/form/make-form.ts'

/** The form of the MOSFET switch, filled for the sailmaker's hot knife. */
export const form = makeForm({
  id: 'mosfet',
  call: 'checkMosfet',
  choice: choiceRecord,
  conditions: conditionsRecord,
  demo: { choice: exampleChoice, conditions: exampleConditions },
  groups: [
    {
      id: 'load',
      title: 'What must be switched',
      takes: [
        'choice.load',
        'conditions.openCircuit',
        'conditions.sourceResistance',
        'conditions.ambientCelsius',
        'conditions',
        'choice.pwm',
      ],
    },
    {
      id: 'transistor',
      title: 'Transistor',
      classes: { label: 'class', path: 'choice.transistor', of: exampleTransistors },
      note: 'Typical values, not a real product. Put the limits of your own part in their place, without signs.',
      folded: 'the limits of its data sheet',
      takes: ['choice.transistor'],
    },
    {
      id: 'drive',
      title: 'Gate drive',
      classes: { label: 'kind', path: 'choice.drive', of: exampleDrives },
      note: 'Arrow up and down step along the preferred values.',
      takes: [
        'choice.drive.kind',
        'choice.drive.gateResistor',
        'choice.drive.pull.resistance',
        'choice.drive.pull.at',
        'choice.drive.resetPull',
      ],
    },
    {
      id: 'drive-more',
      title: 'More of the drive',
      folded: 'levels, resistances, currents, supply',
      takes: ['choice.drive'],
    },
    { id: 'board', title: 'Board', takes: ['choice.thermal', 'choice.parallel', 'choice.wiring'] },
    {
      id: 'supply',
      title: 'Cells or port',
      folded: 'in place of the voltage and resistance of a source',
      takes: ['conditions.supply', 'conditions.tap', 'conditions.charge', 'conditions.age'],
    },
    {
      id: 'more',
      title: 'Bursts and limits of your own',
      folded: 'where the knife is on for seconds only, or less loss is wanted',
      takes: [
        'choice.bursts',
        'choice.lossLimit',
        'choice.switchingShare',
        'choice.edgeLimit',
        'choice.edges',
        'choice',
      ],
    },
  ],
  outputs: (_, { margins }) => {
    const limit = (id: string) => margins.find((margin) => margin.id === id)!.limit
    return [
      { name: 'T_spare', label: 'thermal headroom, at the hottest cell voltage', window: [0, Infinity] },
      {
        name: 'V_GS',
        label: 'gate voltage, at the lowest cell voltage',
        window: [limit('gate-drive'), limit('gate-maximum')],
      },
    ]
  },
})
