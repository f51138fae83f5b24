import {
  type BlockRow,
  type DecisionRule,
  estimateRow,
  holdRow,
  type LimitRow,
  type Margin,
  plainMargin,
  type RowText,
} from '@ohmward/budget'
import { lowerOf, openDuty, upperOf } from '../chain/inputs.js'
import { readingOf } from '../chain/reading.js'
import type { Switch } from '../chain/switch.js'
import type { ReadMosfet } from '../choice.js'
import { unevenLoss } from '../formulas/conduction.js'
import { meanFrequency } from '../formulas/ripple.js'
import { unevenTemperature } from '../formulas/thermal.js'
import type { Heat } from '../junction/heat.js'
import { lawOf } from '../junction/law.js'
import { reportOf } from '../junction/report.js'
import { type MosfetRow, symbolsOf, textOf } from './row.js'

/** Without a curve of the data sheet the ripple is that of a law of thumb: good as long as it is small. */
const rowOfMean = {
  id: 'mean-heat',
  name: 'switching frequency for a steady junction',
  unit: 'Hz',
  sense: 'at least',
  catches: ['H06'],
} as const satisfies RowText

function meanMargin({ frequency, spreadingTime }: ReadMosfet, D: number): Margin {
  const margin = plainMargin(rowOfMean, frequency, meanFrequency({ D, t_th: spreadingTime }))
  const reason = 'the junction follows each pulse: give the transient impedance of the transistor'
  return margin.verdict === 'fails' ? { ...margin, verdict: 'not sure', reason } : margin
}

/** Why a loss isn't known, where that is so. */
export interface HeatDoubt {
  /** By how much the gate drive reaches the lowest guaranteed line, V. */
  readonly gateSlack: () => number
  /** Why nothing is known of an edge. */
  readonly edges: () => string | undefined
}

/**
 * The junction's limit, runaway beside it, and the limits of loss that the designer set.
 *
 * @param doubt - why nothing is known of the loss, or of that in the edges
 */
export function heatRows(read: ReadMosfet, heat: Heat, doubt: HeatDoubt): BlockRow[] {
  const { lossLimit, switchingShare } = read
  const own = (row: MosfetRow): BlockRow => ({
    ...textOf(row),
    kind: 'own',
    hold: (rule) => atHottest({ ...row, doubt: doubt.edges }, heat, rule),
    estimate: () => estimateRow(rowAtHottest({ ...row, doubt: doubt.edges }, heat)),
  })
  const rows: BlockRow[] = [
    {
      ...textOf(junctionRow),
      kind: 'own',
      hold: (rule) => junctionMargin(read, heat, doubt, rule),
      estimate: () => estimateRow(rowAtHottest({ ...junctionRow, doubt: unknownLoss(doubt) }, heat)),
    },
  ]
  const { to } = openDuty(read)
  if (read.transistor.transientImpedance === undefined && read.frequency > 0 && to > 0 && read.duty.to < 1) {
    rows.push({ ...rowOfMean, kind: 'own', hold: () => meanMargin(read, to) })
  }
  if (hasRunaway(read)) rows.push({ ...runaway, kind: 'own', hold: () => runawayMargin(heat) })
  if (lossLimit !== undefined) rows.push(own(lossRow(lossLimit)))
  if (switchingShare !== undefined) rows.push(own(shareRow))
  return rows
}

/** A law that rises without end has a current at which no temperature balances, where there is current at all. */
const hasRunaway = (read: ReadMosfet) => lawOf(read.transistor.law).lastSlope > 0 && openDuty(read).to > 0

/** A row at the hottest case. */
function atHottest(row: MosfetRow, heat: Heat, rule: DecisionRule): Margin {
  const { margin } = holdRow(rowAtHottest(row, heat), rule)
  return { ...margin, at: { ...heat.hottest().at, ...margin.at } }
}

function rowAtHottest(row: MosfetRow, heat: Heat): LimitRow {
  const { circuit, station } = heat.hottest()
  const reading = readingOf(circuit, symbolsOf(row), { inputs: station.inputs, conditions: [] })
  return { ...row, kind: 'limit', reading }
}

const unknownLoss = (doubt: HeatDoubt) => (): string | undefined =>
  doubt.gateSlack() < 0
    ? 'below the lowest gate voltage with a guaranteed on-resistance the loss is unknown'
    : doubt.edges()

function junctionMargin(read: ReadMosfet, heat: Heat, doubt: HeatDoubt, rule: DecisionRule): Margin {
  const margin = atHottest({ ...junctionRow, doubt: unknownLoss(doubt) }, heat, rule)
  const { circuit, at } = heat.mild()
  circuit.putAt(at)
  const { T_top: nominal, T_lim } = circuit.limit()
  const found = { ...margin, nominal, nominalSlack: T_lim - nominal }
  const reason = margin.verdict === 'holds' && unevenReason(read, heat)
  return reason ? { ...found, verdict: 'not sure', reason } : found
}

/** Why a junction that holds with equal shares may not: unlike devices share conduction unequally, and edges not at all. */
function unevenReason({ parallel: n }: ReadMosfet, heat: Heat): string | undefined {
  if (n < 2) return undefined
  const { circuit, worst } = heat.hottest()
  circuit.putAt(worst)
  const y = circuit.limit()
  const k_n = unevenLoss(y)
  if (unevenTemperature({ ...y, k_n }) <= y.T_lim) return undefined
  const share = k_n > 1 ? ` dissipate ${Number(k_n.toFixed(2))} times its share in conduction and` : ''
  return `of ${n} devices of unlike lots one may${share} bear the edges alone`
}

/**
 * The largest current of any board, which an ideal switch would let flow, against the least at which a junction runs away:
 * on each guaranteed line, up to the highest voltage that stands on it. In hotter air neither gets better.
 */
function runawayMargin(heat: Heat): Margin {
  const [worst, typical] = [heat.hottest(), heat.mild()].map(({ onEach }) =>
    onEach.map(({ circuit, at }) => distanceOf(circuit, at)).reduce((a, b) => (b.slack < a.slack ? b : a)),
  ) as [Distance, Distance]
  const { slack } = typical
  const margin = plainMargin(runaway, worst.current, worst.limit, typical.current)
  return { ...margin, nominalSlack: Math.max(slack, margin.slack) }
}

interface Distance {
  readonly current: number
  readonly limit: number
  readonly slack: number
}

/** A board at these inputs, the load at its most. */
function distanceOf(circuit: Switch, at: Readonly<Record<string, number>>): Distance {
  const most = Object.fromEntries(
    (['R_s', 'R_L', 'R_sh'] as const).map((one) => [one, Math.min(lowerOf(circuit.inputs[one]), at[one] ?? Infinity)]),
  )
  const full = { ...at, ...most, V_oc: upperOf(circuit.inputs.V_oc), I_set: upperOf(circuit.inputs.I_set) }
  const limit = reportOf(circuit, full).runawayCurrent!
  const current = circuit.place.I_max
  return { current, limit, slack: limit - current }
}

const junctionRow: MosfetRow = {
  id: 'junction',
  name: 'junction temperature, with the loss at its limit',
  unit: 'degC',
  sense: 'at most',
  value: 'T_top',
  limit: 'T_lim',
  causes: ['drive-supply', 'saturation', 'gate-threshold', 'gate-drive', 'gate-plateau', 'on-edge', 'off-edge'],
  catches: ['H05', 'H06', 'H07'],
}

const runaway: RowText = {
  id: 'runaway',
  name: 'load current before thermal runaway',
  unit: 'A',
  sense: 'at most',
  causes: ['gate-threshold', 'gate-drive'],
  catches: ['H05'],
}

const lossRow = (limit: number): MosfetRow => ({
  id: 'loss',
  name: 'loss of one device, junction at its limit',
  unit: 'W',
  sense: 'at most',
  value: 'P_top',
  limit,
  catches: ['H07'],
})

const shareRow: MosfetRow = {
  id: 'switching-share',
  name: 'share of the switching loss',
  unit: 'W',
  sense: 'at most',
  value: 'P_sw',
  limit: 'P_swmax',
  catches: ['H07'],
}
