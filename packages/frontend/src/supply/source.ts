import { type ReadSupply, type SourceAt, type SupplyState, sourceAt, spreadKnees } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import { latelyOf } from '../kept/lately.js'
import { hull } from './hull.js'
import type { Ends, Span } from './place.js'

/** What the board sees over a span: of voltage and resistance all that lies between its ends and the points of the curves. */
export function sourceOver({ supply, board }: Pick<ReadDesign, 'supply' | 'board'>, span: Span): SourceAt {
  const { source } = supply
  const tap = board === undefined ? {} : { tap: board }
  const curves =
    source.kind === 'cell'
      ? { charge: [source.openCircuit, source.chargeFactor, { x: spreadKnees }], celsius: [source.temperatureFactor] }
      : null
  const charges = stops(span.charge, curves?.charge.flatMap(({ x }) => x) ?? [])
  const celsius = stops(span.celsius, curves?.celsius.flatMap(({ x }) => x) ?? [])
  const ages = stops(span.age, [])
  const all: SourceAt[] = []
  for (const charge of charges)
    for (const one of celsius) for (const age of ages) all.push(knownAt(supply, { charge, celsius: one, age, ...tap }))
  const first = all[0]!
  if (all.length === 1) return first
  const over = (key: 'openCircuit' | 'resistance') => hull(all.map((one) => one[key]))
  const cells = first.cells && {
    ...first.cells,
    voltage: hull(all.map((one) => one.cells!.voltage)),
    resistance: hull(all.map((one) => one.cells!.resistance)),
  }
  const path = { ...first.path, resistance: hull(all.map((one) => one.path.resistance)) }
  return { ...first, openCircuit: over('openCircuit'), resistance: over('resistance'), cells, path }
}

/** Sources by their supply and its state: spans of one walk share their ends and all points of the curves. */
const known = /*#__PURE__*/ latelyOf<SourceAt>()

const knownAt = (supply: ReadSupply, state: SupplyState): SourceAt =>
  known(supply, Object.values(state).join(), () => sourceAt(supply, state))

/** The ends of a range and what lies between. */
const stops = ({ from, to }: Ends, inside: readonly number[]): number[] => {
  const [low, high] = [Math.min(from, to), Math.max(from, to)]
  return [...new Set([from, ...inside.filter((x) => x > low && x < high), to])]
}
