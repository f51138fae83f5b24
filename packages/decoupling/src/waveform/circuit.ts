import { merged, type Solved, solve } from './modes/network.js'
import type { Branch } from './modes/parts.js'
import { reals } from './modes/reals.js'
import type { State } from './piece.js'

/** The feeding side: a cell with its power path, or a supply that holds its current at a limit. SI units. */
export interface Source {
  /** Open-circuit voltage. */
  readonly voltage: number
  /** All resistance from the open-circuit voltage to the rail. */
  readonly resistance: number
  /** Inductance of the loop; not used with a current limit. */
  readonly inductance: number
  /** Largest current that the source gives; absent where only its resistance limits it. */
  readonly currentLimit?: number
}

/** What is switched: a constant current, a resistor, or a constant power. SI units. */
export type Load =
  | { readonly kind: 'current'; readonly current: number }
  | { readonly kind: 'resistor'; readonly resistance: number }
  | { readonly kind: 'power'; readonly power: number }

/** A load that is linear while it is on. */
export type LinearLoad = Exclude<Load, { readonly kind: 'power' }>

/** A load switched again and again. */
export interface Pwm {
  /** Hz */
  readonly frequency: number
  /** Share of the period from the beginning of the rise to the beginning of the fall, more than 0, less than 1. */
  readonly duty: number
  /** Rise and fall time of the load current in a straight line, s. */
  readonly rise: number
  readonly fall: number
}

/** A rail with its capacitors and the current that is drawn all the time. */
export interface Circuit {
  readonly source: Source
  /** Branches as acting, equal time constants merged. */
  readonly branches: readonly Branch[]
  /** Place of the caller's capacitor k in `branches`, and its part of that branch's current. */
  readonly group: readonly number[]
  readonly share: readonly number[]
  /** Current drawn before, during and after the step. */
  readonly idle: number
  /**
   * Rail voltage above which the source leaves its current limit, and below which it is at it where the loop has no inductance; minus
   * infinity without a limit.
   */
  readonly knee: number
  /** Whether nothing but inductances meets at the rail: then a current can't jump, and a rise time is needed. */
  readonly isInductive: boolean
  /** Networks solved so far. */
  readonly solved: Solved[]
}

/**
 * A circuit from its parts. With a current limit or a constant-power load (`plain`) the inductances of the capacitors are left
 * out, that of the loop never.
 */
export function circuit(source: Source, capacitors: readonly Branch[], idle: number, plain = false): Circuit {
  const isLimited = source.currentLimit !== undefined
  const { list, group, share } = merged(
    plain || isLimited ? capacitors.map((b) => ({ ...b, inductance: 0 })) : capacitors,
  )
  return {
    source,
    branches: list,
    group,
    share,
    idle,
    knee: isLimited ? source.voltage - source.currentLimit! * source.resistance : Number.NEGATIVE_INFINITY,
    isInductive: !isLimited && source.inductance > 0 && list.every((b) => b.inductance > 0),
    solved: [],
  }
}

/** The circuit's network with a conductance to ground, at its current limit or not; solved at the first call. */
export function networkOf(c: Circuit, conductance: number, isLimited: boolean): Solved {
  for (const one of c.solved) {
    if (one.network.conductance === conductance && 'current' in one.network.feed === isLimited) return one
  }
  const { source, branches } = c
  const solved = solve({ feed: isLimited ? { current: source.currentLimit! } : source, branches, conductance })
  c.solved.push(solved)
  return solved
}

/** The circuit at rest with only the idle current drawn. */
export function restState(c: Circuit): State {
  const rail = c.source.voltage - c.source.resistance * c.idle
  const n = c.branches.length
  const voltages = reals(n)
  const currents = reals(n)
  for (let k = 0; k < n; k++) {
    voltages[k] = rail
    currents[k] = 0
  }
  return { rail, source: c.idle, voltages, currents }
}
