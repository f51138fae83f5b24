import { demandNumber, demandNumbers, type Input, nominalOf } from '@ohmward/quantity'
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
import { foundIn, type SampledRail, type Sampling } from './in-pulse.js'
import { circuitOf } from './rail.js'
import { restOf } from './steady.js'

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
  const { result, isOpen } = effort.watch(allowance, () =>
    cornersOf(inputs).flatMap((values) => {
      const board = boards.make(names.map((name) => values[name]!))
      const { pwm, load, source, branches, idle } = board
      const key = JSON.stringify([pwm, load, source.resistance, branches, idle])
      if (pwm === undefined || load.kind !== 'resistor' || seen.has(key) || allowance.left < 0) return []
      seen.add(key)
      const c = circuitOf(read, board)
      return pulsesOf(c, load, pwm).flatMap((pieces) => foundIn(pieces, restOf(board), sampling) ?? [])
    }),
  )
  if (isOpen || allowance.left < 0 || result.length === 0) return undefined
  const over = (key: keyof SampledRail, pick: typeof Math.min) => pick(...result.map((one) => one[key]))
  return {
    lowest: over('lowest', Math.min),
    highest: over('highest', Math.max),
    below: over('below', Math.max),
    above: over('above', Math.max),
    share: over('share', Math.max),
    least: over('least', Math.min),
    most: over('most', Math.max),
    mean: over('mean', Math.min),
  }
}

function demandSampling(sampling: Sampling): void {
  const seconds = { unit: 's', min: 0, max: 1e9 } as const
  demandNumbers(sampling, 'sampling', { after: seconds, lag: seconds })
  const { until } = sampling
  if (until !== undefined && until !== Number.POSITIVE_INFINITY)
    demandNumber(until, { ...seconds, field: 'sampling.until' })
}

/** The first pulses from rest, and one of those that all are alike. */
function pulsesOf(c: Circuit, load: Load & { readonly kind: 'resistor' }, pwm: Pwm): (readonly Placed[])[] {
  const list: (readonly Placed[])[] = []
  let state = restState(c)
  const steady = respondToPwm(c, load, pwm)
  if (steady !== null) list.push(steady.pieces)
  for (let k = 0; k < pulses; k++) {
    const next = period(c, state, load, pwm)
    if (next === null) break
    list.push(next.pieces)
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
]

/** Where a ring meets the next pulse lies between the ends of a capacitance, too. */
const isInside = /^C_r/

type Values = Readonly<Record<string, number>>

/** Both ends of an input; of a series resistance that is stated by its largest value alone, what it may be at least. */
function endsOf(name: string, input: Input): readonly [lower: number, upper: number] {
  const [lower, upper] = typeof input === 'object' ? [input.lower, input.upper] : [nominalOf(input), nominalOf(input)]
  return [lower === upper && name.startsWith('ESR') ? leastOfLargest * lower : lower, upper]
}

/** Boards at the ends of all that varies, each group of parts together. */
function cornersOf(inputs: InputSet): Values[] {
  const all = Object.entries(inputs).map(([name, input]) => ({ name, input, ends: endsOf(name, input) }))
  const start = Object.fromEntries(
    all.map(({ name, input, ends }) => [name, /^(L$|ESL)/.test(name) ? ends[1] : nominalOf(input)]),
  )
  return together.reduce<Values[]>(
    (corners, group) => {
      const free = all.filter(({ name, ends: [lower, upper] }) => group.test(name) && lower < upper)
      if (free.length === 0) return corners
      const shares = free.some(({ name }) => isInside.test(name)) ? [0, 0.5, 1] : [0, 1]
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
