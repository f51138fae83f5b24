import type { HallChoice, HallConditions } from '@ohmward/hall'
import { type Box, eitherSign, fixed, type Limits, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'

/** What a board that measures a current is made of, and what it meets. */
export type Value =
  | 'rail'
  | 'warmth'
  | 'converterReference'
  | 'referenceDrift'
  | 'zeroError'
  | 'zeroDrift'
  | 'zeroSupply'
  | 'sensitivityError'
  | 'sensitivityDrift'
  | 'sensitivitySupply'
  | 'nonlinearity'
  | 'hysteresis'
  | 'field'
  | 'fieldThen'
  | 'neighbour'
  | 'outputResistance'
  | 'filterResistance'
  | 'filterCapacitance'
  | 'phase'
  | 'pinLeakage'
  | 'converterGain'
  | 'converterOffset'
  | 'sensorNoise'
  | 'counts'
  | 'countNoise'
  | 'sensorNoiseZero'
  | 'countsZero'
  | 'countNoiseZero'

/** Numbers of a design that no board varies. */
export interface Plain {
  readonly ratiometric: boolean
  readonly sensitivity: number
  readonly zero: number
  readonly ratedSupply: number
  /** Supply of the sensor that the firmware assumes, where that isn't the rail. */
  readonly supplyAssumed?: number
  readonly supplyMinimum: number
  readonly supplyMaximum: number
  readonly ratedCurrent: number
  readonly lowOutput: number
  readonly highDrop: number
  readonly bandwidth: number
  readonly ownReference: boolean
  readonly bits: number
  readonly half: number
  readonly from: number
  readonly to: number
  readonly errors: readonly { readonly at: number; readonly share: number }[]
  readonly averaged: boolean
  readonly frequency: number
  readonly duty: { readonly from: number; readonly to: number }
  readonly wait: number
  readonly edge: number
  readonly calibration: 'none' | 'zero'
  readonly railThen: number
  readonly warmthThen: number
  readonly trip: { readonly current: number; readonly normal: number; readonly withstand: number } | undefined
  readonly conductor: { readonly resistance: number; readonly thermal: number }
  readonly hottestAir: number
}

/** A measurement of a current as it is given to the check, and as the model has it. */
export interface CurrentDesign {
  readonly choice: HallChoice
  readonly conditions: HallConditions
  readonly box: Box<Value>
  readonly plain: Plain
}

/** What is settled before a measurement is drawn: currents one way, steady. */
export interface Wish {
  readonly to: number
  readonly supply: number
  readonly rail: { readonly from: number; readonly to: number }
  readonly air: { readonly from: number; readonly to: number }
}

/** A measurement of a current at random. */
export function drawCurrent(random: Random, wish?: Wish): CurrentDesign {
  const ratiometric = random.now(0.6)
  const twoWay = wish === undefined && random.now(0.3)
  const supply = wish?.supply ?? random.one([3.3, 3.3, 5])
  const to = wish?.to ?? random.decades(2, 20)
  const from = twoWay ? -to : 0
  const zero = digits(twoWay ? supply / 2 : supply * random.even(0.1, 0.15))
  const lowOutput = 0.15
  const highDrop = 0.15
  const lowest = supply === 5 ? random.even(4.6, 4.9) : random.even(2.8, 3.3)
  const rail = wish?.rail ?? { from: lowest, to: digits(lowest * random.even(1.01, 1.15)) }
  const room = (ratiometric ? supply : Math.min(supply, rail.from)) - highDrop - zero
  const ownReference = !ratiometric || random.now(0.15)
  const fullScale = within(supply === 5 ? 4.096 : 2.5, random.one([0.1, 0.3]), 'V')
  const top = ownReference ? Math.min(room, fullScale.limits[1] - zero) : room
  const usable = Math.max(top, 0.3)
  const sensitivity = digits((usable * random.even(0.5, 0.95)) / to)
  const air = wish?.air ?? { from: random.even(-20, 20), to: random.even(30, 60) }
  const averaged = wish === undefined && random.now(0.3)
  const isPulsed = averaged || (wish === undefined && random.now(0.6))
  const frequency = isPulsed ? random.decades(200, 20_000) : 0
  const duty = { from: 0.1, to: random.one([0.5, 0.9]) }
  const share = random.one([0.05, 0.08, 0.15, 0.25])
  const errors = averaged
    ? [{ at: digits(to * 0.4), share: share * 2 }]
    : [
        { at: digits(to * random.even(0.2, 0.6)), share: share * 1.5 },
        { at: to, share },
      ]
  const filter = within(random.one([100, 330, 1000, 4700]), 1, 'ohm')
  const seconds = averaged ? random.even(2, 30) / frequency : random.decades(3e-7, 3e-6)
  const capacitance = within(digits(seconds / filter.limits[1]), 10, 'F')
  const bandwidth = random.decades(5e4, 4e5)
  const edge = random.one([1e-6, 3e-6])
  const wait = digits(edge + random.even(2, 16) * (seconds + 1 / (2 * Math.PI * bandwidth)))
  const calibration = random.one(['none', 'zero'] as const)
  const then = random.even(18, 28)
  const bits = random.one([10, 12])
  const transitions = random.one(['truncating', 'centred'] as const)
  const noise = random.one([0, 0.3, 0.7])
  const nonlinearity = random.one([0.5, 1, 2])
  const offset = random.one([0, 1, 3])
  const gain = random.one([0, 0.05, 0.2])
  const leakage = random.one([0, 5e-8])
  const density = random.decades(5e-6, 4e-5)
  const size = {
    sensitivityError: random.one([0.005, 0.01]),
    sensitivityDrift: random.one([1e-4, 2e-4]),
    zeroError: random.one([0.003, 0.008]),
    zeroDrift: random.one([3e-5, 1e-4]),
    zeroSupplyError: random.one([0, 0.005]),
    sensitivitySupplyError: random.one([0, 0.005]),
    nonlinearity: random.one([0.002, 0.005]),
    hysteresis: random.one([0.0005, 0.002]),
  }
  const ratedCurrent = digits(to * random.even(1, 1.5))
  const coupling = 1.1e-3
  const rejection = random.one([0, 40])
  const neighbour = random.one([0, 5])
  const distance = 0.02
  const conductor = { resistance: 1e-3, thermal: 40 }
  const trip =
    calibration === 'none' && !averaged && random.now(0.6)
      ? { current: digits(to * 0.95), normal: digits(to * 0.8), withstand: digits(to * 1.15) }
      : undefined
  const choice: HallChoice = {
    sensor: {
      output: ratiometric ? 'ratiometric' : 'fixed',
      sensitivity,
      zeroOutput: zero,
      ratedSupply: supply,
      supplyMinimum: supply === 5 ? 4.5 : 2.7,
      supplyMaximum: 5.5,
      supplyCurrent: 6e-3,
      ratedCurrent,
      ...size,
      noiseDensity: density,
      bandwidth,
      lowOutput,
      highOutputDrop: highDrop,
      conductorResistance: conductor.resistance,
      conductorThermalResistance: conductor.thermal,
      fieldCoupling: coupling,
      fieldRejectionDb: rejection,
    },
    converter: {
      bits,
      transitions,
      reference: ownReference ? { kind: 'absolute', voltage: fullScale.given, drift: '50 ppm/K' } : { kind: 'rail' },
      offset,
      gain: `${gain} %`,
      nonlinearity,
      noise,
      switchResistance: 500,
      samplingCapacitance: 5e-12,
      acquisitionTime: 5e-6,
      conversionTime: 5e-6,
      leakage,
    },
    current: { from, to },
    errors: errors.map((one) => ({ at: one.at, allowed: `${digits(one.share * one.at)} A` })),
    reading: averaged ? 'averaged' : 'on-window',
    ...(isPulsed && { pwm: { frequency, duty } }),
    ...(!averaged && { wait }),
    filter: { resistance: filter.given, capacitance: capacitance.given },
    surroundings: { neighbourCurrent: neighbour, neighbourDistance: distance },
    timing: { edge },
    calibration: calibration === 'none' ? 'none' : { kind: 'zero', atCelsius: then, samples: 1 },
    leastUse: 0.05,
    ...(trip && { trip }),
  }
  const rise = to ** 2 * (isPulsed ? duty.to : 1) * conductor.resistance * conductor.thermal
  const count = eitherSign(0.5 + nonlinearity)
  // Noise through two poles in a row, the filter's at its fastest.
  const fastest = (10 + filter.limits[0]) * capacitance.limits[0]
  const poles = 1 / (1 / bandwidth + 2 * Math.PI * fastest)
  const sensorNoise = eitherSign(3 * density * Math.sqrt((Math.PI / 2) * poles))
  const pretended = (tesla: number) => tesla / (coupling * 10 ** (rejection / 20))
  const isZeroed = calibration === 'zero'
  const warm = (celsius: number) => celsius - 25
  const box: Box<Value> = {
    rail: [rail.from, (rail.from + rail.to) / 2, rail.to],
    warmth: [warm(air.from), 0, warm(air.to) + rise] as Limits,
    converterReference: ownReference ? fullScale.limits : fixed(fullScale.limits[1]),
    referenceDrift: eitherSign(ownReference ? 50e-6 : 0),
    zeroError: eitherSign(size.zeroError),
    zeroDrift: eitherSign(size.zeroDrift),
    zeroSupply: eitherSign(size.zeroSupplyError),
    sensitivityError: eitherSign(size.sensitivityError),
    sensitivityDrift: eitherSign(size.sensitivityDrift),
    sensitivitySupply: eitherSign(size.sensitivitySupplyError),
    nonlinearity: eitherSign(size.nonlinearity * ratedCurrent),
    hysteresis: eitherSign(size.hysteresis * to),
    field: eitherSign(pretended(50e-6)),
    fieldThen: eitherSign(isZeroed ? pretended(50e-6) : 0),
    neighbour: eitherSign(pretended((2e-7 * neighbour) / distance)),
    outputResistance: fixed(10),
    filterResistance: filter.limits,
    filterCapacitance: capacitance.limits,
    phase: averaged ? [-1, 0, 1] : fixed(0),
    pinLeakage: eitherSign(leakage),
    converterGain: eitherSign(gain / 100),
    converterOffset: eitherSign(offset),
    sensorNoise,
    counts: count,
    countNoise: eitherSign(3 * noise),
    sensorNoiseZero: isZeroed ? sensorNoise : fixed(0),
    countsZero: isZeroed ? count : fixed(0),
    countNoiseZero: eitherSign(isZeroed ? 3 * noise : 0),
  }
  const plain: Plain = {
    ratiometric,
    sensitivity,
    zero,
    ratedSupply: supply,
    supplyMinimum: supply === 5 ? 4.5 : 2.7,
    supplyMaximum: 5.5,
    ratedCurrent,
    lowOutput,
    highDrop,
    bandwidth,
    ownReference,
    bits,
    half: transitions === 'truncating' ? 0.5 : 0,
    from,
    to,
    errors,
    averaged,
    frequency,
    duty,
    wait,
    edge,
    calibration,
    railThen: (rail.from + rail.to) / 2,
    warmthThen: warm(then),
    trip,
    conductor,
    hottestAir: air.to,
  }
  return { choice, conditions: { rail, ambientCelsius: air }, box, plain }
}
