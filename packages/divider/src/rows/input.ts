import type { BlockRow, Reading } from '@ohmward/budget'
import { differencePin, inputPin, neededProtection } from '../formulas/index.js'
import type { RowContext } from './context.js'

/** Usual clamp: a diode's drop above the supply, and the current that an input stands. */
const clamp = { V_clamp: 0.3, I_clamp: 1e-3 }

/** A reading that tells the voltage of the non-inverting input's pin too: currents move it away from the sense point. */
function pinOf(reading: Reading, isGrounded: boolean): Reading {
  const currents = (y: Values) => ({ I_b: y['I_b']!, I_os: y['I_os']! })
  const voltage = (y: Values) =>
    isGrounded
      ? inputPin({ V_x: y['V_x']!, ...currents(y), I_leak: y['I_leak']!, R_p: y['R_p']! })
      : differencePin({ V_cm: y['V_cm']!, ...currents(y), R_a: y['R_a']!, R_b: y['R_b']! })
  const seen = { V_pos: 0, V_amp: 0 }
  return {
    ...reading,
    formulas: [...reading.formulas, isGrounded ? inputPin : differencePin],
    follow: (x) => {
      const y = reading.follow(x)
      seen.V_pos = voltage(y)
      seen.V_amp = y['V_amp']!
      return seen
    },
  }
}

type Values = Readonly<Record<string, number>>

/** Whether the amplifier's inputs and supply stay within what it is specified for, and its pins survive. */
export function inputRows({ choice, reading }: RowContext): BlockRow[] {
  const { amplifier: a, surroundings: s, topology, rail } = choice
  const { from, to } = choice.load
  const isGrounded = topology === 'load at ground'
  const series = isGrounded ? s.protectionResistance : choice.gainResistors.ground
  const pin = pinOf(reading, isGrounded)
  const rows: BlockRow[] = [
    {
      kind: 'limit',
      id: 'common-mode-high',
      name: 'highest input voltage',
      unit: 'V',
      sense: 'at most',
      reading: pin,
      at: { R_x: to },
      value: 'V_pos',
      limit: (y) => y['V_amp']! - a.commonModeHighDrop.upper,
      catches: ['A05'],
    },
    {
      kind: 'limit',
      id: 'common-mode-low',
      name: 'lowest input voltage',
      unit: 'V',
      sense: 'at least',
      reading: pin,
      at: { R_x: from },
      value: 'V_pos',
      limit: a.commonModeLow.upper,
      catches: ['A05'],
    },
    {
      kind: 'limit',
      id: 'supply-low',
      name: 'lowest amplifier supply',
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
      name: 'highest amplifier supply',
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
      name: 'series resistance against undershoot',
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
