import type { Margin } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { railLimits } from '../rail/limits.js'
import { together } from '../rail/parallel.js'
import { rippleRows } from '../rows/ripple.js'
import type { Plan } from '../search/plan.js'
import { effort } from '../waveform/index.js'
import type { Sized } from './remedy.js'
import { type Solve, settled, withBoard } from './solve.js'
import { edge, type Failing, railSlack, type Trial } from './trial.js'

/** A board with more capacitance, the series resistances staying. */
const enlarge = /*#__PURE__*/ withBoard(({ branches }, x) => ({
  branches: branches.map((one) => ({ ...one, capacitance: one.capacitance * x })),
}))

/** A board with parts in parallel to each of its own. */
const multiply = /*#__PURE__*/ withBoard(({ branches }, x) => ({
  branches: branches.map(({ capacitance, resistance, inductance }) => ({
    capacitance: capacitance * x,
    resistance: resistance / x,
    inductance: inductance / x,
  })),
}))

const total = ({ branches }: Board): number => together(branches)

/** Most capacitance that is looked at, F. Under PWM a thousand periods' worth, beyond which nothing changes but the digits. */
function mostOf({ source, pwm }: Board): number {
  return pwm ? Math.min(100, 1e3 / (pwm.frequency * source.resistance)) : 100
}

export function capacitorRows(read: ReadDecoupling, board: Board, solve: Solve): Sized[] {
  const present = total(board)
  const most = mostOf(board) / present
  const k = most > 1 ? solve(enlarge, 1, most) : null
  const times = most > 1 ? solve(multiply, 1, Math.min(100, most)) : null
  const rows: Sized[] = []
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

/** Parts in parallel that share a ripple, and live longer. */
export function partRows(read: ReadDecoupling, margins: readonly Margin[]): Sized[] {
  return read.capacitors.flatMap((part, k) => {
    const failed = margins.filter(
      ({ id, verdict }) => (id === `ripple-${k + 1}` || id === `life-${k + 1}`) && verdict === 'fails',
    )
    if (failed.length === 0) return []
    const keeps = (count: number): boolean => {
      const capacitors = read.capacitors.map((one, i) => (i === k ? { ...one, count } : one))
      const rows = rippleRows({ read: { ...read, capacitors } })
      const isKept = failed.every(({ id }) => (rows.find((row) => row.id === id)?.hold({}).slack ?? 0) >= 0)
      return isKept && !effort.isSpent
    }
    const value = smallest(keeps, part.count, 100)
    const row = { id: `parts-${k + 1}`, name: `number of ${part.name}`, unit: '1', sense: 'at least' } as const
    const text =
      value === null
        ? 'No number of them is enough: it is the air that ages them, or the other kinds leave them no less.'
        : 'They share the ripple current and warm less. Volume, and a larger inrush at insertion.'
    return [{ ...row, value, present: part.count, text }]
  })
}

/** The smallest whole number that is enough, above one that isn't; `null` where the largest isn't either. */
function smallest(isEnough: (n: number) => boolean, below: number, most: number): number | null {
  if (below >= most || !isEnough(most)) return null
  let [low, high] = [below, most]
  while (high - low > 1) {
    const middle = Math.min(2 * low, (low + high) >> 1)
    if (isEnough(middle)) high = middle
    else low = middle
  }
  return high
}

/**
 * Capacitance on the rail that a burst or PWM needs on the worst board, each kind's share and series resistance staying: 0 where
 * none is needed, `null` where none up to 100 F, or to a thousand periods of PWM, is enough.
 */
export function capacitanceFor(plan: Plan, at: Failing['at'], breaks: boolean): number | null {
  const { read } = plan
  const { board } = plan.at(at)
  const limits = railLimits(read).filter(({ place }) => place === 'rail')
  const slack = (trial: Trial) => railSlack(trial, limits)
  const present = total(board)
  const isEnough = slack({ read, board }) >= 0
  if (isEnough && !breaks) return 0
  const most = mostOf(board) / present
  if (!isEnough && most <= 1) return null
  let deciding = board
  const size = (boards: readonly Failing[]): number | null => {
    const slacks = (k: number) => boards.map(({ trial }) => slack(enlarge(trial, k, {})))
    const least = (k: number) => Math.min(...slacks(k))
    const k = isEnough && least(1) >= 0 ? edge(least, 1e-12 / present, 1) : edge(least, 1, most)
    if (k !== null) deciding = boards[slacks(k).indexOf(least(k))]!.trial.board
    return k
  }
  const k = settled(plan, [{ kind: 'rail', at, trial: { read, board } }], enlarge, slack, size)
  return k && k * total(deciding)
}
