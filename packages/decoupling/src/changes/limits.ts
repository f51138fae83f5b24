import { type ChangeSpec, solved } from '@ohmward/budget'
import type { ReadDecoupling } from '../choice/choice.js'
import { type LimitName, limitFields } from '../parts/index.js'
import { limitId } from '../rail/limits.js'

/** What is done where a limit is lower. */
const names: Readonly<Record<LimitName, string>> = {
  brownOut: 'a lower brown-out level',
  clock: 'a clock for a lower supply',
  sensor: 'a sensor for a lower supply',
  amplifier: 'an amplifier for a lower supply',
  converter: 'a converter for a lower supply',
}

/** A lower limit, by its name. */
const lowerLimit = (name: LimitName): ChangeSpec =>
  /*#__PURE__*/ solved({
    id: `lower-${limitId({ name, place: 'rail' }).slice('rail-'.length)}`,
    name: names[name],
    path: `limits.${name}`,
    unit: 'V',
    to: ({ limits }: ReadDecoupling) => 0.4 * (limits[name]?.nominal ?? 0),
  })

/** What lowers each limit, with the rows that watch it on either rail. */
export const lowerLimits = /*#__PURE__*/ (Object.keys(limitFields) as LimitName[]).map((name) => ({
  rail: limitId({ name, place: 'rail' }),
  logic: limitId({ name, place: 'logic rail' }),
  change: lowerLimit(name),
}))

/** A clock that runs on less. */
export const lowerClock = /*#__PURE__*/ lowerLimit('clock')

/** A higher brown-out level, which the rail must keep then. */
export const higherBrownOut = /*#__PURE__*/ solved({
  id: 'higher-brown-out',
  name: 'a higher brown-out level',
  path: 'limits.brownOut',
  unit: 'V',
  to: ({ limits }: ReadDecoupling) => 2 * (limits.clock?.upper ?? 0),
})
