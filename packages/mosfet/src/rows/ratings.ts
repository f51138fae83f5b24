import type { Topology } from '../chain/topology.js'
import type { ReadMosfet } from '../choice.js'
import { keptVoltage } from '../formulas/limits.js'
import type { MosfetRow } from './row.js'

/** Ratings of voltage, current and energy. */
export function ratingRows(
  { transistor, frequency, duty, freewheel }: ReadMosfet,
  { avalanche }: Topology,
): MosfetRow[] {
  const switches = frequency > 0 && duty.from < 1 && duty.to > 0
  const rows: MosfetRow[] = [
    {
      id: 'drain-current',
      name: 'drain current',
      unit: 'A',
      sense: 'at most',
      value: 'I_D',
      limit: transistor.fields.currentMaximum.lower,
      catches: [],
    },
    {
      id: 'drain-voltage',
      name: 'drain-source voltage at turn-off, against 80 % of its rating',
      unit: 'V',
      sense: 'at most',
      value: switches ? 'V_pk' : 'V_oc',
      limit: keptVoltage({ V_DSmax: transistor.fields.drainSourceMaximum.lower }),
      catches: ['H12'],
    },
  ]
  if (freewheel.ratedPower !== undefined) {
    rows.push({
      id: 'freewheel-power',
      name: 'loss of the freewheeling diode',
      unit: 'W',
      sense: 'at most',
      value: 'P_fw',
      limit: freewheel.ratedPower,
      catches: [],
    })
  }
  if (avalanche) {
    rows.push({
      id: 'avalanche-energy',
      name: 'avalanche energy at turn-off, hot',
      unit: 'J',
      sense: 'at most',
      value: 'E_av',
      limit: 'E_hot',
      causes: ['junction'],
      catches: ['H11', 'H12'],
    })
  }
  return rows
}
