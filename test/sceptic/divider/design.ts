import { type Amplifier, type DividerChoice, type DividerConditions, exampleAmplifiers } from '@ohmward/divider'
import { type Box, eitherSign, fixed, type Limits, within } from '../tools/board.js'
import { digits, Random } from '../tools/random.js'

/** What a board of a low-ohm measurement is made of, and what it meets, by names of the model's own. */
export type Value =
  | 'rail'
  | 'warmth'
  | 'excitation'
  | 'supply'
  | 'converterReference'
  | 'referenceDrift'
  | 'saturation'
  | 'switchResistance'
  | 'reference'
  | 'referenceCoefficient'
  | 'lead'
  | 'contact'
  | 'inSpan'
  | 'leakage'
  | 'thermoelectric'
  | 'offset'
  | 'offsetDrift'
  | 'bias'
  | 'biasDifference'
  | 'inverseGain'
  | 'commonMode'
  | 'supplyRejection'
  | 'feedback'
  | 'ground'
  | 'gainDrift'
  | 'feedbackPlus'
  | 'groundPlus'
  | 'gainDriftPlus'
  | 'clampLeakage'
  | 'pedestal'
  | 'converterGain'
  | 'converterOffset'
  | 'pinLeakage'
  | 'short'
  | 'known'
  | 'benchWarmth'
  | 'inputNoise'
  | 'counts'
  | 'countNoise'
  | 'inputNoiseShort'
  | 'countsShort'
  | 'countNoiseShort'
  | 'inputNoiseKnown'
  | 'countsKnown'
  | 'countNoiseKnown'

/** Numbers of a design that no board varies. */
export interface Plain {
  readonly atRail: boolean
  readonly twoWires: boolean
  readonly smallest: number
  readonly middle: number
  readonly highest: number
  /** Share of the reading that may be wrong. */
  readonly share: number
  readonly ownExcitation: boolean
  readonly ownSupply: boolean
  readonly ownReference: boolean
  readonly bits: number
  /** Half a count that firmware adds to a truncated code. */
  readonly half: number
  readonly nonlinearity: number
  readonly noise: number
  readonly samples: number
  readonly thermalResistance: number
  readonly duty: number
  readonly protection: number
  readonly filter: number
  readonly filterResistance: number
  readonly wait: number
  readonly sampling: { resistance: number; capacitance: number; time: number; conversion: number }
  readonly highDrop: number
  readonly lowOutput: number
  readonly offsetSupply: number
  /** Common mode at which the sheet states the offset. */
  readonly offsetAt: number
  readonly bandwidth: number
  readonly slew: number
  readonly recovery: number
  readonly commonModeLow: number
  readonly commonModeHighDrop: number
  readonly supplyMinimum: number
  readonly supplyMaximum: number
  readonly sink: number
  readonly currentLimit: number
  readonly ratedPower: number
  readonly calibration: 'none' | 'zero' | 'zero and span'
  readonly railThen: number
}

/** A design as it is given to the check, and as the model has it. */
export interface DividerDesign {
  readonly choice: DividerChoice
  readonly conditions: DividerConditions
  readonly box: Box<Value>
  readonly plain: Plain
}

/** A number with its unit, as data sheets print it: `10 uV`. */
function number(text: string | number): number {
  if (typeof text === 'number') return text
  const [, digitsOf, prefix] = /^(-?[\d.]+) ([munpkM]?)[A-Za-z]/.exec(text)!
  return Number(digitsOf) * { m: 1e-3, u: 1e-6, n: 1e-9, p: 1e-12, k: 1e3, M: 1e6, '': 1 }[prefix as '']!
}

/** A field of one of the example amplifiers as a plain number. */
function fieldsOf(amplifier: Amplifier): Record<keyof Amplifier, number> {
  return Object.fromEntries(
    Object.entries(amplifier).map(([name, given]) => {
      const perMicrosecond = typeof given === 'string' && given.endsWith('/us') ? 1e6 : 1
      return [name, number(given as string | number) * perMicrosecond]
    }),
  ) as Record<keyof Amplifier, number>
}

/** What is settled before a measurement is drawn. */
export interface Wish {
  readonly atRail: boolean
  readonly smallest: number
  readonly rail: { readonly from: number; readonly to: number }
  readonly air: { readonly from: number; readonly to: number }
}

/** A low-ohm measurement at random: any amplifier class, wires, references, calibration. */
export function drawDivider(random: Random, wish?: Wish): DividerDesign {
  const atRail = wish?.atRail ?? random.now(0.2)
  const smallest = wish?.smallest ?? random.decades(0.08, 2)
  const highest = digits(smallest * random.even(1.2, 4))
  const middle = digits(Math.sqrt(smallest * highest))
  const lowest = random.even(2.7, 3.6)
  const rail = wish?.rail ?? { from: lowest, to: digits(lowest * random.even(1.02, 1.4)) }
  const air = wish?.air ?? { from: random.even(-20, 25), to: random.even(26, 70) }
  const className = random.one([
    'zeroDrift',
    'zeroDrift',
    'zeroDrift',
    'cmosRailToRail',
    'bipolarSingleSupply',
  ] as const)
  const amplifier: Amplifier = exampleAmplifiers[className]
  const a = fieldsOf(amplifier)

  const ownExcitation = !atRail && random.now(0.2)
  const ownSupply = !atRail && random.now(0.2)
  const ownReference = random.now(0.3)
  const excitation = within(random.even(2, 3.3), random.one([1, 2]), 'V')
  const supply = within(random.even(3.3, 5), random.one([1, 5]), 'V')
  const fullScale = within(random.one([1.25, 2.048, 2.5]), random.one([0.2, 1]), 'V')

  const reference = within(random.decades(22, 200), random.one([0.1, 0.1, 0.5, 1]), 'ohm')
  const R = reference.limits[1]
  const senses = ((ownExcitation ? excitation.limits[1] : rail.from) * highest) / (R + highest)
  const scale = ownReference ? fullScale.limits[1] : rail.from
  const gain = Math.max((scale * random.even(0.35, 0.85)) / senses, 2)
  const ground = within(random.decades(500, 3000), random.one([0.1, 1]), 'ohm')
  const feedback = within(digits(ground.limits[1] * (gain - 1)), random.one([0.1, 1]), 'ohm')
  const gainDrift = random.one([1e-5, 5e-5, 1e-4])

  const lead = within(random.decades(2e-3, 0.1), 20, 'ohm')
  const switchResistance = within(random.decades(0.05, 10), random.one([10, 40]), 'ohm')
  const saturation = random.one([0, 0, 0.05, 0.1])
  const contact = random.one([0, 1e-4, 1e-3])
  const twoWires = random.now(0.3)
  const calibration = atRail ? 'none' : random.one(['none', 'none', 'none', 'none', 'zero', 'zero and span'] as const)
  // A zero is read above the lowest output where a pedestal lifts it there.
  const lift = (a.lowOutput + 2 * gain * a.offsetVoltage) / scale + 0.01
  const pedestal = calibration !== 'none' ? digits(Math.min(lift, 0.5)) : !atRail && random.now(0.2) ? 0.02 : 0
  const samples = random.one([1, 1, 1, 4, 16])
  const share = random.one([0.02, 0.03, 0.05, 0.1, 0.2])
  const short = random.one([0, 1e-3])
  const known = within(digits(highest * random.even(0.5, 1)), random.one([0.05, 0.2]), 'ohm')
  const bench = random.even(18, 28)
  const bits = random.one([10, 12, 16])
  const noise = random.one([0, 0.3, 0.7])
  const nonlinearity = random.one([0.5, 1, 2])
  const converterGain = random.one([0, 0.05, 0.2])
  const converterOffset = random.one([0, 1, 3])
  const transitions = random.one(['truncating', 'centred'] as const)
  const sampling = {
    resistance: random.decades(200, 2e3),
    capacitance: random.decades(3e-12, 1e-11),
    time: random.decades(1e-6, 2e-5),
    conversion: random.decades(1e-6, 1e-4),
  }
  const filter = random.one([0, 0, 0, 1e-5, 1e-4])
  const filterResistance = random.one([100, 1000, 4700])
  const wait = random.decades(3e-4, 1e-2)
  const pinLeakage = random.one([0, 5e-8])
  const currentLimit = random.decades(0.05, 0.5)
  const ratedPower = random.one([0.1, 0.25, 1])
  const duty = random.one([0.01, 0.1, 0.3])
  const thermalResistance = random.one([50, 150])
  const coefficient = random.one([2.5e-5, 1e-4])
  const protection = random.one([100, 1000, 4700])
  const thermoelectric = random.one([5e-6, 2e-5])
  const difference = random.one([1, 5])
  const leakage = random.one([0, 1e-6])
  const inSpan = random.now(0.15) ? random.decades(1e-4, 1e-3) : 0
  // Half of the sheets say where their offset is measured; of the others it is the middle of their supply.
  const sheet = new Random(Math.round(1e6 * lowest))
  const saysWhere = sheet.now(0.5)
  const offsetAt = saysWhere ? digits(sheet.even(0, a.offsetSupply)) : a.offsetSupply / 2

  const choice: DividerChoice = {
    load: { from: smallest, to: highest, nominal: middle },
    error: `${share * 100} %`,
    topology: atRail ? 'load at rail' : 'load at ground',
    wires: twoWires ? 2 : 4,
    ...(ownExcitation && { excitation: excitation.given }),
    ...(ownSupply && { amplifierSupply: supply.given }),
    excitationSwitch: { resistance: switchResistance.given, saturation, currentLimit },
    reference: reference.given,
    referencePart: { temperatureCoefficient: coefficient, ratedPower, thermalResistance },
    gainResistors: { feedback: feedback.given, ground: ground.given, ratioDrift: gainDrift },
    ...(pedestal > 0 && { pedestal }),
    surroundings: {
      leadResistance: lead.given,
      contactVariation: contact,
      switchInSpan: inSpan,
      switchLeakage: leakage > 0 ? `${leakage} A` : 0,
      thermoelectric,
      junctionDifference: difference,
      protectionResistance: protection,
      clampLeakage: '10 nA',
      undershoot: 0.3,
    },
    amplifier: saysWhere ? { ...amplifier, offsetCommonMode: offsetAt } : amplifier,
    converter: {
      bits,
      transitions,
      reference: ownReference ? { kind: 'absolute', voltage: fullScale.given, drift: '50 ppm/K' } : { kind: 'rail' },
      offset: converterOffset,
      gain: `${converterGain} %`,
      nonlinearity,
      noise,
      switchResistance: sampling.resistance,
      samplingCapacitance: sampling.capacitance,
      acquisitionTime: sampling.time,
      conversionTime: sampling.conversion,
      leakage: pinLeakage,
    },
    timing: { wait, filter, filterResistance, measuringDuty: duty, samples },
    calibration:
      calibration === 'none'
        ? 'none'
        : calibration === 'zero'
          ? { kind: 'zero', atCelsius: bench, short }
          : { kind: 'zero and span', atCelsius: bench, short, resistor: known.given },
  }
  const conditions = { rail, ambientCelsius: air }

  const rejected = (decibels: number) => eitherSign(10 ** (-decibels / 20))
  const parallel = (feedback.limits[1] * ground.limits[1]) / (feedback.limits[1] + ground.limits[1])
  const density = Math.hypot(a.noiseDensity, Math.sqrt(1.65e-20 * (parallel + (atRail ? parallel : protection))))
  const corner = Math.min(a.gainBandwidth / gain, filter > 0 ? 1 / (2 * Math.PI * filter) : Infinity)
  const inputNoise = eitherSign((3 * density * Math.sqrt((Math.PI / 2) * corner)) / Math.sqrt(samples))
  const rounding = samples === 1 ? 0.5 : roundingLeft(noise)
  const counts = eitherSign(rounding + nonlinearity)
  const spread = samples === 1 ? noise : Math.sqrt((noise ** 2 + (1 - 4 * rounding ** 2) / 12) / samples)
  const countNoise = eitherSign(3 * spread)
  const middleRail = (rail.from + rail.to) / 2
  const both = (from: number, to: number): Limits => [from, Math.min(Math.max(from, 0), to), to]

  const none = fixed(0)

  const box: Box<Value> = {
    rail: [rail.from, middleRail, rail.to],
    warmth: both(air.from - 25, air.to - 25),
    excitation: ownExcitation ? excitation.limits : fixed(excitation.limits[1]),
    supply: ownSupply ? supply.limits : fixed(supply.limits[1]),
    converterReference: ownReference ? fullScale.limits : fixed(fullScale.limits[1]),
    referenceDrift: eitherSign(ownReference ? 50e-6 : 0),
    saturation: fixed(saturation),
    switchResistance: switchResistance.limits,
    reference: reference.limits,
    referenceCoefficient: eitherSign(coefficient),
    lead: lead.limits,
    contact: eitherSign(contact),
    inSpan: fixed(inSpan),
    leakage: fixed(leakage),
    thermoelectric: eitherSign(thermoelectric * difference),
    offset: eitherSign(a.offsetVoltage),
    offsetDrift: eitherSign(a.offsetDrift),
    bias: eitherSign(a.biasCurrent),
    biasDifference: eitherSign(a.offsetCurrent),
    inverseGain: [0, 0, 10 ** (-a.openLoopGainDb / 20)],
    commonMode: rejected(a.commonModeRejectionDb),
    supplyRejection: rejected(a.supplyRejectionDb),
    feedback: feedback.limits,
    ground: ground.limits,
    gainDrift: eitherSign(gainDrift),
    feedbackPlus: atRail ? feedback.limits : fixed(0),
    groundPlus: atRail ? ground.limits : fixed(0),
    gainDriftPlus: eitherSign(atRail ? gainDrift : 0),
    clampLeakage: eitherSign(atRail ? 0 : 1e-8),
    pedestal: fixed(pedestal),
    converterGain: eitherSign(converterGain / 100),
    converterOffset: eitherSign(converterOffset),
    pinLeakage: eitherSign(pinLeakage),
    short: fixed(short),
    known: calibration === 'zero and span' ? known.limits : fixed(known.limits[1]),
    benchWarmth: fixed(bench - 25),
    inputNoise,
    counts,
    countNoise,
    inputNoiseShort: calibration === 'none' ? none : inputNoise,
    countsShort: calibration === 'none' ? none : counts,
    countNoiseShort: calibration === 'none' ? none : countNoise,
    inputNoiseKnown: calibration !== 'zero and span' ? none : inputNoise,
    countsKnown: calibration !== 'zero and span' ? none : counts,
    countNoiseKnown: calibration !== 'zero and span' ? none : countNoise,
  }
  const plain: Plain = {
    atRail,
    twoWires,
    smallest,
    middle,
    highest,
    share,
    ownExcitation,
    ownSupply,
    ownReference,
    bits,
    half: transitions === 'truncating' ? 0.5 : 0,
    nonlinearity,
    noise,
    samples,
    thermalResistance,
    duty,
    protection,
    filter,
    filterResistance,
    wait,
    sampling,
    highDrop: a.highOutputDrop,
    lowOutput: a.lowOutput,
    offsetSupply: a.offsetSupply,
    offsetAt,
    bandwidth: a.gainBandwidth,
    slew: a.slewRate,
    recovery: a.recovery,
    commonModeLow: a.commonModeLow,
    commonModeHighDrop: a.commonModeHighDrop,
    supplyMinimum: a.supplyMinimum,
    supplyMaximum: a.supplyMaximum,
    sink: a.sinkCurrent,
    currentLimit,
    ratedPower,
    calibration,
    railThen: middleRail,
  }
  return { choice, conditions, box, plain }
}

/** Largest error of the mean of many rounded readings with normal noise, in counts: the mean itself, summed up. */
export function roundingLeft(noise: number): number {
  if (noise === 0) return 0.5
  let largest = 0
  for (let place = 0; place < 1; place += 1 / 64) {
    let mean = 0
    let weight = 0
    for (let x = -8; x <= 8; x += 1 / 128) {
      const share = Math.exp((-x * x) / 2)
      mean += share * Math.floor(place + noise * x + 0.5)
      weight += share
    }
    largest = Math.max(largest, Math.abs(mean / weight - place))
  }
  return Math.min(largest, 0.5)
}
