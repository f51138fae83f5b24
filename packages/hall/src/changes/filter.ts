import { type ChangeSpec, preferred, put, type Rung, tighter } from '@ohmward/budget'
import { format, preferredIn, readSpread } from '@ohmward/quantity'
import { leastAveraging } from '../period/averaging.js'
import type { ReadChoice } from '../read-choice.js'

const capacitance = { path: 'filter.capacitance', unit: 'F', series: 'E6' } as const
const resistance = { path: 'filter.resistance', unit: 'ohm', series: 'E12' } as const
/** What is put before a converter: from what the pin has itself, and from what is told from a wire. */
const usual = { F: [1e-10, 1e-4], ohm: [10, 1e5] } as const

/** A preferred value for the filter, as far as it is usual. */
function usually(move: Parameters<typeof preferred>[0] & { readonly unit: keyof typeof usual }): ChangeSpec {
  const { path, unit } = move
  const [least, most] = usual[unit]
  const spec = /*#__PURE__*/ preferred(move)
  const isUsual = ({ puts }: Rung) => {
    const { nominal } = readSpread(puts[path], { field: path, unit })
    return nominal >= least && nominal <= most
  }
  return { ...spec, rungs: (given) => spec.rungs(given).filter(isUsual) }
}

/** The filter averages over the period: that takes a large capacitor, and a small resistor for the converter's sampling. */
const averaged: ChangeSpec = {
  id: 'averaged',
  name: 'a reading averaged by the filter over the period',
  order: 'mildest first',
  rungs: ({ read }) => {
    const choice = read as ReadChoice
    if (!choice.pwm || choice.reading === 'averaged') return []
    // Resistor and capacitor may be 11 % low together.
    const from = Math.max((1.12 * leastAveraging(choice)) / 100, usual.F[0])
    if (from > usual.F[1]) return []
    return preferredIn({ from, to: usual.F[1] }, 'E6').map((C): Rung => {
      const filter = { resistance: '100 ohm ±1 %', capacitance: `${format(C, 'F', { ascii: true })} ±10 %` }
      const text = `averaged, ${filter.resistance} and ${filter.capacitance}`
      return { puts: { reading: 'averaged', filter }, text }
    })
  },
}

/** Changes of what stands between sensor and converter. */
export const ofFilter = () => ({
  averaged,
  lessCapacitance: usually({
    id: 'less-capacitance',
    name: 'a smaller filter capacitor',
    ...capacitance,
    towards: 'down',
  }),
  moreCapacitance: usually({
    id: 'more-capacitance',
    name: 'a larger filter capacitor',
    ...capacitance,
    towards: 'up',
  }),
  lessResistor: usually({ id: 'less-resistor', name: 'a smaller filter resistor', ...resistance, towards: 'down' }),
  moreResistor: usually({ id: 'more-resistor', name: 'a larger filter resistor', ...resistance, towards: 'up' }),
  divider: put({
    id: 'divider',
    name: 'a divider before the converter',
    puts: { divider: { top: '1 kohm ±0.1 %', bottom: '1.8 kohm ±0.1 %' } },
    text: '1 kohm over 1.8 kohm, ±0.1 %',
    when: ({ divider }: ReadChoice) => divider === undefined,
  }),
  moreDivision: preferred({
    id: 'more-division',
    name: 'a larger upper resistor of the divider',
    path: 'divider.top',
    unit: 'ohm',
    towards: 'up',
  }),
  lessDivision: preferred({
    id: 'less-division',
    name: 'a smaller upper resistor of the divider',
    path: 'divider.top',
    unit: 'ohm',
    towards: 'down',
  }),
  closerDivider: tighter({
    id: 'closer-divider',
    name: 'tighter tolerances of the divider',
    paths: ['divider.top', 'divider.bottom'],
    unit: 'ohm',
  }),
})
