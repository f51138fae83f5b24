import { demand, InputError, type Unit } from '@ohmward/quantity'
import type { BiasedBranch } from './charging/biased.js'
import { plugIn as barePlugIn, plugInBiased as barePlugInBiased, type PlugIn } from './charging/plug-in.js'
import { circuit as bareCircuit, type Circuit, type Load, type Source } from './circuit.js'
import type { Branch } from './modes/parts.js'
import {
  pwmCurrents as barePwmCurrents,
  respondToPwm as bareRespondToPwm,
  type Pwm,
  type PwmCurrents,
  type PwmResponse,
} from './pwm.js'
import {
  highestOf as bareHighestOf,
  respondTo as bareRespondTo,
  voltageAt as bareVoltageAt,
  type Extreme,
  type Response,
  type Timing,
} from './response.js'

/*
 * What exported functions of the waveform are given: looked at where a user calls them. Inside they are called with what was read.
 */

type Limits = readonly [least: number, most: number, unit: Unit]

const source: Readonly<Record<'voltage' | 'resistance' | 'inductance', Limits>> = {
  voltage: [1e-3, 1e4, 'V'],
  resistance: [0, 1e6, 'ohm'],
  inductance: [0, 1, 'H'],
}
const branch: Readonly<Record<'capacitance' | 'resistance' | 'inductance', Limits>> = {
  capacitance: [1e-13, 1e4, 'F'],
  resistance: [0, 1e6, 'ohm'],
  inductance: [0, 1, 'H'],
}
const seconds: Limits = [0, 1e9, 's']
const loads: Readonly<Record<Load['kind'], Readonly<Record<string, Limits>>>> = {
  current: { current: [0, 1e5, 'A'] },
  resistor: { resistance: [1e-6, 1e9, 'ohm'] },
  power: { power: [0, 1e6, 'W'] },
}

const circuits = /*#__PURE__*/ new WeakSet<object>()
const responses = /*#__PURE__*/ new WeakSet<object>()
const steady = /*#__PURE__*/ new WeakSet<object>()

/**
 * A circuit from its parts. With a current limit or a constant-power load the inductances of the capacitors (and, with a
 * limit, of the loop) are left out: `plain` says so.
 *
 * @param idle - current that is drawn all the time, A
 * @throws InputError naming the number that isn't allowed
 */
export function circuit(source: Source, capacitors: readonly Branch[], idle: number, plain = false): Circuit {
  demandSource(source)
  demandBranches(capacitors)
  demandWithin('idle', idle, [0, 1e5, 'A'])
  demand(typeof plain === 'boolean', { field: 'plain', value: plain, allowed: 'true or false' })
  const made = bareCircuit(source, capacitors, idle, plain)
  circuits.add(made)
  return made
}

/**
 * The exact waveform of the rail when a load is switched on from rest and, after its duration, off again.
 *
 * @throws InputError naming the number that isn't allowed; where the circuit isn't one that {@link circuit} made
 */
export function respondTo(c: Circuit, load: Load, timing: Timing): Response {
  demandCircuit(c)
  demandLoad(load)
  demandAll('timing', timing, { rise: seconds, fall: seconds })
  const { rise, duration, fall } = timing
  if (duration !== Number.POSITIVE_INFINITY) demandWithin('timing.duration', duration, seconds)
  demandJump(c, Math.min(rise, duration === Number.POSITIVE_INFINITY ? rise : fall))
  const response = bareRespondTo(c, load, timing)
  responses.add(response)
  return response
}

/** Rail voltage at a time; before 0 the rest, after the last piece (a collapse) 0. @throws InputError where the response isn't one that {@link respondTo} made */
export function voltageAt(response: Response, time: number): number {
  demandResponse(response)
  demandWithin('time', time, [-1e9, 1e9, 's'])
  return bareVoltageAt(response, time)
}

/** The highest point after the load is released; of a step that stays, from its beginning. @throws InputError where the response isn't one that {@link respondTo} made */
export function highestOf(response: Response): Extreme {
  demandResponse(response)
  return bareHighestOf(response)
}

/**
 * The steady state under PWM, exact: the state that one period brings back to itself. `null` where there is none (a current-limited
 * source that gives less than the load's mean current), and with a constant power, which isn't followed through PWM.
 *
 * @throws InputError naming the number that isn't allowed; where the circuit isn't one that {@link circuit} made
 */
export function respondToPwm(c: Circuit, load: Load, pwm: Pwm): PwmResponse | null {
  demandCircuit(c)
  demandLoad(load)
  demandAll('pwm', pwm, { frequency: [1e-3, 1e9, 'Hz'], duty: [1e-6, 1 - 1e-6, '1'], rise: seconds, fall: seconds })
  const { frequency, duty, rise, fall } = pwm
  const allowed = 'edges that fit into the period'
  demand(rise * frequency <= duty, { field: 'pwm.rise', value: rise, unit: 's', allowed })
  demand(fall * frequency <= 1 - duty, { field: 'pwm.fall', value: fall, unit: 's', allowed })
  demandJump(c, Math.min(rise, fall))
  const response = bareRespondToPwm(c, load, pwm)
  if (response !== null) steady.add(response)
  return response
}

/** Means and root-mean-square values of a steady state, integrated exactly. @throws InputError where the state isn't one that {@link respondToPwm} found */
export function pwmCurrents(c: Circuit, response: PwmResponse): PwmCurrents {
  demandCircuit(c)
  demand(steady.has(response), { field: 'response', value: response, allowed: 'a state that respondToPwm found' })
  return barePwmCurrents(c, response)
}

/**
 * Connects the source of a circuit, nothing switched on, to its empty capacitors. Each answer is worked out when it is asked for.
 *
 * @throws InputError where the circuit isn't one that {@link circuit} made
 */
export function plugIn(c: Circuit): PlugIn {
  demandCircuit(c)
  return barePlugIn(c)
}

/**
 * The same for capacitors that lose capacitance to their voltage: followed in steps with an error of some millionths of the
 * source's voltage; exact, by {@link plugIn}, where none does.
 *
 * @throws InputError naming the number that isn't allowed
 */
export function plugInBiased(source: Source, branches: readonly BiasedBranch[]): PlugIn {
  demandSource(source)
  demandBranches(branches)
  branches.forEach(({ bias }, i) => {
    if (bias === undefined) return
    const field = `capacitors[${i}].bias`
    const lists = typeof bias === 'object' && bias !== null && [bias.at, bias.factor].every(isNumbers)
    demand(lists && bias.at.length === bias.factor.length, { field, value: bias, allowed: 'lists at and factor' })
    const isCurve = bias.at.every((at, k) => k === 0 || at > bias.at[k - 1]!) && bias.factor.every((f) => f > 0)
    demand(isCurve, { field, value: bias, allowed: 'voltages that rise, factors more than 0' })
  })
  return barePlugInBiased(source, branches)
}

const isNumbers = (list: unknown): boolean => Array.isArray(list) && list.length > 0 && list.every(Number.isFinite)

function demandSource(given: Source): void {
  demandAll('source', given, source)
  if (given.currentLimit !== undefined) demandWithin('source.currentLimit', given.currentLimit, [1e-6, 1e5, 'A'])
}

function demandBranches(given: readonly Branch[]): void {
  const isList = Array.isArray(given) && given.length > 0 && given.length <= 20
  demand(isList, { field: 'capacitors', value: given, allowed: 'a list of 1 to 20 capacitors' })
  given.forEach((one, i) => {
    demandAll(`capacitors[${i}]`, one, branch)
  })
}

function demandLoad(load: Load): void {
  const allowed = `a load whose kind is ${Object.keys(loads).join(', ')}`
  demand(typeof load === 'object' && load !== null, { field: 'load', value: load, allowed })
  demand(Object.hasOwn(loads, load.kind), { field: 'load.kind', value: load.kind, allowed })
  demandAll('load', load, loads[load.kind])
}

/** Where nothing but inductances meets at the rail, a current can't jump. */
function demandJump({ isInductive }: Circuit, edge: number): void {
  if (!isInductive || edge > 0) return
  throw new InputError({
    field: 'rise',
    value: edge,
    unit: 's',
    allowed: 'more than 0 s where all capacitors have inductance',
  })
}

function demandCircuit(c: Circuit): void {
  demand(circuits.has(c), { field: 'c', value: c, allowed: 'a circuit that circuit made' })
}

function demandResponse(response: Response): void {
  demand(responses.has(response), { field: 'response', value: response, allowed: 'what respondTo answered' })
}

function demandAll(field: string, given: object, limits: Readonly<Record<string, Limits>>): void {
  const allowed = `an object with ${Object.keys(limits).join(', ')}`
  demand(typeof given === 'object' && given !== null, { field, value: given, allowed })
  for (const [key, within] of Object.entries(limits)) {
    demandWithin(`${field}.${key}`, (given as Readonly<Record<string, unknown>>)[key], within)
  }
}

function demandWithin(field: string, value: unknown, [least, most, unit]: Limits): void {
  const isSo = typeof value === 'number' && value >= least && value <= most
  demand(isSo, { field, value, unit, allowed: `a number from ${least} to ${most}` })
}
