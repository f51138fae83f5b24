import type { Capacitor, DecouplingChoice, DecouplingConditions } from '@ohmward/decoupling'
import type { Input } from '@ohmward/quantity'
import { type Box, fixed, type Limits, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'

/** What a board on a rail is made of, and what it meets. */
export type Value =
  | 'open'
  | 'celsius'
  | 'years'
  | 'cell'
  | 'ageFactor'
  | 'contacts'
  | 'protection'
  | 'switch'
  | 'wiring'
  | 'inductance'
  | 'idle'
  | 'load'
  | 'capacitanceA'
  | 'resistanceA'
  | 'capacitanceB'
  | 'resistanceB'
  | 'capacitanceOne'
  | 'resistanceOne'

/** Points of a factor, straight between them. */
export type Points = readonly (readonly [at: number, factor: number])[]

/** One kind of capacitor, as far as no board varies it. */
export interface Kind {
  readonly count: number
  readonly wornCapacitance: number
  readonly wornResistance: number
  readonly ageing: number
  readonly ripple: number
  readonly rated: number
  readonly bias?: Points | undefined
  readonly temperature?: Points | undefined
  readonly cold?: Points | undefined
}

/** Numbers of a design that no board varies. */
export interface Plain {
  readonly kinds: readonly Kind[]
  readonly oldest: number
  readonly load: 'current' | 'resistor'
  readonly rise: number
  readonly duration: number
  readonly pwm: { readonly frequency: number; readonly duty: number } | undefined
  /** Highest brown-out threshold. */
  readonly limit: number
  readonly surge: number
}

/** A rail as it is given to the check, and as the model has it. */
export interface RailDesign {
  readonly choice: DecouplingChoice
  readonly conditions: DecouplingConditions
  readonly box: Box<Value>
  readonly plain: Plain
}

interface Drawn {
  readonly given: Capacitor
  readonly kind: Kind
  readonly capacitance: Limits
  readonly resistance: Limits
}

/** Points as a check takes them. */
const celsius = (points: Points) => points.map(([at, factor]) => ({ celsius: at, factor }))
const volts = (points: Points) => points.map(([at, factor]) => ({ volts: at, factor }))

const wetCold: Points = [
  [-20, 6],
  [0, 2.2],
  [20, 1],
  [105, 0.7],
]
const wetTemperature: Points = [
  [-20, 0.8],
  [20, 1],
  [105, 1.05],
]
const ceramicBias: Points = [
  [0, 1],
  [3, 0.7],
  [6, 0.3],
]
const ceramicTemperature: Points = [
  [-55, 0.85],
  [25, 1],
  [85, 0.85],
]

/** A kind of capacitor at random: wet, polymer or ceramic. */
function drawCapacitor(random: Random, plain: boolean): Drawn {
  const type = random.one(plain ? (['polymer'] as const) : (['wet', 'polymer', 'ceramic'] as const))
  const count = random.one([1, 1, 2, 3])
  const range = { wet: [220e-6, 2200e-6], polymer: [100e-6, 680e-6], ceramic: [10e-6, 100e-6] } as const
  const resistances = { wet: [0.02, 0.15], polymer: [0.006, 0.03], ceramic: [0.002, 0.006] } as const
  const capacitance = within(random.decades(range[type][0], range[type][1]), random.one([10, 20]), 'F')
  const resistance = within(random.decades(resistances[type][0], resistances[type][1]), random.one([20, 50]), 'ohm')
  const ripple = random.decades(0.5, 6)
  const rated = random.one([6.3, 10])
  const worn = type === 'ceramic' ? {} : { wornCapacitance: 0.8, wornResistance: type === 'wet' ? 2 : 1.5 }
  const kind: Kind = {
    count,
    wornCapacitance: 1,
    wornResistance: 1,
    ...worn,
    ageing: type === 'ceramic' ? 0.03 : 0,
    ripple,
    rated,
    ...(type === 'ceramic' && { bias: ceramicBias, temperature: ceramicTemperature }),
    ...(type === 'wet' && { cold: wetCold, temperature: wetTemperature }),
  }
  const given: Capacitor = {
    count,
    capacitance: capacitance.given,
    seriesResistance: resistance.given,
    ratedVoltage: rated,
    rippleCurrent: ripple,
    ...worn,
    ...(type === 'ceramic' && { ageing: 0.03, bias: volts(ceramicBias), temperature: celsius(ceramicTemperature) }),
    ...(type === 'wet' && { cold: celsius(wetCold), temperature: celsius(wetTemperature) }),
  }
  return { given, kind, capacitance: capacitance.limits, resistance: resistance.limits }
}

/** An element of the path that nothing warms. */
const element = (name: string, resistance: Input) => ({ name, resistance, temperatureCoefficient: 'none' }) as const

/** A rail at random: a cell with its path, one or two kinds of capacitor, a step, a burst or PWM. */
export function drawRail(random: Random): RailDesign {
  const isPlain = random.now(0.25)
  const first = drawCapacitor(random, isPlain)
  const second = random.now(0.5) ? drawCapacitor(random, isPlain) : undefined
  const open = random.even(3, 3.7)
  const conditions = {
    openCircuit: { from: open, to: digits(open + random.even(0.1, 0.5)) },
    ambientCelsius: { from: random.one([-20, 0, 10, 20]), to: random.one([30, 50, 60]) },
    ageYears: { from: 0, to: 5 },
  }
  const part = (from: number, to: number) => within(random.decades(from, to), random.one([10, 20]), 'ohm')
  const cell = part(0.01, 0.04)
  const contacts = part(0.002, 0.01)
  const protection = part(0.004, 0.02)
  const powerSwitch = part(0.004, 0.015)
  const wiring = part(0.003, 0.015)
  const inductance = random.now(0.5) ? within(random.decades(1e-7, 1e-6), 30, 'H') : undefined
  const idle = within(random.decades(1e-3, 5e-2), 20, 'A')
  const kind = random.one(['current', 'resistor'] as const)
  const load = kind === 'current' ? within(random.decades(1, 12), 10, 'A') : within(random.decades(0.4, 3), 5, 'ohm')
  const way = random.one(['step', 'burst', 'pwm', 'pwm'] as const)
  const frequency = random.decades(500, 5e4)
  const duty = random.one([0.1, 0.3, 0.5, 0.8, 0.95])
  const rise = kind === 'current' && way !== 'pwm' ? random.one([0, 1e-5, 1e-4]) : 0
  const duration = way === 'burst' ? random.decades(2e-4, 2e-2) : Number.POSITIVE_INFINITY
  const limit = within(random.even(2.2, 2.9), 3, 'V')
  const surge = random.decades(30, 300)
  const choice: DecouplingChoice = {
    source: {
      source: {
        kind: 'cell',
        openCircuit: 'NMC 21700',
        capacity: 14400,
        continuousCurrent: 30,
        resistance: cell.given,
        chargeFactor: '0: 1, 1: 1',
        ageFactor: 1.5,
      },
      path: [
        element('contacts', contacts.given),
        element('protection', protection.given),
        element('power switch', powerSwitch.given),
        element('wiring', wiring.given),
      ],
      inductance: inductance ? inductance.given : 0,
    },
    capacitors: second ? [first.given, second.given] : [first.given],
    load: {
      ...(kind === 'current' ? { current: load.given } : { resistance: load.given }),
      ...(rise > 0 && { rise }),
      ...(way === 'burst' && { duration }),
      ...(way === 'pwm' && { pwm: { frequency, duty } }),
    },
    idle: idle.given,
    limits: { brownOut: limit.given },
    ...(isPlain && { insertion: { contactSurge: surge } }),
  }
  const none = fixed(0)
  const box: Box<Value> = {
    open: ends(conditions.openCircuit),
    celsius: ends(conditions.ambientCelsius),
    years: ends(conditions.ageYears),
    cell: cell.limits,
    ageFactor: fixed(1.5),
    contacts: contacts.limits,
    protection: protection.limits,
    switch: powerSwitch.limits,
    wiring: wiring.limits,
    inductance: inductance ? inductance.limits : none,
    idle: idle.limits,
    load: load.limits,
    capacitanceA: first.capacitance,
    resistanceA: first.resistance,
    capacitanceB: second ? second.capacitance : none,
    resistanceB: second ? second.resistance : none,
    capacitanceOne: none,
    resistanceOne: none,
  }
  const plain: Plain = {
    kinds: second ? [first.kind, second.kind] : [first.kind],
    oldest: 5,
    load: kind,
    rise,
    duration,
    pwm: way === 'pwm' ? { frequency, duty } : undefined,
    limit: limit.limits[2],
    surge: isPlain ? surge : 0,
  }
  return { choice, conditions, box, plain }
}

const ends = ({ from, to }: { from: number; to: number }): Limits => [from, (from + to) / 2, to]
