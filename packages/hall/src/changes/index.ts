import type { Remedies } from '@ohmward/budget'
import { demand } from '@ohmward/quantity'
import type { ReadChoice } from '../read-choice.js'
import { ofFilter } from './filter.js'
import { ofSensor } from './sensor.js'
import { ofTime } from './time.js'
import { ofUse } from './use.js'

/** What may be changed where a row of the measurement fails. */
export function remediesOf(read: ReadChoice): Remedies {
  const { errors } = read ?? {}
  const isRead = Array.isArray(errors)
  demand(isRead, { field: 'read', value: read, allowed: 'what hall.read makes of a choice and its conditions' })
  const s = ofSensor()
  const f = ofFilter()
  const t = ofTime()
  const u = ofUse()
  const error = [
    u.zeroOnce,
    u.zeroEachTime,
    s.sensor,
    s.converter,
    s.onRail,
    s.further,
    f.closerDivider,
    t.average,
    t.settledWait,
    f.lessCapacitance,
    f.moreCapacitance,
  ]
  const window = [
    t.fasterClock,
    t.fewerInWindow,
    f.lessCapacitance,
    f.lessResistor,
    t.settledWait,
    s.sensor,
    t.lowerFrequency,
    t.longerDuty,
    f.averaged,
  ]
  return {
    'supply-low': [s.sensor, s.ownSupply],
    'supply-high': [s.sensor, s.ownSupply, s.onRail],
    'span-high': [s.lessSensitivity, s.sensor, s.closerReach, s.ownSupply],
    'span-low': [s.sensor, s.higherZero, s.lessSensitivity],
    'rated-current': [s.sensor],
    'zero-span': [s.higherZero, s.sensor, u.noZero],
    'converter-high': [s.onRail, f.divider, f.moreDivision, s.lessSensitivity, s.sensor],
    clamp: [f.moreResistor, f.divider, f.moreDivision, s.onRail],
    conductor: [s.copper, s.lessResistance, s.sensor],
    resolution: [t.average, s.moreSensitivity, s.sensor, f.lessDivision, s.converter],
    noise: [t.average, f.moreCapacitance, s.moreSensitivity, s.sensor, s.converter],
    range: [s.moreSensitivity, s.sensor, f.lessDivision],
    quotient: [u.divideLater, s.moreSensitivity, s.sensor, s.converter],
    settling: [t.longerWait, t.settledWait, f.lessCapacitance, f.lessResistor, s.sensor],
    'on-window': window,
    'off-window': [
      t.fasterClock,
      f.lessCapacitance,
      f.lessResistor,
      t.settledWait,
      t.lowerFrequency,
      t.shorterDuty,
      u.holdOff,
      u.zeroOnce,
    ],
    'zero-off': [u.holdOff, f.lessCapacitance, f.lessResistor, t.fasterClock, u.zeroOnce],
    ripple: [f.moreCapacitance, f.moreResistor, t.onWindow, t.higherFrequency],
    power: [u.meanTimesVoltage, t.onWindow],
    sampling: [f.moreCapacitance, f.lessCapacitance, f.lessResistor, t.sampleLonger],
    'trip-false': [u.higherLevel, u.higherCode, u.zeroOnce, u.zeroEachTime, s.sensor],
    'trip-late': [u.lowerLevel, u.lowerCode, u.zeroOnce, u.zeroEachTime, u.standMore, s.sensor],
    'trip-reach': [s.lessSensitivity, s.sensor, u.lowerLevel, u.lowerCode],
    ...Object.fromEntries(errors.map((_, i) => [`error-${i + 1}`, error])),
  }
}
