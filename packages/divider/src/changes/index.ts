import type { ChangeSpec, Remedies } from '@ohmward/budget'
import {
  amplifier,
  amplifierOnRail,
  converter,
  excitationFromReference,
  oneNode,
  pedestal,
  reach,
  strongerSwitch,
  supply,
} from './parts.js'
import {
  closerReference,
  closerResistors,
  lessCurrent,
  lessGain,
  moreCurrent,
  moreGain,
  morePower,
  moreProtection,
  network,
} from './resistors.js'
import {
  average,
  later,
  lessDuty,
  lessFilter,
  lessSource,
  moreFilter,
  moreSource,
  sampleLonger,
  shorterWait,
  wait,
} from './time.js'
import { atGround, fourWires, noCalibration, starGround, zero, zeroAndSpan } from './use.js'

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
