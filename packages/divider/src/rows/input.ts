import type { BlockRow } from '@ohmward/budget'
import { neededProtection } from '../formulas/index.js'
import type { RowContext } from './context.js'

/** Usual clamp: a diode's drop above the supply, and the current that an input stands. */
const clamp = { V_clamp: 0.3, I_clamp: 1e-3 }

/** Whether the amplifier's inputs and supply stay within what it is specified for, and its pins survive. */
export function inputRows({ choice, reading }: RowContext): BlockRow[] {
  const { amplifier: a, surroundings: s, topology, rail } = choice
  const { from, to } = choice.load
  const isGrounded = topology === 'load at ground'
  const series = isGrounded ? s.protectionResistance : choice.gainResistors.ground
  const input = isGrounded ? 'V_x' : 'V_cm'
  const rows: BlockRow[] = [
    {
      kind: 'limit',
      id: 'common-mode-high',
      name: 'inputs below the highest allowed',
      unit: 'V',
      sense: 'at most',
      reading,
      at: { R_x: to },
      value: (y) => y[input]!,
      limit: (y) => y['V_amp']! - a.commonModeHighDrop.upper,
      catches: ['A05'],
    },
    {
      kind: 'limit',
      id: 'common-mode-low',
      name: 'inputs above the lowest allowed',
      unit: 'V',
      sense: 'at least',
      reading,
      at: { R_x: from },
      value: input,
      limit: a.commonModeLow.upper,
      catches: ['A05'],
    },
    {
      kind: 'limit',
      id: 'supply-low',
      name: 'amplifier above its lowest supply',
      unit: 'V',
      sense: 'at least',
      reading,
      value: 'V_amp',
      limit: a.supplyMinimum.upper,
      catches: ['A01'],
    },
    {
      kind: 'limit',
      id: 'supply-high',
      name: 'amplifier below its highest supply',
      unit: 'V',
      sense: 'at most',
      reading,
      value: 'V_amp',
      limit: a.supplyMaximum.lower,
      catches: [],
    },
    {
      kind: 'plain',
      id: 'undershoot',
      name: 'series resistance against edges below ground',
      unit: 'ohm',
      sense: 'at least',
      worst: series.lower,
      limit: neededProtection({ V_over: s.undershoot.upper, ...clamp }),
      catches: ['A06'],
    },
  ]
  if (choice.amplifierSupply) {
    const { lower, upper } = choice.amplifierSupply
    rows.push(
      {
        kind: 'plain',
        id: 'driven',
        name: 'series resistance while the load is driven',
        unit: 'ohm',
        sense: 'at least',
        worst: series.lower,
        limit: neededProtection({ V_over: Math.max(rail.to - lower, 0), ...clamp }),
        catches: ['A07'],
      },
      {
        kind: 'plain',
        id: 'pin',
        name: "series resistance before the converter's pin",
        unit: 'ohm',
        sense: 'at least',
        worst: choice.timing.filterResistance.lower,
        limit: neededProtection({ V_over: Math.max(upper - rail.from, 0), ...clamp }),
        catches: ['A07'],
      },
    )
  }
  return rows
}
