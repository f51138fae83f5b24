import { type ChangeSpec, type ChangeStart, preferred, put, type Rung, solved, tighter } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import type { ReadChoice } from '../choice.js'

export const lessGain = /*#__PURE__*/ preferred({
  id: 'less-gain',
  name: 'a smaller feedback resistor',
  path: 'gainResistors.feedback',
  unit: 'ohm',
  towards: 'down',
})
export const moreGain = /*#__PURE__*/ preferred({
  id: 'more-gain',
  name: 'a larger feedback resistor',
  path: 'gainResistors.feedback',
  unit: 'ohm',
  towards: 'up',
})
export const lessCurrent = /*#__PURE__*/ preferred({
  id: 'less-current',
  name: 'a larger reference resistor',
  path: 'reference',
  unit: 'ohm',
  towards: 'up',
})
export const moreCurrent = /*#__PURE__*/ preferred({
  id: 'more-current',
  name: 'a smaller reference resistor',
  path: 'reference',
  unit: 'ohm',
  towards: 'down',
})
const referenceDrift = 'referencePart.temperatureCoefficient'
const ratioDrift = 'gainResistors.ratioDrift'

/** Temperature coefficient, ppm/K, that resistors of a tolerance in per cent usually have (common practice, no source). */
const usualDrift = (percent: number): number => (percent >= 1 ? 100 : percent >= 0.1 ? 25 : 10)

/**
 * Puts resistors of a temperature coefficient where one stands that is larger; two that set a ratio may drift apart by
 * twice that.
 */
function drifting(ppm: number, hasGain: boolean, { read }: ChangeStart): Rung {
  const { referencePart, gainResistors } = read as ReadChoice
  const text = `${ppm} ppm/K`
  const isMore = ({ upper }: Spread, most: number) => upper > most * 1e-6 * (1 + 1e-9)
  const puts = {
    ...(isMore(referencePart.temperatureCoefficient, ppm) && { [referenceDrift]: text }),
    ...(hasGain && isMore(gainResistors.ratioDrift, 2 * ppm) && { [ratioDrift]: `${2 * ppm} ppm/K` }),
  }
  return { puts, text: Object.keys(puts).length > 0 ? text : '' }
}

/** The drift counts beside the tolerance, and at 0.1 % more than it. */
const lowerDrift = (id: string, name: string, hasGain: boolean): ChangeSpec => ({
  id,
  name,
  order: 'mildest first',
  rungs: (given) => [50, 25, 10].map((ppm) => drifting(ppm, hasGain, given)).filter(({ text }) => text !== ''),
})

export const steadierReference = /*#__PURE__*/ lowerDrift(
  'steadier-reference',
  'a lower temperature coefficient of the reference resistor',
  false,
)
export const steadierResistors = /*#__PURE__*/ lowerDrift(
  'steadier-resistors',
  'a lower temperature coefficient of reference and gain resistors',
  true,
)
export const closerResistors = /*#__PURE__*/ tighter({
  id: 'closer-resistors',
  name: 'tighter tolerances of reference and gain resistors',
  paths: ['reference', 'gainResistors.feedback', 'gainResistors.ground'],
  unit: 'ohm',
  beside: (percent, given) => drifting(usualDrift(percent), true, given),
})
export const closerReference = /*#__PURE__*/ tighter({
  id: 'closer-reference',
  name: 'a tighter tolerance of the reference resistor',
  paths: ['reference'],
  unit: 'ohm',
  beside: (percent, given) => drifting(usualDrift(percent), false, given),
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
