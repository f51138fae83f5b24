import type { Topology } from '../chain/topology.js'
import type { ReadMosfet } from '../choice.js'
import type { MosfetRow } from './row.js'

const inReset = [
  'a resistor from gate to source, 10 kilohm or less, on the drive side of the gate resistor',
  'a pin that is low during reset',
  'a second switch in series that a pin of its own enables',
]

/** Whether the load is off: at rest, while the controller resets, and when the cell makes contact. */
export function offRows(read: ReadMosfet, topology: Topology): MosfetRow[] {
  const rows: MosfetRow[] = [
    {
      id: 'off-level',
      name: 'gate level, switched off, below the smallest threshold hot',
      unit: 'V',
      sense: 'at most',
      // Through its pull-up alone a gate is off but for leakage.
      value: topology.limited === 'on' ? 'V_rest' : 'V_off',
      limit: 'V_thhot',
      remedies: ['a drive that reaches the source', 'a transistor with a larger threshold', 'a smaller pull-up'],
      catches: ['H08'],
    },
    resetRow(read, topology),
  ]
  if (topology.holding !== 'none') {
    rows.push({
      id: 'contact-edge',
      name: 'gate level coupled when the cell makes contact, below the smallest threshold',
      unit: 'V',
      sense: 'at most',
      value: 'V_cpl',
      // The device is cold then: as warm as the air.
      limit: 'V_thair',
      remedies: [
        'a smaller resistor from gate to source',
        'a capacitor from gate to source',
        'a transistor with less reverse capacitance',
      ],
      catches: ['H08'],
    })
  }
  return rows
}

/** Whether the load is off while the controller resets and drives nothing. Pitfalls H04, H08. */
function resetRow({ drive }: ReadMosfet, { reset, limited }: Topology): MosfetRow {
  const text = { id: 'reset-state', unit: 'V', sense: 'at most', catches: ['H04', 'H08'] } as const
  const gate = {
    ...text,
    name: 'gate level while the controller resets, below the smallest threshold',
    value: 'V_reset',
    limit: 'V_thhot',
  } as const
  if (reset === 'base') {
    // A P-channel switch is off while its transistor's base stays low.
    return {
      ...text,
      name: 'base voltage while the controller resets, below conduction',
      value: 'V_base',
      limit: drive.spreads.V_BEoff.lower,
      remedies: ['a resistor from base to emitter, or a smaller one', ...inReset.slice(1)],
    }
  }
  if (reset === 'base pulled up') {
    return {
      ...text,
      name: 'collector current while the controller resets, above that of the pull-up',
      unit: 'A',
      sense: 'at least',
      value: 'I_Creset',
      limit: 'I_p',
      remedies: ['a smaller resistor from the rail to the base'],
    }
  }
  // An N-channel switch with a pull-up is on during reset, unless the base is held up.
  if (limited === 'off') {
    const base = 'a resistor from the rail to the base, so that the transistor holds the gate low'
    return { ...gate, remedies: [base, 'a drive that pulls both ways'] }
  }
  if (drive.kind === 'follower') {
    const base = 'a resistor from the base to the level that switches off, or a smaller one'
    return { ...gate, remedies: [base, ...inReset.slice(1)] }
  }
  return { ...gate, remedies: inReset }
}
