import { type ChooseOptions, type Choosing, type Chosen, choose, type Rejected } from '@ohmward/budget'
import { InputError, missingFields, oneOf, readNumber } from '@ohmward/quantity'
import { type HallAssessment, hall } from './block.js'
import { type Candidates, candidatesOf, type HallCandidates, type HallRequirement } from './candidates.js'
import type { HallChoice, HallConditions } from './choice.js'
import { exampleSensors } from './parts/examples.js'

/** How it is chosen, and among what. */
export interface HallSizeOptions extends HallCandidates, Omit<ChooseOptions<HallChoice>, 'kind'> {}

/** What came out of sizing: the best of each sensor and kind of reading. */
export interface HallSizing extends Omit<Choosing<HallChoice, HallAssessment>, 'choices' | 'rejected'> {
  /** The largest least relative slack first, or the cheapest. */
  readonly choices: readonly (Chosen<HallChoice, HallAssessment> & { readonly sensor: string })[]
  readonly rejected: readonly (Rejected<HallChoice> & { readonly sensor: string })[]
  /** What was tried and what wasn't, in a sentence. */
  readonly text: string
}

const required = ['converter', 'current', 'errors'] as const
const allowed = [
  'converter',
  'current',
  'errors',
  'sensorSupply',
  'resolution',
  'peakCurrent',
  'reading',
  'pwm',
  'wait',
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
const optionWords = ['sensors', 'filters', 'samples', 'series', 'most', 'cost', 'checks', 'accept'] as const
const seriesNames = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const

/**
 * Finds sensor, filter and samples.
 *
 * Every sensor is tried with every filter and number of samples, in the on-window and averaged: those that the caller
 * brings, or else examples by class, filters of preferred values that the reading leaves room for, and 1, 4, 16 or 64
 * samples. Each is looked at with nominal parts; the rest is checked in full, the most promising first. Every choice
 * returned holds, every one rejected fails its check, and the rest is counted.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeHall(
  requirement: HallRequirement,
  conditions: HallConditions,
  options: HallSizeOptions = {},
): HallSizing {
  missingFields(requirement, required, 'requirement', allowed)
  missingFields(options, [], 'options', optionWords)
  const { most, cost, checks, accept } = options
  const count = (value: unknown, field: string, max: number) =>
    value === undefined ? undefined : readNumber(value, { field, unit: '1', integer: true, min: 1, max })
  count(most, 'options.most', 100)
  count(checks, 'options.checks', 100_000)
  const names = new Map<HallChoice, string>()
  const tried = candidatesOf(requirement, conditions, readCandidates(options), names)
  const found = choose(hall, tried, conditions, {
    ...(most !== undefined && { most }),
    ...(checks !== undefined && { checks }),
    ...(accept !== undefined && { accept }),
    ...(cost && { cost }),
    kind: (choice) => `${names.get(choice)} ${choice.reading}`,
  })
  const named = <T extends { readonly choice: HallChoice }>(one: T) => ({ ...one, sensor: names.get(one.choice)! })
  return {
    ...found,
    choices: found.choices.map(named),
    rejected: found.rejected.map(named),
    text: textOf(found, names.size),
  }
}

function textOf({ choices, rejected, beaten, untried }: Choosing<HallChoice, HallAssessment>, count: number): string {
  const left =
    untried > 0 ? `; ${untried} that hold with nominal parts were not checked in full` : '; none was left out'
  return `Of ${count} candidates ${choices.length} are given, ${beaten} are no better, ${rejected.length} fail${left}.`
}

/** The candidates that the caller brings, or the usual ones. */
function readCandidates({ sensors = exampleSensors, filters, samples, series = 'E6' }: HallCandidates): Candidates {
  if (typeof sensors !== 'object' || sensors === null || Object.keys(sensors).length === 0) {
    throw new InputError({ field: 'options.sensors', value: sensors, allowed: 'at least one sensor by its name' })
  }
  const list = <T>(value: readonly T[] | undefined, field: string) => {
    if (value === undefined || (Array.isArray(value) && value.length > 0)) return value
    throw new InputError({ field, value, allowed: 'a list with at least one entry' })
  }
  return {
    sensors,
    filters: /*#__PURE__*/ list(filters, 'options.filters'),
    samples: /*#__PURE__*/ list(samples, 'options.samples') ?? [1, 4, 16, 64],
    series: oneOf(series, seriesNames, 'options.series'),
  }
}
