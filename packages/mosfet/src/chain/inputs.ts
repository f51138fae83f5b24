import { between, type Input, type Spread } from '@ohmward/quantity'
import type { ReadMosfet } from '../choice.js'
import { capacitanceAt, highestOf } from '../datasheet/capacitance.js'
import { burstImpedance, type ImpedancePoint } from '../datasheet/impedance.js'
import { lowestLot } from '../formulas/conduction.js'

/** The conditions to cover. */
export const conditions = ['V_oc', 'T_a', 'D'] as const

/** Symbols of the inputs that may vary. */
export type MosfetSymbol = keyof ReturnType<typeof inputsOf>
/** Every one of them as a spread or a number. */
export type MosfetInputSet = Readonly<Record<MosfetSymbol, Input>>

/**
 * The inputs that may vary by symbol, SI units, °C, magnitudes; what a topology doesn't read is 0. The three conditions
 * stand at their upper ends. One literal: spread together of several, so many fields cost ten times as much.
 */
export function inputsOf(read: ReadMosfet) {
  const { openCircuit, sourceResistance, load, wiring, freewheel, ambient, junctionToAmbient, bursts } = read
  const { transistor, drive } = read
  const { fields: t, reverseCurve } = transistor
  const s = drive.spreads
  const isResistance = load.kind === 'resistance'
  const isInverter = drive.kind === 'inverting transistor'
  const pullsUp = isInverter && transistor.channel === 'N'
  const isFollower = drive.kind === 'follower'
  const curve = curveOf(read)
  return {
    // Source, load and wires.
    V_oc: /*#__PURE__*/ range(openCircuit),
    R_s: sourceResistance,
    R_L: isResistance ? load.value : 0,
    I_set: isResistance ? 0 : load.value,
    R_sh: wiring.sharedSource,
    L_w: wiring.inductance,
    V_F: freewheel.drop,
    D: /*#__PURE__*/ range(openDuty(read)),
    // Ambient and board, and what bursts make of them.
    T_a: /*#__PURE__*/ range(ambient),
    R_thJA: bursts ? 0 : junctionToAmbient,
    R_thDC: bursts ? junctionToAmbient : 0,
    R_thn: junctionToAmbient.nominal,
    Z_b: bursts ? burstImpedance(curve, bursts) : 0,
    Z_last: curve[curve.length - 1]!.kelvinPerWatt,
    // Until the junction is solved: as warm as the air, which nothing can be milder than.
    T_hot: Math.min(ambient.to, t.junctionMaximumCelsius.lower),
    // Gate drive.
    V_hold: s.V_hold,
    V_reg: s.V_reg,
    V_drop: isFollower ? s.V_BE : isInverter ? (pullsUp ? 0 : s.V_CE) : s.V_drop,
    R_drv: isInverter ? 0 : s.R_drv,
    R_snk: isFollower ? s.R_drv : s.R_snk,
    R_g: s.R_g,
    R_p: s.R_p,
    V_off: drive.complementary ? s.V_BE : pullsUp ? s.V_CE : s.V_off,
    V_high: s.V_high,
    V_BE: s.V_BE,
    R_b: s.R_b,
    R_be: s.R_be,
    R_bp: s.R_bp,
    I_leak: between(0, t.gateLeakage.upper + s.I_pinleak.upper),
    // Transistor.
    q_R: lotOf(transistor),
    R_gi: t.gateResistance,
    Q_gs: t.gateSourceCharge,
    Q_gd: t.gateDrainCharge,
    Q_g: t.gateCharge,
    V_pl: t.plateauVoltage,
    V_th: t.thresholdVoltage,
    C_iss: t.inputCapacitance,
    C_gd: reverseCurve ? highestOf(reverseCurve) : t.reverseCapacitance,
    // At the rated voltage, which no spike passes: there it is smallest.
    C_rss: reverseCurve ? capacitanceAt(reverseCurve, t.drainSourceMaximum.lower) : t.reverseCapacitance,
    C_oss: t.outputCapacitance,
  }
}

/** The data sheet's curve of transient impedance, or one that rises with the root of time to the board's resistance. */
export const curveOf = ({ transistor, junctionToAmbient, spreadingTime }: ReadMosfet): readonly ImpedancePoint[] =>
  transistor.transientImpedance ?? [{ seconds: spreadingTime, kelvinPerWatt: junctionToAmbient.nominal }]

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

/** Where a lot may stand, on the line that leaves it the least room below typical. */
function lotOf({ onResistance: lines, leastShare: a_low }: ReadMosfet['transistor']): Input {
  let lowest = -1
  let varies = false
  for (const { maximum, typical = maximum } of lines) {
    if (typical === maximum) continue
    varies = true
    lowest = Math.max(lowest, lowestLot({ a_low, R_typ: typical, R_gua: maximum }))
  }
  return varies ? between(lowest, 1, 0) : 0
}

/** Least on-resistance of any lot, over the guaranteed maximum; a share of the maximum where no typical is stated. */
export const lowestShare = ({ onResistance, leastShare }: ReadMosfet['transistor']): number =>
  Math.min(
    ...onResistance.map(({ maximum, typical }) =>
      typical === undefined ? leastShare : Math.max(2 * typical - maximum, leastShare * typical) / maximum,
    ),
  )

/** Smallest value of an input. */
export const lowerOf = (input: Input): number => (typeof input === 'object' ? input.lower : Number(input))

/** Largest value of an input. */
export const upperOf = (input: Input): number => (typeof input === 'object' ? input.upper : Number(input))
