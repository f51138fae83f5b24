import { format } from '@ohmward/quantity'
import type { DesignAssessment, RowOver } from '../answer/assessment.js'
import { percent, placeText } from '../answer/texts.js'

/** An assessment as lines for a terminal: short, aligned, readable without colour. */
export function linesOf(answer: DesignAssessment): string[] {
  const { name, verdict, summary, rows, standby, cautions } = answer
  const failing = rows.filter(({ margin }) => margin.verdict !== 'holds')
  const holding = rows.filter(({ margin }) => margin.verdict === 'holds')
  const lines = [`${name}: ${verdict}`, ...wrapped(summary)]
  if (failing.length > 0) {
    lines.push('', 'Does not hold, the most serious first')
    const head = ['', 'block', 'row', 'worst', 'limit', 'at worst', 'holds down to']
    lines.push(
      ...table([
        head,
        ...failing.map((row) => [
          ...cells(row),
          placeOf(row),
          row.heldDownTo === null ? 'not even full' : upward(row.heldDownTo),
        ]),
      ]),
    )
  }
  lines.push('', failing.length > 0 ? 'Holds, least margin first' : 'All rows hold, least margin first')
  lines.push(
    ...table([
      ['', 'block', 'row', 'worst', 'limit', 'at worst'],
      ...holding.slice(0, 8).map((row) => [...cells(row), placeOf(row)]),
    ]),
  )
  if (holding.length > 8) lines.push(`  and ${holding.length - 8} more`)
  if (standby) {
    lines.push(
      '',
      `Drawer: at least ${Math.floor(standby.daysToCutOff.lower)} days to the cut-off, then ${Math.floor(standby.daysToDamage.lower)} to damage`,
    )
    lines.push(...table(standby.drains.map(({ name, current }) => [name, show(current.upper, 'A')])))
  }
  lines.push('', ...cautions.flatMap(wrapped))
  return lines
}

const cells = ({ block, state, margin }: RowOver): string[] => [
  margin.verdict,
  state === 'PWM' ? `${block}, PWM` : block,
  margin.name,
  show(margin.worst, margin.unit),
  `${margin.sense} ${show(margin.limit, margin.unit)}`,
]

/** Per cent, rounded up: down to where something holds. */
const upward = (share: number): string => `${Math.ceil(share * 100 - 1e-9)} %`

const placeOf = ({ place }: RowOver): string => `${percent(place.charge)}, ${placeText(place)}`

const show = (value: number, unit: string): string =>
  Number.isFinite(value) ? format(value, unit, { digits: 3 }) : value > 0 ? 'no end' : 'none'

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
    if (last !== '' && last.length + word.length > 100) lines.push(word)
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`
  }
  return lines.map((line) => `  ${line.replaceAll('\u00a0', ' ')}`)
}
