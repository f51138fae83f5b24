import { holdRow, type Margin, plainMargin } from '@ohmward/budget'
import { chargeRow, protectionRow } from '../walk/supply-rows.js'
import type { Walk } from '../walk/walk.js'
import type { RowOver, WholeBlock } from './assessment.js'
import { type PowerAnswer, usableSpan } from './power.js'
import { percent } from './texts.js'
import type { WholeAnswers } from './whole.js'

type Text = Pick<Margin, 'id' | 'name' | 'unit' | 'sense' | 'catches'>

/** The rows that are of the design as a whole, at no single place: power, bursts, monitor, drawer. */
export function wholeRows(walk: Walk, { power, monitor, standby }: Omit<WholeAnswers, 'surelyUsed'>): RowOver[] {
  const { design } = walk
  const rows: RowOver[] = []
  const push = (id: string, block: RowOver['block'], margin: Margin, where: string) =>
    rows.push({ id, block, state: 'load on', margin, place: null, where, heldDownTo: null })
  const add = (
    block: WholeBlock,
    text: Text,
    worst: number,
    limit: number | undefined,
    where: string,
    nominal = worst,
  ) => {
    if (limit !== undefined) push(`${block}/${text.id}`, block, plainMargin(text, worst, limit, nominal), where)
  }
  for (const { id, row } of chargeRow(design)) push(id, 'supply', holdRow(row).margin, 'full to the cut-off')
  for (const { id, row } of protectionRow(design))
    push(id, 'supply', holdRow(row).margin, 'where nothing else stops the cells')
  const used = `full to ${percent(usableSpan(walk).charge.to)}`
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
    text('reaches', 'mean power at the largest duty, to the charge that must be usable', 'W', 'at least', 'K02'),
    power.mean.lower,
    requirements.power,
    used,
    power.mean.nominal,
  )
  // Below its smallest duty the firmware can't go.
  add(
    'power',
    text('limit', 'mean power at the smallest duty, against the limit', 'W', 'at most'),
    power.least.upper,
    requirements.powerLimit,
    used,
    power.least.nominal,
  )
  const known = [power.error.voltageTimesCurrent, power.error.squareTimesResistance].flatMap((one) => one ?? [])
  if (known.length > 0) {
    const least = Math.min(...known.map(({ lower, upper }) => Math.max(-lower, upper)))
    add(
      'power',
      text('error', 'error of the power, by the better of two readings', '1', 'at most'),
      least,
      requirements.powerError,
      used,
    )
  }
  if (power.read)
    add(
      'power',
      text('current', 'current of the load, against the largest that must be read', 'A', 'at most', 'E02'),
      power.read.largest,
      power.read.allowed,
      used,
    )
  if (power.read && power.read.normal !== null)
    push('power/trip', 'power', tripMargin(power.read, power.read.normal), used)
  if (power.bursts?.count)
    add(
      'power',
      text('bursts', 'bursts on a charge', '1', 'at least'),
      power.bursts.count.lower,
      requirements.bursts,
      used,
      power.bursts.count.nominal,
    )
  if (power.bursts?.stuck != null)
    add(
      'power',
      text('stuck', 'energy of a burst that a stuck controller does not end', 'J', 'at most', 'H08'),
      power.bursts.stuck,
      bursts?.stuckEnergy,
      bursts?.watchdog === undefined ? 'full cells to the last' : 'full cells',
    )
  if (monitor) {
    for (const [i, { name, toNext }] of monitor.alarms.entries()) {
      const next = monitor.alarms[i + 1]?.name
      if (toNext !== null)
        add(
          'monitor',
          text(`${name}-${next}`, `${name} above the ${next}`, 'V', 'at least', 'K06'),
          toNext,
          0,
          `at the ${name}`,
        )
    }
    if (monitor.unseen > 0)
      add(
        'monitor',
        text(
          'reads',
          'cells above the only rail that the converter reads, which no threshold sees',
          'V',
          'at most',
          'D03',
        ),
        monitor.unseen,
        design.monitor?.noise,
        'full to the cut-off',
      )
    if (monitor.pin)
      add(
        'monitor',
        text('pin', 'divided voltage of the cells below the rail of the converter', 'V', 'at most', 'J06'),
        monitor.pin.highest,
        monitor.pin.allowed,
        'full cells',
      )
    if (monitor.missed !== null)
      add(
        'monitor',
        text('sampling', 'counts missing at the end of sampling the divided cells', 'LSB', 'at most', 'D01'),
        monitor.missed,
        0.5,
        'each reading',
      )
    if (monitor.lag !== null)
      add(
        'monitor',
        text('lag', 'step of the load that the cells still miss when they are read', 'V', 'at most', 'D01'),
        monitor.lag,
        design.monitor?.noise,
        'in the shortest pulse',
      )
    if (monitor.aboveFirst !== null)
      add(
        'monitor',
        text(
          'full',
          'full cells above the first threshold, and above where it switches on again',
          'V',
          'at least',
          'K06',
        ),
        monitor.aboveFirst,
        0,
        'full cells',
      )
    if (monitor.beforeStop !== null && requirements.usableCharge !== undefined)
      push(
        'monitor/early',
        'monitor',
        unlessSlow(
          plainMargin(
            text('early', 'charge used before the firmware stops', '1', 'at least', 'D03'),
            monitor.beforeStop,
            requirements.usableCharge,
          ),
          monitor.beforeStopSlow,
        ),
        'at the stop',
      )
    add(
      'monitor',
      text('reset', 'rail of the controller at the stop over the brown-out, load on', 'V', 'at least', 'K06'),
      monitor.aboveReset,
      0,
      'at the stop',
    )
    if (monitor.hysteresis !== null)
      push(
        'monitor/hysteresis',
        'monitor',
        unlessSlow(
          plainMargin(
            text('hysteresis', 'hysteresis above rebound, noise and a count', 'V', 'at least', 'K04'),
            monitor.hysteresis,
            0,
          ),
          monitor.hysteresisSlow,
        ),
        'after the stop',
      )
    if (monitor.aboveDamage !== null)
      add(
        'monitor',
        text('damage', 'cells at rest after the stop, above damage', 'V', 'at least', 'K05', 'K10'),
        monitor.aboveDamage,
        0,
        'after the stop',
      )
    if (monitor.aboveProtection !== null)
      add(
        'monitor',
        text('protection', 'cells under load at the stop, above where their protection acts', 'V', 'at least', 'K03'),
        monitor.aboveProtection,
        0,
        'at the stop',
      )
    if (monitor.weakestAboveDamage !== null)
      add(
        'monitor',
        text('weakest', 'weakest cell in series at rest after the stop, above damage', 'V', 'at least', 'K05'),
        monitor.weakestAboveDamage,
        0,
        'after the stop',
      )
  }
  if (standby) {
    add(
      'standby',
      text('days', 'days in the drawer to the cut-off', '1', 'at least', 'K07', 'K08'),
      standby.daysToCutOff.lower,
      standby.wantedDays,
      'in the drawer',
      standby.daysToCutOff.nominal,
    )
    add(
      'standby',
      text('reserve', 'days from the cut-off to damage', '1', 'at least', 'K09'),
      standby.daysToDamage.lower,
      standby.wantedAfter,
      'in the drawer',
      standby.daysToDamage.nominal,
    )
  }
  return rows
}

/** The trip against what the load draws, cold too: whether it waits for longer than that lasts isn't known. Pitfall K11. */
function tripMargin({ largest, warm }: NonNullable<PowerAnswer['read']>, normal: number): Margin {
  const text: Text = {
    id: 'trip',
    name: 'current of the load, against the normal use at which the trip must not act',
    unit: 'A',
    sense: 'at most',
    catches: ['K11'],
  }
  const margin = plainMargin(text, largest, normal, Math.min(largest, warm))
  return margin.verdict === 'holds' || warm > normal
    ? margin
    : { ...margin, verdict: 'not sure', reason: 'the load draws it while it is cold: the trip must wait for longer' }
}

/** A row that may not hold where the cells come back slowly isn't sure. */
const unlessSlow = (margin: Margin, slow: number | null): Margin =>
  margin.verdict === 'holds' && slow !== null && slow < margin.limit
    ? {
        ...margin,
        verdict: 'not sure',
        reason:
          'cells come back in part over minutes, are read sooner, and nobody says what they still lack then (monitor.lacking)',
      }
    : margin
