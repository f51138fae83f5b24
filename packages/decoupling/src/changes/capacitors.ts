import { type ChangeSpec, type ChangeStart, type Rung, solved } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { ReadCapacitor, ReadDecoupling } from '../choice/choice.js'
import { exampleCapacitors } from '../parts/examples.js'
import type { Capacitor } from '../parts/index.js'

/** Most kinds that a choice has. */
const mostKinds = 6
const kinds = /*#__PURE__*/ Array.from({ length: mostKinds }, (_, k) => k)

/** A change of one kind of capacitor, by its place; none where there is no such kind. */
const ofKind = (
  id: string,
  name: string,
  k: number,
  rungs: (part: ReadCapacitor, path: string, given: ChangeStart) => readonly Rung[],
): ChangeSpec => ({
  id: `${id}-${k + 1}`,
  name: `${name} of capacitor kind ${k + 1}`,
  order: 'mildest first',
  rungs: (given) => {
    const part = (given.read as ReadDecoupling).capacitors[k]
    const key = Object.keys((given.choice as { readonly capacitors: object }).capacitors)[k]
    return part === undefined || key === undefined ? [] : rungs(part, `capacitors.${key}`, given)
  },
})

const counts = (part: ReadCapacitor, path: string, values: readonly number[]): Rung[] =>
  values.map((count) => ({ puts: { [`${path}.count`]: `${count}` }, text: `${count} × ${part.name}` }))

/** Whole numbers from one to another, either way. */
const countsTo = (from: number, to: number): number[] =>
  Array.from({ length: Math.abs(to - from) + 1 }, (_, i) => from + Math.sign(to - from) * i)

/** More of one kind in parallel. */
export const moreParts = /*#__PURE__*/ kinds.map((k) =>
  ofKind('more-parts', 'more parts', k, (part, path) => {
    const most = Math.min(1000, Math.max(16, 4 * part.count))
    return part.count < most ? counts(part, path, countsTo(part.count + 1, most)) : []
  }),
)

/** Fewer of one kind. */
export const fewerParts = /*#__PURE__*/ kinds.map((k) =>
  ofKind('fewer-parts', 'fewer parts', k, (part, path) =>
    part.count > 1 ? counts(part, path, countsTo(part.count - 1, 1)) : [],
  ),
)

/** Rated voltages as parts have them, V. */
const voltages = [4, 6.3, 10, 16, 25, 35, 50, 63, 100]

/** A higher rated voltage; the same bias curve in volts is on the safe side. */
export const higherRating = /*#__PURE__*/ kinds.map((k) =>
  ofKind('higher-rating', 'a higher rated voltage', k, ({ fields }, path) =>
    voltages
      .filter((volts) => volts > fields.ratedVoltage.upper)
      .map((volts) => ({ puts: { [`${path}.ratedVoltage`]: `${volts} V` }, text: `${volts} V` })),
  ),
)

/** A part that is rated for more ripple current. */
export const moreRipple = /*#__PURE__*/ kinds.map((k) =>
  ofKind('more-ripple', 'a larger ripple current rating', k, ({ fields }, path, given) =>
    solved({
      id: 'ripple',
      name: 'ripple current rating',
      path: `${path}.rippleCurrent`,
      unit: 'A',
      from: () => fields.rippleCurrent,
      to: 10 * fields.rippleCurrent.nominal,
    }).rungs(given),
  ),
)

/** A life that is rated at a higher temperature. */
export const hotterRating = /*#__PURE__*/ kinds.map((k) =>
  ofKind('hotter-rating', 'a rated life at a higher temperature', k, ({ fields }, path) =>
    [105, 125, 135, 150]
      .filter((celsius) => fields.lifeHours.upper > 0 && celsius > fields.lifeCelsius.upper)
      .map((celsius) => {
        const text = format(celsius, 'degC', { ascii: true })
        return { puts: { [`${path}.lifeCelsius`]: text }, text }
      }),
  ),
)

/** Another kind beside those that are there. */
export const beside: ChangeSpec = {
  id: 'beside',
  name: 'another capacitor in parallel',
  order: 'any',
  rungs: ({ choice, parts }) => {
    const { capacitors } = choice as { readonly capacitors: readonly Capacitor[] | Readonly<Record<string, Capacitor>> }
    if (Object.keys(capacitors).length >= mostKinds) return []
    const offered = Object.entries((parts?.['capacitors'] ?? exampleCapacitors) as Readonly<Record<string, Capacitor>>)
    return offered.flatMap(([key, part]) =>
      [1, 2, 4].map((count): Rung => {
        const one = { ...part, count }
        const all = Array.isArray(capacitors) ? [...capacitors, one] : { ...capacitors, [`${key} beside`]: one }
        return { puts: { capacitors: all }, text: `${count} × ${part.name ?? key}` }
      }),
    )
  },
}
