import { between, exact, type Spread } from '@ohmward/quantity'
import { demandReadLoad, demandSource } from '../given.js'
import { cornerOf, type SourceAt, type SourceCorner } from './at.js'
import type { ReadLoad } from './load.js'
import { type LoadCorner, type Solved, solveLoad, type Unsolved } from './solve.js'

/** What a load draws over all tolerances: true extremes. */
export interface Fed {
  readonly kind: 'possible'
  /** Current while it is on, A. */
  readonly current: Spread
  /** Mean current, A. */
  readonly mean: Spread
  /** Rail while it is on, V. */
  readonly rail: Spread
  /** Mean power in the load, W. */
  readonly power: Spread
  /** Whether a source within its tolerance holds its current at its limit. */
  readonly mayLimit: boolean
}

/**
 * What a load draws from a source over all tolerances of both, or why a source within its tolerance can't feed it. Pitfalls
 * K01, K02.
 *
 * @throws InputError where the source or the load is none
 */
export function feed(source: SourceAt, load: ReadLoad): Fed | Unsolved {
  demandSource(source)
  demandReadLoad(load)
  const all: Solved[] = []
  for (const corner of corners(source)) {
    for (const one of loadsAt(load, corner)) {
      const answer = solveLoad(corner, one)
      if (answer.kind === 'impossible') return answer
      all.push(answer)
    }
  }
  const middle = solveLoad(cornerOf(source, 'nominal'), nominalOf(load))
  if (middle.kind === 'impossible') return middle
  const over = (key: 'current' | 'mean' | 'rail' | 'power'): Spread => {
    const values = [middle, ...all].map((one) => one[key])
    const [lower, upper] = [Math.min(...values), Math.max(...values)]
    return lower === upper ? exact(lower) : between(lower, upper, middle[key])
  }
  return {
    kind: 'possible',
    current: over('current'),
    mean: over('mean'),
    rail: over('rail'),
    power: over('power'),
    mayLimit: all.some(({ isLimited }) => isLimited),
  }
}

/** Every corner of a source, the weakest first: it says most plainly what can't be fed. */
function corners({ openCircuit, resistance, currentLimit }: SourceAt): SourceCorner[] {
  const found: SourceCorner[] = []
  for (const V_oc of ends(openCircuit)) {
    for (const R_s of ends(resistance).reverse()) {
      if (currentLimit === undefined) found.push({ V_oc, R_s })
      else for (const I_lim of ends(currentLimit)) found.push({ V_oc, R_s, I_lim })
    }
  }
  return found
}

/**
 * The ends of a load's tolerance, and of a resistance where in between its power is largest: matched to the source, and at
 * the knee of a current limit.
 */
function loadsAt(load: ReadLoad, { V_oc, R_s, I_lim }: SourceCorner): LoadCorner[] {
  switch (load.kind) {
    case 'power':
      return ends(load.power).map((P_L) => ({ kind: 'power', P_L }))
    case 'current':
      return ends(load.current).map((I_set) => ({ kind: 'current', I_set }))
    default: {
      const { resistance } = load
      const inside = [R_s, ...(I_lim === undefined ? [] : [V_oc / I_lim - R_s])]
      const tried = [...ends(resistance), ...inside.filter((R) => R > resistance.lower && R < resistance.upper)]
      if (load.kind === 'resistance') return tried.map((R_L) => ({ kind: 'resistance', R_L }))
      return tried.flatMap((R_L) => ends(load.duty).map((d_on) => ({ kind: 'pwm' as const, R_L, d_on })))
    }
  }
}

function nominalOf(load: ReadLoad): LoadCorner {
  switch (load.kind) {
    case 'power':
      return { kind: 'power', P_L: load.power.nominal }
    case 'current':
      return { kind: 'current', I_set: load.current.nominal }
    case 'resistance':
      return { kind: 'resistance', R_L: load.resistance.nominal }
    case 'pwm':
      return { kind: 'pwm', R_L: load.resistance.nominal, d_on: load.duty.nominal }
  }
}

const ends = ({ lower, upper }: Spread): number[] => (lower === upper ? [lower] : [lower, upper])
