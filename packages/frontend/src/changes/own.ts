import { type ChangeSpec, preferred, type Remedies, replaced, solved } from '@ohmward/budget'
import { exampleDrives, exampleTransistors } from '@ohmward/mosfet'
import { exampleCells } from '@ohmward/supply'
import { isWatched } from '../monitor/end.js'
import type { BlockName } from '../walk/stage.js'
import {
  fewerReadings,
  higherThresholds,
  largerHysteresis,
  longerPause,
  lowerThresholds,
  pinCapacitor,
  restedCells,
  stifferDivider,
} from './monitor.js'
import { higherTrip, largerCurrent, laterReading, laterResistance, lowerWithstand, widerRange } from './readings.js'
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
    name: 'a load of higher resistance',
    path: 'load.resistance',
    unit: 'ohm',
    from: (whole: ReadWhole) => read(whole).load.resistance,
    towards: 'up',
    steps: 36,
  }),
  isTask: true,
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
      const isSagged = id === 'divider/supply-low' || id === 'divider/headroom'
      const set = [...(isHigh ? [highSide] : []), ...(isSagged ? [laterResistance] : []), ...(settings[block] ?? [])]
      found.settings[id] = state === 'PWM' ? [...set, lessDuty] : set
      found.parts[id] = block === 'divider' ? supply : [...(isOfInput(id) ? higherInput(read) : []), ...loaded]
      if (block === 'rails' && state === 'load off') found.parts[id] = largerOutput(read)
      if (id.startsWith('divider/range-')) found.parts[id] = [widerRange]
      if (id.startsWith('supply/trip-of-')) found.parts[id] = [...loaded, ...protections]
    }
  }
  return found
}
