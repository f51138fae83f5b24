import { between, demand, demandFinite, demandSpread, exact, type Spread } from '@ohmward/quantity'
import { diodeRail } from '../formulas/diode.js'
import { filteredRail, heldRail, holdUpNeeded, repeatedRail, resistorRail } from '../formulas/hold-up.js'
import { demandCelsius, demandObject, demandRail, demandThrough } from '../given.js'
import { spreadOf, sumOf } from '../spread-of.js'
import { atLeast, forwardOf } from './diode.js'
import type { Diode, ReadRail, Resistor } from './fields.js'
import { railAt } from './rail.js'
import { droopOf, type NotRegulated } from './regulator.js'

/** A time in which the raw rail sags. */
export interface Sag {
  /** Raw rail before, at rest, V. */
  readonly rest: Spread
  /** Raw rail while it sags: its lowest, V. */
  readonly sag: Spread
  /** How long: the whole burst where the sag stays, s. */
  readonly time: Spread
  /** Mean current of the rail in that time, A. */
  readonly current: Spread
  /** Largest current of the rail, as of a radio or a display, A; the mean by default. */
  readonly peak?: Spread
  /** Largest step of its current, to which a regulator answers late, A; none by default. */
  readonly step?: Spread
  /** Time from one sag to the next, at least, where they follow each other, s: a rail behind a resistor had come back before, by default. */
  readonly pause?: Spread
  readonly celsius: number
}

/** The lowest voltage of a rail while the raw rail sags. */
export interface Held {
  readonly kind: 'possible'
  /** V */
  readonly voltage: Spread
}

/**
 * The lowest voltage of a rail while the raw rail sags for a time: what its capacitor holds behind a diode, what a
 * resistor filters, what a regulator makes of the sagged rail (its output capacitor counts nothing: it empties backwards
 * through the pass transistor). Limits are on the safe side. Pitfalls J05, J06, J07.
 *
 * @throws InputError where the rail is none, or a field of the sag no spread
 */
export function heldThrough(rail: ReadRail, sag: Sag): Held | NotRegulated {
  demandRail(rail)
  demandSag(sag)
  demandSpread(sag.sag, 'sag.sag')
  const { through } = rail
  if (through.kind === 'diode') return { kind: 'possible', voltage: behindDiode(through, sag) }
  if (through.kind === 'resistor') return { kind: 'possible', voltage: behindResistor(through, sag) }
  const current = sag.peak ?? sag.current
  const at = railAt(rail, sag.sag, { current, celsius: sag.celsius })
  if (at.kind === 'impossible') return at
  if (through.kind === 'direct' || sag.step === undefined) return { kind: 'possible', voltage: at.voltage }
  const droop = droopOf(through, sag.step)
  return { kind: 'possible', voltage: atLeast(minus(at.voltage, droop), 0) }
}

function demandSag(sag: Omit<Sag, 'sag'>): void {
  demandObject(sag, 'sag', 'rest, sag, time, current and celsius')
  for (const key of ['rest', 'time', 'current'] as const) demandSpread(sag[key], `sag.${key}`)
  if (sag.peak !== undefined) demandSpread(sag.peak, 'sag.peak')
  if (sag.step !== undefined) demandSpread(sag.step, 'sag.step')
  const { lower } = sag.time
  demand(lower >= 0, { field: 'sag.time', value: lower, unit: 's', allowed: '0 s or more' })
  if (sag.pause !== undefined) {
    demandSpread(sag.pause, 'sag.pause')
    const { lower: value } = sag.pause
    demand(value >= 0 && lower > 0, {
      field: 'sag.pause',
      value,
      unit: 's',
      allowed: lower > 0 ? '0 s or more' : 'nothing with a sag of no duration',
    })
  }
  demandCelsius(sag.celsius, 'sag.celsius')
}

/** The capacitor alone carries the rail, until it has fallen to where the sagged rail feeds it again. */
function behindDiode(diode: Diode, { rest, sag, time, current, peak = current, celsius }: Sag): Spread {
  const V_f = forwardOf(diode, peak, celsius)
  const V_log = spreadOf(diodeRail, { V_raw: rest, V_f })
  const drain = sumOf([current, diode.reverseLeakage])
  const held = spreadOf(heldRail, { V_log, I_log: drain, t_sag: time, C_h: diode.capacitance })
  const fed = spreadOf(diodeRail, { V_raw: sag, V_f })
  const higher = (key: 'lower' | 'nominal' | 'upper') => Math.max(held[key], fed[key], 0)
  return spread(higher('lower'), higher('nominal'), higher('upper'))
}

/**
 * A larger resistor filters more and drops more: the two are taken each at its worst, so that the lower limit is on the
 * safe side wherever the worst resistor lies.
 */
function behindResistor(resistor: Resistor, { rest, sag, time, pause, current, peak = current }: Sag): Spread {
  const { resistance: R_iso, capacitance: C_h } = resistor
  const step = { V_sag: sag, I_log: 0, R_iso, V_rest: rest, t_sag: time, C_h }
  const filtered = pause ? spreadOf(repeatedRail, { ...step, t_off: pause }) : spreadOf(filteredRail, step)
  const dropped = spreadOf(resistorRail, { V_raw: filtered, I_log: peak, R_iso })
  return atLeast(dropped, 0)
}

/**
 * Capacitor that holds a rail behind a diode over a sag, nothing lost of it, F; `null` where the diode alone takes more
 * than there is. Pitfall J05.
 *
 * @param least - voltage that the rail must keep, its largest value, V
 * @throws InputError where the diode is none, or a field of the sag no spread
 */
export function holdUpFor(diode: Diode, sag: Omit<Sag, 'sag'>, least: number): number | null {
  demandThrough(diode, 'diode')
  demandSag(sag)
  demandFinite('least', least)
  const { rest, time, current, peak = current, celsius } = sag
  const V_log = spreadOf(diodeRail, { V_raw: rest, V_f: forwardOf(diode, peak, celsius) }).lower
  if (V_log <= least) return null
  const I_log = sumOf([current, diode.reverseLeakage]).upper
  return holdUpNeeded({ I_log, t_sag: time.upper, V_log, V_least: least })
}

const minus = (a: Spread, b: Spread): Spread => spread(a.lower - b.upper, a.nominal - b.nominal, a.upper - b.lower)

const spread = (lower: number, nominal: number, upper: number): Spread =>
  lower === upper ? exact(lower) : between(lower, upper, nominal)
