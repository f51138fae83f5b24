import { referenceCode } from '@ohmward/adc/formulas'
import { checkDivider } from '@ohmward/divider'
import { checkHall } from '@ohmward/hall'
import { checkMosfet } from '@ohmward/mosfet'
import { readNumber, type Spread } from '@ohmward/quantity'
import { pathAt, spreadOf } from '@ohmward/supply'
import { railOf } from '../design/rails.js'
import { readDesign } from '../design/read.js'
import type { Design } from '../design/record.js'
import { dividerAt, hallAt, mosfetAt } from '../walk/choices.js'
import { sumOf } from '../walk/path.js'
import { solveAt } from '../walk/solve.js'
import { walkOf } from '../walk/walk.js'
import { drawerOf } from './standby.js'

/** Something to measure on the first board. */
export interface TestPoint {
  /** Where the probe goes, or what is read. */
  readonly point: string
  /** What the board must do meanwhile. */
  readonly state: string
  readonly unit: string
  /** With nominal parts, and the limits within which a board of good parts must be. */
  readonly expected: number
  readonly lower: number
  readonly upper: number
}

const asleep = 'asleep, as in the drawer'
const awake = 'awake, load off'
const loaded = 'load on, PWM at 100 %'

/**
 * What to measure on the first board: full, new cells, on the bench. Each with the state to bring it into, the expected value
 * and its limits over the parts.
 *
 * @param celsius - air on the bench; 25 °C by default, or what of the design's range is nearest
 * @throws InputError naming the first field that isn't allowed
 */
export function firstBoard(given: Design, celsius = 25): TestPoint[] {
  const design = readDesign(given)
  const { from, to } = design.ambientCelsius
  const walk = walkOf(design, { charges: 2 })
  const place = { charge: 1, celsius: Math.min(Math.max(celsius, from), to), age: walk.around.age.from }
  const solved = solveAt(design, place)
  const { source, rails, current, switch: on } = solved
  const points: TestPoint[] = []
  const add = (point: string, state: string, unit: string, { nominal: expected, lower, upper }: Bounds) =>
    points.push({ point, state, unit, expected, lower, upper })
  if (source.cells) add('cells, at their terminals', asleep, 'V', source.cells.voltage)
  const standby = drawerOf(design).flatMap(({ current: one }) => one ?? [])
  if (standby.length > 0)
    add(
      `current from the ${source.cells ? 'cells' : 'port'}, resistances across ${source.cells ? 'them' : 'it'} apart`,
      source.cells ? asleep : 'asleep',
      'A',
      sumOf(standby),
    )
  for (const [name, { rest }] of Object.entries(rails)) add(`rail ${name} to ground`, awake, 'V', rest)
  const reference = design.controller.internalReference?.voltage
  if (reference) {
    const N_bits = readNumber(design.hall.converter.bits, {
      field: 'hall.converter.bits',
      unit: 'bit',
      min: 1,
      max: 32,
    })
    const V_rail = rails[railOf(design, 'converter')]!.rest
    add('code of the internal reference', awake, '1', spreadOf(referenceCode, { V_bg: reference, N_bits, V_rail }))
  }
  const measured = dividerAt(design, solved, walk.firmware)
  const { budgets } = checkDivider(measured.choice, measured.conditions, { simulation: false })
  const { extremes, linear } = budgets.R_ind
  add('resistance as read, the nominal load connected', awake, 'ohm', { nominal: linear.nominal, ...extremes })
  const sensed = hallAt(design, solved, walk.firmware)
  const hall = checkHall(sensed.choice, sensed.conditions, { simulation: false })
  for (const budget of Object.values(hall.budgets))
    add(`current as read: ${budget.quantity}`, 'that current set by a bench load', 'A', {
      nominal: budget.linear.nominal,
      ...budget.extremes,
    })
  for (const [name, { sag }] of Object.entries(rails)) add(`rail ${name} to ground`, loaded, 'V', sag)
  add('current in the load', loaded, 'A', current)
  for (const { name, drop } of pathAt(design.supply.path ?? [], current, place.celsius))
    add(`across ${name}`, loaded, 'V', drop)
  add('across the switch, warm', loaded, 'V', product(current, on))
  const switched = mosfetAt(design, solved)
  const { V_GS } = checkMosfet(switched.choice, switched.conditions, { simulation: false }).budgets
  add('gate to source of the switch', loaded, 'V', { nominal: V_GS.linear.nominal, ...V_GS.extremes })
  return points
}

interface Bounds {
  readonly nominal: number
  readonly lower: number
  readonly upper: number
}

const product = (a: Spread, b: Spread): Bounds => ({
  nominal: a.nominal * b.nominal,
  lower: a.lower * b.lower,
  upper: a.upper * b.upper,
})

/** The list as CSV (RFC 4180), with a header. */
export function firstBoardCsv(points: readonly TestPoint[]): string {
  const cell = (value: string | number) => {
    const text = typeof value === 'number' ? String(Number(value.toPrecision(4))) : value
    return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
  }
  const rows = points.map(({ point, state, unit, expected, lower, upper }) => [
    point,
    state,
    unit,
    expected,
    lower,
    upper,
  ])
  return [['point', 'state', 'unit', 'expected', 'lower', 'upper'], ...rows]
    .map((row) => row.map(cell).join(','))
    .join('\r\n')
    .concat('\r\n')
}
