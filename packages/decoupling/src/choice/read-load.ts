import { InputError, missingFields, readNumber, readSpread } from '@ohmward/quantity'
import type { ReadDecoupling } from './choice.js'

const loadKinds = {
  current: { kind: 'current', unit: 'A', max: 1e4 },
  resistance: { kind: 'resistor', unit: 'ohm', max: 1e6 },
  power: { kind: 'power', unit: 'W', max: 1e5 },
} as const

/** Reads what is switched, and when. @throws InputError naming the field */
export function readLoad(given: unknown): ReadDecoupling['load'] {
  const words = ['current', 'resistance', 'power'] as const
  const own = missingFields(given, [], 'load', [...words, 'rise', 'fall', 'duration', 'pwm', 'wantedPower'])
  const stated = words.filter((word) => own[word] !== undefined)
  const word = stated[0]
  if (word === undefined || stated.length > 1) {
    throw new InputError({ field: 'load', value: given, allowed: 'one of { current }, { resistance }, { power }' })
  }
  const { kind, unit, max } = loadKinds[word]
  const time = (value: unknown, field: string, more: { above?: number } = {}) =>
    readNumber(value, { field: `load.${field}`, unit: 's', min: 0, max: 1e7, ...more })
  const rise = time(own.rise ?? 0, 'rise')
  const fall = time(own.fall ?? rise, 'fall')
  const duration = own.duration === undefined ? Number.POSITIVE_INFINITY : time(own.duration, 'duration', { above: 0 })
  const pwm = own.pwm === undefined ? undefined : readPwm(own.pwm, kind)
  const on = pwm ? pwm.duty / pwm.frequency : duration
  if (pwm && own.duration !== undefined) {
    throw new InputError({ field: 'load.duration', value: own.duration, allowed: 'nothing beside load.pwm' })
  }
  if (rise > on) {
    const hint = 'The load would be switched off before it is on'
    throw new InputError({ field: 'load.rise', value: rise, unit: 's', allowed: `at most the on-time, ${on} s`, hint })
  }
  if (pwm && on + fall > 1 / pwm.frequency) {
    const allowed = `at most the off-time, ${1 / pwm.frequency - on} s`
    throw new InputError({ field: 'load.fall', value: fall, unit: 's', allowed })
  }
  const value = readSpread(own[word], { field: `load.${word}`, unit, above: 0, max })
  const wantedPower =
    own.wantedPower === undefined
      ? undefined
      : readSpread(own.wantedPower, { field: 'load.wantedPower', unit: 'W', above: 0, max: 1e5 })
  if (wantedPower && kind !== 'resistor') {
    throw new InputError({ field: 'load.wantedPower', value: own.wantedPower, allowed: 'only with load.resistance' })
  }
  return { kind, value, rise, fall, duration, pwm, wantedPower }
}

function readPwm(given: unknown, kind: string) {
  const own = missingFields(given, ['frequency', 'duty'], 'load.pwm')
  if (kind === 'power') {
    throw new InputError({ field: 'load.pwm', value: given, allowed: 'only with load.current or load.resistance' })
  }
  return {
    frequency: readNumber(own.frequency, { field: 'load.pwm.frequency', unit: 'Hz', above: 0, max: 1e8 }),
    duty: readNumber(own.duty, { field: 'load.pwm.duty', unit: '1', above: 0, below: 1 }),
  }
}
