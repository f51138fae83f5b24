import { exampleConverters } from '@ohmward/adc'
import { type ChangeSpec, preferred, put, type Remedies, replaced, solved, tighter } from '@ohmward/budget'
import type { ReadChoice } from './choice.js'
import { exampleAmplifiers } from './examples.js'

const lessGain = /*#__PURE__*/ preferred({
  id: 'less-gain',
  name: 'smaller feedback resistor',
  path: 'gainResistors.feedback',
  unit: 'ohm',
  towards: 'down',
})
const moreGain = /*#__PURE__*/ preferred({
  id: 'more-gain',
  name: 'larger feedback resistor',
  path: 'gainResistors.feedback',
  unit: 'ohm',
  towards: 'up',
})
const lessCurrent = /*#__PURE__*/ preferred({
  id: 'less-current',
  name: 'larger reference resistor',
  path: 'reference',
  unit: 'ohm',
  towards: 'up',
})
const moreCurrent = /*#__PURE__*/ preferred({
  id: 'more-current',
  name: 'smaller reference resistor',
  path: 'reference',
  unit: 'ohm',
  towards: 'down',
})
const amplifier = /*#__PURE__*/ replaced({
  id: 'amplifier',
  name: 'another class of amplifier',
  path: 'amplifier',
  parts: exampleAmplifiers,
})
const converter = /*#__PURE__*/ replaced({
  id: 'converter',
  name: 'another class of converter',
  path: 'converter',
  parts: exampleConverters,
})
const reach = /*#__PURE__*/ solved({
  id: 'output-reach',
  name: 'amplifier whose output comes closer to its supply',
  path: 'amplifier.highOutputDrop',
  unit: 'V',
  to: 0.005,
})
const supply = /*#__PURE__*/ put({
  id: 'amplifier-supply',
  name: 'a supply of its own for the amplifier',
  puts: { amplifierSupply: '5 V ±2 %' },
  text: '5 V ±2 %',
})
const amplifierOnRail = /*#__PURE__*/ put({
  id: 'amplifier-on-rail',
  name: 'the amplifier on the rail',
  puts: { amplifierSupply: 'rail' },
  text: 'rail',
})
const pedestal = /*#__PURE__*/ solved({
  id: 'pedestal',
  name: 'a larger pedestal',
  path: 'pedestal',
  unit: '1',
  to: 0.3,
})
const atGround = /*#__PURE__*/ put({
  id: 'load-at-ground',
  name: 'the load at ground',
  puts: { topology: 'load at ground' },
  text: 'load at ground',
  when: ({ topology }: ReadChoice) => topology === 'load at rail',
})
const noCalibration = /*#__PURE__*/ put({
  id: 'no-calibration',
  name: 'no calibration',
  puts: { calibration: 'none' },
  text: 'none',
  when: ({ calibration }: ReadChoice) => calibration.kind !== 'none',
})
const zero = /*#__PURE__*/ put({
  id: 'zero',
  name: 'zero calibration with a short',
  puts: { calibration: { kind: 'zero' } },
  text: 'a short at the load terminals',
  when: ({ calibration }: ReadChoice) => calibration.kind === 'none',
})
const zeroAndSpan = /*#__PURE__*/ put({
  id: 'zero-and-span',
  name: 'calibration of zero and span',
  puts: { calibration: { kind: 'zero and span', resistor: '1 ohm ±0.1 %' } },
  text: 'a short, and a known resistor of 1 ohm ±0.1 %',
  when: ({ calibration }: ReadChoice) => calibration.kind !== 'zero and span',
})
const fourWires = /*#__PURE__*/ put({
  id: 'four-wires',
  name: 'sensing at the load',
  puts: { wires: 4 },
  text: 'four wires',
  when: ({ kappa }: ReadChoice) => kappa === 1,
})
const closerResistors = /*#__PURE__*/ tighter({
  id: 'closer-resistors',
  name: 'closer tolerances of reference and gain resistors',
  paths: ['reference', 'gainResistors.feedback', 'gainResistors.ground'],
  unit: 'ohm',
})
const closerReference = /*#__PURE__*/ tighter({
  id: 'closer-reference',
  name: 'a closer tolerance of the reference resistor',
  paths: ['reference'],
  unit: 'ohm',
})
const average = /*#__PURE__*/ solved({
  id: 'average',
  name: 'more samples averaged',
  path: 'timing.samples',
  unit: '1',
  to: 256,
  isFree: true,
})
const wait = /*#__PURE__*/ solved({
  id: 'wait',
  name: 'a longer wait',
  path: 'timing.wait',
  unit: 's',
  to: 1,
  isFree: true,
})
const shorterWait = /*#__PURE__*/ solved({
  id: 'shorter-wait',
  name: 'a shorter pulse',
  path: 'timing.wait',
  unit: 's',
  to: 1e-6,
  isFree: true,
})
const lessFilter = /*#__PURE__*/ solved({
  id: 'less-filter',
  name: 'a faster filter',
  path: 'timing.filter',
  unit: 's',
  to: 1e-9,
})
const moreFilter = /*#__PURE__*/ solved({
  id: 'more-filter',
  name: 'a larger capacitor at the pin',
  path: 'timing.filter',
  unit: 's',
  to: 0.1,
})
const lessSource = /*#__PURE__*/ preferred({
  id: 'less-source',
  name: 'a smaller resistor before the pin',
  path: 'timing.filterResistance',
  unit: 'ohm',
  series: 'E12',
  towards: 'down',
})
const moreSource = /*#__PURE__*/ preferred({
  id: 'more-source',
  name: 'a larger resistor before the pin',
  path: 'timing.filterResistance',
  unit: 'ohm',
  series: 'E12',
  towards: 'up',
})
const sampleLonger = /*#__PURE__*/ solved({
  id: 'sample-longer',
  name: 'a longer sampling time',
  path: 'converter.acquisitionTime',
  unit: 's',
  from: ({ converter }: ReadChoice) => converter.spreads.t_acq,
  to: 1e-3,
  isFree: true,
})
const moreProtection = /*#__PURE__*/ preferred({
  id: 'more-protection',
  name: 'a larger series resistor at the sense input',
  path: 'surroundings.protectionResistance',
  unit: 'ohm',
  series: 'E12',
  towards: 'up',
})
const strongerSwitch = /*#__PURE__*/ solved({
  id: 'stronger-switch',
  name: 'an excitation switch for more current',
  path: 'excitationSwitch.currentLimit',
  unit: 'A',
  to: 10,
})
const lessDuty = /*#__PURE__*/ solved({
  id: 'less-duty',
  name: 'the test current for a smaller share of the time',
  path: 'timing.measuringDuty',
  unit: '1',
  to: 1e-4,
  isFree: true,
})
const morePower = /*#__PURE__*/ solved({
  id: 'more-power',
  name: 'a reference resistor of a higher power rating',
  path: 'referencePart.ratedPower',
  unit: 'W',
  to: 10,
})
const oneNode = /*#__PURE__*/ put({
  id: 'one-node',
  name: 'excitation and reference from the rail, one node',
  puts: { excitation: 'rail', 'converter.reference': { kind: 'rail' } },
  text: 'rail',
})
const excitationFromReference = /*#__PURE__*/ put({
  id: 'excitation-from-reference',
  name: "excitation from the converter's reference, one node",
  puts: { excitation: 'reference' },
  text: 'reference',
  when: ({ isOneNode, converter }: ReadChoice) => !isOneNode && converter.reference.kind === 'absolute',
})
const network = /*#__PURE__*/ put({
  id: 'matched-network',
  name: 'a matched resistor network for the gain',
  puts: { 'gainResistors.ratioTolerance': '0.05 %', 'gainResistors.ratioDrift': '5 ppm/K' },
  text: 'ratio within 0.05 %, tracking within 5 ppm/K',
  when: ({ gainResistors }: ReadChoice) => gainResistors.ratioTolerance === undefined,
})
const starGround = /*#__PURE__*/ put({
  id: 'star-ground',
  name: "the load's ground joined to the converter's at one point",
  puts: { 'surroundings.sharedGround': 0 },
  text: '0 ohm shared',
  when: ({ surroundings }: ReadChoice) => surroundings.sharedGround.upper > 0,
})
const later = /*#__PURE__*/ solved({
  id: 'later',
  name: 'a longer wait after switching off',
  path: 'thermometry.waitAfterOff',
  unit: 's',
  to: 1e4,
  isFree: true,
})

/** What sizing looks for itself: no remedy of what it found. */
export const sought: readonly ChangeSpec[] = [lessGain, moreGain, lessCurrent, moreCurrent]

const error = [
  zero,
  zeroAndSpan,
  amplifier,
  closerReference,
  closerResistors,
  network,
  fourWires,
  starGround,
  moreCurrent,
  moreGain,
  lessGain,
  average,
  wait,
  oneNode,
  excitationFromReference,
  atGround,
]

/** What may be changed where a row of the measurement fails. */
export const remedies: Remedies = {
  headroom: [amplifier, reach, lessGain, lessCurrent, supply],
  'open-load': [amplifier, reach, lessGain, lessCurrent, supply],
  'full-scale': [lessGain, lessCurrent, oneNode],
  'dead-zone': [amplifier, pedestal, moreCurrent, moreGain],
  zero: [pedestal, amplifier, noCalibration],
  span: [lessGain, lessCurrent, amplifier, noCalibration],
  'span-low': [pedestal, amplifier, noCalibration],
  sink: [amplifier, atGround],
  'common-mode-high': [amplifier, atGround],
  'common-mode-low': [amplifier, atGround],
  'supply-low': [amplifier, supply],
  'supply-high': [amplifier, supply],
  undershoot: [moreProtection],
  driven: [moreProtection, amplifierOnRail],
  pin: [moreSource, amplifierOnRail],
  settling: [wait, amplifier, lessGain, lessFilter],
  sampling: [moreFilter, lessSource, sampleLonger],
  acquisition: [sampleLonger, lessSource],
  'reference-start': [wait],
  resolution: [moreCurrent, moreGain, converter],
  'test-current': [lessCurrent, strongerSwitch],
  dissipation: [lessDuty, lessCurrent, morePower],
  warming: [shorterWait, lessDuty, lessCurrent],
  ratio: [oneNode, excitationFromReference],
  'error-smallest': error,
  'error-nominal': error,
  'error-largest': error,
  temperature: error,
  equalised: [later],
}
