import type { Board } from '../chain/board.js'
import { railLimits } from '../rail/limits.js'
import { together } from '../rail/parallel.js'
import { railOf } from '../rail/rail.js'
import { climb } from './climb.js'
import type { Plan } from './plan.js'

type Values = Readonly<Record<string, number>>

/** Rounding of a slack, as a part of its limit. */
const rounding = 1e-12
/** Boards that are looked at together, at most. */
const mostBoards = 8

/** Most capacitance that is looked at, F. Under PWM a thousand periods' worth, beyond which nothing changes but the digits. */
const mostOf = ({ source, pwm }: Board): number =>
  pwm ? Math.min(100, 1e3 / (pwm.frequency * source.resistance)) : 100

/** A board with so many times the capacitance, the series resistances staying. */
const enlarged = (board: Board, times: number): Board => ({
  ...board,
  branches: board.branches.map((one) => ({ ...one, capacitance: one.capacitance * times })),
})

/**
 * Capacitance on the rail that a burst or PWM needs on the worst board, each kind's share and series resistance staying: 0 where
 * none is needed, `null` where none up to 100 F, or to a thousand periods of PWM, is enough. With another capacitance another board may
 * be the worst: so it is sized over ever more of them, each the worst that is found with the size before, until none is worse.
 *
 * @param breaks - whether the steady sag alone breaks a limit
 */
export function capacitanceFor(plan: Plan, at: Values, breaks: boolean): number | null {
  const { read } = plan
  const highest = railLimits(read).find(({ place }) => place === 'rail')
  if (highest === undefined) return 0
  const slack = (board: Board, times: number): number => railOf(read, enlarged(board, times)).lowest / highest.volts - 1
  const boards = [{ at, board: plan.at(at).board }]
  const [{ board: first }] = boards as [(typeof boards)[0]]
  const present = together(first.branches)
  const isEnough = slack(first, 1) >= 0
  if (isEnough && !breaks) return 0
  const most = mostOf(first) / present
  if (!isEnough && most <= 1) return null
  for (let round = 0; round < mostBoards; round++) {
    const all = (times: number) => Math.min(...boards.map(({ board }) => slack(board, times)))
    const times = isEnough && all(1) >= 0 ? edge(all, 1e-12 / present, 1) : edge(all, 1, most)
    if (times === null) return null
    const lack = (values: Values): number => -slack(plan.at(values).board, times)
    const same = (x: number): number => x
    const worse = climb({ ...plan, at: lack }, boards.at(-1)!.at, same, same)
    if (worse.worst <= rounding) {
      const deciding = boards.find(({ board }) => slack(board, times) === all(times))!
      return times * together(deciding.board.branches)
    }
    boards.push({ at: worse.at, board: plan.at(worse.at).board })
  }
  return null
}

/**
 * The value nearest to `bad` with which `slack` is 0 or more, between one where it is and one where it isn't, both above 0; `null`
 * where it isn't even at `good`. Regula falsi drawn towards the middle, never slower than halving (Oliveira and Takahashi, 2020).
 */
function edge(slack: (x: number) => number, bad: number, good: number): number | null {
  let high = slack(good)
  if (!(high >= 0)) return null
  let low = slack(bad)
  if (low >= 0) return bad
  let [b, g] = [Math.log(bad), Math.log(good)]
  let reach = 2 * Math.abs(g - b)
  while (Math.abs(g - b) > 1e-12 && high > 1e-13) {
    const middle = (b + g) / 2
    const straight = (high * b - low * g) / (high - low)
    const side = Math.sign(middle - straight)
    const span = g - b
    const drawn = straight + side * Math.min(0.1 * span * span, Math.abs(middle - straight))
    reach /= 2
    const free = Math.max(0, reach - Math.abs(span) / 2)
    const x = Math.abs(drawn - middle) <= free ? drawn : middle - side * free
    const here = slack(Math.exp(x))
    if (here >= 0) [g, high] = [x, here]
    else [b, low] = [x, here]
  }
  return Math.exp(g)
}
