import { exampleConverters } from '@ohmward/adc'
import { dividerConditions, dividerRecord, exampleAmplifiers, exampleChoice, exampleConditions } from '@ohmward/divider'
import { readNumber, readRange } from '@ohmward/quantity'
import { makeForm } from '../.vitepress/theme/form/make-form.ts'

/** The form of the low-ohm measurement. */
export const form = makeForm({
  id: 'divider',
  call: 'checkDivider',
  choice: dividerRecord,
  conditions: dividerConditions,
  demo: { choice: exampleChoice, conditions: exampleConditions },
  each: {
    'choice.error': {
      note: 'a share of the reading such as 3 %, or a resistance such as 20 mohm; at the smallest, the nominal and the largest load, unless one has its own',
      places: {
        smallest: 'largest error at the smallest load',
        nominal: 'largest error at the nominal load',
        largest: 'largest error at the largest load',
      },
    },
  },
  groups: [
    {
      id: 'load',
      title: 'What must be read',
      takes: [
        'choice.load.from',
        'choice.load.nominal',
        'choice.load.to',
        'choice.error',
        'conditions.rail',
        'conditions.ambientCelsius',
      ],
    },
    {
      id: 'divider',
      title: 'Divider and gain',
      note: 'Arrow up and down step along the preferred values.',
      takes: [
        'choice.reference',
        'choice.gainResistors.feedback',
        'choice.gainResistors.ground',
        'choice.topology',
        'choice.wires',
        'choice.calibration',
      ],
    },
    {
      id: 'amplifier',
      title: 'Amplifier',
      classes: {
        label: 'class of amplifier',
        path: 'choice.amplifier',
        of: { 'bipolar, precise': exampleChoice.amplifier, ...exampleAmplifiers },
      },
      note: 'Typical values, not a real product. Put the limits of your own part in their place.',
      folded: 'the limits of its data sheet',
      takes: ['choice.amplifier'],
    },
    {
      id: 'converter',
      title: 'Converter',
      classes: { label: 'class of converter', path: 'choice.converter', of: exampleConverters },
      folded: 'the limits of its data sheet',
      takes: ['choice.converter'],
    },
    {
      id: 'excitation',
      title: 'Excitation and timing',
      folded: 'switch, reference resistor, pulse',
      takes: [
        'choice.excitation',
        'choice.excitationSwitch',
        'choice.referencePart',
        'choice.timing',
        'choice.gainResistors.ratioDrift',
      ],
    },
    {
      id: 'surroundings',
      title: 'Surroundings and finer points',
      folded: 'leads, contacts, ground, protection, temperature from the resistance',
      takes: ['choice.surroundings', 'choice.load', 'choice.pedestal', 'choice.amplifierSupply', 'choice.thermometry'],
    },
  ],
  outputs: ({ choice }, { margins }) =>
    [
      ['R_ind', 'nominal'],
      ['R_ind_smallest', 'smallest'],
      ['R_ind_largest', 'largest'],
    ].flatMap(([name, size]) => {
      const { from, to } = readRange({ from: choice.load.from, to: choice.load.to }, { field: 'load', unit: 'ohm' })
      const truth = {
        smallest: from,
        largest: to,
        nominal: readNumber(choice.load.nominal ?? (from + to) / 2, { field: 'load.nominal', unit: 'ohm' }),
      }[size!]!
      const allowed = margins.find(({ id }) => id === `error-${size}`)?.limit
      if (allowed === undefined) return []
      return [{ name: name!, label: `${size} load`, truth, window: [truth - allowed, truth + allowed] as const }]
    }),
})
