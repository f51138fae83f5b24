import type { Walk } from '../../walk/walk.js'
import type { RowOver } from '../assessment.js'
import type { MonitorAnswer } from '../monitor.js'
import { type Told, toldRows } from './told.js'

/** The cells as the firmware sees them, and where it acts on them. */
export function monitorRows({ design }: Walk, monitor: MonitorAnswer): RowOver[] {
  const noise = design.monitor?.noise
  const { pin, alarms } = monitor
  const between = alarms.map(({ name, toNext }, i): Told => {
    const next = alarms[i + 1]?.name
    const text = { id: `${name}-${next}`, name: `${name} above the ${next}`, where: `at the ${name}` }
    return { ...text, ...above, catches: ['K06'], worst: toNext }
  })
  return toldRows('monitor', [
    ...between,
    {
      ...{ id: 'reads', name: 'cell voltage above the rail that the monitor reads' },
      ...{ unit: 'V', sense: 'at most', catches: ['D03'], where: 'full to the cut-off' },
      ...{ worst: monitor.unseen > 0 ? monitor.unseen : null, limit: noise },
    },
    {
      ...(design.monitor?.divider
        ? {
            id: 'pin',
            name: 'divided cell voltage, against the converter reference',
            where: 'full cells',
          }
        : {
            id: 'reach',
            name: 'internal reference, against the rail at the lowest threshold',
            where: 'at that threshold',
          }),
      ...{ unit: 'V', sense: 'at most', catches: ['J06'], worst: pin.highest, limit: pin.allowed },
    },
    {
      ...{ id: 'sampling', name: 'settling error of the divided cell voltage', unit: 'LSB' },
      ...{ sense: 'at most', catches: ['D01'], where: 'each reading', worst: monitor.missed, limit: 0.5 },
    },
    {
      ...{ id: 'lag', name: 'load step not yet settled when the cells are read', unit: 'V' },
      ...{ sense: 'at most', catches: ['D01'], where: 'in the shortest pulse', worst: monitor.lag, limit: noise },
    },
    {
      ...{ id: 'full', name: 'full cells above the first threshold and the switch-on level' },
      ...{ ...above, catches: ['K06'], where: 'full cells', worst: monitor.aboveFirst },
    },
    ...unlessSlow(monitor.beforeStopSlow, {
      ...{ id: 'early', name: 'charge used before the firmware stops', unit: '1', sense: 'at least' },
      ...{ catches: ['D03'], where: 'at the stop' },
      ...{ worst: monitor.beforeStop, limit: design.requirements.usableCharge },
    }),
    {
      ...{ id: 'reset', name: 'controller rail above brown-out at the stop, load on' },
      ...{ ...above, catches: ['K06'], where: 'at the stop', worst: monitor.aboveReset },
    },
    ...unlessSlow(monitor.hysteresisSlow, {
      ...{ id: 'hysteresis', name: 'hysteresis above rebound, noise and one count' },
      ...{ ...above, catches: ['K04'], where: 'after the stop', worst: monitor.hysteresis },
    }),
    {
      ...{ id: 'damage', name: 'cells at rest after the stop, above damage voltage' },
      ...{ ...above, catches: ['K05', 'K10'], where: 'after the stop', worst: monitor.aboveDamage },
    },
    {
      ...{ id: 'protection', name: 'cells under load at the stop, above protection cut-off' },
      ...{ ...above, catches: ['K03'], where: 'at the stop', worst: monitor.aboveProtection },
    },
    {
      ...{ id: 'weakest', name: 'weakest cell at rest after the stop, above damage voltage' },
      ...{ ...above, catches: ['K05'], where: 'after the stop', worst: monitor.weakestAboveDamage },
    },
  ])
}

/** A voltage that must not be below another. */
const above = { unit: 'V', sense: 'at least', limit: 0 } as const

/** A row that may not hold where the cells come back slowly isn't sure. */
const unlessSlow = (slow: number | null, told: Told): Told[] => {
  const { worst, limit } = told
  const isUnsure = slow !== null && worst != null && limit != null && worst >= limit && slow < limit
  return [isUnsure ? { ...told, unsure: notToldWhatIsLacking } : told]
}

const notToldWhatIsLacking =
  'cells recover partly over minutes, are read sooner, and what is still to recover is not stated (monitor.lacking)'
