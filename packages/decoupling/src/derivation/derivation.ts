import { type AnyFormula, type Derivation, derive } from '@ohmward/budget'
import type { Board, Places } from '../chain/board.js'
import { chainOf, type RailPlace } from '../chain/source.js'
import type { ReadDecoupling } from '../choice/choice.js'
import * as f from '../formulas/index.js'
import { levelHeld } from '../rail/diode.js'
import type { RailAnswer } from '../rail/rail.js'
import { type Content, contentAt, type Extreme } from '../waveform/inside.js'
import { formulasOfKind, kindSteps } from './kinds.js'
import { pathSteps } from './path.js'

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

/** What a board leaves by symbol, and the formulas that tell how. */
class Steps {
  readonly computed: Values = {}
  readonly formulas: AnyFormula[] = []

  constructor(readonly inputs: Values) {}

  /** Formulas whose values a chain left in its place. */
  take(formulas: readonly AnyFormula[], place: Readonly<Values>): this {
    Object.assign(this.inputs, place)
    for (const formula of formulas) {
      this.computed[formula.symbol] = place[formula.symbol]!
      this.formulas.push(formula)
    }
    return this
  }

  /** Formulas of a waveform, evaluated on what is known so far. */
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

/** A board, and the places that it was computed in. */
interface Made {
  readonly board: Board
  readonly places: Places
}

/** Every value of a board by symbol, and how each came about. */
export function derivationOf(
  read: ReadDecoupling,
  { board, places }: Made,
  given: Readonly<Values>,
  lowest: Extreme,
  rail: RailAnswer,
): { values: Values; derivation: Derivation } {
  const { source, load } = board
  const steps = new Steps({ ...given })
  const { capacitors, logicRail } = read
  const { inputs } = steps
  steps.take(formulasOfRail(read, places.rail), places.rail)
  const [only, ...more] = places.kinds
  const isOne = only !== undefined && more.length === 0
  if (isOne) steps.take(formulasOfKind(only, 'rail'), only)
  const kinds = isOne ? [] : kindSteps(read, places.kinds, 'rail')
  for (const { symbol, value } of kinds) inputs[symbol] = value
  if (load.kind === 'current') currentSteps(read, steps, board, lowest)
  else if (load.kind === 'resistor') resistorSteps(read, steps, board, lowest)
  else steps.put(f.mostPower, f.endCurrentOfPower, f.endVoltageOfPower)
  if (load.kind === 'resistor' && read.load.wantedPower) steps.put(f.mostResistorPower)
  if (capacitors.length === 1) steps.put(f.timeConstantOfCurrent)
  if (source.inductance > 0) steps.put(f.characteristicImpedance)
  if (source.currentLimit !== undefined) steps.put(f.chargingTime)
  if (logicRail !== undefined) logicSteps(read, steps, board, rail)
  const values = { ...inputs, ...steps.computed }
  const path = pathSteps(read.source, places.path)
  for (const { symbol, value } of path) values[symbol] = value
  const derivation = derive(steps.formulas, values, steps.computed)
  const place = 1 + derivation.findIndex(({ symbol }) => symbol === 'V_rest')
  const before = Math.max(
    0,
    derivation.findIndex(({ symbol }) => symbol === 'R_s'),
  )
  return {
    values,
    derivation: [
      ...derivation.slice(0, before),
      ...path,
      ...derivation.slice(before, place),
      ...kinds,
      ...derivation.slice(place),
    ],
  }
}

/** The formulas of the source that do something to it. */
function formulasOfRail({ source, load, logicRail, oldest }: ReadDecoupling, { V_drop }: RailPlace): AnyFormula[] {
  const silent = new Set<AnyFormula>()
  if (oldest === 0) silent.add(f.wornShare)
  if (V_drop === 0) silent.add(f.sourceVoltage)
  if (logicRail === undefined) silent.add(f.restCurrent).add(f.peakOfLogic)
  if (logicRail?.behind !== 'diode') silent.add(f.diodeDrop)
  if (logicRail?.behind !== 'diode' || !load.pwm) silent.add(f.emissionVoltage)
  if (source.kind === 'cell' && !source.isByCharge) silent.add(f.restingVoltage)
  const all: readonly AnyFormula[] = chainOf(source).formulas
  return all.filter((one) => !silent.has(one))
}

/** What insertion does on a board, as its own derivation: a full, warm, new cell is the worst for it. */
export function insertionOf(read: ReadDecoupling, { board, places }: Made): { values: Values; derivation: Derivation } {
  const { source, empty } = board
  const V_s = source.voltage
  const steps = new Steps({ V_s, R_s: source.resistance })
  const [only, ...more] = places.kinds
  const isOne = only !== undefined && more.length === 0
  if (isOne) steps.take(formulasOfKind(only, 'insertion'), only)
  const kinds = isOne ? [] : kindSteps(read, places.kinds, 'insertion')
  for (const { symbol, value } of kinds) steps.inputs[symbol] = value
  steps.put(f.inrush)
  if (empty.some(({ bias }) => bias !== undefined)) {
    const held = empty.map((branch) => contentAt(branch, V_s))
    const straight = empty.map(({ bias: _, ...branch }) => contentAt(branch, V_s))
    const sum = (list: readonly Content[], what: keyof Content) => list.reduce((all, one) => all + one[what], 0)
    steps.inputs['k_Q'] = sum(held, 'charge') / sum(straight, 'charge')
    steps.inputs['k_E'] = sum(held, 'energy') / sum(straight, 'energy')
    steps.put(f.biasedCharge, f.biasedEnergy)
  } else steps.put(f.charge, f.energy)
  const { I_in, Q_C, E_C } = steps.computed
  const values = { ...(I_in !== undefined && { I_in }), Q_C: Q_C!, E_C: E_C! }
  return { values, derivation: [...kinds, ...derive(steps.formulas, steps.inputs, steps.computed)] }
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
  const { rise, duration } = read.load
  const { pwm } = board
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
  { logic }: Board,
  { circuit, step, diode }: RailAnswer,
): void {
  if (logicRail?.behind === 'resistor') steps.put(f.isolationDrop, f.isolationTime)
  else if (load.pwm) {
    if (!diode || diode.pulse === 0) return
    Object.assign(steps.inputs, { I_p: diode.pulse, I_f: logic.current || logic.peak })
    steps.put(f.pulseDrop)
  } else if (load.duration < Number.POSITIVE_INFINITY) {
    const { time } = levelHeld(circuit, step, load.duration + load.fall, logic.peak / logic.capacitance)
    steps.inputs['t_on'] = time
    if (time > 0) steps.put(f.heldVoltage)
  }
}
