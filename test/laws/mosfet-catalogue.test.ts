import {
  exampleChoice,
  exampleConditions,
  exampleDrives,
  exampleTransistors,
  type MosfetChoice,
  mosfet,
  mosfetRemedies,
} from '@ohmward/mosfet'
import fc from 'fast-check'
import { it } from 'vitest'
import { examples } from '../tools/choices/examples.js'
import { mosfetChoices, mosfetConditions } from '../tools/choices/mosfet.js'
import { holdsAsCatalogue } from './catalogue.js'

const { pull: _, ...unheld } = exampleDrives['controller pin']
const inverting = exampleDrives['NPN and pull-up of 1 kohm']

/** A pin that nothing holds, a base that is pulled up, a load that freewheels through a rated diode, bursts. */
const switches: readonly Partial<MosfetChoice>[] = [
  { transistor: exampleTransistors['N-channel, driven from 1.8 V'], drive: unheld },
  { drive: { ...inverting, basePullUp: '10 kohm ±5 %' } },
  { drive: { ...exampleDrives['controller pin'], highLevel: '2.9 V' } },
  {
    edges: 'clamped inductive',
    freewheel: { drop: '0.4 V', ratedPower: '1 W' },
    pwm: { frequency: '1 kHz', duty: { from: 0.5, to: 0.5 } },
  },
  { bursts: { on: '20 s', period: '60 s', count: 5 } },
]

it('every change of mosfet makes another choice of one that it can be made in', () => {
  holdsAsCatalogue({
    read: mosfet.read,
    remediesOf: () => mosfetRemedies,
    choices: fc.record({ choice: mosfetChoices, conditions: mosfetConditions }),
    more: [
      ...examples.mosfet.map(([, choice, conditions]) => ({ choice, conditions })),
      ...switches.map((more) => ({ choice: { ...exampleChoice, ...more }, conditions: exampleConditions })),
    ],
  })
})
