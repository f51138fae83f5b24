import type { ChangeSpec, Rung } from '@ohmward/budget'
import { divider } from '@ohmward/divider'
import { format, readNumber } from '@ohmward/quantity'
import { inPulse, largestRead } from '../answer/power/in-pulse.js'
import { shareShown } from '../answer/power/shown.js'
import { leastRated } from '../answer/trip.js'
import { readAfter } from '../pulse/off-times.js'
import type { ReadWhole } from './whole.js'

/** Waits that are multiples of a time and end within another, s, as a reader would type them. */
const waits = (path: string, time: number, multiples: readonly number[], end: number): Rung[] =>
  multiples
    .map((times) => Number((times * time).toPrecision(2)))
    .filter((wait) => wait < end && wait <= 10)
    .map((wait) => {
      const text = format(wait, 's', { digits: 2, ascii: true })
      return { puts: { [path]: text }, text }
    })

/** A current that is read later in its pulse: too early the capacitors feed the load, too late the mean of a short pulse is above it. */
export const laterReading: ChangeSpec = {
  id: 'hall/later-reading',
  name: 'a longer wait before the current is sampled',
  order: 'any',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { walk } = whole as ReadWhole
    const pulse = inPulse(walk)
    if (pulse === undefined || pulse.current === 'mean') return []
    const { duty, frequency } = walk.design.pwm
    return waits('hall.wait', pulse.time, [0.5, 1, 1.5, 2, 2.5, 3, 4, 5], duty.from / frequency)
  },
}

/** The resistance read later between two pulses: its rails have come back further. */
export const laterResistance: ChangeSpec = {
  id: 'divider/later-reading',
  name: 'a longer wait before the resistance is read',
  order: 'mildest first',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { design } = whole as ReadWhole
    const { duty, frequency } = design.pwm
    if (duty.from === 1) return []
    return waits('divider.timing.wait', readAfter(design), [1.5, 2, 3, 5], (1 - duty.to) / frequency)
  },
}

/** A reading that reaches as far as what flows: its span, its errors and its trip are held there. */
export const largerCurrent: ChangeSpec = {
  id: 'hall/current',
  name: 'a larger current to be read',
  order: 'any',
  isFree: true,
  rungs: ({ read: whole }) => {
    const text = format(roundedUp(largestRead((whole as ReadWhole).walk)), 'A', { digits: 3, ascii: true })
    return [{ puts: { 'hall.current.to': text }, text }]
  },
}

/** A trip that leaves what flows alone: what it is told of normal use, and its level as far above that. */
export const higherTrip: ChangeSpec = {
  id: 'hall/trip-normal',
  name: 'a trip above the load current',
  order: 'any',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { design, walk } = whole as ReadWhole
    const { trip } = design.hall
    if (trip?.current === undefined) return []
    const [level, normal] = [trip.current, trip.normal].map((one) => readNumber(one, { field: 'hall.trip', unit: 'A' }))
    const most = roundedUp(largestRead(walk) * shareShown(walk, design.pwm.duty.to).to)
    const text = format(most, 'A', { digits: 3, ascii: true })
    const higher = format(roundedUp((most * level!) / normal!), 'A', { digits: 3, ascii: true })
    return [
      { puts: { 'hall.trip.normal': text, 'hall.trip.current': higher }, text: `${higher}, ${text} in normal use` },
    ]
  },
}

/** A trip that must have acted before the weakest part has more than it stands. */
export const lowerWithstand: ChangeSpec = {
  id: 'hall/trip-withstand',
  name: 'a trip that must act at a lower current',
  order: 'any',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { design, walk } = whole as ReadWhole
    const most = leastRated(design) * shareShown(walk, design.pwm.duty.from).from
    const text = format(-roundedUp(-most), 'A', { digits: 3, ascii: true })
    return [{ puts: { 'hall.trip.withstand': text }, text: `by ${text}` }]
  },
}

/** A reading of the resistance that reaches as far as the load does, cold and at work. */
export const widerRange: ChangeSpec = {
  id: 'divider/range',
  name: 'a wider range of resistances to be read',
  order: 'any',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { design, walk, span } = whole as ReadWhole
    const { lower, upper } = walk.over(span).solved.own
    const { load } = divider.read(design.divider, {
      rail: { from: 1, to: 1 },
      ambientCelsius: design.ambientCelsius,
    })
    const ohms = (value: number) => format(value, 'ohm', { digits: 3, ascii: true })
    const from = lower < load.from ? ohms(-roundedUp(-lower)) : undefined
    const to = upper > load.to ? ohms(roundedUp(upper)) : undefined
    const puts = { ...(from && { 'divider.load.from': from }), ...(to && { 'divider.load.to': to }) }
    return from || to ? [{ puts, text: [from && `from ${from}`, to && `to ${to}`].filter(Boolean).join(' ') }] : []
  },
}

/** Rounded up to two digits, a negative number towards nothing. */
function roundedUp(value: number): number {
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 1)
  return Math.ceil(value / step) * step
}
