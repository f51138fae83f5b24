import { type BlockRow, furthestStation, type Told, type Values } from '@ohmward/budget'
import {
  countResistance,
  indicatedFromRail,
  indicatedShare,
  meanDissipation,
  ratioShift,
  referenceCurrent,
} from '../formulas/index.js'
import { allowedShare, heldLoads } from './allowed.js'
import type { RowContext } from './context.js'

/** A formula of a reading's values, asked beside the chain. */
const told =
  <X>(f: (x: X) => number): Told =>
  (y) =>
    f(y as X)

/** Step of the indicated resistance from one code to the next, load at the rail. */
function countAtRail(y: Values<string>): number {
  const next = { ...y, code_out: y['code_out']! + 1 } as Parameters<typeof indicatedShare>[0]
  const r = indicatedShare(next)
  return indicatedFromRail({ ...y, r } as Parameters<typeof indicatedFromRail>[0]) - y['R_ind']!
}

/** Dissipation of the reference resistor, warm, at what flows in it: with the load at the rail not all of the test current. */
const dissipation =
  (isGrounded: boolean): Told =>
  (y) => {
    const x = y as Parameters<typeof referenceCurrent>[0] & { I_t: number; R_warm: number; d_m: number }
    return meanDissipation({ I_r: isGrounded ? x.I_t : referenceCurrent(x), R_warm: x.R_warm, d_m: x.d_m })
  }

/** The loop of excitation, reference resistor and load: resolution, current, heat, and what it is measured against. */
export function loopRows({ choice, reading }: RowContext): BlockRow[] {
  const { load, referencePart, excitationSwitch, reference, topology } = choice
  const { from } = load
  const burden = ({ R_x, allowed }: { R_x: number; allowed: number }) => (1 + R_x / reference.nominal) ** 2 / allowed
  const coarsest = heldLoads(choice).reduce((a, b) => (burden(a) > burden(b) ? a : b))
  return [
    {
      kind: 'limit',
      id: 'resolution',
      name: 'resistance per count',
      unit: 'ohm',
      sense: 'at most',
      reading,
      at: { R_x: coarsest.R_x },
      value: topology === 'load at ground' ? told(countResistance) : countAtRail,
      limit: coarsest.allowed / 2,
      catches: ['B01'],
    },
    {
      kind: 'limit',
      id: 'test-current',
      name: 'test current',
      unit: 'A',
      sense: 'at most',
      reading,
      at: { R_x: from },
      value: 'I_t',
      limit: Math.min(excitationSwitch.currentLimit.lower, load.currentLimit ?? Infinity),
      catches: ['B07'],
    },
    {
      kind: 'limit',
      id: 'dissipation',
      name: 'mean dissipation of the reference resistor',
      unit: 'W',
      sense: 'at most',
      reading,
      at: { R_x: from },
      value: dissipation(topology === 'load at ground'),
      limit: referencePart.ratedPower.lower / 2,
      catches: ['B07'],
    },
    ...ratioRow({ choice, reading }),
  ]
}

/** Excitation against reference, where they aren't one node. */
function ratioRow({ choice, reading }: Pick<RowContext, 'choice' | 'reading'>): BlockRow[] {
  const { excitation, isOneNode, converter, load } = choice
  const limit = allowedShare(choice)
  if (isOneNode || (excitation === undefined && converter.reference.kind !== 'absolute') || !Number.isFinite(limit))
    return []
  const { to } = load
  const { inputs, conditions, row } = reading
  const { extremes } = furthestStation(
    { inputs: { ...inputs, R_x: to }, row, conditions },
    (x) => ratioShift(x as Parameters<typeof ratioShift>[0]),
    0,
  )
  return [
    {
      kind: 'plain',
      id: 'ratio',
      name: 'excitation to reference, against the nominal ratio',
      unit: '1',
      sense: 'at most',
      worst: Math.max(-extremes.lower, extremes.upper),
      limit,
      catches: ['B08', 'D05'],
    },
  ]
}
