import * as f from '../formulas/index.js'
import { resetMargin } from './reset.js'
import type { MarginContext, MosfetMargin } from './spec.js'
import { holdingResistance, thresholdAt, thresholdReads } from './threshold.js'

/** Whether the load is off: at rest, while the controller resets, and when the cell makes contact. */
export function offMargins(context: MarginContext, hotCelsius: number): MosfetMargin[] {
  const { read, circuit } = context
  const { transistor, drive, ambient } = read
  const isInverter = drive.kind === 'inverting transistor'
  const isPulledUp = isInverter && transistor.channel === 'N'
  const holding = holdingResistance(context)
  // Through its pull-up alone a gate is off but for leakage.
  const leaks = isInverter && !isPulledUp
  const margins: MosfetMargin[] = [
    {
      id: 'off-level',
      name: 'gate level, switched off, below the smallest threshold hot',
      unit: 'V',
      sense: 'at most',
      value: (x) => circuit.drive(x).V_off + (leaks ? f.leakageLevel({ I_leak: x.I_leak, R_p: holding(x) }) : 0),
      limit: thresholdAt(hotCelsius),
      reads: ['V_off', ...(leaks ? ['I_leak', 'R_p', 'R_g'] : []), ...thresholdReads],
      remedies: ['a drive that reaches the source', 'a transistor with a larger threshold', 'a smaller pull-up'],
      catches: ['H08'],
    },
    resetMargin(context, hotCelsius),
  ]
  if (drive.pull !== 'none' && !isPulledUp) {
    margins.push({
      id: 'contact-edge',
      name: 'gate level coupled when the cell makes contact, below the smallest threshold',
      unit: 'V',
      sense: 'at most',
      value: (x) =>
        f.coupledLevel({
          R_goff: holding(x),
          C_gd: x.n * x.C_gd,
          V_step: x.V_oc,
          t_step: x.t_ins,
          C_iss: x.n * x.C_iss,
        }),
      // The device is cold then: as warm as the air.
      limit: thresholdAt(ambient.to),
      reads: ['R_p', 'R_g', 'n', 'C_gd', 'V_oc', 't_ins', 'C_iss', ...thresholdReads],
      remedies: [
        'a smaller resistor from gate to source',
        'a capacitor from gate to source',
        'a transistor with less reverse capacitance',
      ],
      catches: ['H08'],
    })
  }
  return margins
}
