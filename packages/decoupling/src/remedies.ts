import type { Margin } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { type Board, boardAt } from './board.js'
import { railOf, restOf } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { Findings } from './findings.js'
import type { InputSet } from './inputs.js'
import { isolationRows } from './isolation-remedies.js'
import { limitWords, railLimits } from './margins.js'
import { lifeOf, rippleOf } from './ripple.js'
import { edge, type Failing, failing, railSlack, restSlack, slackOf, type Trial, worstValues } from './trial.js'
import { pwmStart } from './waveform/index.js'

/** A way out with its size, for the worst board. */
export interface Remedy {
  readonly id: string
  readonly name: string
  /** What it must be; `null` where it can't help. */
  readonly value: number | null
  readonly unit: string
  readonly sense: 'at least' | 'at most'
  /** What there is now, where it can be compared. */
  readonly present: number | null
  /** What it costs, or why it can't help. */
  readonly text: string
}

/** What `with` a factor or value of a remedy becomes of a trial. */
type Change = (trial: Trial, x: number, at: Failing['at']) => Trial

/** PWM that is proposed where there is none. */
const usualPwm = { frequency: 20e3, edge: 1e-6 }

/**
 * The remedies side by side. Each is sized by itself on the exact waveform, so that the worst board of every margin of the rail or
 * the load that fails just keeps it; those that can't do it are left out, or say why.
 */
export function remediesFor(
  read: ReadDecoupling,
  inputs: InputSet,
  margins: readonly Margin[],
  worst: Readonly<Record<string, number>>,
): Remedy[] {
  const cases = failing(read, inputs, margins, worst)
  const rows = [...wantedRow(margins), ...partRows(read, inputs, margins)]
  const [first] = cases
  if (first === undefined) return rows
  const solve = (change: Change, bad: number, good: number): number | null => solved(cases, change, bad, good)
  const { board } = first.trial
  const isRail = first.kind === 'rail'
  if (isRail && restSlack(first.trial) <= 0) {
    return [stopRow(read, inputs, solve, board, true), ...lowerRows(cases), boost, ...rows]
  }
  return [
    ...loadRows(read, board, solve),
    ...timeRows(read, inputs, cases),
    ...sourceRow(board, solve),
    ...(isRail ? capacitorRows(read, board, solve) : []),
    ...(isRail ? [stopRow(read, inputs, solve, board, false)].filter(({ value }) => value !== null) : []),
    ...(isRail ? isolationRows(read, cases) : []),
    ...(isRail ? [...lowerRows(cases), boost] : []),
    ...rows,
  ]
}

/** The edge of one remedy over all that fails; where PWM starts below its steady state, once more with its start. */
function solved(cases: readonly Failing[], change: Change, bad: number, good: number): number | null {
  const slack = (withStart: boolean) => (x: number) =>
    Math.min(...cases.map(({ kind, trial, at }) => slackOf(kind, change(trial, x, at), withStart)))
  const value = edge(slack(false), bad, good)
  return value === null || slack(true)(value) >= 0 ? value : edge(slack(true), value, good)
}

const withBoard = (change: (board: Board, x: number) => Partial<Board>): Change => {
  return ({ read, board }, x) => ({ read, board: { ...board, ...change(board, x) } })
}

const withLoad = (change: (load: ReadDecoupling['load'], x: number) => Partial<ReadDecoupling['load']>): Change => {
  return ({ read, board }, x) => ({ read: { ...read, load: { ...read.load, ...change(read.load, x) } }, board })
}

type Solve = (change: Change, bad: number, good: number) => number | null

/** Less of the load itself. */
function loadRows(read: ReadDecoupling, { load }: Board, solve: Solve): Remedy[] {
  const k = solve(
    withBoard(({ load: one }, x) => ({
      load:
        one.kind === 'current'
          ? { ...one, current: one.current * x }
          : one.kind === 'resistor'
            ? { ...one, resistance: one.resistance / x }
            : { ...one, power: one.power * x },
    })),
    1,
    1e-4,
  )
  if (k === null) return []
  const text =
    read.load.duration === Number.POSITIVE_INFINITY
      ? 'Less power, longer heating. A ramp alone does not help where the sag does not: it ends the same.'
      : 'Less power, longer heating.'
  if (load.kind === 'current') {
    const present = load.current
    return [
      { id: 'less-current', name: 'load current', value: k * present, unit: 'A', sense: 'at most', present, text },
    ]
  }
  if (load.kind === 'power') {
    const present = load.power
    return [{ id: 'less-power', name: 'load power', value: k * present, unit: 'W', sense: 'at most', present, text }]
  }
  const present = load.resistance
  const value = present / k
  return [{ id: 'more-resistance', name: 'load resistance', value, unit: 'ohm', sense: 'at least', present, text }]
}

/** When the load is on: duty, length of the burst, rise time. */
function timeRows(read: ReadDecoupling, inputs: InputSet, cases: readonly Failing[]): Remedy[] {
  const { rise, duration, pwm } = read.load
  if (duration < Number.POSITIVE_INFINITY) {
    const value = solved(
      cases,
      withLoad((_, x) => ({ duration: x })),
      duration,
      Math.max(rise, 1e-9),
    )
    const text = 'Less heat in each burst; pauses in which the capacitors recover.'
    const row = { id: 'shorter-burst', name: 'length of the burst', unit: 's', sense: 'at most' } as const
    return value === null ? [] : [{ ...row, value, present: duration, text }]
  }
  if (pwm) return dutyRow(read, inputs, cases)
  const value = solved(
    cases,
    withLoad((_, x) => ({ rise: x })),
    Math.max(rise, 1e-9),
    10,
  )
  const text = 'A switch that is driven slowly warms at each turn.'
  const row = { id: 'slower', name: 'rise time', unit: 's', sense: 'at least' } as const
  const slower = value === null ? [] : [{ ...row, value, present: rise, text }]
  return [...dutyRow(read, inputs, cases), ...slower]
}

/** PWM, with less duty where there is some already. Pulsed, another board may be the worst: it is looked for until none is. */
function dutyRow(read: ReadDecoupling, inputs: InputSet, cases: readonly Failing[]): Remedy[] {
  const { pwm, kind } = read.load
  if (kind === 'power') return []
  const frequency = pwm?.frequency ?? usualPwm.frequency
  const most = pwm ? Number.POSITIVE_INFINITY : usualPwm.edge
  const [rise, fall] = [Math.min(read.load.rise, most), Math.min(read.load.fall, most)]
  const change = withLoad((_, duty) => ({ rise, fall, pwm: { frequency, duty } }))
  const all = [...cases]
  let value: number | null = null
  for (let round = 0; round < 4; round++) {
    value = solved(all, change, pwm?.duty ?? Math.min(0.999, 1 - fall * frequency), Math.max(1e-3, rise * frequency))
    if (value === null || cases[0]!.kind !== 'rail') break
    const at = worstValues(change(cases[0]!.trial, value, {}).read)
    const trial = { read, board: boardAt(read, inputs, at) }
    if (slackOf('rail', change(trial, value, at), true) >= -1e-12) break
    all.push({ kind: 'rail', at, trial })
  }
  if (value === null) return []
  const edges = rise > 0 ? ` with edges of ${format(rise, 's')}` : ''
  const text = `Less power on average; the capacitors must bear the ripple current.${pwm ? '' : ` At ${format(frequency, 'Hz')}${edges}.`}`
  return [{ id: 'less-duty', name: 'duty', value, unit: '1', sense: 'at most', present: pwm?.duty ?? 1, text }]
}

function sourceRow({ source }: Board, solve: Solve): Remedy[] {
  const k = solve(
    withBoard(({ source: one }, x) => ({ source: { ...one, resistance: one.resistance * x } })),
    1,
    1e-4,
  )
  if (k === null) return []
  const text = 'A cell for higher drain or two in parallel, wider copper, better contacts; also cold and aged.'
  const present = source.resistance
  return [
    { id: 'less-source', name: 'source resistance', value: k * present, unit: 'ohm', sense: 'at most', present, text },
  ]
}

/** A board with more capacitance, the series resistances staying. */
const enlarge = withBoard(({ branches }, x) => ({
  branches: branches.map((one) => ({ ...one, capacitance: one.capacitance * x })),
}))

/** A board with parts in parallel to each of its own. */
const multiply = withBoard(({ branches }, x) => ({
  branches: branches.map(({ capacitance, resistance, inductance }) => ({
    capacitance: capacitance * x,
    resistance: resistance / x,
    inductance: inductance / x,
  })),
}))

const total = ({ branches }: Board): number => branches.reduce((sum, { capacitance }) => sum + capacitance, 0)

/** Most capacitance that is looked at, F. */
const mostCapacitance = 100

function capacitorRows(read: ReadDecoupling, board: Board, solve: Solve): Remedy[] {
  const present = total(board)
  const k = solve(enlarge, 1, mostCapacitance / present)
  const times = solve(multiply, 1, 100)
  const rows: Remedy[] = []
  const row = {
    id: 'more-capacitance',
    name: 'capacitance on the rail',
    unit: 'F',
    sense: 'at least',
    present,
  } as const
  if (k !== null) {
    const text = `What must be left after tolerance, bias, cold and age, series resistance as it is: ${format(k, '1', { digits: 3 })} times as much of each kind. Volume, and more charge at insertion.`
    rows.push({ ...row, value: k * present, text })
  } else if (times !== null || read.load.duration < Number.POSITIVE_INFINITY) {
    const text =
      'None is enough with this series resistance: it alone lets the rail fall below the limit. More parts in parallel, or a kind with less.'
    rows.push({ ...row, value: null, text })
  }
  if (times !== null) {
    const text = 'Each adds capacitance and takes series resistance away. Volume, and a larger inrush at insertion.'
    const value = Math.ceil(times - 1e-9)
    rows.push({
      id: 'more-parts',
      name: 'capacitors, times as many',
      value,
      unit: '1',
      sense: 'at least',
      present: 1,
      text,
    })
  }
  return rows
}

/** The voltage at which to stop. */
function stopRow(read: ReadDecoupling, inputs: InputSet, solve: Solve, board: Board, isRest: boolean): Remedy {
  const given = board.source.voltage
  const value = solve(
    (_, volts, at) => ({ read, board: boardAt(read, inputs, { ...at, V_oc: volts }) }),
    read.openCircuit.from,
    read.openCircuit.to,
  )
  const rests = isRest
    ? `The worst source rests at ${format(Math.max(0, restOf(board)), 'V')}, not above what the limits need. `
    : ''
  const text =
    value === null ? `${rests}Even a full source is not enough.` : `${rests}The charge below it is left in the cell.`
  return {
    id: 'stop-earlier',
    name: 'source voltage at rest to stop at',
    value,
    unit: 'V',
    sense: 'at least',
    present: given,
    text,
  }
}

/** Where the limits would have to be. */
function lowerRows(cases: readonly Failing[]): Remedy[] {
  const rail = cases.filter(({ kind }) => kind === 'rail')
  const { read } = rail[0]!.trial
  const found = rail.map(({ trial: { board } }) => {
    const { lowest, logic, pwm, circuit } = railOf(read, board)
    const start = pwm ? pwmStart(circuit, board.load, pwm).lowest : lowest
    return { rail: Math.min(lowest, start), 'logic rail': logic }
  })
  return (['rail', 'logic rail'] as const).flatMap((place) => {
    const end = Math.min(...found.map((one) => one[place]))
    const broken = railLimits(read).filter((one) => one.place === place && one.volts > end)
    if (broken.length === 0) return []
    const text =
      end > 0
        ? 'A lower brown-out level or a part for a lower supply; the clock must allow it.'
        : 'No limit helps: the rail collapses.'
    const name = `${broken.map((one) => limitWords[one.name]).join(' and ')}, largest`
    const id = place === 'rail' ? 'lower-limit' : 'lower-logic-limit'
    return [
      { id, name, value: end > 0 ? end : null, unit: 'V', sense: 'at most' as const, present: broken[0]!.volts, text },
    ]
  })
}

const boost: Remedy = {
  id: 'boost',
  name: 'boost converter for the logic',
  value: null,
  unit: '1',
  sense: 'at least',
  present: null,
  text: 'Holds the logic through any sag that it starts from; noise, parts, and current drawn at rest.',
}

/** A resistor that gets too little with the load fully on. */
function wantedRow(margins: readonly Margin[]): Remedy[] {
  const wanted = margins.find(({ id, verdict }) => id === 'power-reaches' && verdict === 'fails')
  if (!wanted) return []
  const { limit: value, worst: present } = wanted
  const text = 'Longer heating; a smaller load resistance only helps while it is above that of the source.'
  return [{ id: 'less-wanted', name: 'wanted power', value, unit: 'W', sense: 'at most', present, text }]
}

/** Parts in parallel that share a ripple, and live longer. */
function partRows(read: ReadDecoupling, inputs: InputSet, margins: readonly Margin[]): Remedy[] {
  return read.capacitors.flatMap((part, k) => {
    const failed = margins.filter(
      ({ id, verdict }) => (id === `ripple-${k + 1}` || id === `life-${k + 1}`) && verdict === 'fails',
    )
    if (failed.length === 0) return []
    const keeps = (count: number): boolean => {
      const more = { ...part, count }
      const many = { ...read, capacitors: read.capacitors.map((one, i) => (i === k ? more : one)) }
      return failed.every(({ id, at, limit }) => {
        const findings = new Findings(many, boardAt(many, inputs, at))
        return id.startsWith('ripple') ? rippleOf(more, findings, k) <= limit : lifeOf(more, findings, k) >= limit
      })
    }
    let value: number | null = part.count + 1
    while (value <= 100 && !keeps(value)) value++
    if (value > 100) value = null
    const row = { id: `parts-${k + 1}`, name: `number of ${part.name}`, unit: '1', sense: 'at least' } as const
    const text =
      value === null
        ? 'No number of them is enough: it is the air that ages them, or the other kinds leave them no less.'
        : 'They share the ripple current and warm less. Volume, and a larger inrush at insertion.'
    return [{ ...row, value, present: part.count, text }]
  })
}

/**
 * Capacitance on the rail that a burst or PWM needs on the worst board, each kind's share and series resistance staying: 0 where
 * none is needed, `null` where none up to 100 F is enough.
 */
export function capacitanceFor(read: ReadDecoupling, board: Board, breaks: boolean): number | null {
  const limits = railLimits(read).filter(({ place }) => place === 'rail')
  const slack = (k: number) => railSlack(enlarge({ read, board }, k, {}), limits)
  const present = total(board)
  const isEnough = slack(1) >= 0
  if (isEnough && !breaks) return 0
  const k = isEnough ? edge(slack, 1e-12 / present, 1) : edge(slack, 1, mostCapacitance / present)
  return k && k * present
}
