import { divider, dividerRemedies, exampleChoice, exampleConditions } from '@ohmward/divider'
import fc from 'fast-check'
import { it } from 'vitest'
import { dividerChoices, dividerConditions } from '../tools/choices/divider.js'
import { examples } from '../tools/choices/examples.js'
import { holdsAsCatalogue } from './catalogue.js'

it('every change of divider makes another choice of one that it can be made in', () => {
  holdsAsCatalogue({
    read: divider.read,
    remediesOf: () => dividerRemedies,
    choices: fc.record({ choice: dividerChoices, conditions: dividerConditions }),
    more: [
      ...examples.divider.map(([, choice, conditions]) => ({ choice, conditions })),
      { choice: { ...exampleChoice, surroundings: { sharedGround: '2 mohm' } }, conditions: exampleConditions },
    ],
  })
})
