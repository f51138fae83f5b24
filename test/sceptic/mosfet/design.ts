import type { MosfetChoice, MosfetConditions } from '@ohmward/mosfet'
import { type Box, fixed, type Limits, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'

/** What a board with a switch is made of, and what it meets. */
export type Value =
  | 'open'
  | 'celsius'
  | 'duty'
  | 'source'
  | 'load'
  | 'lot'
  | 'thermal'
  | 'driveResistance'
  | 'gateResistor'
  | 'pull'
  | 'saturation'

/** A guaranteed line of the on-resistance. */
export interface Line {
  readonly gate: number
  readonly typical: number
  readonly most: number
}

/** Thermal resistances and capacities in a row of parallel pairs: K/W and time constants in s. */
export type Ladder = readonly (readonly [resistance: number, time: number])[]

/** Numbers of a design that no board varies. */
export interface Plain {
  readonly channel: 'N' | 'P'
  readonly lines: readonly Line[]
  /** Growth of the on-resistance from 25 °C, per kelvin. */
  readonly perKelvin: number
  readonly limitCelsius: number
  readonly frequency: number
  readonly drive: 'pin' | 'driver' | 'inverting transistor'
  readonly pullAt: 'gate' | 'drive'
  readonly currentMaximum: number
  readonly gateMaximum: number
  readonly pinMaximum: number
  readonly pullRated: number
  /** The ladder at the nominal thermal resistance; undefined where the data sheet has no curve. */
  readonly ladder: Ladder | undefined
  readonly parallel: number
}

/** A switch as it is given to the check, and as the model has it. */
export interface SwitchDesign {
  readonly choice: MosfetChoice
  readonly conditions: MosfetConditions
  readonly box: Box<Value>
  readonly plain: Plain
}

const ends = ({ from, to }: { from: number; to: number }): Limits => [from, to, to]

/** What is settled before a switch is drawn, which conducts steadily. */
export interface Wish {
  readonly channel: 'N' | 'P'
  readonly drive: 'pin' | 'driver' | 'inverting transistor'
}

/** A switch at random: either channel, a pin or an inverting transistor, steady or pulsed, with a curve of impedance or without. */
export function drawSwitch(random: Random, wish?: Wish): SwitchDesign {
  const channel = wish?.channel ?? random.one(['N', 'P'] as const)
  const drive = wish?.drive ?? (channel === 'P' && random.now(0.5) ? 'inverting transistor' : 'pin')
  const isPulsed = wish === undefined && random.now(0.6)
  // Pulses that heat are those of a resistive transistor.
  const at18 = isPulsed ? random.decades(0.05, 0.4) : random.decades(0.01, 0.2)
  const line = (gate: number, most: number): Line => ({
    gate,
    most: digits(most),
    typical: digits(most * random.even(0.6, 0.9)),
  })
  const first = line(1.8, at18)
  const second = line(2.5, first.most * random.even(0.6, 0.9))
  const third = line(4.5, second.most * random.even(0.6, 0.9))
  const lines = [first, second, third].map((one, k, all) =>
    k > 0 && one.typical > all[k - 1]!.typical
      ? { ...one, typical: digits(Math.min(one.most, all[k - 1]!.typical) * 0.95) }
      : one,
  )
  const perKelvin = random.one([0.003, 0.004, 0.006])
  const limitCelsius = random.one([125, 150])
  const frequency = isPulsed ? random.decades(12, 100) : 0
  const duty = isPulsed ? { from: 0.05, to: random.one([0.1, 0.2, 0.2, 0.4, 0.8]) } : { from: 1, to: 1 }
  const thermal = within(random.decades(25, 90), random.one([10, 20]), 'K/W')
  const total = thermal.limits[1]
  const ladder: Ladder | undefined = random.now(0.6)
    ? (
        [
          [0.05, 1e-3],
          [0.2, 2e-2],
          [0.25, 0.4],
          [0.5, 30],
        ] as const
      ).map(([share, time]) => [share * total, time * random.even(0.5, 2)] as const)
    : undefined
  const curve = ladder && curveOf(ladder)
  const open = random.even(2.9, 3.6)
  const conditions = {
    openCircuit: { from: open, to: digits(open * random.even(1.05, 1.3)) },
    ambientCelsius: { from: 0, to: random.even(30, 60) },
  }
  const source = within(random.decades(0.02, 0.12), 20, 'ohm')
  const load = within(random.decades(0.4, 3), random.one([2, 5]), 'ohm')
  const gateResistor = within(random.one([10, 47, 150]), 1, 'ohm')
  const driveResistance = within(random.one([10, 40]), 30, 'ohm')
  const pull = within(random.one([1000, 2200, 10000]), 1, 'ohm')
  const pullAt = random.one(['gate', 'drive'] as const)
  const saturation = { given: '0.2 V ±0.1 V', limits: [0.1, 0.2, 0.3] as Limits }
  const currentMaximum = random.decades(3, 15)
  const pinMaximum = random.one([0.02, 0.04, 0.2])
  const pullRated = random.one([0.0625, 0.1])
  const parallel = random.one([1, 1, 1, 2])
  const isInverter = drive === 'inverting transistor'
  const choice: MosfetChoice = {
    transistor: {
      channel,
      onResistance: lines.map(({ gate, most, typical }) => ({ gateSource: gate, maximum: most, typical })),
      temperatureLaw: { kind: 'linear', perKelvin },
      thresholdVoltage: '0.7 V ±0.3 V',
      gateSourceMaximum: 8,
      drainSourceMaximum: 20,
      currentMaximum,
      junctionMaximumCelsius: limitCelsius,
      gateCharge: '6 nC',
      gateSourceCharge: '1 nC',
      gateDrainCharge: '1.5 nC',
      plateauVoltage: '1.4 V',
      gateResistance: '2 ohm',
      outputCapacitance: '100 pF',
      inputCapacitance: '0.5 nF',
      reverseCapacitance: '50 pF',
      ...(curve && { transientImpedance: curve }),
    },
    parallel,
    drive: isInverter
      ? {
          kind: 'inverting transistor',
          gateResistor: gateResistor.given,
          saturation: saturation.given,
          baseResistor: '1 kohm ±1 %',
          highLevel: '2.3 V',
          pull: { at: pullAt, resistance: pull.given, ratedPower: pullRated },
        }
      : {
          kind: drive === 'driver' ? 'driver' : 'pin',
          gateResistor: gateResistor.given,
          resistance: driveResistance.given,
          sinkResistance: driveResistance.given,
          currentMaximum: pinMaximum,
          pull: { at: pullAt, resistance: pull.given },
        },
    load: { resistance: load.given },
    pwm: { frequency, duty },
    thermal: { junctionToAmbient: thermal.given },
    wiring: { inductance: '0.1 uH' },
  }
  const box: Box<Value> = {
    open: ends(conditions.openCircuit),
    celsius: ends(conditions.ambientCelsius),
    duty: ends(duty),
    source: source.limits,
    load: load.limits,
    lot: [0, 0, 1],
    thermal: thermal.limits,
    driveResistance: isInverter ? fixed(0) : driveResistance.limits,
    gateResistor: gateResistor.limits,
    pull: pull.limits,
    saturation: isInverter ? saturation.limits : fixed(0),
  }
  const plain: Plain = {
    channel,
    lines,
    perKelvin,
    limitCelsius,
    frequency,
    drive,
    pullAt,
    currentMaximum,
    gateMaximum: 8,
    pinMaximum,
    pullRated,
    ladder,
    parallel,
  }
  return { choice, conditions: { ...conditions, sourceResistance: source.given }, box, plain }
}

/** The single-pulse curve of a ladder, as a data sheet prints it: three points a decade. */
export function curveOf(ladder: Ladder): { seconds: number; kelvinPerWatt: number }[] {
  const points: { seconds: number; kelvinPerWatt: number }[] = []
  for (let k = -12; k <= 9; k++) {
    const seconds = Number((10 ** (k / 3)).toPrecision(4))
    const kelvinPerWatt = ladder.reduce((sum, [r, tau]) => sum - r * Math.expm1(-seconds / tau), 0)
    points.push({ seconds, kelvinPerWatt: Number(kelvinPerWatt.toPrecision(6)) })
  }
  return points
}
