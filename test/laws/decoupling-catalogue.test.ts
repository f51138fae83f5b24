import { decoupling, decouplingRemedies, exampleChoice, exampleConditions } from '@ohmward/decoupling'
import fc from 'fast-check'
import { it } from 'vitest'
import { decouplingChoices, decouplingConditions } from '../tools/choices/decoupling.js'
import { examples } from '../tools/choices/examples.js'
import { holdsAsCatalogue } from './catalogue.js'

/** As many kinds side by side as are taken, a load under PWM over ranges, a power that is wanted of it. */
const many = {
  ...exampleChoice,
  capacitors: Array.from({ length: 6 }, () => ({ ...exampleChoice.capacitors[0]!, count: 2 })),
  load: {
    resistance: '0.7 ohm ±5 %',
    rise: '1 us',
    wantedPower: '12 W',
    pwm: { frequency: { from: '10 kHz', to: '20 kHz' }, duty: { from: 0.2, to: 0.8 } },
  },
} as const

it('every change of decoupling makes another choice of one that it can be made in', () => {
  holdsAsCatalogue({
    read: decoupling.read,
    remediesOf: () => decouplingRemedies,
    choices: fc.record({ choice: decouplingChoices, conditions: decouplingConditions }),
    more: [
      ...examples.decoupling.map(([, choice, conditions]) => ({ choice, conditions })),
      { choice: many, conditions: exampleConditions },
    ],
  })
})
