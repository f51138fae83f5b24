import { exampleConverters } from '@ohmward/adc'
import { exampleChoice, exampleSensors, hallConditions, hallRecord } from '@ohmward/hall'
import { readNumber } from '@ohmward/quantity'
import { makeForm } from '../.vitepress/theme/form/make-form.ts'
import { knife, scenarios } from './scenarios.ts'

/** The form of the current measurement, filled for the sailmaker's hot knife; a seedling mat is the second scenario. */
export const form = makeForm({
  id: 'hall',
  call: 'checkHall',
  choice: hallRecord,
  conditions: hallConditions,
  demo: knife,
  rooms: { 'choice.errors': 4, 'choice.otherTasks': 2 },
  groups: [
    {
      id: 'scenario',
      title: 'What must be read',
      scenarios: { label: 'scenario', of: scenarios },
      takes: [
        'choice.current',
        'choice.errors.0',
        'choice.errors.1',
        'conditions.rail',
        'conditions.ambientCelsius',
        'choice.pwm',
      ],
    },
    {
      id: 'sensor',
      title: 'Sensor',
      classes: {
        label: 'class of sensor',
        path: 'choice.sensor',
        of: {
          [`wide supply one way, from ${exampleChoice.sensor.supplyMinimum}`]: exampleChoice.sensor,
          ...exampleSensors,
        },
      },
      note: 'Typical values, not a real product. Put the limits of your own part in their place.',
      folded: 'the limits of its data sheet, and its supply',
      takes: ['choice.sensor', 'choice.sensorSupply'],
    },
    {
      id: 'reading',
      title: 'Filter and reading',
      note: 'Arrow up and down step along the preferred values.',
      takes: ['choice.filter', 'choice.reading', 'choice.calibration.kind', 'choice.power', 'choice.timing.samples'],
    },
    { id: 'trip', title: 'Over-current trip', takes: ['choice.trip'] },
    {
      id: 'converter',
      title: 'Converter',
      classes: { label: 'class of converter', path: 'choice.converter', of: exampleConverters },
      folded: 'the limits of its data sheet',
      takes: ['choice.converter'],
    },
    {
      id: 'schedule',
      title: 'What else the converter reads',
      note: 'Here the resistance of the load, in the off-window: each window must be long enough for its readings.',
      folded: 'windows and times of the other readings',
      takes: ['choice.otherTasks'],
    },
    {
      id: 'surroundings',
      title: 'Surroundings and finer points',
      folded: 'stray fields, zero reading, divider, timing, more errors',
      takes: [
        'choice.surroundings',
        'choice.wait',
        'choice.calibration',
        'choice.divider',
        'choice.timing',
        'choice.errors',
        'choice',
        'conditions',
      ],
    },
  ],
  outputs: ({ choice }, { margins, values }) => [
    ...(choice.errors as { at: string }[]).map(({ at }, i) => {
      const truth = readNumber(at, { field: `errors[${i}].at`, unit: 'A' })
      const allowed = margins.find(({ id }) => id === `error-${i + 1}`)!.limit
      return {
        name: `I_${i + 1}`,
        label: `reading of ${at}`,
        truth,
        window: [truth - allowed, truth + allowed] as const,
      }
    }),
    ...(values['I_set'] === undefined
      ? []
      : [
          {
            name: 'I_trip',
            label: 'trip level',
            truth: values['I_set'],
            window: [
              margins.find(({ id }) => id === 'trip-false')!.limit,
              margins.find(({ id }) => id === 'trip-late')!.limit,
            ] as const,
          },
        ]),
  ],
})
