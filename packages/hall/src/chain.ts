import type { AnyFormula, Values } from '@ohmward/budget'
import * as f from './formulas/index.js'
import { type Workspace, workspace } from './workspace.js'

/** What the chain computes, in the order of calculation. */
const computed = [
  'r_s',
  'V_q',
  'S',
  'V_e',
  'V_es',
  'I_on',
  'V_want',
  'V_rest',
  'V_hi',
  'V_on',
  'V_off',
  'R_src',
  'k_d',
  'tau_f',
  's_f',
  'V_f',
  'V_pin',
  'code_ideal',
  'code_c',
  'code_out',
  'code_zero',
  'A_count',
  'I_ind',
] as const

type Computed = (typeof computed)[number]

/** What the chain needs, by symbol. */
export type ChainInputs = Values<Exclude<keyof Workspace, Computed>>

/** What the chain computes, by symbol. */
export type Reading = Values<Computed>

/** Which chain it is: by the sensor, the reading, and whether a divider stands before the converter. */
export interface Topology {
  readonly output: 'ratiometric' | 'fixed'
  readonly reading: 'on-window' | 'averaged'
  readonly divided: boolean
}

/** A chain from the true current to the indicated one, in place: it reads the inputs of `y` and leaves every value there. */
export interface Chain {
  /** The sensor alone, as far as what it wants to put out and how far it can. */
  readonly output: (y: Workspace) => void
  /** The indicated current in amperes. */
  readonly follow: (y: Workspace) => number
  /** The same without the limits of sensor and converter: a straight line in the current. */
  readonly followLine: (y: Workspace) => number
  /** The formulas of `follow` in the order of calculation. */
  readonly formulas: () => readonly AnyFormula[]
}

/** A topology as flags: which formulas run is a branch, so that each call stays a direct one. */
interface Flags {
  readonly ratiometric: boolean
  readonly averaged: boolean
  readonly divided: boolean
}

function before(y: Workspace, { ratiometric }: Flags): void {
  y.r_s = f.supplyRatio(y)
  y.V_q = ratiometric ? f.ratiometricZero(y) : f.fixedZero(y)
  y.S = ratiometric ? f.ratiometricSensitivity(y) : f.fixedSensitivity(y)
  y.V_e = f.outputShift(y)
  y.V_es = ratiometric ? f.ratiometricShift(y) : f.fixedShift(y)
  y.I_on = f.onCurrent(y)
  y.V_want = f.wantedOn(y)
  y.V_rest = f.wantedOff(y)
  y.V_hi = f.highestOutput(y)
}

function between(y: Workspace, { averaged, divided }: Flags): void {
  y.R_src = divided ? f.sourceResistance(y) : f.plainSourceResistance(y)
  y.k_d = divided ? f.dividerRatio(y) : 1
  y.tau_f = f.filterTime(y)
  // After any time at all nothing is missing, and no exponential tells more.
  y.s_f = averaged || y.t_set === Infinity ? 0 : f.unsettledShare(y)
  y.V_f = averaged ? f.averagedOutput(y) : f.sampledOutput(y)
  y.V_pin = f.pinVoltage(y)
  y.code_ideal = f.idealCode(y)
  y.code_c = f.convertedCode(y)
}

function after(y: Workspace): number {
  y.code_zero = f.zeroCode(y)
  y.A_count = f.countCurrent(y)
  y.I_ind = f.indicatedCurrent(y)
  return y.I_ind
}

function follow(y: Workspace, flags: Flags): number {
  before(y, flags)
  y.V_on = f.outputOn(y)
  y.V_off = f.outputOff(y)
  between(y, flags)
  y.code_out = f.clippedCode(y)
  return after(y)
}

function followLine(y: Workspace, flags: Flags): number {
  before(y, flags)
  y.V_on = y.V_want
  y.V_off = y.V_rest
  between(y, flags)
  y.code_out = y.code_c
  return after(y)
}

/** The chain of a topology. It allocates nothing while it runs. */
export function chainOf({ output, reading, divided }: Topology): Chain {
  const ratiometric = output === 'ratiometric'
  const averaged = reading === 'averaged'
  const flags: Flags = { ratiometric, averaged, divided }
  return {
    output: (y) => before(y, flags),
    follow: (y) => follow(y, flags),
    followLine: (y) => followLine(y, flags),
    formulas: () => [
      f.supplyRatio,
      ratiometric ? f.ratiometricZero : f.fixedZero,
      ratiometric ? f.ratiometricSensitivity : f.fixedSensitivity,
      f.outputShift,
      ratiometric ? f.ratiometricShift : f.fixedShift,
      ...(averaged ? [f.onCurrent] : []),
      f.wantedOn,
      f.wantedOff,
      f.highestOutput,
      f.outputOn,
      f.outputOff,
      divided ? f.sourceResistance : f.plainSourceResistance,
      ...(divided ? [f.dividerRatio] : []),
      f.filterTime,
      ...(averaged ? [f.averagedOutput] : [f.unsettledShare, f.sampledOutput]),
      f.pinVoltage,
      f.idealCode,
      f.convertedCode,
      f.clippedCode,
      f.zeroCode,
      f.countCurrent,
      f.indicatedCurrent,
    ],
  }
}

/** Every value on the way from the true current to the indicated one. */
export function readingOf(x: ChainInputs, topology: Topology): Reading {
  const y = Object.assign(workspace(), x)
  chainOf(topology).follow(y)
  return Object.fromEntries(computed.map((symbol) => [symbol, y[symbol]])) as Reading
}
