import { referenceCode } from '@ohmward/adc/formulas'
import type { Budget, ErrorRow } from '@ohmward/budget'
import { checkDivider, type DividerChoice, divider } from '@ohmward/divider'
import { checkHall, type HallChoice } from '@ohmward/hall'
import { exact, format, nominalOf, readNumber, readSpread, type Spread } from '@ohmward/quantity'
import { pathAt, type ReadElement, resistanceOf, spreadOf } from '@ohmward/supply'
import { elementDrop } from '@ohmward/supply/formulas'
import { about } from '../blocks/apart.js'
import { dividerAt } from '../blocks/divider-at.js'
import { hallAt } from '../blocks/hall-at.js'
import { mainRail, railOf } from '../design/rails.js'
import { readDesign } from '../design/read.js'
import type { Design, ReadDesign } from '../design/record.js'
import { converterOf } from '../monitor/acts.js'
import { fullScaleOf } from '../monitor/converter.js'
import { type Corner, cornersOf, lackingAt } from '../monitor/corners.js'
import { lackingOf } from '../monitor/lag.js'
import { pauseOf } from '../pulse/off-times.js'
import { beforeBoard, sumOf } from '../supply/path.js'
import type { Ends } from '../supply/place.js'
import { drawOf } from '../supply/rails.js'
import { type SolvedSpan, solveAt } from '../supply/solve.js'
import { walkOf } from '../walk/walk.js'
import { type Bounds, gateSettled, railsSettled } from './settled.js'
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

/** Of a single reading: its noise stays within so many times its root mean square, but for one of a thousand. */
const peaks = 3.3

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
  const { source, rails, switch: on } = solved
  const points: TestPoint[] = []
  const add = (point: string, state: string, unit: string, { nominal: expected, lower, upper }: Bounds) =>
    points.push({ point, state, unit, expected, lower, upper })
  if (source.cells) add('cells, at their terminals', asleep, 'V', source.cells.voltage)
  const standby = drawerOf(design).flatMap(({ current: one }) => one ?? [])
  if (standby.length > 0)
    add(
      `current from the ${source.cells ? 'cells' : 'port'}, without resistances across ${source.cells ? 'them' : 'it'}`,
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
    const V_rail = fullScaleOf(design, rails[railOf(design, 'converter')]!.rest)
    const { nominal, lower, upper } = spreadOf(referenceCode, { V_bg: reference, N_bits, V_rail })
    const { gain, counts, noise } = converterOf(design)
    // It is a single code: rounded, and with the noise of one reading.
    const one = counts + 1 + peaks * noise
    const code = (value: number) => Math.min(2 ** N_bits - 1, Math.max(0, value))
    add('code of the internal reference', awake, '1', {
      nominal: code(nominal),
      lower: code(lower * (1 + gain.lower) - one),
      upper: code(upper * (1 + gain.upper) + one),
    })
  }
  const own = railOf(design, 'converter')
  const measured = dividerAt(design, solved, walk.firmware)
  const driving = design.parts.excitation.rail
  const resistance = spreadOver({
    own: voltageOf(measured.choice.excitation),
    usual: { rail: rails[own]!.measuring.nominal, ...(driving !== own && { own: rails[driving]!.measuring.nominal }) },
    rail: measured.conditions.rail as Ends,
    at: (rail, excitation) => {
      const choice = { ...measured.choice, ...(excitation && { excitation }) }
      return [checkDivider(choice, { ...measured.conditions, rail }, { simulation: false }).budgets.R_ind]
    },
  })
  for (const { quantity: _, ...bounds } of resistance) {
    const nominal = resistanceShown(measured, rails[own]!.measuring.nominal, rails[driving]!.measuring.nominal)
    add('resistance as read, the nominal load connected', awake, 'ohm', { ...bounds, nominal })
  }
  const sensed = hallAt(design, solved, walk.firmware)
  const feeding = railOf(design, 'sensor')
  const isApart = feeding !== own && design.hall.sensorSupply === undefined
  const current = spreadOver({
    own: voltageOf(sensed.choice.sensorSupply),
    usual: { rail: rails[own]!.sag.nominal, ...(isApart && { own: rails[feeding]!.sag.nominal }) },
    rail: sensed.conditions.rail as Ends,
    at: (rail, sensorSupply) => {
      const choice = { ...sensed.choice, ...(sensorSupply && { sensorSupply }) }
      return Object.values(checkHall(choice, { ...sensed.conditions, rail }, { simulation: false }).budgets)
    },
  })
  for (const { quantity, ...bounds } of current)
    add(`current as read: ${quantity}`, 'that current set by a bench load', 'A', bounds)
  const settled = railsSettled(design, solved)
  for (const [name, { sag }] of Object.entries(rails)) {
    const { nominal, lower, upper } = settled[name]!.sag
    // What its capacitor still holds up comes down to there.
    add(`rail ${name} to ground`, loaded, 'V', { nominal, lower, upper: Math.max(upper, sag.upper) })
  }
  add('current in the load', loaded, 'A', solved.current)
  // Before the board flows what is always on as well.
  const { path = [] } = design.supply
  const fed = beforeBoard(path, design.board)
  const all = sumOf([solved.current, drawOf(design, mainRail)])
  for (const { point, ...bounds } of comingBack(design, solved))
    add(point, 'load off, largest duty before', 'V', bounds)
  const across = (elements: readonly ReadElement[], I_el: Spread) => {
    const warm = pathAt(elements, I_el, place.celsius)
    for (const [i, element] of elements.entries()) {
      // The probe may read before it has warmed itself.
      const R_el = resistanceOf(element, place.celsius)
      const cold = spreadOf(elementDrop, { I_el, R_el, V_el: element.drop })
      const { nominal, lower, upper } = warm[i]!.drop
      const limits = { lower: Math.min(lower, cold.lower), upper: Math.max(upper, cold.upper) }
      add(`across ${element.name}`, loaded, 'V', { nominal, ...limits })
    }
  }
  across(fed, all)
  across(path.slice(fed.length), solved.current)
  add('across the switch, warm', loaded, 'V', product(solved.current, on))
  add('gate to source of the switch', loaded, 'V', gateSettled(design, { ...solved, rails: settled }))
  return points
}

/**
 * How far the cells come back within half an hour after the load, and how far of it after the pause with which the firmware reads them:
 * the one over the other is what they lack then.
 */
function comingBack(design: ReadDesign, solved: SolvedSpan): (Bounds & { readonly point: string })[] {
  const { source } = design.supply
  const share = lackingOf(design)
  const pause = pauseOf(design)
  if (source.kind !== 'cell' || share === 0 || pause === undefined) return []
  const back = (of: string, lacking: number, least: 0 | 1) => {
    const { weak, nominal, strong } = cornersOf({ design, around: solved.span }, source, solved, lacking)
    const volts = (corner: Corner, end: 'lower' | 'nominal' | 'upper') =>
      lackingAt(corner, 1, solved.source.cells!.voltage[end])
    return {
      point: `cells, recovery from ${of} to half an hour later`,
      nominal: volts(least === 0 ? nominal : { ...nominal, lacking: 1 }, 'nominal'),
      lower: volts({ ...strong, lacking: least }, 'lower'),
      upper: volts(weak, 'upper'),
    }
  }
  return [back('the end of a burst', 1, 1), back(`${format(pause, 's', { digits: 2 })} after a burst`, share, 0)]
}

interface Driven {
  /** What drives the reading where that isn't the rail, its nominal what the firmware takes it for, V. */
  readonly own: Spread | undefined
  /** Where the rails of a board of nominal parts stand, V. */
  readonly usual: { readonly rail: number; readonly own?: number }
  readonly rail: Ends
  readonly at: (rail: Ends, own: Spread | undefined) => readonly Budget[]
}

/**
 * What is shown with nominal parts on rails where they usually stand, and its limits wherever they may. A budget by itself is that
 * at the worst of the conditions, which is one end of them only.
 */
function spreadOver({ own, usual, rail, at }: Driven): (Bounds & { readonly quantity: string })[] {
  const on = (V: number, V_own: number | undefined) =>
    at({ from: V, to: V }, own && V_own !== undefined ? about(exact(V_own), own.nominal) : undefined)
  const corners = [rail.from, rail.to].flatMap((V) =>
    (own ? [own.lower, own.upper] : [undefined]).map((end) => on(V, end)),
  )
  return on(usual.rail, usual.own ?? own?.nominal).map(({ quantity, linear, extremes }, i) => {
    const all = [extremes, ...corners.map((budgets) => budgets[i]!.extremes)]
    const [lower, upper] = [Math.min(...all.map((one) => one.lower)), Math.max(...all.map((one) => one.upper))]
    return { quantity, nominal: linear.nominal, lower, upper }
  })
}

/**
 * The resistance as read with nominal parts where the rails stand: a budget has the excitation at what the firmware takes it for, and
 * a load at a rail of the cells is driven by what they have.
 */
function resistanceShown({ choice, conditions }: ReturnType<typeof dividerAt>, V_rail: number, V_driving: number) {
  const read = divider.read({ ...choice, error: '100 %' }, conditions)
  const row = divider.setup(read).rows.find(({ id }) => id === 'error-nominal') as ErrorRow
  const { inputs, row: put } = row.reading
  const isHeld = read.excitation === undefined || read.excitation.lower === read.excitation.upper
  const here = { ...inputs, ...row.at, V_rail, ...(!isHeld && 'V_exc' in inputs && { V_exc: V_driving }) }
  const columns = Object.entries(here).map(([symbol, one]) => [symbol, Float64Array.of(nominalOf(one!))])
  return row.shown(put(Object.fromEntries(columns), 0))
}

/** A supply that a choice names as a voltage; undefined where it is the rail, or the reference's node. */
const voltageOf = (given: HallChoice['sensorSupply'] | DividerChoice['excitation']): Spread | undefined =>
  given === undefined || given === 'rail' || given === 'reference'
    ? undefined
    : readSpread(given, { field: 'supply', unit: 'V' })

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
    // A number has no unit.
    unit === '1' ? '' : unit,
    expected,
    lower,
    upper,
  ])
  return [['point', 'state', 'unit', 'expected', 'lower', 'upper'], ...rows]
    .map((row) => row.map(cell).join(','))
    .join('\r\n')
    .concat('\r\n')
}
