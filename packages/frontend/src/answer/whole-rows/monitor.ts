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
      ...{ id: 'reads', name: 'cells above the only rail that the converter reads, which no threshold sees' },
      ...{ unit: 'V', sense: 'at most', catches: ['D03'], where: 'full to the cut-off' },
      ...{ worst: monitor.unseen > 0 ? monitor.unseen : null, limit: noise },
    },
    {
      ...(design.monitor?.divider
        ? {
            id: 'pin',
            name: 'divided voltage of the cells below what the converter counts against',
            where: 'full cells',
          }
        : {
            id: 'reach',
            name: 'internal reference below the rail at the lowest threshold',
            where: 'at that threshold',
          }),
      ...{ unit: 'V', sense: 'at most', catches: ['J06'], worst: pin.highest, limit: pin.allowed },
    },
    {
      ...{ id: 'sampling', name: 'counts missing at the end of sampling the divided cells', unit: 'LSB' },
      ...{ sense: 'at most', catches: ['D01'], where: 'each reading', worst: monitor.missed, limit: 0.5 },
    },
    {
      ...{ id: 'lag', name: 'step of the load that the cells still miss when they are read', unit: 'V' },
      ...{ sense: 'at most', catches: ['D01'], where: 'in the shortest pulse', worst: monitor.lag, limit: noise },
    },
    {
      ...{ id: 'full', name: 'full cells above the first threshold, and above where it switches on again' },
      ...{ ...above, catches: ['K06'], where: 'full cells', worst: monitor.aboveFirst },
    },
    ...unlessSlow(monitor.beforeStopSlow, {
      ...{ id: 'early', name: 'charge used before the firmware stops', unit: '1', sense: 'at least' },
      ...{ catches: ['D03'], where: 'at the stop' },
      ...{ worst: monitor.beforeStop, limit: design.requirements.usableCharge },
    }),
    {
      ...{ id: 'reset', name: 'rail of the controller at the stop over the brown-out, load on' },
      ...{ ...above, catches: ['K06'], where: 'at the stop', worst: monitor.aboveReset },
    },
    ...unlessSlow(monitor.hysteresisSlow, {
      ...{ id: 'hysteresis', name: 'hysteresis above rebound, noise and a count' },
      ...{ ...above, catches: ['K04'], where: 'after the stop', worst: monitor.hysteresis },
    }),
    {
      ...{ id: 'damage', name: 'cells at rest after the stop, above damage' },
      ...{ ...above, catches: ['K05', 'K10'], where: 'after the stop', worst: monitor.aboveDamage },
    },
    {
      ...{ id: 'protection', name: 'cells under load at the stop, above where their protection acts' },
      ...{ ...above, catches: ['K03'], where: 'at the stop', worst: monitor.aboveProtection },
    },
    {
      ...{ id: 'weakest', name: 'weakest cell in series at rest after the stop, above damage' },
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
  'cells come back in part over minutes, are read sooner, and nobody says what they still lack then (monitor.lacking)'
