import { type ChangeSpec, type Rung, solved, typedAlike } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import { type Cell, exampleCells, type Supply } from '@ohmward/supply'
import type { DecouplingConditions, ReadDecoupling } from '../choice/choice.js'
import { plainSourceFields } from '../parts/index.js'

/** What is left of a resistance or an inductance, from little less down to where nobody builds it. */
const shares = [0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1]

/** A share of what there is, rounded down to two digits, as far off each way as that is. */
function less(spread: Spread, share: number, unit: 'ohm' | 'H'): string {
  const wanted = share * spread.nominal
  const step = 10 ** (Math.floor(Math.log10(wanted)) - 1)
  return typedAlike(spread, Math.floor(wanted / step + 1e-9) * step, unit, 2)
}

/** What of a source may be less. */
interface Lessened {
  /** Where it is written. */
  readonly path: string
  readonly name: string
  readonly value: Spread
  readonly unit: 'ohm' | 'H'
}

/** The cells' own resistance; that of plain numbers, which is one for all. */
function cellOf({ source }: ReadDecoupling): Lessened[] {
  const own = { name: 'source', unit: 'ohm' } as const
  if (source.kind === 'cell')
    return [{ ...own, path: 'source.source.resistance', name: 'cell', value: source.cell.resistance }]
  if (source.kind === 'port')
    return [{ ...own, path: 'source.source.leadResistance', name: 'leads', value: source.leadResistance }]
  return [{ ...own, path: 'source.resistance', value: source.resistance }]
}

/** Elements of the power path that have resistance, each by its name. */
const pathOf = ({ source: { path } }: ReadDecoupling): Lessened[] =>
  path.map(({ name, resistance: value }, k) => ({ path: `source.path.${k}.resistance`, name, value, unit: 'ohm' }))

/** Less of something, all of it by the same share. */
const lessOf = (id: string, name: string, of: (read: ReadDecoupling) => readonly Lessened[]): ChangeSpec => ({
  id,
  name,
  order: 'mildest first',
  rungs: ({ read }) => {
    const there = of(read as ReadDecoupling).filter(({ value }) => value.nominal > 0)
    if (there.length === 0) return []
    return shares.map((share): Rung => {
      const texts = there.map(({ value, unit }) => less(value, share, unit))
      return {
        puts: Object.fromEntries(there.map(({ path }, k) => [path, texts[k]])),
        text: there.map((one, k) => (there.length > 1 ? `${one.name} ${texts[k]}` : texts[k])).join(', '),
      }
    })
  },
})

/** A number of a source that limits, by its word: in a port's part, or among plain numbers. */
const limited = (id: string, name: string, word: 'currentLimit' | 'attachable', times: number): ChangeSpec => {
  const to = ({ source }: ReadDecoupling): number => times * (source[word]?.nominal ?? 0)
  const from = ({ source }: ReadDecoupling): Spread | undefined =>
    source.currentLimit === undefined ? undefined : source[word]
  const { unit } = plainSourceFields[word]
  const at = (path: string) => solved({ id, name, path, unit, from, to })
  const [plain, port] = [at(`source.${word}`), at(`source.source.${word}`)]
  return {
    ...plain,
    rungs: (given) => ((given.read as ReadDecoupling).source.kind === 'port' ? port : plain).rungs(given),
  }
}

/** Resistance of the protection's switches. */
const protectionOf = (read: ReadDecoupling): Lessened[] => pathOf(read).filter((_, k) => k === read.source.protection)

/** A protection whose switches have less resistance. */
export const betterProtection = /*#__PURE__*/ lessOf(
  'better-protection',
  'protection of lower resistance',
  protectionOf,
)

/** The others: a protection of less resistance trips at more. */
const beside = (read: ReadDecoupling): Lessened[] => pathOf(read).filter((_, k) => k !== read.source.protection)

/** Less source resistance: the cell's, the path's, or both by the same share, but not the protection's. */
export const lessSource: readonly ChangeSpec[] = /*#__PURE__*/ (() => [
  lessOf('better-cell', 'a cell of lower resistance, or several in parallel', (read) =>
    read.source.kind === 'cell' ? cellOf(read) : [],
  ),
  lessOf('better-path', 'less resistance in the power path, not the protection', beside),
  lessOf('less-source', 'less resistance in source and path, not the protection', (read) => [
    ...cellOf(read),
    ...beside(read),
  ]),
])()

/** Another class of cell, as the caller brings them or as the examples are. */
export const otherCell: ChangeSpec = {
  id: 'other-cell',
  name: 'another class of cell',
  order: 'any',
  rungs: ({ read, choice, parts }) => {
    const { source } = read as ReadDecoupling
    if (source.kind !== 'cell') return []
    const own = (choice as { readonly source: Supply }).source.source
    const offered = Object.entries((parts?.['cells'] ?? exampleCells) as Readonly<Record<string, Cell>>)
    return offered
      .map(([name, cell]) => ({ name, part: { ...cell, kind: 'cell', inSeries: source.cell.inSeries } as const }))
      .filter(({ part }) => String(part.resistance) !== String('resistance' in own ? own.resistance : ''))
      .map(({ name, part }): Rung => ({ puts: { 'source.source': part }, text: name }))
  },
}

/** Less that rings. */
export const lessInductance = /*#__PURE__*/ lessOf('less-inductance', 'less loop inductance', ({ source }) =>
  source.kind === 'port'
    ? [{ path: 'source.source.leadInductance', name: 'leads', value: source.leadInductance, unit: 'H' }]
    : [{ path: 'source.inductance', name: 'loop', value: source.inductance, unit: 'H' }],
)

/** A port for more current. */
export const strongerPort = /*#__PURE__*/ limited(
  'stronger-port',
  'a port that guarantees more current',
  'currentLimit',
  100,
)

/** A port that stands more capacitance. */
export const softerPort = /*#__PURE__*/ limited(
  'softer-port',
  'a port for more capacitance, or a soft start',
  'attachable',
  1e4,
)

/** What is left below it stays in the cell. */
export const stopEarlier: ChangeSpec = /*#__PURE__*/ (() => {
  const common = { id: 'stop-earlier', name: 'stopping at a higher source voltage at rest' }
  const byVoltage = solved({
    ...common,
    path: 'conditions.openCircuit.from',
    unit: 'V',
    digits: 3,
    from: ({ openCircuit }: ReadDecoupling) => openCircuit.from,
    to: ({ openCircuit }: ReadDecoupling) => openCircuit.to,
  })
  const chargeOf = ({ source }: ReadDecoupling) => (source.kind === 'cell' ? source.charge : undefined)
  const byCharge = solved({
    ...common,
    path: 'conditions.charge.from',
    unit: '1',
    digits: 2,
    from: (read: ReadDecoupling) => chargeOf(read)?.from,
    to: (read: ReadDecoupling) => chargeOf(read)?.to ?? 1,
  })
  return {
    ...byVoltage,
    rungs: (given) => {
      const { charge, openCircuit } = given.conditions as DecouplingConditions
      if (charge !== undefined)
        return byCharge.rungs(given).map((rung) => ({ ...rung, text: `at a charge of ${rung.text}` }))
      return openCircuit === undefined ? [] : byVoltage.rungs(given)
    },
  }
})()
