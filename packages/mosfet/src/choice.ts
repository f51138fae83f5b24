import {
  exactly,
  type Given,
  InputError,
  part,
  type Read,
  range,
  readRecord,
  record,
  type Spread,
  spread,
  word,
} from '@ohmward/quantity'
import { conditionsRecord, type Feed, feedOf } from './conditions.js'
import type { Bursts } from './datasheet/impedance.js'
import { type Drive, driveField } from './parts/drive.js'
import { type Freewheel, freewheelFields, freewheelOf } from './parts/freewheel.js'
import { driveOf, type ReadDrive } from './parts/read-drive.js'
import { thermalOf, thermalPart } from './parts/thermal.js'
import { type ReadTransistor, refuseNegatives, transistorOf, transistorRecord } from './parts/transistor.js'
import { wiringFields } from './parts/wiring.js'

export { conditionsRecord, type MosfetConditions } from './conditions.js'

const loadFields = {
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_L',
    unit: 'ohm',
    above: 0,
    max: 1e6,
    optional: true,
    meaning: 'resistance of the load; its smallest is its coldest',
  }),
  current: /*#__PURE__*/ spread({
    symbol: 'I_set',
    unit: 'A',
    above: 0,
    max: 1e4,
    optional: true,
    meaning: 'constant current of the load',
  }),
} as const

const pwmFields = {
  frequency: /*#__PURE__*/ exactly({ symbol: 'f', unit: 'Hz', min: 0, max: 1e8, meaning: 'frequency; 0 is steady' }),
  duty: /*#__PURE__*/ range({ unit: '1', min: 0, max: 1, meaning: 'share of the time in which it conducts' }),
} as const

const burstFields = {
  on: /*#__PURE__*/ exactly({ unit: 's', above: 0, max: 1e6, meaning: 'length of one burst' }),
  period: /*#__PURE__*/ exactly({ unit: 's', above: 0, max: 1e6, meaning: 'from one burst to the next' }),
  count: /*#__PURE__*/ exactly({ unit: '1', integer: true, min: 1, max: 1e9, meaning: 'how many, from cold' }),
} as const

/** What a choice of a switch is made of, by the words of its fields. */
export const fields = {
  transistor: /*#__PURE__*/ part(transistorRecord, { meaning: 'transistor, by its data sheet' }),
  parallel: /*#__PURE__*/ exactly({
    unit: '1',
    integer: true,
    min: 1,
    max: 100,
    otherwise: 1,
    meaning: 'equal devices in parallel, each with its own thermal resistance',
  }),
  drive: driveField,
  load: /*#__PURE__*/ part(loadFields, {
    check: oneLoad,
    meaning: 'a resistance, or a load of constant current',
  }),
  edges: /*#__PURE__*/ word(['resistive', 'clamped inductive'], {
    otherwise: 'resistive',
    meaning: 'how the load behaves during an edge; clamped inductive is a winding with a freewheeling diode',
  }),
  freewheel: /*#__PURE__*/ part(freewheelFields, {
    optional: true,
    meaning: 'diode that carries the current of a winding while the switch is off, with clamped inductive edges',
  }),
  polarityProtection: /*#__PURE__*/ word([false, true], {
    otherwise: false,
    meaning: 'whether something blocks a reversed cell',
  }),
  pwm: /*#__PURE__*/ part(pwmFields, { meaning: 'pulse width modulation' }),
  thermal: thermalPart,
  wiring: /*#__PURE__*/ part(wiringFields, { meaning: 'copper and wires around the switch' }),
  bursts: /*#__PURE__*/ part(burstFields, {
    optional: true,
    check: longEnough,
    meaning: "heating in bursts, by the transistor's transient impedance; without it the duty goes on for ever",
  }),
  lossLimit: /*#__PURE__*/ exactly({
    unit: 'W',
    min: 1e-6,
    max: 1e4,
    optional: true,
    meaning: 'largest loss that you allow in one device, gate power not counted',
  }),
  switchingShare: /*#__PURE__*/ exactly({
    symbol: 'a_sw',
    unit: '1',
    above: 0,
    below: 1,
    optional: true,
    meaning: 'share of the loss that switching may make, where the junction is hottest',
  }),
  contactAllowed: /*#__PURE__*/ exactly({
    unit: 's',
    min: 1e-9,
    max: 1000,
    otherwise: 1e-3,
    meaning: 'how long the load may be on while the rail rises at cell contact and drives the gate',
  }),
  edgeLimit: /*#__PURE__*/ exactly({
    unit: 's',
    min: 1e-9,
    max: 1,
    optional: true,
    meaning: 'longest edge that you allow',
  }),
} as const

/** What a choice of a switch is made of. */
export const choiceRecord = /*#__PURE__*/ record(fields)

type GivenChoice = Given<typeof fields>

/** A switch as its designer chose it. */
export interface MosfetChoice extends Omit<GivenChoice, 'drive' | 'load' | 'thermal'> {
  readonly drive: Drive
  readonly load: NonNullable<GivenChoice['load']>
  readonly thermal: NonNullable<GivenChoice['thermal']>
}

type Ends = { readonly from: number; readonly to: number }

/** A choice that was read. */
export interface ReadMosfet extends Feed {
  readonly transistor: ReadTransistor
  readonly parallel: number
  readonly drive: ReadDrive
  readonly load: { readonly kind: 'resistance' | 'current'; readonly value: Spread }
  readonly edges: 'resistive' | 'clamped inductive'
  /** Forward voltage of the freewheeling diode, 0 where there is no winding; its rated power where it is known, W. */
  readonly freewheel: Freewheel
  readonly hasPolarityProtection: boolean
  readonly frequency: number
  readonly duty: Ends
  readonly junctionToAmbient: Spread
  /** Time after which a rise with the root of time would stand at its end, s: where there is no transient impedance. */
  readonly spreadingTime: number
  /** Copper area from which that came, mm²; undefined where it was given itself. */
  readonly copperArea: number | undefined
  readonly wiring: { readonly [W in keyof typeof wiringFields]: Spread }
  readonly bursts: Bursts | undefined
  readonly lossLimit: number | undefined
  readonly switchingShare: number | undefined
  readonly contactAllowed: number
  readonly edgeLimit: number | undefined
  readonly ambient: Ends
  /** The choice as it was given: what isn't in it was taken by default. */
  readonly given: unknown
}

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readMosfet(choice: unknown, conditions: unknown): ReadMosfet {
  if (typeof choice === 'object' && choice !== null && 'transistor' in choice) refuseNegatives(choice.transistor)
  const own = readRecord(choiceRecord, choice, 'choice')
  const around = readRecord(conditionsRecord, conditions, 'conditions')
  const transistor = transistorOf(own.transistor)
  const { load, pwm, bursts } = own
  if (bursts && transistor.transientImpedance === undefined) {
    const hint = 'Take the points of the single-pulse curve, junction to ambient'
    const allowed = 'a list of points, for bursts'
    throw new InputError({ field: 'transistor.transientImpedance', value: undefined, allowed, hint })
  }
  return {
    transistor,
    parallel: own.parallel,
    drive: driveOf(own.drive, transistor.channel),
    load:
      load.resistance === undefined
        ? { kind: 'current', value: load.current! }
        : { kind: 'resistance', value: load.resistance },
    edges: own.edges,
    freewheel: freewheelOf(own),
    hasPolarityProtection: own.polarityProtection,
    frequency: pwm.frequency,
    duty: pwm.duty,
    ...thermalOf(own.thermal, transistor),
    wiring: own.wiring,
    bursts,
    lossLimit: own.lossLimit,
    switchingShare: own.switchingShare,
    contactAllowed: own.contactAllowed,
    edgeLimit: own.edgeLimit,
    ...feedOf(around),
    ambient: around.ambientCelsius,
    given: choice,
  }
}

/** @throws InputError where it isn't one of the two */
function oneLoad({ resistance, current }: Read<typeof loadFields>, field: string): void {
  if ((resistance === undefined) !== (current === undefined)) return
  const value = resistance === undefined ? {} : 'both'
  throw new InputError({ field, value, allowed: '{ resistance } or { current }' })
}

/** @throws InputError where a burst is longer than its period */
function longEnough({ on, period }: Bursts, field: string): void {
  if (period >= on) return
  throw new InputError({ field: `${field}.period`, value: period, unit: 's', allowed: `at least one burst, ${on} s` })
}
