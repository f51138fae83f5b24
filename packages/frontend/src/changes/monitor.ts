import { type ChangeSpec, solved, typedAlike } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { unnoticed } from '../design/use.js'
import { recovered } from '../monitor/lag.js'
import { pauseOf } from '../pulse/off-times.js'
import type { ReadWhole } from './whole.js'

const read = ({ design }: ReadWhole) => design

/** The smallest that is enough: a large one takes long to be charged again, and shows the cells late. */
export const pinCapacitor: ChangeSpec = {
  id: 'pin-capacitor',
  name: 'a capacitor at the pin of the monitor divider',
  order: 'any',
  rungs: () => ['100 nF ±20 %', '1 uF ±20 %'].map((text) => ({ puts: { 'monitor.divider.capacitance': text }, text })),
}

/** Both resistors by the same factor less: the share of the cells at the pin stays, and their tolerances do. */
export const stifferDivider: ChangeSpec = {
  id: 'monitor-divider',
  name: 'a monitor divider of lower resistance',
  order: 'mildest first',
  rungs: ({ read: whole }) => {
    const { upper, lower } = read(whole as ReadWhole).monitor?.divider ?? {}
    if (upper === undefined || lower === undefined) return []
    // Less than some 10 kohm drains the cells in the drawer.
    const most = (upper.nominal + lower.nominal) / 1e4
    return [2, 5, 10, 20, 50]
      .filter((factor) => factor <= most)
      .map((factor) => {
        const [up, low] = [upper, lower].map((one) => typedAlike(one, one.nominal / factor, 'ohm')) as [string, string]
        const puts = { 'monitor.divider.upper': up, 'monitor.divider.lower': low }
        return { puts, text: `${up} over ${low}` }
      })
  },
}

export const fewerReadings: ChangeSpec = /*#__PURE__*/ (() => ({
  ...solved({
    id: 'monitor-interval',
    name: 'fewer readings of the cells',
    path: 'monitor.divider.interval',
    unit: 's',
    from: (whole: ReadWhole) => {
      const { monitor, pwm } = read(whole)
      return monitor?.divider?.capacitance && (monitor.divider.interval ?? 1 / pwm.frequency)
    },
    to: 1,
  }),
  isFree: true,
}))()

/** A longer time without the load before a reading at rest: by no more than a user notices. */
export const longerPause = /*#__PURE__*/ solved({
  id: 'longer-pause',
  name: 'a longer pause before the cells are read',
  path: 'monitor.pause',
  unit: 's',
  from: (whole: ReadWhole) => pauseOf(read(whole)),
  to: unnoticed,
})

/** Cells that have come back for the most part before they are read: as at power-up, or between two uses. */
export const restedCells: ChangeSpec = {
  id: 'rested-cells',
  name: 'cells read only after a minute with the load off',
  order: 'any',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { design } = whole as ReadWhole
    if (design.monitor?.reads !== 'at rest' || (pauseOf(design) ?? recovered) >= recovered) return []
    const text = format(recovered, 's', { ascii: true })
    return [{ puts: { 'monitor.pause': text }, text }]
  },
}

/** How far all thresholds of the monitor go up or down together, V of one cell: their distances stay. */
const thresholdSteps = [0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5]

const thresholds = (id: string, name: string, sign: 1 | -1): ChangeSpec => ({
  id,
  name,
  order: 'mildest first',
  isFree: true,
  rungs: ({ read: whole }) => {
    const { monitor, supply } = read(whole as ReadWhole)
    const { source } = supply
    if (monitor === undefined || source.kind !== 'cell') return []
    const names = (['warning', 'reduction', 'stop', 'latch'] as const).filter((one) => monitor[one] !== undefined)
    return thresholdSteps.flatMap((step) => {
      const moved = names.map((one) => [one, monitor[one]! + sign * step * source.inSeries] as const)
      if (moved.some(([, volts]) => volts <= 0)) return []
      const said = moved.map(([one, volts]) => [one, format(volts, 'V', { digits: 4, ascii: true })] as const)
      const puts = Object.fromEntries(said.map(([one, text]) => [`monitor.${one}`, text]))
      return [{ puts, text: said.map(([one, text]) => `${one} ${text}`).join(', ') }]
    })
  },
})

export const lowerThresholds = /*#__PURE__*/ thresholds('lower-thresholds', 'lower thresholds of the monitor', -1)
export const higherThresholds = /*#__PURE__*/ thresholds('higher-thresholds', 'higher thresholds of the monitor', 1)

export const largerHysteresis: ChangeSpec = /*#__PURE__*/ (() => ({
  ...solved({
    id: 'hysteresis',
    name: 'more hysteresis at the stop',
    path: 'monitor.hysteresis',
    unit: 'V',
    from: (whole: ReadWhole) => Math.max(0.01, read(whole).monitor?.hysteresis ?? 0),
    to: (whole: ReadWhole) => read(whole).monitor?.stop ?? 0,
  }),
  isFree: true,
}))()
