import { converterFields } from '@ohmward/adc'
import type { BlockRow, InputSet, Margin, Told } from '@ohmward/budget'
import { nominalOf, type Spread } from '@ohmward/quantity'
import { usualTripShare } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { runawayId, temperatureId, tripId } from '../rows/supply-rows.js'
import type { SolvedPlace } from '../supply/solve.js'
import type { Stage } from '../walk/stage.js'
import type { BoardsAt, Ends, Shares } from './board.js'
import { at } from './draw.js'

/** The boards that are simulated: where their parts lie, by name, and supply and load of each at a place. */
export interface Boards {
  readonly count: number
  readonly shares: Shares
  readonly at: BoardsAt
}

/** A row that doesn't hold at its worst, at a place. */
export interface Doubtful {
  readonly stage: Stage
  readonly row: BlockRow
  readonly margin: Margin
  readonly solved: SolvedPlace
}

/** Symbols of one converter, which serves both measurements. */
const sharedSymbols: ReadonlySet<string> = /*#__PURE__*/ (() =>
  new Set<string>(Object.values(converterFields).map(({ symbol }) => symbol)))()

/** Marks the boards on which a row fails. */
export function failing(design: ReadDesign, doubtful: Doubtful, boards: Boards): Uint8Array {
  const { row, stage, margin } = doubtful
  if (row.kind === 'limit' || row.kind === 'error') return byChain(design, doubtful, row, boards)
  const key = railOfRow(doubtful)
  if (key !== undefined) return byRail(design, doubtful, key, boards)
  const warmed = warmedBy(design, doubtful)
  if (warmed !== undefined) return byHeat(warmed, doubtful, boards)
  if (stage.block === 'supply' && row.unit === 'A') return byCurrent(design, doubtful, boards)
  // What isn't known where the gate may not get there holds on every board on which it does: the row of the gate marks the others.
  if (margin.isUnknown) return new Uint8Array(boards.count)
  // Held by physics of its own: its probability stands for it, or nothing where it has none.
  const share = margin.verdict === 'fails' && margin.nominalSlack < 0 ? 0 : (margin.probability ?? 0)
  return boards.shares(`row ${stage.block} ${row.id}`).reduce((marks, one, i) => {
    marks[i] = one < share ? 0 : 1
    return marks
  }, new Uint8Array(boards.count))
}

/** A row of a chain, followed on every board. */
function byChain(
  design: ReadDesign,
  { stage, margin }: Doubtful,
  row: Extract<BlockRow, { kind: 'limit' | 'error' }>,
  { count, shares, at: all }: Boards,
): Uint8Array {
  const { reading } = row
  const given = suppliesOf(design, stage, all, reading.inputs)
  const columns: [Record<string, Float64Array>, Record<string, Float64Array>] = [{}, {}]
  let isOne = true
  const put = (symbol: string, one: Float64Array, other = one) => {
    columns[0][symbol] = one
    columns[1][symbol] = other
    if (other !== one) isOne = false
  }
  for (const [symbol, input] of Object.entries({ ...reading.inputs, ...row.at })) {
    const own = given[symbol]
    const spread = typeof input === 'object' && input.lower < input.upper ? input : undefined
    if (own !== undefined && spread !== undefined) put(symbol, ...own)
    else if (spread === undefined) put(symbol, new Float64Array(count).fill(nominalOf(input)))
    else if (reading.conditions.includes(symbol))
      put(symbol, new Float64Array(count).fill(margin.at[symbol] ?? spread.upper))
    else {
      const name = sharedSymbols.has(symbol) ? `converter ${symbol}` : `${stage.block} ${symbol}`
      put(
        symbol,
        shares(name).map((share) => at(spread, share)),
      )
    }
  }
  const marks = new Uint8Array(count)
  const slack = slackOf(row)
  // A rail that is read may stand at either of its ends.
  for (const ends of isOne ? columns.slice(0, 1) : columns)
    for (let i = 0; i < count; i++) if (!(slack(reading.row(ends, i)) >= 0)) marks[i] = 1
  return marks
}

function slackOf(row: Extract<BlockRow, { kind: 'limit' | 'error' }>) {
  if (row.kind === 'error') return (x: Values) => row.allowed - Math.abs(row.shown(x) - row.truth)
  const told = (one: number | Told) => (y: Values) =>
    typeof one === 'number' ? one : typeof one === 'string' ? y[one]! : one(y)
  const [value, limit] = [told(row.value), told(row.limit)]
  return (x: Values) => {
    const y = row.reading.follow(x)
    return row.sense === 'at least' ? value(y) - limit(y) : limit(y) - value(y)
  }
}

type Values = Readonly<Record<string, number>>

/** What of a chain's inputs is the supply's, by symbol, at both ends of what is read of it: the same on a board for every block. */
function suppliesOf(
  design: ReadDesign,
  { block, state }: Stage,
  { rest, R_s, R_L, measuring, sampled, lags }: BoardsAt,
  inputs: InputSet,
): Readonly<Record<string, Ends>> {
  if (block === 'mosfet') return { V_oc: [rest, rest], R_s: [R_s, R_s], R_L: [R_L, R_L] }
  const isOnMain = railOf(design, 'converter') === mainRail
  if (state !== 'load off') return isOnMain ? { V_rail: sampled } : {}
  // What the amplifier lags comes last among the further errors; behind another rail it is as large as it may be.
  const symbol = `e_add${(design.divider.further?.length ?? 0) + 1}`
  const lag = inputs[symbol]
  const most = typeof lag === 'object' ? lag.upper : 0
  const all: Ends = [rest.map(() => -most), rest.map(() => most)]
  return isOnMain ? { V_rail: measuring, [symbol]: lags } : { [symbol]: all }
}

/** Which rail a row of volts holds: the lowest of the board's, or what capacitors and inductance make of it. */
function railOfRow({ row, stage, margin, solved }: Doubtful): 'rest' | 'rail' | undefined {
  if (row.sense !== 'at least' || row.unit !== 'V') return undefined
  if (row.kind === 'own') return stage.block === 'decoupling' ? 'rail' : undefined
  const isEnd = (key: 'rest' | 'rail') => Math.abs(margin.worst - solved[key].lower) <= 1e-9 * Math.abs(margin.worst)
  return (['rest', 'rail'] as const).find(isEnd)
}

/**
 * A rail of the board. What inductance and capacitors take beyond the steady rail of the worst board is taken from every
 * board; the limit is the board's own.
 */
function byRail(
  design: ReadDesign,
  { margin, solved }: Doubtful,
  key: 'rest' | 'rail',
  { count, shares, at: all }: Boards,
): Uint8Array {
  const beyond = Math.min(0, margin.worst - solved[key].lower)
  const limit = limitNear(design, margin.limit)
  const own = limit && shares(limit.name)
  const marks = new Uint8Array(count)
  for (let i = 0; i < count; i++)
    marks[i] = all[key][i]! + beyond >= (limit ? at(limit.spread, own![i]!) : margin.limit) ? 0 : 1
  return marks
}

/** The limit of the main rail whose upper end a row holds. */
function limitNear({ controller, parts }: ReadDesign, limit: number): { name: string; spread: Spread } | undefined {
  const limits = [
    { name: 'brown-out', spread: controller.brownOut },
    { name: 'sensor supply', spread: parts.sensor.supplyMinimum },
  ]
  return limits.find(({ spread }) => Math.abs(spread.upper - limit) <= 1e-9 * limit)
}

/** The element of the path whose temperature, or whose distance from runaway, a row holds. */
const warmedBy = ({ supply }: ReadDesign, { stage, row }: Doubtful): string | undefined =>
  stage.block !== 'supply'
    ? undefined
    : supply.path?.find(({ name }) => [temperatureId(name), runawayId(name)].includes(row.id))?.name

/** As hot as the board's own current makes the element; at the first step it is as cold as the air. */
function byHeat(name: string, { row, margin }: Doubtful, { count, at: all }: Boards): Uint8Array {
  const marks = new Uint8Array(count)
  const limit = row.unit === 'degC' ? margin.limit : Number.MAX_VALUE
  const celsius = all.celsiusOf(name)
  if (celsius) for (let i = 0; i < count; i++) marks[i] = celsius[i]! <= limit ? 0 : 1
  return marks
}

/** A limit on the current, rms or while it is on: in proportion to the board's own current; a protection trips by its own level and resistance. */
function byCurrent(
  { supply }: ReadDesign,
  { row, margin, solved }: Doubtful,
  { count, shares, at: all }: Boards,
): Uint8Array {
  const share = margin.worst / solved.current.upper
  const marks = new Uint8Array(count)
  const { name, tripVoltage } = supply.path?.find(({ name }) => tripId(name) === row.id) ?? {}
  const ohms = name === undefined ? undefined : all.ohmsOf(name)
  const level = ohms && tripVoltage && shares(`trip ${name}`).map((one) => at(tripVoltage, one))
  const limit = (i: number) => (level ? (usualTripShare * level[i]!) / ohms[i]! : margin.limit)
  for (let i = 0; i < count; i++) marks[i] = all.current[i]! * share <= limit(i) ? 0 : 1
  return marks
}
