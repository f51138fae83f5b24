import { type ChangeSpec, solved } from '@ohmward/budget'
import type { ReadDecoupling } from '../choice/choice.js'
import { insertionFields } from '../parts/index.js'

const more = (id: string, name: string, word: keyof typeof insertionFields): ChangeSpec =>
  /*#__PURE__*/ solved({
    id,
    name,
    path: `insertion.${word}`,
    unit: insertionFields[word].unit,
    from: ({ insertion }: ReadDecoupling) => (insertion[word].upper > 0 ? insertion[word] : undefined),
    to: ({ insertion }: ReadDecoupling) => 10 * insertion[word].nominal,
  })

/** A contact for more. */
export const strongerContact = /*#__PURE__*/ more('stronger-contact', 'contacts rated for more surge', 'contactSurge')

/** A protection for more load current. */
export const higherTrip: ChangeSpec = {
  id: 'higher-trip',
  name: 'a protection with a higher trip',
  order: 'mildest first',
  rungs: (given) => {
    const { path, protection } = (given.read as ReadDecoupling).source
    const trip = path[protection]?.tripVoltage
    if (trip === undefined) return []
    const { id, name } = higherTrip
    const at = `source.path.${protection}.tripVoltage`
    return solved({ id, name, path: at, unit: 'V', from: () => trip, to: 10 * trip.nominal }).rungs(given)
  },
}

/** A protection that lets more inrush pass. */
export const higherShort = /*#__PURE__*/ more(
  'higher-short',
  'protection with a higher short-circuit level',
  'shortVoltage',
)

/** A protection that lets the inrush pass. */
export const longerDelay = /*#__PURE__*/ more(
  'longer-delay',
  'protection with a longer short-circuit delay',
  'shortDelay',
)

/** What hangs on the rail, for more volts. */
export const higherMaximum = /*#__PURE__*/ more('higher-maximum', 'parts rated for a higher rail', 'railMaximum')
