import { type Circuit, circuit, networkOf, type Source } from '../circuit.js'
import { effort } from '../effort.js'
import { type Piece, respond } from '../piece.js'
import { sourceDrain } from '../quantities.js'
import { firstBelow, lastBelow, lowest, lowestUnder } from '../signal/lowest.js'
import { negative } from '../signal/signal.js'
import { type BiasedBranch, capacitanceAt, contentAt } from './biased.js'
import { Charging } from './charging.js'

/**
 * What happens when the source is connected to empty capacitors. A limit acts too late for the first surge, which comes from the
 * output capacitor of the supply itself (common practice, no source); but it may make it last.
 */
export interface PlugIn {
  /** Highest rail voltage. */
  readonly peak: number
  /** Highest source current. */
  readonly inrush: number
  /** From when the source current first passes a level to when it stays below it for good; 0 where it never passes it. */
  readonly timeAbove: (level: number) => number
}

/** Connects the source of a circuit, nothing switched on, to its empty capacitors. Each answer is worked out when it is asked for. */
export const plugIn = ({ source, branches }: Circuit): PlugIn => plugInBiased(source, branches)

function plugged(c: Circuit): Piece {
  const n = c.branches.length
  const empty = { rail: 0, source: 0, voltages: new Array<number>(n).fill(0), currents: new Array<number>(n).fill(0) }
  return respond(networkOf(c, 0, false), empty, { current: 0, slope: 0 }, Number.POSITIVE_INFINITY)
}

/**
 * The same for capacitors that lose capacitance to their voltage: followed in steps with an error of some millionths of the
 * source's voltage; exact where none does.
 *
 * @param share - length of a step, of the time in which the circuit turns by a radian; the error grows with its fourth power
 */
export function plugInBiased(
  { currentLimit, ...source }: Source,
  branches: readonly BiasedBranch[],
  share = usual,
): PlugIn {
  const isExact = branches.every(({ bias }) => bias === undefined)
  const found = isExact ? new Plugged(plugged(circuit(source, branches, 0))) : new Followed(source, branches, share)
  if (currentLimit === undefined) return found
  const charge = branches.reduce((sum, branch) => sum + contentAt(branch, source.voltage).charge, 0)
  return {
    get peak() {
      return found.peak
    },
    get inrush() {
      return found.inrush
    },
    timeAbove: (level) => Math.max(found.timeAbove(level), currentLimit > level ? charge / currentLimit : 0),
  }
}

class Plugged implements PlugIn {
  constructor(private readonly piece: Piece) {}

  get peak(): number {
    return -lowest(negative(this.piece.voltage), Number.POSITIVE_INFINITY).value
  }

  get inrush(): number {
    return -(lowestUnder(sourceDrain(this.piece), this.piece.duration, 0)?.value ?? 0)
  }

  timeAbove(level: number): number {
    const drain = sourceDrain(this.piece)
    const last = lastBelow(drain, -level, Number.POSITIVE_INFINITY, 1e-9 * level)
    return last === null ? 0 : last - (firstBelow(drain, -level, Number.POSITIVE_INFINITY, 1e-9 * level) ?? 0)
  }
}

/** Length of a step, by default: a share of the time in which the circuit turns by a radian. */
const usual = 0.2
/** Largest error of one step of that length, of what drives the circuit at its start: it grows with the fourth power. */
const tolerance = 1e-5
/** Steps of one course: a loop that hardly dies rings on. */
const [mostSteps, fewSteps] = [20_000, 60]
/** Share of the driving energy below which nothing more happens. */
const nothing = 1e-11

class Followed implements PlugIn {
  constructor(
    private readonly source: Source,
    private readonly branches: readonly BiasedBranch[],
    private readonly share: number,
  ) {}

  #step(course: Charging, share = this.share): void {
    effort.spend(40 * this.branches.length)
    course.go(course.next(share), tolerance * Math.max(1, (share / usual) ** 4))
  }

  get peak(): number {
    const { voltage, inductance } = this.source
    if (inductance === 0 || this.#creeps()) return voltage
    const course = new Charging(this.source, this.branches)
    return highest(
      course,
      () => this.#step(course),
      (y) => course.circuit.rail(y),
      (found) =>
        found > voltage && (course.circuit.isSimple || voltage + course.circuit.mostRise(course.drive) < found),
      voltage,
    )
  }

  get inrush(): number {
    const course = new Charging(this.source, this.branches)
    // Without inductance in the loop it is greatest at once.
    const first = course.circuit.current(course.y)
    if (course.circuit.isSimple && first > 0) return first
    return highest(
      course,
      () => this.#step(course),
      (y) => course.circuit.current(y),
      (found) => course.circuit.isSimple || course.mostCurrent < found,
      first,
    )
  }

  timeAbove(level: number): number {
    const course = new Charging(this.source, this.branches)
    let was = course.circuit.current(course.y) - level
    const isFalling = course.circuit.isSimple && was > 0
    let first = was > 0 ? 0 : undefined
    let last = 0
    let steps = effort.most(mostSteps, fewSteps)
    while (course.mostCurrent >= level && course.drive > nothing * course.start) {
      if (--steps < 0) {
        effort.isOpen = true
        break
      }
      // Near the level the top of the current could lie between two steps.
      this.#step(course, Math.abs(was) < 0.02 * level ? this.share / 4 : this.share)
      const now = course.circuit.current(course.y) - level
      if (was > 0 !== now > 0) {
        const { before, length, time } = course
        const sign = was > 0 ? 1 : -1
        const here = (h: number) => sign * (course.circuit.current(course.after(before, h)) - level)
        const passed = time - length + crossing(here, length, sign * was, sign * now)
        if (was > 0) last = passed
        else first ??= passed
        if (isFalling) break
      }
      was = now
    }
    return first === undefined ? 0 : Math.max(0, last - first)
  }

  /** Whether the loop creeps even with the least that is left of the capacitors below the source's voltage. */
  #creeps(): boolean {
    const { voltage } = this.source
    if (this.branches.some((b) => b.inductance > 0)) return false
    const left = this.branches.map((b) => ({ ...b, capacitance: capacitanceAt(b, voltage) }))
    const { voltage: rail } = plugged(circuit(this.source, left, 0))
    return lowestUnder(negative(rail), Number.POSITIVE_INFINITY, -voltage) === undefined
  }
}

/**
 * Follows a circuit for the highest that a value of its state gets.
 *
 * @param floor - what it has at least
 * @param isEnough - asked after each step once there was a summit: whether no later one can be higher
 */
function highest(
  course: Charging,
  step: () => void,
  value: (y: readonly number[]) => number,
  isEnough: (found: number) => boolean,
  floor: number,
): number {
  let older: readonly number[] = course.y
  let found = floor
  let isFound = false
  let low = value(course.y)
  let high = low
  let steps = effort.most(mostSteps, fewSteps)
  while (course.drive > nothing * course.start) {
    if (--steps < 0) {
      effort.isOpen = true
      break
    }
    older = course.before.slice()
    const first = course.length
    step()
    const now = value(course.y)
    if (first > 0 && high >= low && high > now) {
      const { before, length } = course
      const at = (t: number) => value(t <= first ? course.after(older, t) : course.after(before, t - first))
      found = Math.max(found, summit(at, [0, first, first + length], [low, high, now]))
      isFound = true
    }
    if (isFound && isEnough(found)) break
    low = high
    high = now
  }
  return found
}

/** The summit between three places of which the middle one is highest: by parabolas. */
function summit(at: (t: number) => number, places: readonly number[], values: readonly number[]): number {
  let [a, b, c] = places as [number, number, number]
  let [u, v, w] = values as [number, number, number]
  const near = 1e-3 * (c - a)
  for (let round = 0; round < 4; round++) {
    const left = (b - a) * (v - w)
    const right = (b - c) * (v - u)
    const t = b - ((b - a) * left - (b - c) * right) / (2 * (left - right))
    if (!(t > a && t < c) || Math.abs(t - b) < near) break
    const here = at(t)
    if (here > v) {
      if (t < b) [c, w] = [b, v]
      else [a, u] = [b, v]
      ;[b, v] = [t, here]
    } else if (t < b) [a, u] = [t, here]
    else [c, w] = [t, here]
  }
  return v
}

/** Where a value falls through 0 between 0 and `end`: by straight lines, the end that stays losing weight (Illinois). */
function crossing(at: (t: number) => number, end: number, first: number, last: number): number {
  let [a, b] = [0, end]
  let [u, w] = [first, last]
  let side = 0
  for (let round = 0; round < 40 && b - a > 1e-9 * end; round++) {
    const t = (a * w - b * u) / (w - u)
    const here = at(t)
    if (Math.abs(here) <= 1e-12 * (Math.abs(first) + Math.abs(last))) return t
    if (here > 0) {
      ;[a, u] = [t, here]
      if (side > 0) w /= 2
      side = 1
    } else {
      ;[b, w] = [t, here]
      if (side < 0) u /= 2
      side = -1
    }
  }
  return (a + b) / 2
}
