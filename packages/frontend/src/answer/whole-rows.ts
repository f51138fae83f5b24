import { holdRow, type Margin, plainMargin } from '@ohmward/budget'
import { chargeRow } from '../walk/supply-rows.js'
import type { Walk } from '../walk/walk.js'
import type { RowOver, WholeBlock } from './assessment.js'
import type { MonitorAnswer } from './monitor.js'
import type { PowerAnswer } from './power.js'
import type { Standby } from './standby.js'

type Text = Pick<Margin, 'id' | 'name' | 'unit' | 'sense' | 'catches'>

interface Given {
  readonly power: PowerAnswer
  readonly monitor: MonitorAnswer | null
  readonly standby: Standby | null
}

/** The rows that are of the design as a whole, at no single place: power, bursts, monitor, drawer. */
export function wholeRows(walk: Walk, { power, monitor, standby }: Given): RowOver[] {
  const { charges, around, design } = walk
  const end = charges.at(-1)!
  const place = { charge: end, celsius: around.celsius.from, age: around.age.to }
  const rows: RowOver[] = []
  const add = (block: WholeBlock, text: Text, worst: number, limit: number | undefined, nominal = worst) => {
    if (limit === undefined) return
    const margin = plainMargin(text, worst, limit, nominal)
    const heldDownTo = margin.verdict === 'holds' ? end : null
    rows.push({ id: `${block}/${text.id}`, block, state: 'load on', margin, place, heldDownTo })
  }
  for (const { id, row } of chargeRow(design)) {
    const { margin } = holdRow(row)
    rows.push({
      id,
      block: 'supply',
      state: 'load off',
      margin,
      place,
      heldDownTo: margin.verdict === 'holds' ? end : null,
    })
  }
  const { requirements, bursts } = design
  const text = (id: string, name: string, unit: string, sense: Margin['sense'], ...catches: string[]): Text => ({
    id,
    name,
    unit,
    sense,
    catches,
  })
  add(
    'power',
    text('reaches', 'power in the load, to the charge that must be usable', 'W', 'at least', 'K02'),
    power.on.lower,
    requirements.power,
    power.on.nominal,
  )
  const known = [power.error.voltageTimesCurrent, power.error.squareTimesResistance].flatMap((one) => one ?? [])
  if (known.length > 0) {
    const least = Math.min(...known.map(({ lower, upper }) => Math.max(-lower, upper)))
    add(
      'power',
      text('error', 'error of the power, by the better of two readings', '1', 'at most'),
      least,
      requirements.powerError,
    )
  }
  if (power.bursts?.count)
    add(
      'power',
      text('bursts', 'bursts on a charge', '1', 'at least'),
      power.bursts.count.lower,
      requirements.bursts,
      power.bursts.count.nominal,
    )
  if (power.bursts?.stuck != null)
    add(
      'power',
      text('stuck', 'energy of a burst that a stuck controller does not end', 'J', 'at most', 'H08'),
      power.bursts.stuck,
      bursts?.stuckEnergy,
    )
  if (monitor) {
    for (const [i, { name, toNext }] of monitor.alarms.entries()) {
      const next = monitor.alarms[i + 1]?.name
      if (toNext !== null)
        add('monitor', text(`${name}-${next}`, `${name} above the ${next}`, 'V', 'at least', 'K06'), toNext, 0)
    }
    if (monitor.unseen > 0)
      add(
        'monitor',
        text('reads', 'rail of the cells above the one that is read', 'V', 'at most', 'D03'),
        monitor.unseen,
        design.monitor?.noise,
      )
    if (monitor.beforeStop !== null)
      add(
        'monitor',
        text('early', 'charge that is used before the firmware stops', '1', 'at least', 'D03'),
        monitor.beforeStop,
        requirements.usableCharge,
      )
    add('monitor', text('reset', 'stop above the brown-out, load on', 'V', 'at least', 'K06'), monitor.aboveReset, 0)
    if (monitor.hysteresis !== null)
      add(
        'monitor',
        text('hysteresis', 'hysteresis above rebound and noise', 'V', 'at least', 'K04'),
        monitor.hysteresis,
        0,
      )
    if (monitor.aboveDamage !== null)
      add(
        'monitor',
        text('damage', 'cells at rest after the stop, above damage', 'V', 'at least', 'K05', 'K10'),
        monitor.aboveDamage,
        0,
      )
  }
  if (standby) {
    add(
      'standby',
      text('days', 'days in the drawer to the cut-off', '1', 'at least', 'K07', 'K08'),
      standby.daysToCutOff.lower,
      standby.wantedDays,
      standby.daysToCutOff.nominal,
    )
    add(
      'standby',
      text('reserve', 'days from the cut-off to damage', '1', 'at least', 'K09'),
      standby.daysToDamage.lower,
      standby.wantedAfter,
      standby.daysToDamage.nominal,
    )
  }
  return rows
}
