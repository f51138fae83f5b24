import type { ChangeSpec, Remedies } from '@ohmward/budget'
import { beside, fewerParts, higherRating, hotterRating, moreParts, moreRipple } from './capacitors.js'
import { higherMaximum, higherShort, higherTrip, longerDelay, strongerContact } from './insertion.js'
import { isolation } from './isolation.js'
import { higherBrownOut, lowerClock, lowerLimits } from './limits.js'
import { directDrive, lessLoad, lessWanted, narrowerPwm, otherTiming } from './load.js'
import { betterLogic, lessHoldUp } from './logic.js'
import {
  betterProtection,
  lessInductance,
  lessSource,
  otherCell,
  softerPort,
  stopEarlier,
  strongerPort,
} from './source.js'

/** What may be changed where a row of the rail fails. */
export const remedies: Remedies = /*#__PURE__*/ (() => {
  const inEnd = [...lessLoad, ...otherTiming, ...lessSource, otherCell, stopEarlier]
  const onRail = [...inEnd, ...narrowerPwm, ...moreParts, beside, ...isolation]
  const onLogic = [...betterLogic, ...onRail]
  const limits = lowerLimits.flatMap(({ rail, logic, change }) => [
    [rail, [...onRail, change]] as const,
    [logic, [...onLogic, change]] as const,
  ])
  const ofKinds = moreParts.flatMap((parts, k) => [
    [`ripple-${k + 1}`, [parts, beside, directDrive, ...narrowerPwm, moreRipple[k]!]] as const,
    [`life-${k + 1}`, [hotterRating[k]!, parts, beside, directDrive, ...narrowerPwm]] as const,
  ])
  return {
    ...Object.fromEntries<readonly ChangeSpec[]>([...limits, ...ofKinds]),
    'steady-sag': inEnd,
    'steady-sag-logic': [...betterLogic, ...inEnd],
    'series-resistance': [...moreParts, beside, ...lessSource, ...lessLoad],
    'pwm-start': onRail,
    'power-exists': [...lessLoad, ...lessSource, stopEarlier],
    'power-reaches': [lessWanted, ...lessSource, stopEarlier],
    'protection-trip': [...lessLoad, betterProtection, higherTrip],
    'rated-voltage': [...higherRating, ...moreParts, beside, lessInductance],
    'rail-maximum': [...moreParts, beside, higherMaximum, lessInductance],
    'contact-surge': [...fewerParts, strongerContact],
    'short-delay': [...fewerParts, longerDelay, higherShort],
    'port-current': [...lessLoad, ...otherTiming, strongerPort],
    'port-capacitance': [...fewerParts, lessHoldUp, softerPort],
    'brown-out-clock': [lowerClock, higherBrownOut],
  }
})()
