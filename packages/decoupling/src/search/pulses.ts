import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { circuitOf } from '../rail/rail.js'
import { networkOf } from '../waveform/circuit.js'
import type { Plan } from './plan.js'

type Values = Readonly<Record<string, number>>
type Ends = { readonly from: number; readonly to: number }

/** How many places inside a range of frequencies are looked at, by equal factors, and inside one of duties, evenly. */
export const [frequenciesInside, dutiesInside] = [7, 11]
/** Parts of a resonance that are looked at, at most: 1/2, 1/3 of it and so on. */
const mostParts = 24
/** Time constants of a ring after which nothing of it meets the next edge. */
const gone = 5

/** Duties to look at: the ends and places between them. */
export function dutiesOf({ load: { pwm } }: ReadDecoupling): number[] {
  return pwm ? between(pwm.duty, dutiesInside, (from, to, share) => from + share * (to - from)) : []
}

/** Frequencies to look at by themselves: the ends and places between them. */
export function frequenciesOf({ load: { pwm } }: ReadDecoupling): number[] {
  return pwm ? between(pwm.frequency, frequenciesInside, (from, to, share) => from * (to / from) ** share) : []
}

function between(
  { from, to }: Ends,
  inside: number,
  place: (from: number, to: number, share: number) => number,
): number[] {
  if (from === to) return [from]
  return [from, ...Array.from({ length: inside }, (_, k) => place(from, to, (k + 1) / (inside + 1))), to]
}

/**
 * Frequencies at which pulses meet the ringing of a board again: each resonance with the load on and off, and those whole parts of it at
 * which a ring isn't gone within a period.
 */
export function resonancesOf(read: ReadDecoupling, board: Board): number[] {
  const { pwm } = read.load
  if (pwm === undefined) return []
  const { from, to } = pwm.frequency
  const c = circuitOf(read, board)
  const conductances = board.load.kind === 'resistor' ? [0, 1 / board.load.resistance] : [0]
  return conductances.flatMap((conductance) => {
    const { re, im } = networkOf(c, conductance, false).roots
    return im.flatMap((y, j) => {
      const own = Math.abs(y) / (2 * Math.PI)
      const parts = Math.min(mostParts, Math.floor((-gone * own) / re[j]!))
      return Array.from({ length: parts }, (_, n) => own / (n + 1)).filter((f) => f > from && f < to)
    })
  })
}

/** Sets of parts whose resonances lie furthest apart: all inductances and all capacitances at either end, the rest as it stands. */
export function loopsOf({ inputs }: Plan, at: Values): Values[] {
  const ended = (symbols: RegExp, end: 'lower' | 'upper'): Values =>
    Object.fromEntries(
      Object.entries(inputs).flatMap(([name, input]) =>
        symbols.test(name) && typeof input === 'object' ? [[name, input[end]]] : [],
      ),
    )
  const ends = ['lower', 'upper'] as const
  const all = ends.flatMap((l) => ends.map((c) => ({ ...at, ...ended(/^(L$|ESL)/, l), ...ended(/^C_r/, c) })))
  return [at, ...all]
}
