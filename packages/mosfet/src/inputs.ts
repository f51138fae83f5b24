import type { Columns, Row } from '@ohmward/budget'
import { between, type Input, type Spread, scaled } from '@ohmward/quantity'
import type { ReadMosfet } from './choice.js'
import { burstImpedance } from './impedance.js'
import { lawOf, referenceCelsius } from './law.js'
import type { OnResistancePoint } from './table.js'
import type { SwitchInputs, Topology } from './topology.js'

/** Inputs of the chain, and what the margins beside it read. */
export type MosfetInputs = SwitchInputs & {
  readonly k_th: number
  readonly C_iss: number
  readonly C_gd: number
  /** Leakage of gate and drive, hot. */
  readonly I_leak: number
  /** The controller's weak pull during reset. */
  readonly R_weak: number
  readonly R_bp: number
  /** Rise of the rail when the cell makes contact. */
  readonly t_ins: number
}

export type MosfetSymbol = keyof MosfetInputs
export type MosfetInputSet = Readonly<Record<MosfetSymbol, Input>>

/** The conditions to cover. */
export const conditions = ['V_oc', 'T_a', 'D'] as const

/** Overdrive of the gate, and current for it, below which the model doesn't go: margins of their own watch both. */
const floor = { volts: 0.05, amperes: 10e-6 } as const

/** Which formulas hold for a choice. */
export function topologyOf({ transistor, drive, load, edges }: ReadMosfet): Topology {
  const { kind, complementary, pull, supply, hasHighLevel, hasBasePullDown } = drive
  const isInverter = kind === 'inverting transistor'
  const pullsUp = isInverter && transistor.channel === 'N'
  const isPassive = (isInverter && !pullsUp) || (kind === 'follower' && !complementary)
  return {
    channel: transistor.channel,
    load: load.kind,
    edges,
    supply,
    charge: pullsUp ? 'pull' : 'drive',
    pull: pullsUp ? 'none' : pull,
    off: isPassive ? 'pull' : 'drive',
    limited: isInverter ? (pullsUp ? 'off' : 'on') : 'neither',
    base: hasBasePullDown ? 'shared' : 'alone',
    offLevel: hasHighLevel ? 'rail less high' : 'fixed',
    law: lawOf(transistor.law),
    onResistance: transistor.onResistance,
  }
}

/** Every input by symbol; the three conditions stand at their upper ends. */
export function inputsOf(read: ReadMosfet): MosfetInputSet {
  const { transistor, drive, load, wiring } = read
  const t = transistor.fields
  const s = drive.spreads
  const isInverter = drive.kind === 'inverting transistor'
  const pullsUp = isInverter && transistor.channel === 'N'
  const isFollower = drive.kind === 'follower'
  const isResistance = load.kind === 'resistance'
  return {
    V_oc: range(read.openCircuit),
    R_s: read.sourceResistance,
    R_L: isResistance ? load.value : 0,
    I_set: isResistance ? 0 : load.value,
    R_sh: wiring.sharedSource,
    n: read.parallel,
    D: range(openDuty(read)),
    f: read.frequency,
    T_a: range(read.ambient),
    R_thJA: thermalInput(read),
    T_lim: t.junctionMaximumCelsius.lower,
    T_ref: referenceCelsius,
    V_hold: s.V_hold,
    V_reg: s.V_reg,
    V_drop: isFollower ? s.V_BE : isInverter ? (pullsUp ? 0 : s.V_CE) : s.V_drop,
    R_drv: isInverter ? 0 : s.R_drv,
    R_snk: isFollower ? s.R_drv : s.R_snk,
    R_g: s.R_g,
    R_p: s.R_p,
    R_gi: t.gateResistance,
    V_off: drive.complementary ? s.V_BE : pullsUp ? s.V_CE : s.V_off,
    V_high: s.V_high,
    V_min: floor.volts,
    I_min: floor.amperes,
    h_FE: s.h_FE.lower,
    V_BE: s.V_BE,
    R_b: s.R_b,
    R_be: s.R_be,
    q_R: lotOf(transistor.onResistance),
    Q_gs: t.gateSourceCharge,
    Q_gd: t.gateDrainCharge,
    Q_g: t.gateCharge,
    V_pl: t.plateauVoltage,
    V_th: t.thresholdVoltage,
    C_oss: t.outputCapacitance,
    L_w: wiring.inductance,
    k_th: t.thresholdFall.upper,
    C_iss: t.inputCapacitance,
    C_gd: t.reverseCapacitance,
    I_leak: between(0, t.gateLeakage.upper + s.I_pinleak.upper),
    R_weak: s.R_weak.lower,
    R_bp: s.R_bp,
    t_ins: wiring.contactTime.lower,
  }
}

/** One literal, so that the chain always sees one shape. */
export const row: Row<MosfetSymbol> = (c: Columns<MosfetSymbol>, i: number): MosfetInputs => ({
  V_oc: c.V_oc[i]!,
  R_s: c.R_s[i]!,
  R_L: c.R_L[i]!,
  I_set: c.I_set[i]!,
  R_sh: c.R_sh[i]!,
  n: c.n[i]!,
  D: c.D[i]!,
  f: c.f[i]!,
  T_a: c.T_a[i]!,
  R_thJA: c.R_thJA[i]!,
  T_lim: c.T_lim[i]!,
  T_ref: c.T_ref[i]!,
  V_hold: c.V_hold[i]!,
  V_reg: c.V_reg[i]!,
  V_drop: c.V_drop[i]!,
  R_drv: c.R_drv[i]!,
  R_snk: c.R_snk[i]!,
  R_g: c.R_g[i]!,
  R_p: c.R_p[i]!,
  R_gi: c.R_gi[i]!,
  V_off: c.V_off[i]!,
  V_high: c.V_high[i]!,
  V_min: c.V_min[i]!,
  I_min: c.I_min[i]!,
  h_FE: c.h_FE[i]!,
  V_BE: c.V_BE[i]!,
  R_b: c.R_b[i]!,
  R_be: c.R_be[i]!,
  q_R: c.q_R[i]!,
  Q_gs: c.Q_gs[i]!,
  Q_gd: c.Q_gd[i]!,
  Q_g: c.Q_g[i]!,
  V_pl: c.V_pl[i]!,
  V_th: c.V_th[i]!,
  C_oss: c.C_oss[i]!,
  L_w: c.L_w[i]!,
  k_th: c.k_th[i]!,
  C_iss: c.C_iss[i]!,
  C_gd: c.C_gd[i]!,
  I_leak: c.I_leak[i]!,
  R_weak: c.R_weak[i]!,
  R_bp: c.R_bp[i]!,
  t_ins: c.t_ins[i]!,
})

/** A condition's range; its upper end stands for it where one value is asked for. */
function range({ from, to }: { readonly from: number; readonly to: number }): Spread {
  return between(from, to, to, from === to ? { kind: 'exact' } : { kind: 'rectangular' })
}

/**
 * The duty to cover. A switch that is on for good has no edges, so the hottest duty of a slow one lies just below 1: where
 * the range ends at 1 and holds other duties, it ends a hair earlier.
 */
export function openDuty({ duty: { from, to }, frequency }: Pick<ReadMosfet, 'duty' | 'frequency'>) {
  return to === 1 && from < 1 && frequency > 0 ? { from, to: 1 - 2 ** -30 } : { from, to }
}

/**
 * Thermal resistance, or what bursts make of it: the effective impedance, with the same relative spread. Where the curve of
 * the data sheet ends below the board's own resistance, on more copper or too early, it is scaled up to it: too much for a
 * short pulse, never too little for a long one.
 */
function thermalInput({ junctionToAmbient, bursts, transistor }: ReadMosfet): Spread {
  if (bursts === undefined) return junctionToAmbient
  const curve = transistor.transientImpedance!
  const end = curve[curve.length - 1]!.kelvinPerWatt
  return scaled(junctionToAmbient, burstImpedance(curve, bursts) / Math.min(end, junctionToAmbient.nominal))
}

/**
 * Where a lot may stand: the guaranteed maximum above, as far below typical as that, but never under a fifth of typical.
 */
function lotOf(lines: readonly OnResistancePoint[]): Input {
  let lowest = -1
  let varies = false
  for (const { maximum, typical = maximum } of lines) {
    if (typical === maximum) continue
    varies = true
    lowest = Math.max(lowest, (-0.8 * typical) / (maximum - typical))
  }
  return varies ? between(lowest, 1, 0) : 0
}

/** The inputs with a spread where they are among those named, nominal elsewhere. */
export function onlyThese(inputs: MosfetInputSet, names: ReadonlySet<string>): MosfetInputSet {
  const held: Record<string, Input> = {}
  for (const [symbol, input] of Object.entries(inputs)) {
    held[symbol] = names.has(symbol) || typeof input === 'number' ? input : (input as Spread).nominal
  }
  return held as Record<MosfetSymbol, Input>
}
