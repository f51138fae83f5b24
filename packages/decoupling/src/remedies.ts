import { format } from '@ohmward/quantity'
import type { Board } from './board.js'
import { steadyCurrent, steadyRail } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import {
  allowedCurrent,
  allowedDuty,
  allowedPower,
  allowedResistor,
  allowedSource,
  holdUpCapacitance,
  neededCapacitance,
} from './formulas/index.js'
import type { RailLimit } from './margins.js'

/** A way out with its size, for the worst board. */
export interface Remedy {
  readonly id: string
  readonly name: string
  /** What it must be; `null` where it can't help. */
  readonly value: number | null
  readonly unit: string
  readonly sense: 'at least' | 'at most'
  /** What there is now, where it can be compared. */
  readonly present: number | null
  /** What it costs, or why it can't help. */
  readonly text: string
}

/** Currents and drops of a logic rail where none is stated: invented figures of usual size. */
const usual = { current: 5e-3, forwardVoltage: 0.35, burst: 10e-3 }

/** The remedies side by side, each sized on the worst board so that the rail just keeps the limit. */
export function remediesFor(read: ReadDecoupling, board: Board, limit: RailLimit): Remedy[] {
  const { source, load, idle } = board
  const V_rest = source.voltage - source.resistance * idle
  const V_low = limit.volts
  const R_s = source.resistance
  if (V_rest <= V_low) {
    const text = `The worst source rests at ${format(V_rest, 'V')}, below the limit already: stop earlier in the discharge, or lower the limit.`
    return [
      { id: 'stop-earlier', name: 'highest limit', value: V_rest, unit: 'V', sense: 'at most', present: V_low, text },
    ]
  }
  const I_end = steadyCurrent(read, board)
  const remedies: Remedy[] = []
  if (load.kind === 'current') {
    const value = allowedCurrent({ V_rest, V_low, R_s })
    const text = 'Less power, longer heating. A ramp alone does not help: it ends at the same sag.'
    remedies.push({
      id: 'less-current',
      name: 'load current',
      value,
      unit: 'A',
      sense: 'at most',
      present: load.current,
      text,
    })
    remedies.push(duty(read, { V_rest, V_low, R_s, I_step: load.current }))
  } else if (load.kind === 'resistor') {
    const value = allowedResistor({ V_rest, V_low, R_s })
    const text = 'Less power at every cell voltage, longer heating.'
    const present = load.resistance
    remedies.push({
      id: 'more-resistance',
      name: 'load resistance',
      value,
      unit: 'ohm',
      sense: 'at least',
      present,
      text,
    })
    // The mean current that the limit allows, over what the resistor draws there.
    remedies.push(duty(read, { V_rest, V_low, R_s, I_step: V_low / load.resistance }))
  } else {
    const value = V_low > V_rest / 2 ? allowedPower({ V_rest, V_low, R_s }) : (V_rest * V_rest) / (4 * R_s)
    const text = 'Less power, longer heating.'
    remedies.push({
      id: 'less-power',
      name: 'load power',
      value,
      unit: 'W',
      sense: 'at most',
      present: load.power,
      text,
    })
  }
  const R_max =
    load.kind === 'resistor'
      ? load.resistance * (V_rest / V_low - 1)
      : load.kind === 'power'
        ? (V_low * (V_rest - V_low)) / load.power
        : allowedSource({ V_rest, V_low, I_end })
  remedies.push({
    id: 'less-source',
    name: 'source resistance',
    value: R_max,
    unit: 'ohm',
    sense: 'at most',
    present: R_s,
    text: 'A cell for higher drain or two in parallel, wider copper, better contacts; also cold and aged.',
  })
  remedies.push(...isolation(read, board, V_rest, limit))
  const end = steadyRail(read, board)
  remedies.push({
    id: 'lower-limit',
    name: limitName(limit),
    value: end > 0 ? end : null,
    unit: 'V',
    sense: 'at most',
    present: V_low,
    text:
      end > 0
        ? 'A lower brown-out level or a part for a lower supply; the clock must allow it.'
        : 'No limit helps: the rail collapses.',
  })
  remedies.push({
    id: 'boost',
    name: 'boost converter for the logic',
    value: null,
    unit: '1',
    sense: 'at least',
    present: null,
    text: 'Holds the logic through any sag that it starts from; noise, parts, and current drawn at rest.',
  })
  return remedies
}

const limitName = ({ name }: RailLimit) => (name === 'brownOut' ? 'brown-out level, largest' : `minimum of the ${name}`)

function duty(read: ReadDecoupling, x: { V_rest: number; V_low: number; R_s: number; I_step: number }): Remedy {
  const D = Math.min(1, allowedDuty(x))
  const text =
    'PWM with a capacitor that carries the period: the mean sag counts, the ripple comes on top; the capacitor must bear the ripple current.'
  return {
    id: 'less-duty',
    name: 'duty',
    value: D,
    unit: '1',
    sense: 'at most',
    present: read.load.pwm?.duty ?? 1,
    text,
  }
}

function isolation(read: ReadDecoupling, board: Board, V_rest: number, { volts }: RailLimit): Remedy[] {
  const { logicRail, load } = read
  const I_mcu = board.logic.current || usual.current
  const V_f = logicRail?.behind === 'diode' ? board.forwardVoltage : usual.forwardVoltage
  const head = V_rest - V_f - volts
  const isEndless = load.duration === Number.POSITIVE_INFINITY
  const t_on = load.pwm ? 1 / load.pwm.frequency : isEndless ? usual.burst : load.duration + load.fall
  const endless =
    isEndless && !load.pwm ? ` Sized for each ${format(usual.burst, 's')} of load: it holds no step that stays.` : ''
  const costs = `Breaks ratiometry between logic and raw rail, and pins from the raw rail stand above the logic rail by the diode's drop.${endless}`
  const text =
    head > 0
      ? `At ${format(I_mcu, 'A')} and ${format(V_f, 'V')} of diode. ${costs}`
      : `The diode's ${format(V_f, 'V')} alone takes more than the worst source has above the limit.`
  const diode: Remedy = {
    id: 'diode',
    name: 'hold-up capacitor behind a diode',
    value: head > 0 ? holdUpCapacitance({ I_mcu, t_on, V_rest, V_f, V_low: volts }) : null,
    unit: 'F',
    sense: 'at least',
    present: logicRail?.behind === 'diode' ? board.logic.capacitance : null,
    text,
  }
  return [diode, resistor(read, board, V_rest, volts, I_mcu, t_on, endless)]
}

/** A resistor that takes a third of the room, and the capacitor with which the rest lasts. */
function resistor(
  read: ReadDecoupling,
  board: Board,
  V_rest: number,
  volts: number,
  I_mcu: number,
  t_on: number,
  endless: string,
): Remedy {
  const room = V_rest - volts
  const R_iso = room / 3 / I_mcu
  const sag = V_rest - steadyRail(read, board)
  const left = (room * 2) / 3
  const C = sag > left ? t_on / (R_iso * -Math.log(1 - left / sag)) : 0
  return {
    id: 'resistor',
    name: 'capacitor behind a resistor',
    value: C,
    unit: 'F',
    sense: 'at least',
    present: read.logicRail?.behind === 'resistor' ? board.logic.capacitance : null,
    text: `With ${format(R_iso, 'ohm', { digits: 2 })} at ${format(I_mcu, 'A')}; a peak of current drops more across it.${endless}`,
  }
}

/**
 * Capacitance that a burst needs on the worst board, its series resistance staying: `null` where no capacitance is enough,
 * 0 where none is needed. A constant current at the steady sag's size, no inductance.
 */
export function capacitanceFor(read: ReadDecoupling, board: Board, { volts }: RailLimit): number | null {
  const { source, idle, branches } = board
  const V_rest = source.voltage - source.resistance * idle
  const R_s = source.resistance
  const V_drop = V_rest - volts
  const I_step = (V_rest - steadyRail(read, board)) / R_s
  if (I_step * R_s <= V_drop) return 0
  const G = branches.reduce((sum, { resistance }) => sum + 1 / resistance, 0)
  const ESR = Number.isFinite(G) ? 1 / G : 0
  const { duration, pwm } = read.load
  if (V_drop <= 0 || (I_step * R_s * ESR) / (R_s + ESR) >= V_drop) return null
  if (duration === Number.POSITIVE_INFINITY && !pwm) return null
  const t_on = pwm ? pwm.duty / pwm.frequency : duration
  return neededCapacitance({ t_on, R_s, ESR, I_step, V_drop })
}
