import { type Converter, type ReadConverter, readConverter, type Task } from '@ohmward/adc'
import {
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
import { dividerFields, filterFields, surroundingsFields, timingFields } from '../parts/board.js'
import { type ReadSensor, readSensor, type Sensor } from '../parts/sensor.js'
import { type Calibration, type ReadCalibration, readCalibration } from './calibration.js'
import { readErrors } from './errors.js'
import { type ReadTrip, readTrip, type Trip } from './trip.js'
import { oneOf } from './words.js'

/** PWM of the load. */
export interface Pwm {
  readonly frequency: number | string
  /** Duty to cover, more than 0, at most 1. */
  readonly duty: Range
}

/** An error wanted at a current. */
export interface WantedError {
  readonly at: number | string
  /** Largest error: a share of the reading (`'5 %'`) or a current (`'0.2 A'`). */
  readonly allowed: number | string
}

/** What else the converter reads in a period; times in seconds or as text, at their upper limits. */
export type OtherTask = Pick<Task, 'name' | 'window' | 'starts'> & {
  readonly [T in 'recovery' | 'settling' | 'acquisition' | 'conversion']: number | string
} & { readonly samples?: number | string }

/** A current measurement as its designer chose it. */
export interface HallChoice {
  readonly sensor: Sensor
  /** `'rail'` unless told, or a supply of its own. */
  readonly sensorSupply?: 'rail' | Input
  readonly converter: Converter
  /** Currents in the on-window that must be read, in amperes. */
  readonly current: Range
  readonly errors: readonly WantedError[]
  /** Smallest step and noise wanted; the smallest of the errors unless told. */
  readonly resolution?: number | string
  /** Largest current that has flowed before a reading, for hysteresis; the largest to be read unless told. */
  readonly peakCurrent?: number | string
  /**
   * `on-window` unless told: sampled while the load is on; the reading is the on-current. `averaged`: the filter
   * averages; the reading is the mean current, and its errors are wanted at mean currents.
   */
  readonly reading?: 'on-window' | 'averaged'
  /** Absent where the current is steady. */
  readonly pwm?: Pwm
  /** From the edge to the sample; as long as the settling needs unless told. */
  readonly wait?: number | string
  readonly filter?: PartInput<typeof filterFields>
  readonly divider?: PartInput<typeof dividerFields>
  readonly surroundings?: PartInput<typeof surroundingsFields>
  readonly timing?: PartInput<typeof timingFields>
  readonly calibration?: Calibration
  /** How the load's power is computed from the reading; nothing is watched unless told. */
  readonly power?: 'squared reading' | 'voltage times reading'
  /** Smallest current at which the firmware divides by the reading, as for a resistance. */
  readonly divideFrom?: number | string
  /** What else the converter reads in a period: the resistance in the off-window. */
  readonly otherTasks?: readonly OtherTask[]
  /** Share of the sensor's span that the largest current should use at least; 0.4 unless told. */
  readonly leastUse?: number | string
  readonly trip?: Trip
}

/** What must be covered while the measurement works. */
export interface HallConditions {
  /** The rail at the moment of the measurement, sagged by the load. */
  readonly rail: Range
  /** Air around the board, inside the case. */
  readonly ambientCelsius: Range
}

type Read<F extends PartFields> = { [W in keyof F]: Spread }
type Ends = { readonly from: number; readonly to: number }

/** A choice that was read: every part by its words, in SI. */
export interface ReadChoice {
  readonly sensor: ReadSensor
  readonly sensorSupply: Spread | undefined
  readonly converter: ReadConverter
  readonly current: Ends
  readonly errors: readonly { readonly at: number; readonly allowed: number }[]
  readonly resolution: number
  readonly peakCurrent: number
  readonly reading: 'on-window' | 'averaged'
  readonly pwm: { readonly frequency: number; readonly duty: Ends } | undefined
  readonly wait: number | undefined
  readonly filter: Read<typeof filterFields>
  readonly divider: Read<typeof dividerFields> | undefined
  readonly surroundings: Read<typeof surroundingsFields>
  readonly timing: Read<typeof timingFields>
  readonly calibration: ReadCalibration
  readonly power: 'squared reading' | 'voltage times reading' | undefined
  readonly divideFrom: number | undefined
  readonly otherTasks: readonly Task[]
  readonly leastUse: number
  readonly trip: ReadTrip | undefined
  readonly rail: Ends
  /** The rail that the firmware takes for granted: the middle of its range. */
  readonly nominalRail: number
  readonly ambient: Ends
}

const required = ['sensor', 'converter', 'current', 'errors'] as const
const optional = [
  'sensorSupply',
  'resolution',
  'peakCurrent',
  'reading',
  'pwm',
  'wait',
  'filter',
  'divider',
  'surroundings',
  'timing',
  'calibration',
  'power',
  'divideFrom',
  'otherTasks',
  'leastUse',
  'trip',
] as const

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readChoice(choice: unknown, conditions: unknown): ReadChoice {
  const own = missingFields(choice, required, 'choice', optional)
  const around = missingFields(conditions, ['rail', 'ambientCelsius'], 'conditions')
  const amperes = (given: unknown, field: string, otherwise: number) =>
    given === undefined ? otherwise : readNumber(given, { field, unit: 'A', above: 0, max: 1e4 })
  const current = readRange(own.current, { field: 'current', unit: 'A', min: -1e4, max: 1e4 })
  const largest = Math.max(Math.abs(current.from), Math.abs(current.to))
  if (largest === 0) throw new InputError({ field: 'current.to', value: 0, unit: 'A', allowed: 'a range other than 0' })
  const errors = readErrors(own.errors, current)
  const reading = oneOf(own.reading ?? 'on-window', ['on-window', 'averaged'] as const, 'reading')
  const converter = readConverter(own.converter)
  const timing = readPart(own.timing ?? {}, timingFields, 'timing')
  if (timing.samples.nominal % timing.samplesPerWindow.nominal !== 0) {
    throw new InputError({
      field: 'timing.samplesPerWindow',
      value: timing.samplesPerWindow.nominal,
      allowed: `a divisor of samples, ${timing.samples.nominal}`,
    })
  }
  const rail = readRange(around.rail, { field: 'rail', unit: 'V', above: 0, max: 60 })
  return {
    sensor: readSensor(own.sensor),
    sensorSupply:
      own.sensorSupply === undefined || own.sensorSupply === 'rail'
        ? undefined
        : readSpread(own.sensorSupply, { field: 'sensorSupply', unit: 'V', above: 0, max: 30 }),
    converter,
    current,
    errors,
    resolution: amperes(own.resolution, 'resolution', Math.min(...errors.map(({ allowed }) => allowed))),
    peakCurrent: amperes(own.peakCurrent, 'peakCurrent', largest),
    reading,
    pwm: readPwm(own.pwm, reading, converter),
    wait: own.wait === undefined ? undefined : readNumber(own.wait, { field: 'wait', unit: 's', above: 0, max: 10 }),
    filter: readPart(own.filter ?? {}, filterFields, 'filter'),
    divider: own.divider === undefined ? undefined : readPart(own.divider, dividerFields, 'divider'),
    surroundings: readPart(own.surroundings ?? {}, surroundingsFields, 'surroundings'),
    timing,
    calibration: readCalibration(own.calibration),
    power:
      own.power === undefined
        ? undefined
        : oneOf(own.power, ['squared reading', 'voltage times reading'] as const, 'power'),
    divideFrom: own.divideFrom === undefined ? undefined : amperes(own.divideFrom, 'divideFrom', 0),
    otherTasks: readTasks(own.otherTasks),
    leastUse: readNumber(own.leastUse ?? 0.4, { field: 'leastUse', unit: '1', min: 0, max: 1 }),
    trip: own.trip === undefined ? undefined : readTrip(own.trip, converter.bits),
    rail,
    nominalRail: (rail.from + rail.to) / 2,
    ambient: readRange(around.ambientCelsius, { field: 'ambientCelsius', unit: 'degC', min: -55, max: 125 }),
  }
}

function readPwm(given: unknown, reading: string, converter: ReadConverter): ReadChoice['pwm'] {
  if (given === undefined) return undefined
  const own = missingFields(given, ['frequency', 'duty'], 'pwm')
  const frequency = readNumber(own.frequency, { field: 'pwm.frequency', unit: 'Hz', min: 1e-3, max: 1e6 })
  const duty = readRange(own.duty, { field: 'pwm.duty', unit: '1', above: 0, max: 1 })
  const acquisition = converter.spreads.t_acq.upper
  if (reading === 'on-window' && duty.from / frequency < acquisition) {
    throw new InputError({
      field: 'pwm.duty.from',
      value: duty.from,
      allowed: `at least ${Number((acquisition * frequency).toPrecision(3))}: a shorter window does not hold one acquisition`,
    })
  }
  return { frequency, duty }
}

function readTasks(given: unknown): readonly Task[] {
  if (given === undefined) return []
  if (!Array.isArray(given)) throw new InputError({ field: 'otherTasks', value: given, allowed: 'a list of tasks' })
  return Array.from(given, (task, i): Task => {
    const field = `otherTasks[${i}]`
    const times = ['recovery', 'settling', 'acquisition', 'conversion'] as const
    const own = missingFields(task, ['name', 'window', ...times], field, ['starts', 'samples'])
    const time = (word: (typeof times)[number]) =>
      readNumber(own[word], { field: `${field}.${word}`, unit: 's', min: 0, max: 10 })
    const samples = { field: `${field}.samples`, unit: '1', integer: true, min: 1, max: 65536 } as const
    return {
      name: String(own.name),
      window: oneOf(own.window, ['on', 'off'] as const, `${field}.window`),
      starts: oneOf(own.starts ?? 'edge', ['edge', 'turn'] as const, `${field}.starts`),
      recovery: time('recovery'),
      settling: time('settling'),
      acquisition: time('acquisition'),
      conversion: time('conversion'),
      samples: readNumber(own.samples ?? 1, samples),
    }
  })
}
