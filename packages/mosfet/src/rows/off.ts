import type { Topology } from '../chain/topology.js'
import type { ReadMosfet } from '../choice.js'
import type { MosfetRow } from './row.js'

/** Whether the load is off: at rest, while the controller resets, and when the cell makes contact. */
export function offRows(read: ReadMosfet, topology: Topology): MosfetRow[] {
  const { contactAllowed } = read
  const rows: MosfetRow[] = [
    {
      id: 'off-level',
      name: 'gate level when off',
      unit: 'V',
      sense: 'at most',
      // Through its pull-up alone a gate is off but for leakage.
      value: topology.limited === 'on' ? 'V_rest' : 'V_off',
      limit: 'V_thhot',
      catches: ['H08'],
    },
    resetRow(read, topology),
  ]
  if (topology.holding !== 'none') {
    rows.push(
      {
        id: 'contact-edge',
        name: 'load on-time as the cell makes contact',
        unit: 's',
        sense: 'at most',
        value: 't_con',
        limit: contactAllowed,
        catches: ['H08'],
      },
      {
        id: 'contact-heat',
        name: 'junction at insertion, gate pulled up by coupling',
        unit: 'degC',
        sense: 'at most',
        value: 'T_con',
        limit: 'T_lim',
        catches: ['H08'],
      },
    )
  }
  return rows
}

/** Whether the load is off while the controller resets and drives nothing. Pitfalls H04, H08. */
function resetRow({ drive }: ReadMosfet, { reset }: Topology): MosfetRow {
  const text = { id: 'reset-state', unit: 'V', sense: 'at most', catches: ['H04', 'H08'] } as const
  const gate = {
    ...text,
    name: 'gate level, controller in reset',
    value: 'V_reset',
    limit: 'V_thhot',
  } as const
  if (reset === 'base') {
    // A P-channel switch is off while its transistor's base stays low.
    return {
      ...text,
      name: 'base voltage, controller in reset',
      value: 'V_base',
      limit: drive.spreads.V_BEoff.lower,
    }
  }
  if (reset === 'base pulled up') {
    return {
      ...text,
      name: 'collector current, controller in reset',
      unit: 'A',
      sense: 'at least',
      value: 'I_Creset',
      limit: 'I_p',
    }
  }
  // An N-channel switch with a pull-up is on during reset, unless the base is held up.
  return gate
}
