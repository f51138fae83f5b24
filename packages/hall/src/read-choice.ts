import { exact, InputError, type Read, readRecord, type Spread } from '@ohmward/quantity'
import { hallConditions, hallRecord } from './choice.js'

/** Least resistance before the filter's capacitor, in ohms: less is no wire. */
const LEAST_SOURCE = 1e-3

type Choice = Read<typeof hallRecord>
type Ends = Read<typeof hallConditions>['rail']

/** A calibration that was read. */
export interface ReadCalibration {
  readonly kind: Choice['calibration']['kind']
  readonly atCelsius: Spread
  /** Rail of the zero reading, where it is given. */
  readonly rail: Spread | undefined
  /** The sensor's own supply at the zero reading, where it is given. */
  readonly supply?: Spread | undefined
  /** Time for which the load is held off for the zero, where it is told. */
  readonly offTime?: number | undefined
  readonly residual: Spread
  readonly samples: number
}

/** A choice and its conditions that were read, every part by its words, in SI. */
export interface ReadChoice
  extends Omit<Choice, 'sensorSupply' | 'errors' | 'resolution' | 'peakCurrent' | 'calibration' | 'otherTasks'> {
  /** Undefined where it is the rail. */
  readonly sensorSupply: Spread | undefined
  /** In amperes. */
  readonly errors: readonly { readonly at: number; readonly allowed: number }[]
  readonly resolution: number
  readonly peakCurrent: number
  readonly calibration: ReadCalibration
  readonly otherTasks: NonNullable<Choice['otherTasks']>
  readonly rail: Ends
  /** The rail that the firmware takes for granted. */
  readonly nominalRail: number
  readonly ambient: Ends
}

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readChoice(choice: unknown, conditions: unknown): ReadChoice {
  const read = readRecord(hallRecord, choice, 'choice')
  const { rail, ambientCelsius, nominalRail } = readRecord(hallConditions, conditions, 'conditions')
  const { current, sensorSupply } = read
  const largest = Math.max(Math.abs(current.from), Math.abs(current.to))
  if (largest === 0) throw new InputError({ field: 'current.to', value: 0, unit: 'A', allowed: 'a range other than 0' })
  const errors = errorsOf(read)
  checkWindow(read)
  checkCode(read)
  checkSource(read)
  checkZeroSupply(read)
  return {
    ...read,
    sensorSupply: sensorSupply === 'rail' ? undefined : sensorSupply,
    errors,
    resolution: read.resolution ?? Math.min(...errors.map(({ allowed }) => allowed)),
    peakCurrent: read.peakCurrent ?? largest,
    calibration: calibrationOf(read),
    otherTasks: read.otherTasks ?? [],
    rail,
    nominalRail: nominalRail ?? (rail.from + rail.to) / 2,
    ambient: ambientCelsius,
  }
}

/** The errors wanted, in amperes. A share is one of the current; at 0 A only amperes make sense. */
function errorsOf({ errors, current: { from, to } }: Choice): ReadChoice['errors'] {
  const [least, most] = [Math.min(from, 0), Math.max(to, 0)]
  return errors.map(({ at, allowed }, i) => {
    if (!(at >= least && at <= most)) {
      throw new InputError({ field: `errors[${i}].at`, value: at, unit: 'A', allowed: `from ${least} to ${most} A` })
    }
    if ('amperes' in allowed) return { at, allowed: allowed.amperes }
    if (at === 0) {
      throw new InputError({ field: `errors[${i}].allowed`, value: allowed.share, allowed: 'a current, at 0 A' })
    }
    return { at, allowed: allowed.share * Math.abs(at) }
  })
}

/** A window that is sampled holds one acquisition. */
function checkWindow({ pwm, reading, converter }: Choice): void {
  if (!pwm || reading !== 'on-window') return
  const acquisition = converter.spreads.t_acq.upper
  if (pwm.duty.from / pwm.frequency >= acquisition) return
  if (pwm.frequency * acquisition > 1) {
    throw new InputError({
      field: 'pwm.frequency',
      value: pwm.frequency,
      unit: 'Hz',
      allowed: `at most ${Number((1 / acquisition).toPrecision(3))} Hz: a shorter period does not hold one acquisition`,
    })
  }
  throw new InputError({
    field: 'pwm.duty.from',
    value: pwm.duty.from,
    allowed: `at least ${Number((acquisition * pwm.frequency).toPrecision(3))}: a shorter window does not hold one acquisition`,
  })
}

/** A code of the converter has no more than its bits. */
function checkCode({ trip, converter: { bits } }: Choice): void {
  if (trip?.code === undefined || trip.code < 2 ** bits) return
  const allowed = `from 0 LSB to ${2 ** bits - 1} LSB`
  throw new InputError({ field: 'trip.code', value: trip.code, unit: 'LSB', allowed })
}

/** A capacitor with nothing before it is no filter: the sensor's output has a resistance, or the filter has. */
function checkSource({ sensor, filter }: Choice): void {
  if (sensor.outputResistance.lower + filter.resistance.lower >= LEAST_SOURCE) return
  throw new InputError({
    field: 'filter.resistance',
    value: filter.resistance.lower,
    unit: 'ohm',
    allowed: `at least ${LEAST_SOURCE} ohm together with sensor.outputResistance, ${sensor.outputResistance.lower} ohm at its least`,
  })
}

/** A sensor on the rail has the rail of the zero reading for its supply. */
function checkZeroSupply({ sensorSupply, calibration }: Choice): void {
  if (sensorSupply !== 'rail' || calibration.kind === 'none' || calibration.supply === undefined) return
  const { nominal: value } = calibration.supply
  const allowed = 'nothing with sensorSupply "rail": it is calibration.rail'
  throw new InputError({ field: 'calibration.supply', value, unit: 'V', allowed })
}

/** Every kind of calibration with the same fields. */
function calibrationOf({ calibration }: Choice): ReadCalibration {
  const room = exact(25)
  return calibration.kind === 'none'
    ? { kind: 'none', atCelsius: room, rail: undefined, residual: exact(0), samples: 1 }
    : { atCelsius: room, ...calibration }
}
