import { preferred, put, solved, tighter } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'

export const lessGain = /*#__PURE__*/ preferred({
  id: 'less-gain',
  name: 'smaller feedback resistor',
  path: 'gainResistors.feedback',
  unit: 'ohm',
  towards: 'down',
})
export const moreGain = /*#__PURE__*/ preferred({
  id: 'more-gain',
  name: 'larger feedback resistor',
  path: 'gainResistors.feedback',
  unit: 'ohm',
  towards: 'up',
})
export const lessCurrent = /*#__PURE__*/ preferred({
  id: 'less-current',
  name: 'larger reference resistor',
  path: 'reference',
  unit: 'ohm',
  towards: 'up',
})
export const moreCurrent = /*#__PURE__*/ preferred({
  id: 'more-current',
  name: 'smaller reference resistor',
  path: 'reference',
  unit: 'ohm',
  towards: 'down',
})
export const closerResistors = /*#__PURE__*/ tighter({
  id: 'closer-resistors',
  name: 'tighter tolerances of reference and gain resistors',
  paths: ['reference', 'gainResistors.feedback', 'gainResistors.ground'],
  unit: 'ohm',
})
export const closerReference = /*#__PURE__*/ tighter({
  id: 'closer-reference',
  name: 'a tighter tolerance of the reference resistor',
  paths: ['reference'],
  unit: 'ohm',
})
export const network = /*#__PURE__*/ put({
  id: 'matched-network',
  name: 'a matched resistor network for the gain',
  puts: { 'gainResistors.ratioTolerance': '0.05 %', 'gainResistors.ratioDrift': '5 ppm/K' },
  text: 'ratio within 0.05 %, tracking within 5 ppm/K',
  when: ({ gainResistors }: ReadChoice) => gainResistors.ratioTolerance === undefined,
})
export const morePower = /*#__PURE__*/ solved({
  id: 'more-power',
  name: 'a reference resistor of a higher power rating',
  path: 'referencePart.ratedPower',
  unit: 'W',
  to: 10,
})
export const moreProtection = /*#__PURE__*/ preferred({
  id: 'more-protection',
  name: 'a larger series resistor at the sense input',
  path: 'surroundings.protectionResistance',
  unit: 'ohm',
  series: 'E12',
  towards: 'up',
})
