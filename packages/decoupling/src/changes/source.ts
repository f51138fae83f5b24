import { type ChangeSpec, type Rung, solved } from '@ohmward/budget'
import { format, type Spread } from '@ohmward/quantity'
import type { ReadDecoupling } from '../choice/choice.js'
import { cellFields, supplyFields } from '../parts/index.js'

type CellWord = 'cellResistance' | 'contacts' | 'protection' | 'switchResistance' | 'wiring' | 'inductance'
type SupplyWord = 'resistance' | 'currentLimit' | 'attachable'

/** What is left of a resistance or an inductance, from little less down to where nobody builds it. */
const shares = [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1]

/** A share of what there is, rounded down, with its tolerance in per cent: as a reader would type it. */
function less({ nominal, lower, upper }: Spread, share: number, unit: 'ohm' | 'H'): string {
  const step = 10 ** (Math.floor(Math.log10(share * nominal)) - 1)
  const value = format(Math.floor((share * nominal) / step + 1e-9) * step, unit, { digits: 2, ascii: true })
  const percent = Math.max(nominal - lower, upper - nominal) / nominal
  return percent > 0 ? `${value} ±${Number((100 * percent).toPrecision(4))} %` : value
}

/** Less of some elements of a cell and its path, each by the same share. */
const lessOf = (id: string, name: string, words: readonly CellWord[]): ChangeSpec => ({
  id,
  name,
  order: 'mildest first',
  rungs: ({ read }) => {
    const { source } = read as ReadDecoupling
    if (source.kind === 'limited supply') return []
    const there = words.filter((word) => source.fields[word].nominal > 0)
    if (there.length === 0) return []
    return shares.map((share): Rung => {
      const texts = there.map((word) => less(source.fields[word], share, cellFields[word].unit))
      return { puts: Object.fromEntries(there.map((word, k) => [`source.${word}`, texts[k]])), text: texts.join(', ') }
    })
  },
})

const ofSupply =
  (word: SupplyWord) =>
  ({ source }: ReadDecoupling): Spread | undefined =>
    source.kind === 'limited supply' ? source.fields[word] : undefined

const supplied = (id: string, name: string, word: SupplyWord, times: number): ChangeSpec =>
  /*#__PURE__*/ solved({
    id,
    name,
    path: `source.${word}`,
    unit: supplyFields[word].unit,
    from: ofSupply(word),
    to: (read: ReadDecoupling) => times * (ofSupply(word)(read)?.nominal ?? 0),
  })

/** A protection whose switches have less resistance. */
export const betterProtection = /*#__PURE__*/ lessOf('better-protection', 'a protection with less resistance', [
  'protection',
])

const path = ['contacts', 'protection', 'switchResistance', 'wiring'] as const

/** Less source resistance: the cell's, the path's, or both by the same share. */
export const lessSource: readonly ChangeSpec[] = /*#__PURE__*/ (() => [
  lessOf('better-cell', 'a cell with less resistance, or several in parallel', ['cellResistance']),
  lessOf('better-path', 'less resistance in contacts, protection, switch and wires', path),
  lessOf('less-source', 'less resistance in cell, contacts, protection, switch and wires', ['cellResistance', ...path]),
  supplied('better-cable', 'a cable with less resistance', 'resistance', 0.1),
])()

/** Less that rings. */
export const lessInductance = /*#__PURE__*/ lessOf('less-inductance', 'less loop inductance', ['inductance'])

/** A port for more current. */
export const strongerPort = /*#__PURE__*/ supplied(
  'stronger-port',
  'a port that guarantees more current',
  'currentLimit',
  100,
)

/** A port that stands more capacitance. */
export const softerPort = /*#__PURE__*/ supplied(
  'softer-port',
  'a port for more capacitance, or a soft start',
  'attachable',
  1e4,
)

/** What is left below it stays in the cell. */
export const stopEarlier = /*#__PURE__*/ solved({
  id: 'stop-earlier',
  name: 'stopping at a higher source voltage at rest',
  path: 'conditions.openCircuit.from',
  unit: 'V',
  digits: 3,
  from: ({ openCircuit }: ReadDecoupling) => openCircuit.from,
  to: ({ openCircuit }: ReadDecoupling) => openCircuit.to,
})
