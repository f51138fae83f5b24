import { exactly, type Given, InputError, readRecord, record } from '@ohmward/quantity'
import type { MosfetConditions } from './conditions.js'

const sweptRecord = /*#__PURE__*/ record({
  openCircuit: /*#__PURE__*/ exactly({
    unit: 'V',
    above: 0,
    max: 1000,
    optional: true,
    meaning: 'open-circuit voltage of the source',
  }),
  charge: /*#__PURE__*/ exactly({ unit: '1', min: 0, max: 1, optional: true, meaning: 'charge of the cells, 0 to 1' }),
  ambientCelsius: /*#__PURE__*/ exactly({
    unit: 'degC',
    min: -55,
    max: 200,
    optional: true,
    meaning: 'air around the board',
  }),
})

/** One point of a sweep: single values of some conditions. */
export type SweptAt = Given<typeof sweptRecord>

/**
 * Reads the points of a sweep, V, share and °C.
 *
 * @throws InputError naming the point and the field: one that doesn't exist, or a charge where no supply is given
 */
export function readSwept(points: unknown, conditions: MosfetConditions): Readonly<Record<string, number>>[] {
  if (!Array.isArray(points)) throw new InputError({ field: 'points', value: points, allowed: 'a list of points' })
  return Array.from(points, (point: unknown, i) => {
    const place = `points[${i}]`
    const read = readRecord(sweptRecord, point, place, `${place}.`)
    if (read.charge !== undefined && conditions.supply === undefined) {
      throw new InputError({ field: `${place}.charge`, value: read.charge, allowed: 'nothing without a supply' })
    }
    const said = Object.entries(read).filter((entry): entry is [string, number] => entry[1] !== undefined)
    return Object.fromEntries(said)
  })
}
