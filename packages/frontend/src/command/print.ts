import { format } from '@ohmward/quantity'
import type { DesignAssessment, RowOver } from '../answer/assessment.js'
import type { AlarmAt, MonitorAnswer } from '../answer/monitor.js'
import type { PowerAnswer } from '../answer/power/power.js'
import type { Standby } from '../answer/standby.js'
import { placeText, upward } from '../answer/texts.js'
import type { BoardSimulation } from '../boards/index.js'
import type { DesignChange, DesignChanges } from '../changes/index.js'

type Source = DesignAssessment['source']

/** An assessment as lines for a terminal: short, aligned, readable without colour. */
export function linesOf(answer: DesignAssessment): string[] {
  const { name, verdict, source, summary, rows, power, monitor, standby, junction } = answer
  const { cautions, assumptions } = answer
  const failing = rows.filter(({ margin }) => margin.verdict !== 'holds')
  const holding = rows.filter(({ margin }) => margin.verdict === 'holds')
  const lines = [`${name}: ${verdict}`, ...wrapped(summary)]
  if (failing.length > 0) {
    lines.push('', 'Does not hold, the most serious first')
    const head = ['', 'block', 'check', 'worst', 'limit', 'worst at', ...(source === 'cell' ? ['holds down to'] : [])]
    lines.push(...table([head, ...together(failing.slice(0, 10).map((row) => failingCells(row, source)))]))
  }
  if (failing.length > 10) lines.push(`  and ${failing.length - 10} more`)
  lines.push(...doubtLines(failing.slice(0, 10)))
  lines.push('', failing.length > 0 ? 'Holds, least margin first' : 'Everything holds, least margin first')
  lines.push(
    ...table([
      ['', 'block', 'check', 'worst', 'limit', 'worst at'],
      ...holding.slice(0, 5).map((row) => [...cells(row), placeOf(row, source)]),
    ]),
  )
  if (holding.length > 5) lines.push(`  and ${holding.length - 5} more`)
  lines.push('', ...powerLines(power))
  lines.push(
    junction === null
      ? '  junction of the switch: thermal runaway'
      : `  steady junction of the switch: at most ${show(junction, 'degC', 'up')}`,
  )
  if (monitor) lines.push('', ...monitorLines(monitor))
  if (standby) lines.push('', ...standbyLines(standby))
  lines.push('', ...cautions.slice(0, 8).flatMap(wrapped))
  const more = cautions.length > 8 ? `${cautions.length - 8} cautions, and ` : ''
  const assumed = `${assumptions.length} assumption${assumptions.length === 1 ? '' : 's'} made where the design says nothing`
  lines.push('', ...wrapped(`More with --json: ${more}${assumed}.`))
  return lines
}

/** Why rows are not sure, each reason once. */
function doubtLines(rows: readonly RowOver[]): string[] {
  const names = new Map<string, string[]>()
  for (const { margin } of rows) {
    const { verdict, reason, name } = margin
    if (verdict === 'not sure' && reason) names.set(reason, [...(names.get(reason) ?? []), name])
  }
  return [...names].flatMap(([reason, all]) => wrapped(`Not sure of ${all.join(', ')}: ${reason}.`))
}

/** A number with its sign, as it is printed. */
const signed = (percent: number): string => `${percent < 0 ? '−' : '+'}${Math.abs(percent).toFixed(1)}`

function powerLines({ on, mean, error, limit, bursts }: PowerAnswer): string[] {
  const span = ({ lower, upper }: { readonly lower: number; readonly upper: number }, unit: string) =>
    `${show(lower, unit, 'down')} to ${show(upper, unit, 'up')}`
  const off = ({ lower, upper }: { readonly lower: number; readonly upper: number }) =>
    `${signed(Math.floor(1000 * lower) / 10)} to ${signed(Math.ceil(1000 * upper) / 10)} %`
  const rows = [
    ['in the load while it is on', span(on, 'W')],
    ['mean at the largest duty', span(mean, 'W')],
  ]
  if (error.voltageTimesCurrent)
    rows.push(['error of the reading, voltage times current', off(error.voltageTimesCurrent)])
  if (error.squareTimesResistance)
    rows.push(['error of the reading, current squared times resistance', off(error.squareTimesResistance)])
  if (limit) {
    const { dutyWithoutReading: duty, setPoint } = limit
    rows.push(['limit kept without a reading, duty at most', `${Math.floor(100 * duty)} %`])
    if (setPoint !== null) rows.push(['limit kept with a reading, set point at most', show(setPoint, 'W', 'down')])
  }
  if (bursts?.count)
    rows.push(['bursts per charge', `${Math.floor(bursts.count.lower)} to ${Math.floor(bursts.count.upper)}`])
  if (bursts && bursts.stuck !== null)
    rows.push(['energy of a burst if the controller hangs', show(bursts.stuck, 'J', 'up')])
  return ['Power', ...table(rows)]
}

/** What would help, as lines for a terminal. */
export function changeLines({ changes, pairs, untried, text }: DesignChanges): string[] {
  const lines = wrapped(text)
  if (changes.length > 0) lines.push('', 'Each tried on the whole design, best first')
  lines.push(...changes.slice(0, 8).flatMap(oneChange))
  if (pairs.length > 0) lines.push('', 'Two together')
  lines.push(...pairs.slice(0, 3).flatMap(oneChange))
  if (untried.length > 0) lines.push('', ...wrapped(`Not tried: ${untried.join(', ')}.`))
  return lines
}

function oneChange({ name, text, verdict, puts, mends, breaks, usable }: DesignChange, i: number): string[] {
  const counts = [
    mends.length > 0 ? `mends ${mends.length}` : 'helps, but mends nothing by itself',
    breaks.length > 0 ? `breaks ${breaks.length}` : 'breaks nothing',
    ...(usable ? [`usable charge ${down(usable.before)} → ${down(usable.after)}`] : []),
    ...(verdict === 'holds' ? ['then everything holds'] : []),
  ]
  const said = [
    ...namesOf(mends).map((name) => `mends ${name}`),
    ...namesOf(breaks).map((name) => `breaks ${name}`),
    ...Object.entries(puts).map(([path, value]) => `${path} = ${JSON.stringify(value) ?? 'left out'}`),
  ]
  return ['', `  ${i + 1}  ${name}: ${text}`, `     ${counts.join(', ')}`, ...said.map((one) => `     ${one}`)]
}

/** A row that is held in several states is named once. */
const namesOf = (rows: readonly { readonly name: string }[]): string[] => [...new Set(rows.map(({ name }) => name))]

/** How many boards would work, as lines for a terminal. */
export function boardLines({ boards, works, interval, byCharge, rows }: BoardSimulation): string[] {
  // No share is better than it was: not all boards work where one of ten thousand doesn't.
  const share = (value: number, towards: 'up' | 'down') => format(value, '1', { as: '%', digits: 3, towards })
  const [from, to] = interval
  const between = `${share(from, 'down')} to ${share(to, 'up')}`
  const lines = [
    `Of ${boards} boards ${share(works, 'down')} would work (95 % interval ${between}, from their number).`,
    ...wrapped('Power, monitor and drawer are not part of this share: see check.'),
  ]
  // A port has no charge, and one place says nothing more.
  if (byCharge.length > 1)
    lines.push(
      '',
      'Down to a charge of',
      ...table(byCharge.map((one) => [upward(one.charge), share(one.works, 'down')])),
    )
  if (rows.length === 0) return lines
  return [
    ...lines,
    '',
    'What fails',
    ...table([
      ['block', 'check', 'fails on', 'fails first on'],
      ...rows.slice(0, 10).map((row) => [blockOf(row), row.name, share(row.fails, 'up'), share(row.first, 'up')]),
    ]),
  ]
}

/** Per cent, rounded down: what can be relied on. */
const down = (share: number): string => `${Math.floor(share * 100 + 1e-9)} %`

/** Where a threshold acts, in counts; beyond the last code nothing is read. */
const codeText = ({ code, overReference }: Pick<AlarmAt, 'code' | 'overReference'>): string =>
  code !== null
    ? String(code)
    : overReference === null
      ? 'none, beyond the last'
      : `${overReference.toPrecision(4)} × that of the reference`

function monitorLines({ alarms, lacking }: MonitorAnswer): string[] {
  const rows = alarms.map(({ name, threshold, code, overReference, acts, toNext }) => [
    name,
    show(threshold, 'V'),
    codeText({ code, overReference }),
    `${show(acts.lower, 'V', 'down')} to ${show(acts.upper, 'V', 'up')}`,
    toNext === null ? '' : show(toNext, 'V', 'down'),
  ])
  const lines = ['Cell monitor', ...table([['', 'at', 'code', 'acts at', 'to the next'], ...rows])]
  if (!lacking?.share) return lines
  const share = format(lacking.share, '1', { as: '%', digits: 3 })
  const most = show(lacking.most, 'V', 'up')
  return [...lines, `  ${share} of the sag under load is still to recover, at most ${most} at the stop`]
}

function standbyLines({ daysToCutOff, daysToDamage, largestFirst }: Standby): string[] {
  const [toCutOff, toDamage] = [daysToCutOff, daysToDamage].map(({ lower }) => Math.floor(lower))
  const rows = largestFirst.map(({ name, current, daysAlone, gained }) => [
    name,
    show(current, 'A', 'up'),
    current > 0 ? `${Math.floor(daysAlone)} days by itself` : '',
    gained === null ? '' : `${Math.floor(gained)} more days without it`,
  ])
  return [`Drawer: at least ${toCutOff} days to the cut-off, then ${toDamage} to damage`, ...table(rows)]
}

/** The block, and its state where it is held in several. */
const blockOf = ({ block, state }: Pick<RowOver, 'block' | 'state'>): string =>
  state === 'load on' || state === 'load off' ? block : `${block}, ${state}`

const cells = ({ block, state, margin }: RowOver): string[] => [
  margin.verdict,
  blockOf({ block, state }),
  margin.name,
  margin.isUnknown ? 'not known' : show(margin.worst, margin.unit, margin.sense === 'at most' ? 'up' : 'down'),
  `${margin.sense} ${show(margin.limit, margin.unit)}`,
]

const failingCells = (row: RowOver, source: Source): string[] => [
  ...cells(row),
  placeOf(row, source),
  ...(source === 'cell'
    ? [row.place === null ? '' : row.heldDownTo === null ? 'not even full' : upward(row.heldDownTo)]
    : []),
]

/** Rows that differ in their names alone as one: a rail that only sinks is lowest where it ends, and says it once. */
function together(rows: readonly (readonly string[])[]): string[][] {
  const found = new Map<string, string[]>()
  for (const row of rows) {
    const [verdict = '', block = '', name = '', ...numbers] = row
    const key = [verdict, block, ...numbers].join('\n')
    const same = found.get(key)
    found.set(key, [verdict, block, same ? bothNames(same[2]!, name) : name, ...numbers])
  }
  return [...found.values()]
}

/** `steady and lowest rail against the brown-out threshold`. */
function bothNames(one: string, other: string): string {
  const [words, more] = [one.split(' '), other.split(' ')]
  let same = 0
  while (same < more.length - 1 && words.at(-1 - same) === more.at(-1 - same)) same++
  const rest = more.slice(0, more.length - same).join(' ')
  return same === 0 ? `${one} and ${other}` : [...words.slice(0, -same), 'and', rest, ...words.slice(-same)].join(' ')
}

const placeOf = ({ place, where = '' }: RowOver, source: Source): string =>
  place === null ? where : source === 'cell' ? `${upward(place.charge)}, ${placeText(place)}` : placeText(place)

const show = (value: number, unit: string, towards?: 'up' | 'down'): string =>
  Number.isFinite(value)
    ? format(value, unit, { digits: 3, ...(towards && { towards }) })
    : value > 0
      ? 'no end'
      : 'none'

/** Rows of cells as lines, each column as wide as its widest cell. */
function table(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)))
  return rows.map((row) => `  ${row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join('  ')}`.trimEnd())
}

/** A text in lines of at most 100 signs; a number stays with its unit. */
function wrapped(text: string): string[] {
  const lines = ['']
  for (const word of text.replace(/(\d) (?=[^\s\d])/g, '$1\u00a0').split(' ')) {
    const last = lines.at(-1)!
    if (last !== '' && last.length + 1 + word.length > 100) lines.push(word)
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`
  }
  return lines.map((line) => `  ${line.replaceAll('\u00a0', ' ')}`)
}
