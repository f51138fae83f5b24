import { type Margin, ordered, relativeSlack } from '@ohmward/budget'
import {
  format,
  InputError,
  missingFields,
  preferredAtLeast,
  preferredAtMost,
  type Range,
  readNumber,
  type Series,
} from '@ohmward/quantity'
import { checkHall, type HallAssessment } from './block.js'
import { planOf } from './chain/plan.js'
import { sourceAt } from './chain/source.js'
import { type HallChoice, type ReadChoice, readChoice } from './choice/index.js'
import { oneOf } from './choice/words.js'
import * as f from './formulas/index.js'
import { exampleSensors } from './parts/examples.js'
import type { Sensor } from './parts/sensor.js'
import { plainMargins } from './rows/index.js'

/** What a measurement must do; sensor, filter and averaging are looked for. */
export interface HallRequirement extends Omit<HallChoice, 'sensor' | 'filter' | 'timing'> {
  /** The rail while measuring. */
  readonly rail: Range
  /** Air around the board; 0 to 50 °C unless told. */
  readonly ambientCelsius?: Range
  /** Sensors to choose from, by name; the examples by class unless told. */
  readonly sensors?: Readonly<Record<string, Sensor>>
  /** Series of the capacitors (IEC 60063); E6 unless told. */
  readonly series?: Series
  /** Edge of the power switch; 1 µs unless told. */
  readonly edge?: number | string
  /** How many choices are wanted; 3 unless told. */
  readonly most?: number
}

/** A choice, already checked. */
export interface SizedHall {
  /** Name of the sensor. */
  readonly sensor: string
  readonly parts: HallChoice
  readonly assessment: HallAssessment
}

/** A candidate that was turned down. */
export interface RejectedHall {
  readonly sensor: string
  readonly parts: HallChoice
  /** The margin that fails, by its id, and why in words. */
  readonly margin: string
  readonly reason: string
}

/** What came out of sizing. */
export interface HallSizing {
  /** The largest relative slack first, one for each sensor and kind of reading. */
  readonly choices: readonly SizedHall[]
  readonly rejected: readonly RejectedHall[]
}

const own = ['rail', 'ambientCelsius', 'sensors', 'series', 'edge', 'most'] as const
const optional = [
  'sensorSupply',
  'resolution',
  'peakCurrent',
  'reading',
  'pwm',
  'wait',
  'divider',
  'surroundings',
  'calibration',
  'power',
  'divideFrom',
  'otherTasks',
  'leastUse',
  'trip',
] as const
const seriesNames = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const

/**
 * Finds sensor, filter and averaging.
 *
 * For each sensor and kind of reading the filters of preferred values and 1, 4, 16 or 64 samples are screened by the
 * margins that need no engine; the rest is checked in full, the fewest samples first, until one holds. Every choice
 * returned holds, and every one rejected fails its check.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeHall(requirement: HallRequirement): HallSizing {
  const given = missingFields(requirement, ['converter', 'current', 'errors', 'rail'], 'requirement', [
    ...own,
    ...optional,
  ]) as unknown as HallRequirement
  const {
    rail,
    ambientCelsius = { from: 0, to: 50 },
    sensors = exampleSensors,
    series = 'E6',
    edge = 1e-6,
    most = 3,
    ...base
  } = given
  if (!(Number.isInteger(most) && most >= 1 && most <= 20)) {
    throw new InputError({ field: 'most', value: most, allowed: 'a whole number from 1 to 20' })
  }
  if (typeof sensors !== 'object' || sensors === null || Object.keys(sensors).length === 0) {
    throw new InputError({ field: 'sensors', value: sensors, allowed: 'at least one sensor by its name' })
  }
  const search = {
    base,
    conditions: { rail, ambientCelsius },
    series: oneOf(series, seriesNames, 'series'),
    edge: readNumber(edge, { field: 'edge', unit: 's', min: 0, max: 1 }),
  }
  const readings = base.reading
    ? [base.reading]
    : base.pwm
      ? (['on-window', 'averaged'] as const)
      : (['on-window'] as const)
  const choices: SizedHall[] = []
  const rejected: RejectedHall[] = []
  for (const [sensor, part] of Object.entries(sensors)) {
    for (const reading of readings) {
      const found = look(search, sensor, part, reading, rejected)
      if (found) choices.push(found)
    }
  }
  const slack = ({ assessment }: SizedHall) => relativeSlack(assessment.margins[0]!)
  choices.sort((a, b) => slack(b) - slack(a))
  return { choices: choices.slice(0, most), rejected }
}

interface Search {
  readonly base: Omit<HallChoice, 'sensor' | 'filter' | 'timing'>
  readonly conditions: { readonly rail: Range; readonly ambientCelsius: Range }
  readonly series: Series
  readonly edge: number
}

/** Margins that no filter and no averaging mend. */
const ofSensor = /^(supply-low|supply-high|rated-current|conductor|range|quotient)$/

/** The first candidate of a sensor that holds; those before it go to `rejected`. */
function look(
  search: Search,
  sensor: string,
  part: Sensor,
  reading: 'on-window' | 'averaged',
  rejected: RejectedHall[],
): SizedHall | undefined {
  for (const parts of candidates(search, part, reading)) {
    const read = readChoice(parts, search.conditions)
    const faults = ordered(plainMargins(read, planOf(read))).filter(({ verdict }) => verdict !== 'holds')
    const hopeless = faults.find(({ id }) => ofSensor.test(id))
    const fault = hopeless ?? faults[0]
    if (fault) rejected.push({ sensor, parts, ...wordsOf(fault) })
    if (hopeless) return undefined
    if (fault) continue
    const assessment = checkHall(parts, search.conditions, { simulation: false })
    if (assessment.verdict === 'holds') return { sensor, parts, assessment }
    const worst = assessment.margins.find(({ verdict }) => verdict !== 'holds')!
    rejected.push({ sensor, parts, ...wordsOf(worst) })
    // More samples or another filter mend noise and rounding alone.
    if (!/^(error|trip)/.test(worst.id)) return undefined
  }
  return undefined
}

function wordsOf({ id, name, verdict, slack, unit, reason }: Margin): { margin: string; reason: string } {
  const why = verdict === 'fails' ? `short by ${format(-slack, unit, { digits: 2 })}` : `not sure, ${reason}`
  return { margin: id, reason: `${name}: ${why}` }
}

/** No larger capacitor is put before a converter. */
const largest = 100e-6

/** Filters from the lowest corner that the reading allows upwards, each with 1, 4, 16 and 64 samples. */
function* candidates(search: Search, sensor: Sensor, reading: 'on-window' | 'averaged'): Generator<HallChoice> {
  const { base, edge } = search
  const probe = readChoice({ ...base, sensor, reading }, search.conditions)
  for (const samples of [1, 4, 16, 64]) {
    for (const [R, C] of filters(search, probe)) {
      yield {
        ...base,
        sensor,
        reading,
        filter: { resistance: `${R} ohm ±1 %`, capacitance: `${format(C, 'F', { ascii: true })} ±10 %` },
        timing: { edge, samples },
      }
    }
  }
}

function filters({ series, edge }: Search, probe: ReadChoice): [number, number][] {
  const { pwm, converter, reading, errors, current, sensor, filter } = probe
  const before = sourceAt(probe, 'upper') - filter.resistance.upper
  const { spreads, bits } = converter
  if (reading === 'averaged' && pwm) {
    // Half duty ripples most: 1/(8·f·tau) of the on-current, either way.
    const allowed = Math.min(...errors.map((one) => one.allowed))
    const tau = Math.max(Math.abs(current.to), Math.abs(current.from)) / (8 * pwm.frequency * allowed)
    return [2, 5, 12].flatMap((times) =>
      [1e3, 1e4].map((R): [number, number] => [R, Math.min(preferredAtLeast((tau * times) / R, series), largest)]),
    )
  }
  const t_on = pwm ? pwm.duty.from / pwm.frequency : 1e-2
  const spare = t_on - edge - spreads.t_acq.upper - spreads.t_conv.upper
  const tau_s = f.sensorTime({ BW_s: sensor.bandwidth.lower })
  // Resistor and capacitor may be 11.1 % high together.
  const tau = Math.max(spare / ((bits + 1) * Math.LN2) - tau_s, 1e-8) / 1.12
  const steps = [1, 0.3, 0.1, 0.03, 0.01]
  return [1e3, 330].flatMap((R) =>
    steps
      .map((part) => (tau * part) / (R + before))
      .filter((C) => C >= 1e-10)
      .map((C): [number, number] => [R, preferredAtMost(C, series)]),
  )
}
