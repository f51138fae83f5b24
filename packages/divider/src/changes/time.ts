import { preferred, solved } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'

export const average = /*#__PURE__*/ solved({
  id: 'average',
  name: 'more samples averaged',
  path: 'timing.samples',
  unit: '1',
  to: 256,
  isFree: true,
})
export const wait = /*#__PURE__*/ solved({
  id: 'wait',
  name: 'a longer wait',
  path: 'timing.wait',
  unit: 's',
  to: 1,
  isFree: true,
})
export const shorterWait = /*#__PURE__*/ solved({
  id: 'shorter-wait',
  name: 'a shorter pulse',
  path: 'timing.wait',
  unit: 's',
  to: 1e-6,
  isFree: true,
})
export const lessFilter = /*#__PURE__*/ solved({
  id: 'less-filter',
  name: 'a faster filter',
  path: 'timing.filter',
  unit: 's',
  to: 1e-9,
})
export const moreFilter = /*#__PURE__*/ solved({
  id: 'more-filter',
  name: 'a larger capacitor at the pin',
  path: 'timing.filter',
  unit: 's',
  to: 0.1,
})
export const lessSource = /*#__PURE__*/ preferred({
  id: 'less-source',
  name: 'a smaller resistor before the pin',
  path: 'timing.filterResistance',
  unit: 'ohm',
  series: 'E12',
  towards: 'down',
})
export const moreSource = /*#__PURE__*/ preferred({
  id: 'more-source',
  name: 'a larger resistor before the pin',
  path: 'timing.filterResistance',
  unit: 'ohm',
  series: 'E12',
  towards: 'up',
})
export const sampleLonger = /*#__PURE__*/ solved({
  id: 'sample-longer',
  name: 'a longer sampling time',
  path: 'converter.acquisitionTime',
  unit: 's',
  from: ({ converter }: ReadChoice) => converter.spreads.t_acq,
  to: 1e-3,
  isFree: true,
})
export const lessDuty = /*#__PURE__*/ solved({
  id: 'less-duty',
  name: 'a lower duty of the test current',
  path: 'timing.measuringDuty',
  unit: '1',
  to: 1e-4,
  isFree: true,
})
export const later = /*#__PURE__*/ solved({
  id: 'later',
  name: 'a longer wait after switching off',
  path: 'thermometry.waitAfterOff',
  unit: 's',
  to: 1e4,
  isFree: true,
})
