import { demandSpread, type Spread } from '@ohmward/quantity'
import { diodeRail } from '../formulas/diode.js'
import { resistorRail } from '../formulas/hold-up.js'
import { demandCelsius, demandObject, demandRail } from '../given.js'
import { spreadOf, sumOf } from '../spread-of.js'
import { atLeast, forwardOf } from './diode.js'
import type { ReadRail } from './fields.js'
import { type NotRegulated, type Regulated, regulate } from './regulator.js'

/** What hangs on a rail, and how warm it is there. */
export interface RailUse {
  /** Current of all that hangs on it, A. */
  readonly current: Spread
  /** Temperature of the board, degC. */
  readonly celsius: number
}

/** A rail at rest. */
export interface RailAt {
  readonly kind: 'possible'
  /** V */
  readonly voltage: Spread
  /** What the rail draws from the one that feeds it, A. */
  readonly inputCurrent: Spread
  /** More of a regulator; undefined for all others. */
  readonly regulator: Regulated | undefined
}

/**
 * A rail from the one that feeds it, both at rest: what a regulator, a diode or a resistor leaves of it. An emptied rail
 * is 0 V, never less.
 *
 * @param raw - rail that feeds it, V
 * @throws InputError where the rail is none, a voltage or current no spread, or the temperature no number
 */
export function railAt(rail: ReadRail, raw: Spread, use: RailUse): RailAt | NotRegulated {
  demandRail(rail)
  demandSpread(raw, 'raw')
  demandObject(use, 'use', 'current and celsius')
  const { current, celsius } = use
  demandSpread(current, 'current')
  demandCelsius(celsius)
  const { through } = rail
  const plain = { kind: 'possible', inputCurrent: current, regulator: undefined } as const
  switch (through.kind) {
    case 'direct':
      return { ...plain, voltage: raw }
    case 'diode': {
      const V_f = forwardOf(through, current, celsius)
      return { ...plain, voltage: atLeast(spreadOf(diodeRail, { V_raw: raw, V_f }), 0) }
    }
    case 'resistor': {
      const voltage = spreadOf(resistorRail, { V_raw: raw, I_log: current, R_iso: through.resistance })
      return { ...plain, voltage: atLeast(voltage, 0) }
    }
    case 'regulator': {
      const regulator = regulate(through, raw, current)
      if (regulator.kind === 'impossible') return regulator
      const inputCurrent = sumOf([current, through.quiescentCurrent])
      return { kind: 'possible', voltage: regulator.voltage, inputCurrent, regulator }
    }
  }
}
