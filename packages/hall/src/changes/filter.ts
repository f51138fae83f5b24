import { preferred, put, tighter } from '@ohmward/budget'
import type { ReadChoice } from '../read-choice.js'

const capacitance = { path: 'filter.capacitance', unit: 'F', series: 'E6' } as const
const resistance = { path: 'filter.resistance', unit: 'ohm', series: 'E12' } as const

/** Changes of what stands between sensor and converter. */
export const ofFilter = () => ({
  lessCapacitance: preferred({
    id: 'less-capacitance',
    name: 'a smaller filter capacitor',
    ...capacitance,
    towards: 'down',
  }),
  moreCapacitance: preferred({
    id: 'more-capacitance',
    name: 'a larger filter capacitor',
    ...capacitance,
    towards: 'up',
  }),
  lessResistor: preferred({ id: 'less-resistor', name: 'a smaller filter resistor', ...resistance, towards: 'down' }),
  moreResistor: preferred({ id: 'more-resistor', name: 'a larger filter resistor', ...resistance, towards: 'up' }),
  divider: put({
    id: 'divider',
    name: 'a divider before the converter',
    puts: { divider: { top: '1 kohm ±0.1 %', bottom: '1.8 kohm ±0.1 %' } },
    text: '1 kohm over 1.8 kohm, ±0.1 %',
    when: ({ divider }: ReadChoice) => divider === undefined,
  }),
  moreDivision: preferred({
    id: 'more-division',
    name: 'a larger upper resistor of the divider',
    path: 'divider.top',
    unit: 'ohm',
    towards: 'up',
  }),
  lessDivision: preferred({
    id: 'less-division',
    name: 'a smaller upper resistor of the divider',
    path: 'divider.top',
    unit: 'ohm',
    towards: 'down',
  }),
  closerDivider: tighter({
    id: 'closer-divider',
    name: 'closer tolerances of the divider',
    paths: ['divider.top', 'divider.bottom'],
    unit: 'ohm',
  }),
})
