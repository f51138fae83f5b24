import { demand, demandNumber, demandNumbers, type FieldSpec, InputError } from '@ohmward/quantity'
import type { BiasedBranch } from './charging/biased.js'
import { plugIn as barePlugIn, plugInBiased as barePlugInBiased, type PlugIn } from './charging/plug-in.js'
import { circuit as bareCircuit, type Circuit, type Load, type Pwm, type Source } from './circuit.js'
import type { Branch } from './modes/parts.js'
import {
  pwmCurrents as barePwmCurrents,
  respondToPwm as bareRespondToPwm,
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

type Limits = Omit<FieldSpec, 'field'>

const source: Readonly<Record<'voltage' | 'resistance' | 'inductance', Limits>> = {
  voltage: { unit: 'V', min: 1e-3, max: 1e4 },
  resistance: { unit: 'ohm', min: 0, max: 1e6 },
  inductance: { unit: 'H', min: 0, max: 1 },
}
const branch: Readonly<Record<'capacitance' | 'resistance' | 'inductance', Limits>> = {
  capacitance: { unit: 'F', min: 1e-13, max: 1e4 },
  resistance: { unit: 'ohm', min: 0, max: 1e6 },
  inductance: { unit: 'H', min: 0, max: 1 },
}
const seconds: Limits = { unit: 's', min: 0, max: 1e9 }
const loads: Readonly<Record<Load['kind'], Readonly<Record<string, Limits>>>> = {
  current: { current: { unit: 'A', min: 0, max: 1e5 } },
  resistor: { resistance: { unit: 'ohm', min: 1e-6, max: 1e9 } },
  power: { power: { unit: 'W', min: 0, max: 1e6 } },
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
  demandNumber(idle, { field: 'idle', unit: 'A', min: 0, max: 1e5 })
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
  demandNumbers(timing, 'timing', { rise: seconds, fall: seconds })
  const { rise, duration, fall } = timing
  if (duration !== Number.POSITIVE_INFINITY) demandNumber(duration, { ...seconds, field: 'timing.duration' })
  demandJump(c, Math.min(rise, duration === Number.POSITIVE_INFINITY ? rise : fall))
  const response = bareRespondTo(c, load, timing)
  responses.add(response)
  return response
}

/** Rail voltage at a time; before 0 the rest, after the last piece (a collapse) 0. @throws InputError where the response isn't one that {@link respondTo} made */
export function voltageAt(response: Response, time: number): number {
  demandResponse(response)
  demandNumber(time, { field: 'time', unit: 's', min: -1e9, max: 1e9 })
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
  demandNumbers(pwm, 'pwm', {
    frequency: { unit: 'Hz', min: 1e-3, max: 1e9 },
    duty: { unit: '1', min: 1e-6, max: 1 - 1e-6 },
    rise: seconds,
    fall: seconds,
  })
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
  demandNumbers(given, 'source', source)
  if (given.currentLimit !== undefined)
    demandNumber(given.currentLimit, { field: 'source.currentLimit', unit: 'A', min: 1e-6, max: 1e5 })
}

function demandBranches(given: readonly Branch[]): void {
  const isList = Array.isArray(given) && given.length > 0 && given.length <= 20
  demand(isList, { field: 'capacitors', value: given, allowed: 'a list of 1 to 20 capacitors' })
  given.forEach((one, i) => {
    demandNumbers(one, `capacitors[${i}]`, branch)
  })
}

function demandLoad(load: Load): void {
  const allowed = `a load whose kind is ${Object.keys(loads).join(', ')}`
  demand(typeof load === 'object' && load !== null, { field: 'load', value: load, allowed })
  demand(Object.hasOwn(loads, load.kind), { field: 'load.kind', value: load.kind, allowed })
  demandNumbers(load, 'load', loads[load.kind])
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
