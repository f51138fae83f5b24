import {
  demand,
  demandFinite,
  demandNumber,
  demandNumbers,
  type FieldSpec,
  readRecord,
  record,
} from '@ohmward/quantity'
import {
  type Bursts,
  burstImpedance as bareBurstImpedance,
  impedanceAt as bareImpedanceAt,
  type ImpedancePoint,
} from '../datasheet/impedance.js'
import { lawField } from '../datasheet/read-law.js'
import { lawOf as bareLawOf, type Law, type LawText } from './law.js'
import {
  currentAt as bareCurrentAt,
  runawayDistance as bareRunawayDistance,
  type HeldLoss,
  type RunawayDistance,
} from './runaway.js'
import { type Balance, lossAt as bareLossAt, solveJunction as bareSolveJunction, type Junction } from './solve.js'

/*
 * What exported functions of the junction are given: looked at where a user calls them. Inside they are called a million times
 * with what was read.
 */

type Limits = Omit<FieldSpec, 'field'>

/** No zero where it is divided by. */
const tiny = 1e-12

const heat: Readonly<Record<'T_a' | 'R_th' | 'P_0' | 'D' | 'R_on', Limits>> = {
  T_a: { unit: 'degC', min: -273.15, max: 1000 },
  R_th: { unit: 'K/W', min: tiny, max: 1e6 },
  P_0: { unit: 'W', min: 0, max: 1e6 },
  D: { unit: '1', min: 0, max: 1 },
  R_on: { unit: 'ohm', min: tiny, max: 1e6 },
}
const balanced: Readonly<Record<'V' | 'r' | 'k', Limits>> = {
  V: { unit: 'V', min: 0, max: 1e6 },
  r: { unit: 'ohm', min: 0, max: 1e9 },
  k: { unit: '1', min: 0, max: 1 },
}
const held: Readonly<Record<'s', Limits>> = { s: { unit: 'V', min: 0, max: 1e6 } }
const celsiusLimits: Limits = { unit: 'degC', min: -273.15, max: 1000 }

const lawRecord = /*#__PURE__*/ record({ law: lawField })
const laws = /*#__PURE__*/ new WeakSet<object>()

/** A law of how the on-resistance goes with temperature, ready to compute with. @throws InputError naming the field of its text */
export function lawOf(text: LawText): Law {
  const law = bareLawOf(readRecord(lawRecord, { law: text }, 'law').law)
  laws.add(law)
  return law
}

/**
 * Junction temperature in balance, `T = T_a + R_th P(T)`: the lowest root, or runaway with its reason.
 *
 * @throws InputError where a number isn't allowed, or the law is none
 */
export function solveJunction(balance: Balance, law: Law): Junction {
  demandBalance(balance)
  demandLaw(law)
  return bareSolveJunction(balance, law)
}

/** Loss of one device with its junction at `celsius`, W. @throws InputError where a number isn't allowed, or the law is none */
export function lossAt(balance: Balance, law: Law, celsius: number): number {
  demandBalance(balance)
  demandLaw(law)
  demandNumber(celsius, { ...celsiusLimits, field: 'celsius' })
  return bareLossAt(balance, law, celsius)
}

/**
 * Current of one device that brings its junction to `celsius`, A: the curve of junction against current, turned.
 * 0 where the constant loss alone heats more, `Infinity` where the current doesn't heat (`D` and `s` 0).
 *
 * @throws InputError where a number isn't allowed, or the law is none
 */
export function currentAt(loss: HeldLoss, law: Law, celsius: number): number {
  demandNumbers(loss, 'loss', { ...heat, ...held })
  demandLaw(law)
  demandNumber(celsius, { ...celsiusLimits, field: 'celsius' })
  return bareCurrentAt(loss, law, celsius)
}

/**
 * Where the law has no balance any more: the largest current and the largest thermal resistance over all junction
 * temperatures. A linear law and the end of a curve of points give an asymptote; a power law ends at a finite
 * temperature, earlier.
 *
 * @param I - current of one device at which the thermal resistance is asked for, A
 * @throws InputError where a number isn't allowed, or the law is none
 */
export function runawayDistance(loss: HeldLoss, law: Law, I: number): RunawayDistance {
  demandNumbers(loss, 'loss', { ...heat, ...held })
  demandLaw(law)
  demandNumber(I, { field: 'I', unit: 'A', min: tiny, max: 1e6 })
  return bareRunawayDistance(loss, law, I)
}

/**
 * Transient thermal impedance after `seconds` of constant power, K/W: straight in both logarithms between the points; before
 * the first with the root of time, after the last as it is.
 *
 * @throws InputError where the points are none, or don't rise in time
 */
export function impedanceAt(points: readonly ImpedancePoint[], seconds: number): number {
  demandPoints(points)
  demandFinite('seconds', seconds)
  return bareImpedanceAt(points, seconds)
}

/**
 * Effective impedance at the end of the last of repeated bursts, K/W: each burst is a step up and a later step down, and
 * steps add (superposition in a linear thermal path).
 *
 * @throws InputError where the points are none, or a burst is longer than its period
 */
export function burstImpedance(points: readonly ImpedancePoint[], bursts: Bursts): number {
  demandPoints(points)
  demandNumbers(bursts, 'bursts', {
    on: { unit: 's', min: tiny, max: 1e12 },
    period: { unit: 's', min: tiny, max: 1e12 },
    count: { unit: '1', min: 1, max: 1e12 },
  })
  const { on, period, count } = bursts
  demand(Number.isInteger(count), { field: 'bursts.count', value: count, allowed: 'a whole number of 1 or more' })
  demand(period >= on, { field: 'bursts.period', value: period, unit: 's', allowed: `${on} s or more` })
  return bareBurstImpedance(points, bursts)
}

function demandBalance(balance: Balance): void {
  demandNumbers(balance, 'balance', { ...heat, ...balanced })
  const { k, r, V } = balance
  demand(k === 0 || k === 1, { field: 'balance.k', value: k, allowed: '0 or 1' })
  demand(k === 1 || r >= tiny, { field: 'balance.r', value: r, unit: 'ohm', allowed: 'more than 0 ohm where k is 0' })
  const isCurrent = k === 1 || V / r <= 1e6
  demand(isCurrent, { field: 'balance.V', value: V, unit: 'V', allowed: 'a held current V / r of at most 1 MA' })
}

function demandLaw(law: Law): void {
  demand(laws.has(law), { field: 'law', value: law, allowed: 'a law, as lawOf makes it' })
}

function demandPoints(points: readonly ImpedancePoint[]): void {
  const allowed = 'points { seconds, kelvinPerWatt } that rise in time'
  demand(Array.isArray(points) && points.length > 0, { field: 'points', value: points, allowed })
  points.forEach((point, i) => {
    demandNumbers(point, `points[${i}]`, {
      seconds: { unit: 's', min: tiny, max: 1e12 },
      kelvinPerWatt: { unit: 'K/W', min: tiny, max: 1e6 },
    })
    const rises = i === 0 || point.seconds > points[i - 1]!.seconds
    demand(rises, {
      field: `points[${i}].seconds`,
      value: point.seconds,
      unit: 's',
      allowed: 'later than the one before',
    })
  })
}
