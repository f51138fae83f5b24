import { type DecisionRule, type Margin, type MarginText, marginOf, plainMargin } from '@ohmward/budget'
import type { ReadMosfet } from '../choice.js'
import type { HottestCase } from '../junction/hottest.js'
import type { JunctionReport } from '../junction/report.js'
import { type MosfetRow, specOf } from './row.js'

/** What the margins of heat are made from. */
export interface HeatContext {
  readonly read: ReadMosfet
  readonly hottest: HottestCase
  /** The same for typical parts. */
  readonly mild: HottestCase
  readonly typical: JunctionReport
  readonly worst: JunctionReport
  readonly others: readonly Margin[]
}

/** Frequency below which a junction is warmer at the end of a pulse than its mean tells, Hz; common practice, no source. */
const slowest = 10
const isFollowed = ({ frequency, duty }: ReadMosfet) => frequency > 0 && frequency < slowest && duty.to < 1

/** The junction's limit, runaway beside it, and the limits of loss that the designer set. */
export function heatMargins(
  { read, hottest, mild, typical, worst, others }: HeatContext,
  rule: DecisionRule,
): Margin[] {
  const { margin } = hottest
  const { nominal, nominalSlack } = mild.margin
  const reason = others.some(({ id, slack }) => id === 'gate-drive' && slack < 0)
    ? 'below the lowest gate voltage with a guaranteed on-resistance the loss is unknown'
    : isFollowed(read)
      ? `below ${slowest} Hz the junction follows each pulse, not their mean: give the pulses as bursts with a duty of 1`
      : undefined
  const isUnsure = reason !== undefined && margin.verdict === 'holds'
  const found: Margin[] = [{ ...margin, nominal, nominalSlack, ...(isUnsure && { verdict: 'not sure', reason }) }]
  if (worst.runawayCurrent !== null) {
    const text: MarginText = {
      id: 'runaway',
      name: 'load current, below thermal runaway',
      unit: 'A',
      sense: 'at most',
      remedies: margin.remedies,
      catches: ['H05'],
    }
    found.push(plainMargin(text, worst.current, worst.runawayCurrent, typical.current))
  }
  const { lossLimit, switchingShare } = read
  const { circuit, station } = hottest
  const here = (line: MosfetRow) => {
    const held = marginOf(specOf(line, circuit), { inputs: station.inputs, row: circuit.row, conditions: [], ...rule })
    return { ...held, at: { ...station.at, ...held.at } }
  }
  if (lossLimit !== undefined) found.push(here(lossRow(lossLimit)))
  if (switchingShare !== undefined) found.push(here(shareRow))
  return found
}

const remedies = [
  'a lower frequency: a heater needs no more than some 100 Hz',
  'a driver, or a smaller gate resistor',
  'a transistor with less gate charge',
]

const lossRow = (limit: number): MosfetRow => ({
  id: 'loss',
  name: 'loss of one device, junction at its limit',
  unit: 'W',
  sense: 'at most',
  value: 'P_top',
  limit,
  remedies,
  catches: ['H07'],
})

const shareRow: MosfetRow = {
  id: 'switching-share',
  name: 'switching loss, as a part of all loss',
  unit: 'W',
  sense: 'at most',
  value: 'P_sw',
  limit: 'P_swmax',
  remedies,
  catches: ['H07'],
}
