import {
  choiceRecord,
  conditionsRecord,
  exampleChoice,
  exampleConditions,
  exampleDrives,
  exampleTransistors,
} from '@ohmward/mosfet'
import { exactly, kinds, own } from '@ohmward/quantity'
import { makeForm } from '../.vitepress/theme/form/make-form.ts'

/** How the on-resistance goes with temperature: the library reads it in a way of its own. */
const law = kinds(
  {
    linear: { perKelvin: exactly({ unit: '1/K', min: 0, symbol: 'a_R', meaning: 'rise for each kelvin: 0.45 %/K' }) },
    power: {
      exponent: exactly({
        unit: '1',
        min: 1,
        max: 5,
        symbol: 'm_R',
        meaning: 'exponent of the absolute temperature: 2.3',
      }),
    },
    points: {
      points: own<string>()(String, {
        schema: {},
        meaning: 'points of the normalised curve: 25 degC: 1; 125 degC: 1.42',
      }),
    },
  },
  { meaning: 'how the on-resistance rises with temperature' },
)

/** The form of the MOSFET switch, filled for the sailmaker's hot knife. */
export const form = makeForm({
  id: 'mosfet',
  call: 'checkMosfet',
  choice: choiceRecord,
  conditions: conditionsRecord,
  demo: { choice: exampleChoice, conditions: exampleConditions },
  instead: { 'choice.transistor.temperatureLaw': law },
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
  outputs: (_, { values, margins }) => {
    const limit = (id: string) => margins.find((margin) => margin.id === id)!.limit
    return [
      {
        name: 'T_spare',
        label: 'thermal headroom, at the hottest cell voltage',
        window: [0, values['T_lim']! - values['T_a']!],
      },
      {
        name: 'V_GS',
        label: 'gate voltage, at the lowest cell voltage',
        window: [limit('gate-drive'), limit('gate-maximum')],
      },
    ]
  },
})
