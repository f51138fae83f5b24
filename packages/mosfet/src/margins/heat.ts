import { type DecisionRule, type Margin, type MarginText, marginOf, plainMargin } from '@ohmward/budget'
import type { ReadMosfet } from '../choice.js'
import { type MosfetInputs, row } from '../inputs.js'
import type { JunctionReport } from '../report.js'
import type { HottestCase } from './junction.js'

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
  const { limit, losses } = hottest.circuit
  const remedies = [
    'a lower frequency: a heater needs no more than some 100 Hz',
    'a driver, or a smaller gate resistor',
    'a transistor with less gate charge',
  ]
  const here = (text: MarginText, value: (x: MosfetInputs) => number, most: number | ((x: MosfetInputs) => number)) => {
    const held = marginOf(
      { ...text, value, limit: most },
      { inputs: hottest.station.inputs, row, conditions: [], ...rule },
    )
    return { ...held, at: { ...hottest.station.at, ...held.at } }
  }
  if (lossLimit !== undefined) {
    const text = {
      id: 'loss',
      name: 'loss of one device, junction at its limit',
      unit: 'W',
      sense: 'at most',
      remedies,
      catches: ['H07'],
    } as const
    found.push(here(text, (x) => limit(x).P_top, lossLimit))
  }
  if (switchingShare !== undefined) {
    const text = {
      id: 'switching-share',
      name: 'switching loss, as a part of all loss',
      unit: 'W',
      sense: 'at most',
      remedies,
      catches: ['H07'],
    } as const
    found.push(
      here(
        text,
        (x) => losses(x).P_sw,
        (x) => switchingShare * limit(x).P_top,
      ),
    )
  }
  return found
}
