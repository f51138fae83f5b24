import { briefEvaluator, type CompiledInputs, compileInputs, type Evaluator } from '../model/evaluate.js'
import { modelOf } from './hold.js'
import type { BlockRow, ErrorRow, LimitRow, Place } from './rows.js'

/** A row with nominal parts at the worst end of the conditions: no tolerance makes it better. */
export interface NominalRow {
  readonly row: BlockRow
  readonly value: number
  readonly limit: number
  readonly slack: number
  /** Slack as a share of the limit, less what the parts' limits take off an error: an upper bound, nearly, of the true one. */
  readonly promise: number
}

/** Share of the parts' reach, moved one at a time, that is sure to be taken off an error. */
const SURE = 0.9

/** What a look at a row costs: plain numbers first, errors last. */
const cost = { plain: 0, limit: 1, error: 2, own: 3 } as const

/**
 * Looks at rows with nominal parts at all ends of the conditions, up to the first that fails there. Rows that physics holds
 * in its own way are left out.
 */
export function nominalRows(rows: readonly BlockRow[]): NominalRow[] {
  const looked: NominalRow[] = []
  for (const row of [...rows].sort((a, b) => cost[a.kind] - cost[b.kind])) {
    if (row.kind === 'own') break
    looked.push(
      row.kind === 'plain' ? noted(row, row.worst, row.limit, 0) : row.kind === 'limit' ? limitAt(row) : errorAt(row),
    )
    if (looked.at(-1)!.slack < 0) break
  }
  return looked
}

function noted(row: BlockRow, value: number, limit: number, reach: number): NominalRow {
  const slack = row.sense === 'at least' ? value - limit : limit - value
  return { row, value, limit, slack, promise: (slack - reach) / (Math.abs(limit) || Math.abs(value) || 1) }
}

function limitAt(row: LimitRow): NominalRow {
  const { reading, at } = row
  const value = modelOf(row.value)
  const limit = modelOf(row.limit)
  const compiled = compileInputs({ ...reading.inputs, ...at })
  const seen = { value: 0, limit: 0 }
  const place = briefEvaluator(
    compiled,
    (x: Place) => {
      const y = reading.follow(x)
      seen.value = value(y)
      seen.limit = limit(y)
      return row.sense === 'at least' ? seen.value - seen.limit : seen.limit - seen.value
    },
    reading.row,
  )
  let least = Infinity
  let worst = { value: 0, limit: 0 }
  eachEnd(compiled, place, reading.conditions, () => {
    const slack = place.finite()
    if (slack >= least) return
    least = slack
    worst = { ...seen }
  })
  return noted(row, worst.value, worst.limit, 0)
}

function errorAt(row: ErrorRow): NominalRow {
  const { reading, at, shown, truth, allowed } = row
  const compiled = compileInputs({ ...reading.inputs, ...at })
  const place = briefEvaluator(compiled, shown, reading.row)
  let high: Off | undefined
  let low: Off | undefined
  eachEnd(compiled, place, reading.conditions, () => {
    const off = place.finite() - truth
    if (high === undefined || off > high.off) high = { off, at: place.values() }
    if (low === undefined || off < low.off) low = { off, at: place.values() }
  })
  const parts = compiled.varying.filter((i) => !reading.conditions.includes(compiled.names[i]!))
  /** By how much the parts, moved one at a time, take what is shown further that way there. */
  const further = ({ off, at }: Off, sign: 1 | -1): number => {
    for (const i of compiled.varying) place.set(i, at[compiled.names[i]!]!)
    let sum = 0
    for (const i of parts) {
      const { lower, upper, nominal } = compiled.spreads[i]!
      let most = 0
      for (const end of [lower, upper]) {
        place.set(i, end)
        most = Math.max(most, sign * (place.value() - truth - off))
      }
      place.set(i, nominal)
      sum += most
    }
    return sum
  }
  const error = Math.max(high!.off, -low!.off)
  const reach = Math.max(high!.off + further(high!, 1), -low!.off + further(low!, -1)) - error
  return noted(row, error, allowed, SURE * reach)
}

/** How far what is shown is off with nominal parts, and all values there. */
interface Off {
  readonly off: number
  readonly at: Readonly<Record<string, number>>
}

/** Calls `look` at every combination of the conditions' ends. */
function eachEnd(
  { names, spreads }: CompiledInputs<string>,
  place: Evaluator,
  conditions: readonly string[],
  look: () => void,
): void {
  const open = conditions.map((name) => names.indexOf(name)).filter((i) => i >= 0)
  const go = (n: number): void => {
    const i = open[n]
    if (i === undefined) {
      look()
      return
    }
    const { lower, upper } = spreads[i]!
    for (const end of lower === upper ? [lower] : [lower, upper]) {
      place.set(i, end)
      go(n + 1)
    }
  }
  go(0)
}
