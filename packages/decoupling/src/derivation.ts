import { type AnyFormula, type Derivation, derive } from '@ohmward/budget'
import { type Board, factorsOf } from './board.js'
import type { RailAnswer } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { kindSteps } from './derivation-kinds.js'
import { levelHeld } from './diode-rail.js'
import * as f from './formulas/index.js'
import { contentAt, type Extreme } from './waveform/index.js'

type Values = Record<string, number>

/** A pair of formulas of which exactly one holds, and the condition in words. */
export interface Regime {
  readonly holds: 'rings' | 'creeps'
  readonly says: string
}

/** Whether a rail with one inductive loop rings: by its damping ratio. */
export const regimeOf = (zeta: number): Regime =>
  zeta < 1
    ? { holds: 'rings', says: 'damping ratio below 1: the rail rings' }
    : { holds: 'creeps', says: 'damping ratio 1 or more: the rail creeps' }

/** A chain of formulas evaluated in order on what is known so far. */
class Steps {
  readonly computed: Values = {}
  readonly formulas: AnyFormula[] = []

  constructor(readonly inputs: Values) {}

  put(...formulas: AnyFormula[]): this {
    for (const formula of formulas) {
      if (this.computed[formula.symbol] !== undefined) continue
      const value = formula({ ...this.inputs, ...this.computed })
      if (!Number.isFinite(value)) continue
      this.computed[formula.symbol] = value
      this.formulas.push(formula)
    }
    return this
  }
}

/** Every value of a board by symbol, and how each came about. */
export function derivationOf(
  read: ReadDecoupling,
  board: Board,
  given: Values,
  lowest: Extreme,
  rail: RailAnswer,
): { values: Values; derivation: Derivation } {
  const { source, idle, load } = board
  const inputs: Values = { ...given, V_oc: source.voltage, I_0: idle }
  if (source.inductance > 0) inputs['L'] = source.inductance
  const only = read.capacitors.length === 1 ? read.capacitors[0]! : undefined
  const steps = new Steps(inputs)
  sourceSteps(read, steps, board)
  steps.put(f.restVoltage)
  if (only) {
    const years = given['Y_age'] ?? 0
    const worn = read.age.to > 0 ? years / read.age.to : 0
    const rest = steps.computed['V_rest']!
    const { k_new: _, ...factors } = factorsOf(only, rest, board.ambientCelsius, years, worn)
    Object.assign(inputs, factors, {
      n_C: only.count,
      C_r: given['C_r1'],
      ESR_r: given['ESR_r1'],
    })
    steps.put(f.effectiveCapacitance, f.effectiveSeriesResistance)
  }
  const kinds = only ? [] : kindSteps(read, board, given, steps.computed['V_rest']!)
  for (const { symbol, value } of kinds) inputs[symbol] = value
  if (load.kind === 'current') currentSteps(read, steps, board, lowest)
  else if (load.kind === 'resistor') resistorSteps(read, steps, board, lowest)
  else steps.put(f.mostPower, f.endCurrentOfPower, f.endVoltageOfPower)
  if (load.kind === 'resistor' && read.load.wantedPower) steps.put(f.mostResistorPower)
  if (only) steps.put(f.timeConstantOfCurrent)
  if (source.inductance > 0) steps.put(f.characteristicImpedance)
  if (source.currentLimit !== undefined) {
    inputs['I_lim'] = source.currentLimit
    steps.put(f.chargingTime)
  }
  logicSteps(read, steps, board, rail)
  const values = { ...inputs, ...steps.computed }
  const derivation = derive(steps.formulas, values, steps.computed)
  const place = 1 + derivation.findIndex(({ symbol }) => symbol === 'V_rest')
  return { values, derivation: [...derivation.slice(0, place), ...kinds, ...derivation.slice(place)] }
}

/** What insertion does on a board, as its own derivation: a full, warm, new cell is the worst for it. */
export function insertionOf({ source, empty }: Board): { values: Values; derivation: Derivation } {
  const V_oc = source.voltage
  const G = empty.reduce((sum, b) => sum + 1 / b.resistance, 0)
  const C = empty.reduce((sum, b) => sum + b.capacitance, 0)
  const inputs: Values = { V_oc, R_s: source.resistance, ESR: Number.isFinite(G) ? 1 / G : 0 }
  const steps = new Steps(inputs)
  steps.put(f.inrush)
  if (empty.some(({ bias }) => bias !== undefined)) {
    const held = empty.map((branch) => contentAt(branch, V_oc))
    const charge = held.reduce((sum, one) => sum + one.charge, 0)
    const energy = held.reduce((sum, one) => sum + one.energy, 0)
    Object.assign(inputs, { C_0: C, k_Q: charge / (C * V_oc), k_E: energy / ((C * V_oc * V_oc) / 2) })
    steps.put(f.biasedCharge, f.biasedEnergy)
  } else {
    inputs['C'] = C
    steps.put(f.charge, f.energy)
  }
  return { values: steps.computed, derivation: derive(steps.formulas, inputs, steps.computed) }
}

function sourceSteps(read: ReadDecoupling, steps: Steps, { source }: Board): void {
  if (read.source.kind === 'limited supply') {
    steps.inputs['R_s'] = source.resistance
    return
  }
  const path = ['R_cont', 'R_prot', 'R_sw', 'R_sens', 'R_conn', 'R_wire']
  const R_path = path.reduce((sum, name) => sum + (steps.inputs[name] ?? 0), 0)
  const R_cell = steps.inputs['R_cell'] ?? 0
  const worn = read.age.to > 0 ? (steps.inputs['Y_age'] ?? 0) / read.age.to : 0
  const k_old = 1 + ((steps.inputs['k_old'] ?? 1) - 1) * worn
  const k_T = R_cell > 0 ? (source.resistance - R_path) / (R_cell * k_old) : 1
  Object.assign(steps.inputs, { R_path, k_old, k_T })
  if ((steps.inputs['V_pol'] ?? 0) > 0) {
    steps.inputs['V_cell'] = source.voltage + steps.inputs['V_pol']!
    delete steps.inputs['V_oc']
    steps.put(f.voltageBehindDiode)
  }
  steps.put(f.sourceResistance)
}

/** Whether one kind of capacitor without inductance of its own stands alone: then the waveform is one formula. */
const isSimple = (read: ReadDecoupling, { branches, source }: Board): boolean =>
  branches.length === 1 &&
  branches[0]!.inductance === 0 &&
  source.currentLimit === undefined &&
  read.logicRail?.behind !== 'resistor'

function currentSteps(read: ReadDecoupling, steps: Steps, board: Board, { time }: Extreme): void {
  steps.put(f.endVoltageOfCurrent, f.firstVoltageOfCurrent)
  if (read.capacitors.length === 1) steps.put(f.timeConstantOfCurrent)
  const { rise, duration, pwm } = read.load
  if (pwm) {
    steps.inputs['D'] = pwm.duty
    steps.inputs['T_pwm'] = 1 / pwm.frequency
    steps.put(f.rippleCurrentLimit, f.rippleCurrentShared)
    if (isSimple(read, board) && board.source.inductance === 0 && rise === 0) steps.put(f.railInPwm)
    return
  }
  const isInBurst = time !== null && time <= duration
  if (board.source.inductance > 0) {
    steps.put(f.angularFrequency, f.dampingRatio, f.decayRate)
    const { holds } = regimeOf(steps.computed['zeta']!)
    const isBiased = read.capacitors.some(({ bias }) => bias !== undefined)
    if (holds === 'rings') steps.put(f.ringingFrequency, f.overshoot, ...(isBiased ? [] : [f.plugInPeak]))
    else steps.put(f.slowRate, f.fastRate)
    if (!isSimple(read, board) || rise > 0 || !isInBurst) return
    steps.inputs['t'] = time
    if (holds === 'rings') steps.put(f.sineAmplitude, f.railRinging)
    else steps.put(f.slowAmplitude, f.railCreeping)
    return
  }
  if (!isSimple(read, board) || !isInBurst) return
  steps.inputs['t'] = time
  if (rise > 0) steps.inputs['t_r'] = rise
  steps.put(rise === 0 ? f.railAfterCurrent : time < rise ? f.railInRise : f.railAfterRise)
}

function resistorSteps(read: ReadDecoupling, steps: Steps, board: Board, { time }: Extreme): void {
  steps.put(f.endVoltageOfResistor, f.firstVoltageOfResistor)
  // Two kinds settle with two time constants.
  if (read.capacitors.length === 1) steps.put(f.timeConstantOfResistor)
  const { rise, duration, pwm } = read.load
  const isInBurst = time !== null && time <= duration
  if (!isSimple(read, board) || board.source.inductance > 0 || rise > 0 || pwm || !isInBurst) return
  steps.inputs['t'] = time
  steps.put(f.railAfterResistor)
}

function logicSteps(
  { logicRail, load }: ReadDecoupling,
  steps: Steps,
  board: Board,
  { circuit, step }: RailAnswer,
): void {
  const { forwardVoltage, logic } = board
  if (logicRail === undefined) return
  Object.assign(steps.inputs, { I_mcu: logic.current, C_h: logic.capacitance })
  if (logicRail.behind === 'resistor') {
    steps.inputs['I_mcu'] = logic.peak
    steps.inputs['R_iso'] = logic.resistance
    steps.put(f.isolationDrop, f.isolationTime)
  } else if (load.duration < Number.POSITIVE_INFINITY) {
    const { time } = levelHeld(circuit, step, load.duration + load.fall, logic.peak / logic.capacitance)
    Object.assign(steps.inputs, { I_mcu: logic.peak, V_f: forwardVoltage, t_on: time })
    if (time > 0) steps.put(f.heldVoltage)
  }
}
