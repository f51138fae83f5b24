import { type ChangeSpec, preferred, type Remedies, replaced, solved, typedAlike } from '@ohmward/budget'
import { exampleDrives, exampleTransistors } from '@ohmward/mosfet'
import { format } from '@ohmward/quantity'
import { exampleCells } from '@ohmward/supply'
import { isWatched } from '../monitor/end.js'
import { pauseOf, recovered, unnoticed } from '../monitor/lag.js'
import type { BlockName } from '../walk/stage.js'
import { higherTrip, largerCurrent, laterReading, lowerWithstand, widerRange } from './readings.js'
import { higherInput, isOfInput, largerOutput } from './regulator.js'
import type { ReadWhole } from './whole.js'

const read = ({ design }: ReadWhole) => design

/** Another class of cell, the rest of the supply as it is. */
const cell: ChangeSpec = /*#__PURE__*/ (() =>
  replaced({
    id: 'cell',
    name: 'another class of cell',
    path: 'supply.source',
    parts: Object.fromEntries(
      Object.entries(exampleCells).map(([name, fields]) => [name, { kind: 'cell', ...fields }]),
    ),
  }))()

const earlierCutOff = /*#__PURE__*/ solved({
  id: 'cut-off',
  name: 'an earlier cut-off',
  path: 'supply.source.lowestVoltage',
  unit: 'V',
  from: (whole: ReadWhole) => {
    const { source } = read(whole).supply
    return source.kind === 'cell' ? source.lowestVoltage : undefined
  },
  to: (whole: ReadWhole) => {
    const { source } = read(whole).supply
    return source.kind === 'cell' ? source.lowestVoltage + 0.6 : 0
  },
})

const lowerBrownOut = /*#__PURE__*/ solved({
  id: 'brown-out',
  name: 'a lower brown-out level',
  path: 'controller.brownOut',
  unit: 'V',
  from: (whole: ReadWhole) => read(whole).controller.brownOut,
  to: (whole: ReadWhole) => read(whole).controller.lowestSupply,
})

const lessDuty = /*#__PURE__*/ solved({
  id: 'duty',
  name: 'a lower maximum duty',
  path: 'pwm.duty.to',
  unit: '1',
  from: (whole: ReadWhole) => read(whole).pwm.duty.to,
  to: (whole: ReadWhole) => read(whole).pwm.duty.from,
})

const softStart = /*#__PURE__*/ solved({
  id: 'soft-start',
  name: 'a slower rise of the load current',
  path: 'load.rise',
  unit: 's',
  from: (whole: ReadWhole) => read(whole).load.rise,
  to: 0.1,
})

const largerLoad: ChangeSpec = /*#__PURE__*/ (() => ({
  ...preferred({
    id: 'load',
    name: 'a load of more resistance',
    path: 'load.resistance',
    unit: 'ohm',
    from: (whole: ReadWhole) => read(whole).load.resistance,
    towards: 'up',
    steps: 36,
  }),
  isTask: true,
}))()

/** The smallest that is enough: a large one takes long to be charged again, and shows the cells late. */
const pinCapacitor: ChangeSpec = {
  id: 'pin-capacitor',
  name: "a capacitor at the pin of the monitor's divider",
  order: 'any',
  rungs: () => ['100 nF ±20 %', '1 uF ±20 %'].map((text) => ({ puts: { 'monitor.divider.capacitance': text }, text })),
}

/** Both resistors by the same factor less: the share of the cells at the pin stays, and their tolerances do. */
const stifferDivider: ChangeSpec = {
  id: 'monitor-divider',
  name: "a monitor's divider of less resistance",
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

const fewerReadings: ChangeSpec = /*#__PURE__*/ (() => ({
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

/** A switch on the high side: the load stands at ground, and no input at a rail that its amplifier hasn't. */
const highSide: ChangeSpec = {
  id: 'high-side',
  name: 'the load at ground, switched on the high side',
  order: 'any',
  rungs: ({ read: whole }) =>
    read(whole as ReadWhole).divider.topology !== 'load at rail'
      ? []
      : Object.entries(exampleTransistors)
          .filter(([, { channel }]) => channel === 'P')
          .map(([name, transistor]) => {
            const drive = exampleDrives['NPN and pull-up of 1 kohm']
            const puts = {
              'divider.topology': 'load at ground',
              'mosfet.transistor': transistor,
              'mosfet.drive': drive,
            }
            return { puts, text: `${name}, by an NPN and a pull-up of 1 kohm` }
          }),
}

/** A longer time without the load before a reading at rest: by no more than a user notices. */
const longerPause = /*#__PURE__*/ solved({
  id: 'longer-pause',
  name: 'a longer pause of the load before the cells are read',
  path: 'monitor.pause',
  unit: 's',
  from: (whole: ReadWhole) => pauseOf(read(whole)),
  to: unnoticed,
})

/** Cells that have come back for the most part before they are read: as at power-up, or between two uses. */
const restedCells: ChangeSpec = {
  id: 'rested-cells',
  name: 'cells that are read only after a minute without the load',
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

const lowerThresholds = /*#__PURE__*/ thresholds('lower-thresholds', 'lower thresholds of the monitor', -1)
const higherThresholds = /*#__PURE__*/ thresholds('higher-thresholds', 'higher thresholds of the monitor', 1)

const largerHysteresis: ChangeSpec = /*#__PURE__*/ (() => ({
  ...solved({
    id: 'hysteresis',
    name: 'a larger hysteresis of the stop',
    path: 'monitor.hysteresis',
    unit: 'V',
    from: (whole: ReadWhole) => Math.max(0.01, read(whole).monitor?.hysteresis ?? 0),
    to: (whole: ReadWhole) => read(whole).monitor?.stop ?? 0,
  }),
  isFree: true,
}))()

const longerPulse = /*#__PURE__*/ solved({
  id: 'longer-pulse',
  name: 'a higher minimum duty',
  path: 'pwm.duty.from',
  unit: '1',
  from: (whole: ReadWhole) => read(whole).pwm.duty.from,
  to: (whole: ReadWhole) => read(whole).pwm.duty.to,
})

/**
 * Less resistance in each element of the path, but in those that trip by it only where that is asked for: a protection of less resistance
 * trips at more.
 */
const lessPath = ({ design }: ReadWhole, isTripping: boolean): ChangeSpec[] =>
  (design.supply.path ?? []).flatMap(({ name, resistance, tripVoltage }, i) =>
    resistance.nominal === 0 || (tripVoltage !== undefined) !== isTripping
      ? []
      : [
          solved({
            id: `path-${i + 1}`,
            name: `less resistance in ${name}`,
            path: `supply.path.${i}.resistance`,
            unit: 'ohm',
            from: (whole: ReadWhole) => read(whole).supply.path?.[i]?.resistance,
            to: resistance.nominal / 10,
          }),
        ],
  )

/** What may be changed in the design itself where a row fails: settings, which cost nothing, and then supply and load. */
export interface OwnRemedies {
  readonly settings: Remedies
  readonly parts: Remedies
}

/** By the block whose row fails and the state in which it does. */
export function ownRemedies(read: ReadWhole): OwnRemedies {
  const { walk, span } = read
  // Where the firmware watches the cells, its stop ends their use, and a cut-off that is only stated changes nothing on the board.
  const earlier = isWatched(read.design) ? [] : [earlierCutOff]
  const supply = read.design.supply.source.kind === 'cell' ? [cell, ...earlier] : []
  const isAtRail = read.design.divider.topology === 'load at rail'
  // What a rating says of the load, a resistance would say twice.
  const isRated = read.design.load.ratedVoltage !== undefined
  const loaded = [...(isRated ? [] : [largerLoad]), ...supply, ...lessPath(read, false)]
  const protections = lessPath(read, true)
  const settings: Partial<Record<BlockName, readonly ChangeSpec[]>> = {
    mosfet: [lessDuty],
    decoupling: [lowerBrownOut, softStart],
    supply: [lessDuty],
    rails: [lowerBrownOut],
  }
  // The firmware must stop before the controller resets.
  const found = {
    settings: { 'monitor/reset': [lowerBrownOut] } as Record<string, readonly ChangeSpec[]>,
    parts: {
      'power/error': [laterReading, longerPulse],
      'power/current': [largerCurrent, laterReading],
      'power/trip': [higherTrip],
      'power/withstand': [lowerWithstand],
      'monitor/lag': [read.design.monitor?.reads === 'at rest' ? longerPause : laterReading],
      'monitor/early': [restedCells, lowerThresholds],
      'monitor/damage': [higherThresholds],
      'monitor/weakest': [higherThresholds],
      'monitor/protection': [higherThresholds],
      'monitor/hysteresis': [largerHysteresis, restedCells],
      'monitor/reset': loaded,
      'monitor/sampling': [fewerReadings, stifferDivider, pinCapacitor],
    } as Record<string, readonly ChangeSpec[]>,
  }
  for (const stage of walk.stages) {
    const { block, state } = stage
    for (const { id } of walk.over(span).ready(stage)) {
      // First, since no other change brings an input down from the rail.
      const isHigh = isAtRail && (block === 'divider' || id === 'rails/sense-clamp')
      const set = [...(isHigh ? [highSide] : []), ...(settings[block] ?? [])]
      found.settings[id] = state === 'PWM' ? [...set, lessDuty] : set
      found.parts[id] = block === 'divider' ? supply : [...(isOfInput(id) ? higherInput(read) : []), ...loaded]
      if (block === 'rails' && state === 'load off') found.parts[id] = largerOutput(read)
      if (id.startsWith('divider/range-')) found.parts[id] = [widerRange]
      if (id.startsWith('supply/trip-of-')) found.parts[id] = [...loaded, ...protections]
    }
  }
  return found
}
