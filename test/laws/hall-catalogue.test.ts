import { exampleChoice, exampleConditions, hall, hallRemediesOf } from '@ohmward/hall'
import fc from 'fast-check'
import { it } from 'vitest'
import { examples } from '../tools/choices/examples.js'
import { hallChoices, hallConditions } from '../tools/choices/hall.js'
import { holdsAsCatalogue } from './catalogue.js'

it('every change of hall makes another choice of one that it can be made in', () => {
  holdsAsCatalogue({
    read: hall.read,
    remediesOf: hallRemediesOf,
    choices: fc.record({ choice: hallChoices, conditions: hallConditions }),
    more: [
      ...examples.hall.map(([, choice, conditions]) => ({ choice, conditions })),
      {
        choice: {
          ...exampleChoice,
          wait: '20 us',
          trip: { code: 1690, normal: '6.5 A', withstand: '10 A' },
          timing: { samples: 16, samplesPerWindow: 8 },
        },
        conditions: exampleConditions,
      },
    ],
  })
})
