import {
  type FieldSpec,
  type Input,
  InputError,
  missingFields,
  type PartFields,
  type PartInput,
  type Range,
  readNumber,
  readPart,
  readRange,
  readSpread,
  type Spread,
} from '@ohmward/quantity'
import type { Bursts } from './datasheet/impedance.js'
import type { Drive } from './parts/drive.js'
import { type ReadDrive, readDrive } from './parts/read-drive.js'
import { type ReadTransistor, readTransistor, resistanceOfCopper, type Transistor } from './parts/transistor.js'

/** Copper and wires around the switch. */
export const wiringFields = {
  sharedSource: {
    symbol: 'R_sh',
    unit: 'ohm',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'copper that load current and gate drive share at the source',
  },
  inductance: {
    symbol: 'L_w',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: '1 uH',
    meaning: 'inductance of the loop of source, switch and load: about 1 µH for each metre of wire',
  },
  contactTime: {
    symbol: 't_ins',
    unit: 's',
    above: 0,
    max: 1,
    otherwise: 1e-5,
    meaning: 'rise of the rail when the cell makes contact, shortest',
  },
} as const satisfies PartFields

/** A switch as its designer chose it. */
export interface MosfetChoice {
  readonly transistor: Transistor
  /** Equal devices in parallel, each with its own thermal resistance. 1 unless told. */
  readonly parallel?: number
  readonly drive: Drive
  /** A resistance (its smallest is its coldest), or a load that holds its current. */
  readonly load: { readonly resistance: Input } | { readonly current: Input }
  /** `resistive` unless told; `clamped inductive` for a winding with a freewheeling diode. */
  readonly edges?: 'resistive' | 'clamped inductive'
  readonly pwm: { readonly frequency: number | string; readonly duty: Range }
  /** Junction to ambient on your board, or the copper area from which the transistor's points give it. */
  readonly thermal:
    | { readonly junctionToAmbient: Input }
    | { readonly copperSquareMillimetres: number; readonly tolerance?: number | string }
  readonly wiring?: PartInput<typeof wiringFields>
  /** Heating in bursts: needs the transistor's transient impedance. Without it the duty lasts for ever. */
  readonly bursts?: { readonly on: number | string; readonly period: number | string; readonly count: number }
  /** Loss of one device that you allow, gate power apart. */
  readonly lossLimit?: number | string
  /** Share of the loss that switching may make, where the junction is hottest. */
  readonly switchingShare?: number | string
  /** Longest edge that you allow. */
  readonly edgeLimit?: number | string
}

/** What must be covered while it works. */
export interface MosfetConditions {
  /** Open-circuit voltage of the source, empty to full. */
  readonly openCircuit: Range
  /** Resistance of cell, protection, contacts and wiring; the largest is that of a cold, aged cell. */
  readonly sourceResistance: Input
  /** Air around the board, inside the case. */
  readonly ambientCelsius: Range
}

type Ends = { readonly from: number; readonly to: number }

/** A choice that was read. */
export interface ReadMosfet {
  readonly transistor: ReadTransistor
  readonly parallel: number
  readonly drive: ReadDrive
  readonly load: { readonly kind: 'resistance' | 'current'; readonly value: Spread }
  readonly edges: 'resistive' | 'clamped inductive'
  readonly frequency: number
  readonly duty: Ends
  readonly junctionToAmbient: Spread
  /** Copper area from which that came, mm²; undefined where it was given itself. */
  readonly copperArea: number | undefined
  readonly wiring: { readonly [W in keyof typeof wiringFields]: Spread }
  readonly bursts: Bursts | undefined
  readonly lossLimit: number | undefined
  readonly switchingShare: number | undefined
  readonly edgeLimit: number | undefined
  readonly openCircuit: Ends
  readonly sourceResistance: Spread
  readonly ambient: Ends
}

const required = ['transistor', 'drive', 'load', 'pwm', 'thermal'] as const
const optional = ['parallel', 'edges', 'wiring', 'bursts', 'lossLimit', 'switchingShare', 'edgeLimit'] as const

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readMosfet(choice: unknown, conditions: unknown): ReadMosfet {
  const own = missingFields(choice, required, 'choice', optional)
  const around = missingFields(conditions, ['openCircuit', 'sourceResistance', 'ambientCelsius'], 'conditions')
  const transistor = readTransistor(own.transistor)
  const pwm = missingFields(own.pwm, ['frequency', 'duty'], 'pwm')
  const edges = own.edges ?? 'resistive'
  if (edges !== 'resistive' && edges !== 'clamped inductive') {
    throw new InputError({ field: 'edges', value: edges, allowed: '"resistive" or "clamped inductive"' })
  }
  const bursts = own.bursts === undefined ? undefined : readBursts(own.bursts)
  if (bursts && transistor.transientImpedance === undefined) {
    const hint = 'Take the points of the single-pulse curve, junction to ambient'
    throw new InputError({
      field: 'transistor.transientImpedance',
      value: undefined,
      allowed: 'a list of points, for bursts',
      hint,
    })
  }
  const duty = readRange(pwm.duty, { field: 'pwm.duty', unit: '1', min: 0, max: 1 })
  return {
    transistor,
    parallel: readNumber(own.parallel ?? 1, { field: 'parallel', unit: '1', integer: true, min: 1, max: 100 }),
    drive: readDrive(own.drive, transistor.channel),
    load: readLoad(own.load),
    edges,
    frequency: readNumber(pwm.frequency, { field: 'pwm.frequency', unit: 'Hz', min: 0, max: 1e8 }),
    duty,
    ...readThermal(own.thermal, transistor),
    wiring: readPart(own.wiring ?? {}, wiringFields, 'wiring'),
    bursts,
    lossLimit: wanted(own.lossLimit, { field: 'lossLimit', unit: 'W', above: 0, max: 1e4 }),
    switchingShare: wanted(own.switchingShare, { field: 'switchingShare', unit: '1', above: 0, below: 1 }),
    edgeLimit: wanted(own.edgeLimit, { field: 'edgeLimit', unit: 's', above: 0, max: 1 }),
    openCircuit: readRange(around.openCircuit, { field: 'openCircuit', unit: 'V', above: 0, max: 1000 }),
    sourceResistance: readSpread(around.sourceResistance, { field: 'sourceResistance', unit: 'ohm', min: 0, max: 100 }),
    ambient: readRange(around.ambientCelsius, { field: 'ambientCelsius', unit: 'degC', min: -55, max: 200 }),
  }
}

/** A limit that may be left out. */
const wanted = (given: unknown, spec: FieldSpec) => (given === undefined ? undefined : readNumber(given, spec))

function readLoad(given: unknown): ReadMosfet['load'] {
  const own = missingFields(given, [], 'load', ['resistance', 'current'])
  if ((own.resistance === undefined) === (own.current === undefined)) {
    throw new InputError({ field: 'load', value: given, allowed: '{ resistance } or { current }' })
  }
  return own.resistance === undefined
    ? { kind: 'current', value: readSpread(own.current, { field: 'load.current', unit: 'A', above: 0, max: 1e4 }) }
    : {
        kind: 'resistance',
        value: readSpread(own.resistance, { field: 'load.resistance', unit: 'ohm', above: 0, max: 1e6 }),
      }
}

function readThermal(given: unknown, { copper }: ReadTransistor): Pick<ReadMosfet, 'junctionToAmbient' | 'copperArea'> {
  const own = missingFields(given, [], 'thermal', ['junctionToAmbient', 'copperSquareMillimetres', 'tolerance'])
  if ((own.junctionToAmbient === undefined) === (own.copperSquareMillimetres === undefined)) {
    throw new InputError({
      field: 'thermal',
      value: given,
      allowed: '{ junctionToAmbient } or { copperSquareMillimetres }',
    })
  }
  if (own.junctionToAmbient !== undefined) {
    missingFields(given, ['junctionToAmbient'], 'thermal')
    const spec = { field: 'thermal.junctionToAmbient', unit: 'K/W', above: 0, max: 1e4 } as const
    return { junctionToAmbient: readSpread(own.junctionToAmbient, spec), copperArea: undefined }
  }
  if (copper === undefined) {
    throw new InputError({
      field: 'transistor.copper',
      value: undefined,
      allowed: 'points of thermal resistance against copper area',
    })
  }
  const { area, resistance: nominal } = resistanceOfCopper(
    copper,
    own.copperSquareMillimetres,
    'thermal.copperSquareMillimetres',
  )
  const share = readNumber(own.tolerance ?? 0.2, { field: 'thermal.tolerance', unit: '1', min: 0, below: 1 })
  const distribution = share === 0 ? ({ kind: 'exact' } as const) : ({ kind: 'rectangular' } as const)
  return {
    junctionToAmbient: { nominal, lower: nominal * (1 - share), upper: nominal * (1 + share), distribution },
    copperArea: area,
  }
}

function readBursts(given: unknown): Bursts {
  const own = missingFields(given, ['on', 'period', 'count'], 'bursts')
  const on = readNumber(own.on, { field: 'bursts.on', unit: 's', above: 0, max: 1e6 })
  const period = readNumber(own.period, { field: 'bursts.period', unit: 's', min: on, max: 1e6 })
  return {
    on,
    period,
    count: readNumber(own.count, { field: 'bursts.count', unit: '1', integer: true, min: 1, max: 1e9 }),
  }
}
