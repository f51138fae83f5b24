import { demand, demandNumber, demandNumbers, type Input, nominalOf } from '@ohmward/quantity'
import { Boards } from '../chain/board.js'
import { leastOfLargest } from '../chain/capacitor.js'
import type { DecouplingChoice, DecouplingConditions } from '../choice/choice.js'
import { type InputSet, inputsOf } from '../choice/inputs.js'
import { readDecoupling } from '../choice/read.js'
import { restState } from '../waveform/circuit.js'
import {
  type Circuit,
  effort,
  type Load,
  type Placed,
  type Pwm,
  period,
  respondToPwm,
  type State,
} from '../waveform/inside.js'
import { foundIn, type ReleasedRail, type SampledRail, type Sampling, swingAt } from './in-pulse.js'
import { circuitOf } from './rail.js'
import { restOf, steadyRail } from './steady.js'

/** Steps that it may take. */
const steps = 1e7

/** Pulses from rest on that are followed one by one. */
const pulses = 6

/**
 * What a sample of the rail may find in the pulses of a resistor on a source whose inductance rings with the capacitors: at the ends of
 * parts and conditions, from the first pulse on.
 *
 * @returns undefined where it takes more than a check may take
 * @throws InputError naming the first field that isn't allowed
 */
export function sampledRail(
  choice: DecouplingChoice,
  conditions: DecouplingConditions,
  sampling: Sampling,
): SampledRail | undefined {
  demandSampling(sampling)
  const read = readDecoupling(choice, conditions)
  const inputs = inputsOf(read)
  const names = Object.keys(inputs)
  const boards = new Boards(read, names)
  const allowance = { left: steps }
  const seen = new Set<string>()
  const among = (corners: readonly Values[]) =>
    corners.flatMap((values) => {
      const board = boards.make(names.map((name) => values[name]!))
      const { pwm, load, source, branches, idle } = board
      const { voltage, currentLimit } = source
      // Of a source without a limit all is in proportion.
      const limited = currentLimit === undefined ? [] : [voltage, currentLimit]
      const key = JSON.stringify([pwm, load, source.resistance, branches, idle, limited])
      if (pwm === undefined || load.kind !== 'resistor' || seen.has(key) || allowance.left < 0) return []
      seen.add(key)
      const c = circuitOf(read, board)
      const end = steadyRail({ ...board, pwm: undefined })
      return pulsesOf(c, load, pwm, sampling.released ?? []).flatMap(({ pieces, isRinging }) => {
        const found = foundIn(pieces, restOf(board), end, sampling)
        return found ? { ...found, isRinging } : []
      })
    })
  const { result, isOpen } = effort.watch(allowance, () => {
    const ends = among(cornersOf(inputs, [0, 1]))
    return ends.some(({ isRinging }) => isRinging) ? [...ends, ...among(cornersOf(inputs, [0, 0.5, 1]))] : ends
  })
  if (isOpen || allowance.left < 0 || result.length === 0) return undefined
  const over = (key: Exclude<keyof SampledRail, 'released'>, pick: typeof Math.min) =>
    pick(...result.map((one) => one[key]))
  return {
    lowest: over('lowest', Math.min),
    highest: over('highest', Math.max),
    below: over('below', Math.max),
    above: over('above', Math.max),
    share: over('share', Math.max),
    behind: over('behind', Math.max),
    least: over('least', Math.min),
    most: over('most', Math.max),
    mean: over('mean', Math.min),
    released: (sampling.released ?? []).map((_, k) => {
      const most = (key: keyof ReleasedRail) => Math.max(...result.map(({ released }) => released[k]![key]))
      return { below: most('below'), above: most('above'), share: most('share'), behind: most('behind') }
    }),
  }
}

function demandSampling(sampling: Sampling): void {
  const seconds = { unit: 's', min: 0, max: 1e9 } as const
  demandNumbers(sampling, 'sampling', { after: seconds, lag: seconds })
  const { until, shown, released = [] } = sampling
  if (shown !== undefined) demandNumbers(shown, 'sampling.shown', { after: seconds, lag: seconds })
  if (until !== undefined && until !== Number.POSITIVE_INFINITY)
    demandNumber(until, { ...seconds, field: 'sampling.until' })
  demand(Array.isArray(released), { field: 'sampling.released', value: released, allowed: 'a list of times' })
  for (const [k, one] of released.entries())
    demandNumbers(one, `sampling.released[${k}]`, { after: seconds, lag: seconds })
}

/** A pulse with the pause after it as if it were the last, and whether something rings into the next one or at the end of it. */
interface Pulse {
  readonly pieces: readonly Placed[]
  readonly isRinging: boolean
}

/** The first pulses from rest, and one of those that all are alike. */
function pulsesOf(
  c: Circuit,
  load: Load & { readonly kind: 'resistor' },
  pwm: Pwm,
  released: NonNullable<Sampling['released']>,
): Pulse[] {
  const paused = (from: State, pieces: readonly Placed[]): readonly Placed[] => {
    const last = pieces.at(-1)!
    if (released.length === 0) return pieces
    // What isn't limited goes on as it is.
    if (c.source.currentLimit === undefined && last.phase === 'off')
      return [...pieces.slice(0, -1), { ...last, piece: { ...last.piece, duration: Number.POSITIVE_INFINITY } }]
    const longer = 1 + 10 * pwm.frequency * Math.max(...released.map(({ after }) => after))
    const alone = { ...pwm, frequency: pwm.frequency / longer, duty: pwm.duty / longer }
    return period(c, from, load, alone)?.pieces ?? pieces
  }
  const pulse = (from: State, pieces: readonly Placed[]): Pulse => {
    const isRinging = [pieces.findLast(({ phase }) => phase === 'on'), pieces.at(-1)].some(
      (one) => one !== undefined && swingAt(one.piece.voltage, one.piece.duration) > 1e-6 * c.source.voltage,
    )
    return { pieces: paused(from, pieces), isRinging }
  }
  const list: Pulse[] = []
  let state = restState(c)
  const steady = respondToPwm(c, load, pwm)
  if (steady !== null) list.push(pulse(steady.steady, steady.pieces))
  for (let k = 0; k < pulses; k++) {
    const next = period(c, state, load, pwm)
    if (next === null) break
    list.push(pulse(state, next.pieces))
    if (isSame(state, next.state)) break
    state = next.state
  }
  return list
}

/** Whether two states are one, but for a millionth. */
const isSame = (a: State, b: State): boolean =>
  [a.source, ...a.voltages, ...a.currents].every((x, k) => {
    const y = [b.source, ...b.voltages, ...b.currents][k]!
    return Math.abs(x - y) <= 1e-6 * Math.max(a.rail, Math.abs(x))
  })

/** What varies together: of the inductances only the largest counts, which ring most and longest. */
const together: readonly RegExp[] = [
  /^(R_(?!L$)|k_old|alpha)/,
  /^R_L$/,
  /^C_r/,
  /^ESR/,
  /^V_oc$/,
  /^T_a$/,
  /^Y_age$/,
  /^D$/,
  /^I_lim$/,
]

/** Where a ring meets the next edge lies between the ends of a capacitance and of the duties, too. */
const isInside = /^(C_r|D$)/

type Values = Readonly<Record<string, number>>

/** Both ends of an input; of a series resistance that is stated by its largest value alone, what it may be at least. */
function endsOf(name: string, input: Input): readonly [lower: number, upper: number] {
  const [lower, upper] = typeof input === 'object' ? [input.lower, input.upper] : [nominalOf(input), nominalOf(input)]
  return [lower === upper && name.startsWith('ESR') ? leastOfLargest * lower : lower, upper]
}

/** Boards at the ends of all that varies, each group of parts together, and at some shares of what lies inside. */
function cornersOf(inputs: InputSet, inside: readonly number[]): Values[] {
  const all = Object.entries(inputs).map(([name, input]) => ({ name, input, ends: endsOf(name, input) }))
  const start = Object.fromEntries(
    all.map(({ name, input, ends }) => [name, /^(L$|ESL)/.test(name) ? ends[1] : nominalOf(input)]),
  )
  return together.reduce<Values[]>(
    (corners, group) => {
      const free = all.filter(({ name, ends: [lower, upper] }) => group.test(name) && lower < upper)
      if (free.length === 0) return corners
      const shares = free.some(({ name }) => isInside.test(name)) ? inside : [0, 1]
      return shares.flatMap((share) => {
        const put = Object.fromEntries(
          free.map(({ name, ends: [lower, upper] }) => [name, lower + share * (upper - lower)]),
        )
        return corners.map((one) => ({ ...one, ...put }))
      })
    },
    [start],
  )
}
