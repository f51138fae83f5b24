import * as f from '../formulas/index.js'
import type { MosfetInputs } from '../inputs.js'
import type { MarginContext, MosfetMargin } from './spec.js'
import { holdingResistance, thresholdAt, thresholdReads } from './threshold.js'

const hold = [
  'a resistor from gate to source, 10 kilohm or less, on the drive side of the gate resistor',
  'a pin that is low during reset',
  'a second switch in series that a pin of its own enables',
]

const text = {
  id: 'reset-state',
  name: 'gate level while the controller resets, below the smallest threshold',
  unit: 'V',
  sense: 'at most',
  catches: ['H04', 'H08'],
} as const

/** Whether the load is off while the controller resets and drives nothing. Pitfalls H04, H08. */
export function resetMargin(context: MarginContext, hotCelsius: number): MosfetMargin {
  const { transistor, drive } = context.read
  if (drive.kind === 'follower') return followerReset(context, hotCelsius)
  if (drive.kind !== 'inverting transistor') return pinReset(context, hotCelsius)
  return transistor.channel === 'P' ? baseReset(context) : pulledUpReset(context, hotCelsius)
}

/** A pin that is an input during reset: it floats on its leakage, or is pulled weakly the wrong way. */
function pinReset(context: MarginContext, hotCelsius: number): MosfetMargin {
  const { drive } = context.read
  const { gate } = context.circuit
  const holding = holdingResistance(context)
  const value = (x: MosfetInputs): number => {
    // Nothing holds the gate: it may stand anywhere in its supply.
    if (drive.pull === 'none') return gate(x).V_GShigh
    if (!drive.hasResetPull) return f.leakageLevel({ I_leak: x.I_leak, R_p: holding(x) })
    return f.resetLevel({ V_weak: gate(x).V_GShigh, R_weak: x.R_weak, R_p: x.R_p, I_leak: x.I_leak })
  }
  const reads = ['V_GShigh', 'I_leak', 'R_p', 'R_g', 'R_weak', ...thresholdReads]
  return { ...text, value, limit: thresholdAt(hotCelsius), reads, remedies: hold }
}

/** A follower passes on what stands at its base, however weakly that is pulled: the resistor at the gate is no match. */
function followerReset(context: MarginContext, hotCelsius: number): MosfetMargin {
  const { drive } = context.read
  const { gate } = context.circuit
  const holding = holdingResistance(context)
  const value = (x: MosfetInputs): number => {
    const { V_GShigh } = gate(x)
    if (drive.pull === 'none') return V_GShigh
    const pull = drive.hasResetPull ? { V_weak: V_GShigh, R_weak: x.R_weak } : { V_weak: 0, R_weak: 1 }
    // A base that nothing holds may be lifted by the pin's leakage alone.
    const base = drive.hasBasePullDown
      ? Math.min(f.resetBase({ ...pull, R_be: x.R_be, R_b: 0, I_leak: x.I_leak }), V_GShigh)
      : V_GShigh
    const passed = f.driveLevel({ V_sup: base, V_drop: x.V_BE })
    return Math.max(passed, f.leakageLevel({ I_leak: x.I_leak, R_p: holding(x) }))
  }
  return {
    ...text,
    value,
    limit: thresholdAt(hotCelsius),
    reads: ['V_GShigh', 'V_BE', 'R_be', 'R_weak', 'I_leak', 'R_p', 'R_g', ...thresholdReads],
    remedies: ['a resistor from the base to the level that switches off, or a smaller one', ...hold.slice(1)],
  }
}

/** A P-channel switch is off while its transistor's base stays low. */
function baseReset({ read: { drive }, circuit: { gate } }: MarginContext): MosfetMargin {
  const value = (x: MosfetInputs): number => {
    const { V_GShigh } = gate(x)
    // A base that nothing holds may be lifted by the pin's leakage alone.
    if (!drive.hasBasePullDown) return V_GShigh
    const pull = drive.hasResetPull ? { V_weak: V_GShigh, R_weak: x.R_weak } : { V_weak: 0, R_weak: 1 }
    return f.resetBase({ ...pull, R_be: x.R_be, R_b: x.R_b, I_leak: x.I_leak })
  }
  return {
    ...text,
    name: 'base voltage while the controller resets, below conduction',
    value,
    limit: drive.spreads.V_BEoff.lower,
    reads: ['V_GShigh', 'R_be', 'R_weak', 'R_b', 'I_leak'],
    remedies: ['a resistor from base to emitter, or a smaller one', ...hold.slice(1)],
  }
}

/** An N-channel switch with a pull-up is on during reset, unless the base is held up. */
function pulledUpReset({ read: { drive }, circuit: { gate } }: MarginContext, hotCelsius: number): MosfetMargin {
  if (!drive.hasBasePullUp) {
    return {
      ...text,
      value: (x) => gate(x).V_GShigh,
      limit: thresholdAt(hotCelsius),
      reads: ['V_GShigh', ...thresholdReads],
      remedies: [
        'a resistor from the rail to the base, so that the transistor holds the gate low',
        'a drive that pulls both ways',
      ],
    }
  }
  return {
    ...text,
    name: 'collector current while the controller resets, above that of the pull-up',
    unit: 'A',
    sense: 'at least',
    value: (x) => f.resetCollectorCurrent({ h_FE: x.h_FE, V_oc: x.V_oc, V_BE: x.V_BE, R_bp: x.R_bp }),
    limit: (x) => f.pullCurrent({ V_GShigh: gate(x).V_GShigh, R_p: x.R_p }),
    reads: ['h_FE', 'V_oc', 'V_BE', 'R_bp', 'V_GShigh', 'R_p'],
    remedies: ['a smaller resistor from the rail to the base'],
  }
}
