import type { Design } from '@ohmward/frontend'
import { type DividerDesign, type Value as DividerValue, drawDivider } from '../divider/design.js'
import { type CurrentDesign, type Value as CurrentValue, drawCurrent } from '../hall/design.js'
import { drawSwitch, type SwitchDesign } from '../mosfet/design.js'
import { type Box, fixed, type Limits, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'
import type { Points } from './design.js'
import { type Behind, drawRail, noRail, numbered, type RailNumber, type RailsValue } from './rail.js'
import { drawSource, type Source } from './source.js'

/** Where a board is, what its supply, its rails and its load are made of. */
export type SupplyValue =
  | 'charge'
  | 'celsius'
  | 'life'
  | 'chargeThen'
  | 'lifeThen'
  | 'cellOff'
  | 'cellEmpty'
  | 'cell'
  | 'aging'
  | 'port'
  | 'lead'
  | 'portLimit'
  | 'contacts'
  | 'protection'
  | 'drop'
  | 'wiring'
  | 'connector'
  | 'heat'
  | 'always'
  | 'sensorDraw'
  | 'amplifierDraw'
  | RailsValue
  | 'driveDraw'
  | 'blade'
  | 'bladeWarm'
  | 'conductor'
  | 'lot'
  | 'junction'
  | 'thermal'
  | 'driveResistance'
  | 'gateResistor'
  | 'pull'
  | 'saturation'
  | 'sensorWarm'
  | 'reference'

/** Values of a block, with its name before each, so that no two blocks share one. */
export type Value = SupplyValue | `divider ${DividerValue}` | `hall ${CurrentValue}`

/** A part of the path: heats itself where its thermal resistance is known. */
export interface Element {
  readonly name: 'contacts' | 'protection' | 'wiring' | 'connector'
  readonly coefficient: number
  readonly thermal: number
  readonly highest: number | undefined
  readonly most: number | undefined
  readonly trip: Limits | undefined
}

/** Numbers of a whole design that no board varies. */
export interface Plain {
  readonly source: Source
  readonly path: readonly Element[]
  readonly coefficient: number
  readonly working: number
  readonly rails: Readonly<Record<RailNumber, Behind>>
  /** The rail that feeds the second one. */
  readonly source2: 0 | 1
  /** The rail on which a part lives: 0 the main one. */
  readonly lives: Readonly<Record<'controller' | 'sensor' | 'amplifier' | 'converter' | 'drive', number>>
  readonly calibration: 'none' | 'zero' | 'zero each time'
  readonly brownOut: number
  readonly clock: number
  readonly sensorMinimum: number
  readonly sensorMaximum: number
  readonly amplifierMinimum: number
  readonly pinSeries: number
  readonly filterSeries: number
  readonly pinMost: number
  readonly powerError: number
  readonly internal: Limits
}

/** A whole design as it is given, and as the model has it. */
export interface Whole {
  readonly given: Design
  readonly box: Box<SupplyValue>
  readonly plain: Plain
  readonly divider: DividerDesign
  readonly current: CurrentDesign
  readonly switch: SwitchDesign
}

const written = (points: Points, unit: string, of: string) =>
  points.map(([x, y]) => `${x}${of}: ${y}${unit}`).join(', ')

const ends = ({ from, to }: { from: number; to: number }): Limits => [from, to, to]

/** Names of the rails by their numbers. */
export const railNames = { 0: 'main', 1: 'logic', 2: 'second' } as const

/** The source down to a voltage of one cell, with the charge at which the last one comes to it, the one that lies highest. */
function endedAt(source: Extract<Source, { kind: 'cell' }>, least: number, spread: number): Source {
  const [[, low], [x1, high]] = [source.open[0]!, source.open[1]!]
  return { ...source, least, empty: Math.max(0, (x1 * (least - spread - low)) / (high - low)) }
}

/** A part of the path at random: of copper or of no coefficient, heated by itself or not. */
function drawElement(random: Random, name: Element['name'], ohms: number) {
  const part = within(digits(ohms), random.one([10, 20, 40]), 'ohm')
  const isCopper = random.now(0.6)
  const thermal = random.now(0.6) ? random.even(5, 60) : 0
  const highest = thermal > 0 && random.now(0.7) ? random.one([90, 125]) : undefined
  const most = random.now(0.5) ? random.one([6, 10, 20]) : undefined
  const trip = name === 'protection' && random.now(0.5) ? within(random.even(0.06, 0.2), 15, 'V') : undefined
  const given = {
    name,
    resistance: part.given,
    ...(isCopper ? {} : { temperatureCoefficient: 'none' as const }),
    ...(thermal > 0 && { thermalResistance: thermal }),
    ...(highest !== undefined && { highestCelsius: highest }),
    ...(most !== undefined && { currentLimit: most }),
    ...(trip && { tripVoltage: trip.given }),
  }
  const element: Element = {
    name,
    coefficient: isCopper ? 0.00393 : 0,
    thermal,
    highest,
    most,
    trip: trip?.limits,
  }
  return { given, element, limits: part.limits }
}

/**
 * A whole design at random: one cell, two or a port; everything on the main rail or any of it on one or two rails behind a regulator,
 * a diode or a resistor, the second on the main rail or on the first; the load at ground or at the rail; any zero of the current.
 */
export function drawWhole(random: Random): Whole {
  const air = { from: random.even(-15, 20), to: random.even(25, 50) }
  const { given: source, source: own, box: sourceBox, volts } = drawSource(random)
  const isHigh = volts.to > 5.5
  const rail = drawRail(random, volts, isHigh)
  const hasFirst = rail.behind.kind !== 'none'
  const source2 = hasFirst && random.now(0.6) ? 1 : 0
  const feeding = source2 === 1 ? rail.volts : volts
  const next = hasFirst && random.now(0.7) ? drawRail(random, feeding, feeding.to > 5.5) : noRail(volts)
  const hasNext = next.behind.kind !== 'none'
  const apart = () => (hasFirst && (isHigh || random.now(0.6)) ? (hasNext && random.now(0.5) ? 2 : 1) : 0)
  const lives = { controller: apart(), sensor: apart(), amplifier: apart(), converter: apart(), drive: 0 }
  const of = (number: number) => [volts, rail.volts, next.volts][number]!
  const atRail = random.now(0.25)

  // The load takes 1.5 to 8 A of full cells.
  const most = digits(volts.to / random.decades(1.5, 8))
  const smallest = digits(most * random.even(0.4, 0.8))
  const drawn = drawDivider(random, { atRail, smallest, rail: of(lives.converter), air })
  const blade = within(drawn.plain.middle, random.one([2, 5, 10]), 'ohm')
  const coefficient = random.now(0.3) ? random.even(0.0002, 0.004) : 0
  const working = coefficient > 0 ? random.even(air.to, 300) : 20
  const most20 = volts.to / blade.limits[0]
  const to = digits(most20 * random.even(0.8, 1.2))
  const supply = of(lives.sensor).to > 4.6 && of(lives.sensor).from > 4.4 ? 5 : 3.3
  const sensed = drawCurrent(random, { to, supply, rail: of(lives.sensor), air })
  const calibration = random.one(['none', 'zero', 'zero each time'] as const)
  const channel = atRail ? 'N' : 'P'
  const isDriver = atRail && random.now(0.5)
  if (isDriver) lives.drive = hasFirst ? (hasNext && random.now(0.5) ? 2 : random.one([0, 1])) : 0
  const switched = drawSwitch(random, { channel, drive: isDriver ? 'driver' : atRail ? 'pin' : 'inverting transistor' })
  const driveDraw = within(0.003, 30, 'A')

  const path = [
    drawElement(random, 'contacts', random.decades(2e-3, 2e-2)),
    drawElement(random, 'protection', random.decades(4e-3, 3e-2)),
    drawElement(random, 'wiring', random.decades(3e-3, 3e-2)),
    drawElement(random, 'connector', random.decades(2e-3, 2e-2)),
  ]
  const drop = random.now(0.15) ? within(random.even(0.2, 0.5), 20, 'V') : undefined
  const always = within(random.decades(0.003, 0.2), random.one([10, 50]), 'A')
  const sensorDraw = within(0.006, 20, 'A')
  const amplifierDraw = within(0.001, 50, 'A')
  const brownOut = within(of(lives.controller).from * random.even(0.7, 0.95), 3, 'V')
  const clock = digits(of(lives.controller).from * random.even(0.5, 0.8))
  const pinSeries = random.one([10, 1000, 10_000])
  const internal = within(1.2, random.one([1, 3]), 'V')
  const calibrated = random.now(0.5) ? random.one([0.005, 0.01]) : undefined
  const powerError = random.one([0.1, 0.2, 0.4])
  const isSeen = lives.converter === 0
  const inSeries = own.kind === 'cell' ? own.inSeries : 1

  const { load: _, pwm: __, ...bare } = switched.choice
  const { drive } = bare
  const mosfet = {
    ...bare,
    drive:
      drive.kind === 'inverting transistor' ? { ...drive, basePullDown: '2.2 kohm ±1 %', resetPull: '30 kohm' } : drive,
  } as Design['mosfet']
  const { calibration: ___, pwm: ____, ...hall } = sensed.choice
  const { calibration: given } = sensed.choice
  const atCelsius = typeof given === 'object' && given.kind === 'zero' ? given.atCelsius : 25
  const design: Design = {
    version: 1,
    name: 'random',
    supply: {
      source,
      path: path.map(({ given }) => ({
        ...given,
        ...(given.name === 'wiring' && { tap: 'board' }),
        ...(drop && given.name === 'protection' && { drop: drop.given }),
      })),
      inductance: '1 nH',
    },
    board: 'board',
    load: {
      resistance: blade.given,
      rise: '1 ms',
      ...(coefficient > 0 && { temperatureCoefficient: coefficient, workingCelsius: working }),
    },
    pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
    divider: drawn.choice,
    hall: {
      ...hall,
      otherTasks: [],
      calibration:
        calibration === 'none'
          ? 'none'
          : calibration === 'zero'
            ? { kind: 'zero', atCelsius, samples: 1 }
            : { kind: 'zero each time', offTime: '50 ms', samples: 1 },
    },
    mosfet,
    decoupling: {
      capacitors: [{ capacitance: '470 uF ±20 %', seriesResistance: '12 mohm', ratedVoltage: 25 }],
      insertion: { contactSurge: '10 kA' },
    },
    controller: {
      brownOut: brownOut.given,
      lowestSupply: clock,
      current: always.given,
      internalReference: { voltage: internal.given },
    },
    ...(isSeen && {
      monitor: {
        reads: 'at rest',
        stop: digits(volts.from),
        ...(calibrated !== undefined && { calibration: calibrated }),
      } as const,
    }),
    ...(hasFirst && {
      rails: [
        { name: railNames[1], source: 'main', through: rail.given! },
        ...(hasNext ? [{ name: railNames[2], source: railNames[source2], through: next.given! }] : []),
      ],
    }),
    lives: {
      ...Object.fromEntries(
        Object.entries(lives).flatMap(([part, number]) =>
          part === 'drive' && !isDriver ? [] : [[part, railNames[number as 0 | 1 | 2]]],
        ),
      ),
      ...(isDriver && { driveCurrent: driveDraw.given }),
      sensorCurrent: sensorDraw.given,
      amplifierCurrent: amplifierDraw.given,
      pinSeries,
      excitationBackward: 'blocks',
    },
    standby: [{ name: 'controller asleep', current: '8 uA' }],
    requirements: { usableCharge: 0.6, powerError },
    ambientCelsius: air,
  }

  const none = fixed(0)
  const limitsOf = (name: Element['name']) => path.find(({ element }) => element.name === name)!.limits
  // Cells that nothing watches go on to their voltage of damage; a stop that acts low lets them go as low.
  const lowest = isSeen ? (digits(volts.from) * (1 - (calibrated ?? internal.limits[2] / 1.2 - 1))) / inSeries : 2.5
  const ended = own.kind === 'cell' ? endedAt(own, Math.min(own.least, lowest), sourceBox.cellOff[2]) : own
  const inCharge: Limits = ended.kind === 'cell' ? [ended.empty, 1, 1] : fixed(1)
  const inLife: Limits = own.kind === 'cell' ? [0, 0, 1] : fixed(0)
  const box: Box<SupplyValue> = {
    ...sourceBox,
    ...numbered(rail.box, 1),
    ...numbered(next.box, 2),
    driveDraw: isDriver ? driveDraw.limits : none,
    charge: inCharge,
    chargeThen: inCharge,
    celsius: ends(air),
    life: inLife,
    lifeThen: inLife,
    contacts: limitsOf('contacts'),
    protection: limitsOf('protection'),
    wiring: limitsOf('wiring'),
    connector: limitsOf('connector'),
    drop: drop ? drop.limits : none,
    heat: [0, 1, 1],
    always: always.limits,
    sensorDraw: sensorDraw.limits,
    amplifierDraw: amplifierDraw.limits,
    blade: blade.limits,
    bladeWarm: coefficient > 0 ? [0, 1, 1] : none,
    conductor: [0, sensed.plain.conductor.resistance, sensed.plain.conductor.resistance],
    lot: [-1, 0, 1],
    junction: [0, 1, 1],
    thermal: switched.box.thermal,
    driveResistance: switched.box.driveResistance,
    gateResistor: switched.box.gateResistor,
    pull: switched.box.pull,
    saturation: switched.box.saturation,
    sensorWarm: [0, 1, 1],
    reference: calibrated === undefined ? internal.limits : [1.2 / (1 + calibrated), 1.2, 1.2 / (1 - calibrated)],
  }
  const plain: Plain = {
    source: ended,
    path: path.map(({ element }) => element),
    coefficient,
    working,
    rails: { 1: rail.behind, 2: next.behind },
    source2,
    lives,
    calibration,
    brownOut: brownOut.limits[2],
    clock,
    sensorMinimum: sensed.plain.supplyMinimum,
    sensorMaximum: 5.5,
    amplifierMinimum: drawn.plain.supplyMinimum,
    pinSeries,
    filterSeries: sensed.box.filterResistance[0],
    pinMost: 1e-3,
    powerError,
    internal: internal.limits,
  }
  return { given: design, box, plain, divider: drawn, current: sensed, switch: switched }
}

/** A curve as it is given. */
export { written }
