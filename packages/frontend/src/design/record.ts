import type { DecouplingChoice } from '@ohmward/decoupling'
import type { DividerChoice } from '@ohmward/divider'
import type { HallChoice } from '@ohmward/hall'
import type { MosfetChoice, ReadMosfet } from '@ohmward/mosfet'
import {
  exactly,
  type Given,
  InputError,
  own,
  part,
  type Read,
  range,
  record,
  settled,
  spread,
} from '@ohmward/quantity'
import { type ReadSupply, standbyField, supplyFields } from '@ohmward/supply'
import type { MostCapacitance } from './capacitance.js'
import type { ReadExcitation } from './excitation.js'
import { label } from './label.js'
import { loadFields, oneRating, type ReadLoad } from './load.js'
import { livesField, railsField } from './rails.js'
import type { ReadSensor } from './sensor.js'
import { burstsField, internalReferenceField, monitorField } from './use.js'

/** The version of a design that is written now; an earlier one is read, a later one refused. */
export const designVersion = 1

/** A choice of the current measurement; the PWM is the design's. */
export type DesignHall = Omit<HallChoice, 'pwm'>

/** A choice of the switch; load and PWM are the design's. */
export type DesignMosfet = Omit<MosfetChoice, 'load' | 'pwm'>

/** A choice of the rail's capacitors; source, load and limits come from the design. */
export type DesignDecoupling = Omit<DecouplingChoice, 'source' | 'tap' | 'load' | 'idle' | 'limits'>

function readVersion(given: unknown, field: string): 1 {
  if (given === designVersion) return designVersion
  const hint =
    typeof given === 'number' && given > designVersion ? 'The design was written by a later release than this one' : ''
  throw new InputError({ field, value: given, allowed: String(designVersion), hint })
}

/**
 * What a block reads by itself: kept as it was written, and read by the block when the whole design is known. Its parts are read at every
 * place of a walk: settled, each is read once.
 */
const blockPart = <G extends object>(meaning: string) =>
  /*#__PURE__*/ own<G>()(
    (given: unknown, field: string): G => {
      if (typeof given === 'object' && given !== null && !Array.isArray(given)) return settled(given) as G
      throw new InputError({ field, value: given, allowed: 'an object with the fields of that block' })
    },
    { schema: { type: 'object' }, meaning },
  )

/** What of a block's choice the design says for all. */
export const givenByDesign = {
  hall: ['pwm'],
  mosfet: ['load', 'pwm'],
  decoupling: ['source', 'tap', 'load', 'idle', 'limits'],
} as const

const fields = () =>
  /*#__PURE__*/ record({
    $schema: /*#__PURE__*/ label('address of the schema, for an editor'),
    version: own<1>()(readVersion, { schema: { const: designVersion }, meaning: 'version of the design' }),
    name: /*#__PURE__*/ label('what the design is called'),
    supply: /*#__PURE__*/ part(supplyFields, {
      meaning: 'what feeds the board: cells or a port, and the path without switch, sensor conductor and load',
    }),
    board: /*#__PURE__*/ label(
      'tap of the path that feeds board, capacitors and switch; what is behind it is in series with the load. The end by default',
    ),
    load: /*#__PURE__*/ part(loadFields, {
      check: oneRating,
      meaning:
        'what the switch feeds: a resistance, given as such or by its rating. A load of constant power or current has none to be read',
    }),
    pwm: /*#__PURE__*/ part(
      {
        frequency: /*#__PURE__*/ exactly({
          symbol: 'f_PWM',
          unit: 'Hz',
          min: 1e-3,
          max: 1e6,
          meaning: 'PWM frequency',
        }),
        duty: /*#__PURE__*/ range({ unit: '1', above: 0, max: 1, meaning: 'duties to cover' }),
      },
      { meaning: 'PWM of the load' },
    ),
    divider: /*#__PURE__*/ blockPart<DividerChoice>('measurement of the load resistance, while the load is off'),
    hall: /*#__PURE__*/ blockPart<DesignHall>('measurement of the load current, while the load is on; without its pwm'),
    mosfet: /*#__PURE__*/ blockPart<DesignMosfet>('switch; without load and pwm'),
    decoupling: /*#__PURE__*/ blockPart<DesignDecoupling>(
      'capacitors of the rail; without source, load, idle and limits',
    ),
    controller: /*#__PURE__*/ part(
      {
        brownOut: /*#__PURE__*/ spread({
          symbol: 'V_bod',
          unit: 'V',
          above: 0,
          max: 60,
          meaning: 'brown-out threshold',
        }),
        lowestSupply: /*#__PURE__*/ exactly({ unit: 'V', above: 0, max: 60, meaning: 'lowest supply at its clock' }),
        current: /*#__PURE__*/ spread({
          symbol: 'I_0',
          unit: 'A',
          min: 0,
          max: 100,
          meaning: 'current of all that is always on while the device is awake',
        }),
        internalReference: internalReferenceField,
      },
      { meaning: 'controller' },
    ),
    rails: railsField,
    lives: livesField,
    monitor: monitorField,
    bursts: burstsField,
    standby: standbyField,
    requirements: /*#__PURE__*/ part(
      {
        usableCharge: /*#__PURE__*/ exactly({
          unit: '1',
          min: 0,
          max: 1,
          otherwise: 0.9,
          meaning: 'share of a full charge that must be usable before anything gives way',
        }),
        standbyDays: /*#__PURE__*/ exactly({
          unit: '1',
          min: 0,
          max: 1e5,
          optional: true,
          meaning: 'days required in the drawer until the cut-off; none by default',
        }),
        daysAfterCutOff: /*#__PURE__*/ exactly({
          unit: '1',
          min: 0,
          max: 1e5,
          optional: true,
          meaning: 'days required from the cut-off until the cells are damaged; none by default',
        }),
        power: /*#__PURE__*/ exactly({
          symbol: 'P_want',
          unit: 'W',
          above: 0,
          max: 1e5,
          optional: true,
          meaning: 'mean power required in the load at the largest duty, over the usable charge; none by default',
        }),
        powerLimit: /*#__PURE__*/ exactly({
          symbol: 'P_lim',
          unit: 'W',
          above: 0,
          max: 1e5,
          optional: true,
          meaning: 'power that the firmware must not exceed in the load; no limit by default',
        }),
        powerError: /*#__PURE__*/ exactly({
          unit: '1',
          above: 0,
          max: 1,
          optional: true,
          meaning: 'largest error of the power as read, as a share; none by default',
        }),
        bursts: /*#__PURE__*/ exactly({
          unit: '1',
          above: 0,
          max: 1e9,
          optional: true,
          meaning: 'bursts required per charge; none by default',
        }),
      },
      { meaning: 'requirements of the whole design' },
    ),
    ambientCelsius: /*#__PURE__*/ range({ unit: 'degC', min: -55, max: 125, meaning: 'air in the case' }),
    age: /*#__PURE__*/ range({
      unit: '1',
      min: 0,
      max: 1,
      otherwise: { from: 0, to: 1 },
      meaning: 'ages to cover: 0 is new, 1 the end of life',
    }),
    lifeYears: /*#__PURE__*/ exactly({
      unit: '1',
      above: 0,
      max: 50,
      otherwise: 5,
      meaning: 'years until the end of life',
    }),
  })

/** What a design is made of. */
export const designRecord = /*#__PURE__*/ fields()

/** A design as its user writes it: plain data that survives JSON. */
export type Design = Given<typeof designRecord>

/** The fields of a design, read, in SI units; the blocks' choices as they were written. */
export type ReadFields = Read<typeof designRecord>

/** A design that was read. */
export interface ReadDesign extends Omit<ReadFields, 'load'> {
  readonly load: ReadLoad
  /** What of the blocks' parts every place of a walk asks for: the switch, and the sensor and the test current that the supply must feed. */
  readonly parts: MostCapacitance & {
    readonly switch: ReadMosfet
    readonly sensor: ReadSensor
    /** By how much the code of a sensor that follows its supply lies behind that, s at most. */
    readonly sensorLag: number
    readonly excitation: ReadExcitation
    /** The supply with its path as warm as the load makes it, down to where its cells come in use. */
    readonly supply: ReadSupply
    /** Charge at which the last of its cells comes to its end; 1 for a port. */
    readonly emptyCharge: number
    /** Rails behind regulators of which it isn't stated how fast they answer to a step, or what is at their output. */
    readonly unanswered: readonly string[]
  }
}
