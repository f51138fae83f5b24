import { format, preferredAtLeast, preferredAtMost, type Series } from '@ohmward/quantity'
import { hall } from './block.js'
import { sourceAt } from './chain/source.js'
import type { HallChoice, HallConditions } from './choice.js'
import * as f from './formulas/index.js'
import type { Sensor } from './parts/sensor.js'
import { leastAveraging } from './period/averaging.js'
import { type ReadChoice, readChoice } from './read-choice.js'

type Filter = NonNullable<HallChoice['filter']>

/** What a measurement must do; sensor, filter and samples are looked for, and the kind of reading unless it is given. */
export interface HallRequirement extends Omit<HallChoice, 'sensor' | 'filter' | 'timing'> {
  /** Edge and interval; the samples are looked for. */
  readonly timing?: Omit<NonNullable<HallChoice['timing']>, 'samples'>
}

/** What may be chosen among. */
export interface HallCandidates {
  /** Sensors by name; the examples by class by default. */
  readonly sensors?: Readonly<Record<string, Sensor>>
  /** Filters; preferred values that the reading leaves room for by default. */
  readonly filters?: readonly Filter[]
  /** Numbers of samples averaged; 1, 4, 16 and 64 by default. */
  readonly samples?: readonly number[]
  /** Series of the capacitors (IEC 60063) where no filters are given; E6 by default. */
  readonly series?: Series
}

/** The same, what isn't given filled in. */
export interface Candidates {
  readonly sensors: Readonly<Record<string, Sensor>>
  readonly filters: readonly Filter[] | undefined
  readonly samples: readonly number[]
  readonly series: Series
}

/**
 * Every combination to try; the sensor's name of each is left in `names`. A sensor that no filter and no averaging can
 * help is tried once for each kind of reading.
 */
export function* candidatesOf(
  requirement: HallRequirement,
  conditions: HallConditions,
  { sensors, filters, samples, series }: Candidates,
  names: Map<HallChoice, string>,
): Generator<HallChoice> {
  const { reading, pwm, timing } = requirement
  const readings = reading ? [reading] : pwm ? (['on-window', 'averaged'] as const) : (['on-window'] as const)
  for (const [name, sensor] of Object.entries(sensors)) {
    for (const kind of readings) {
      const base = { ...requirement, sensor, reading: kind }
      const read = readChoice(base, conditions)
      const tried = filters ?? usualFilters(read, series)
      const combined = samples.flatMap((count) =>
        tried.map((filter): HallChoice => ({ ...base, filter, timing: { ...timing, samples: count } })),
      )
      for (const choice of isHopeless(base, conditions) ? combined.slice(0, 1) : combined) {
        names.set(choice, name)
        yield choice
      }
    }
  }
}

/** Rows that no filter and no averaging mend. */
const ofSensor = /*#__PURE__*/ new Set(['supply-low', 'supply-high', 'rated-current', 'conductor', 'range', 'quotient'])

function isHopeless(choice: HallChoice, conditions: HallConditions): boolean {
  const { rows } = hall.setup(hall.read(choice, conditions))
  return rows.some(
    (row) =>
      row.kind === 'plain' &&
      ofSensor.has(row.id) &&
      (row.sense === 'at least' ? row.worst < row.limit : row.worst > row.limit),
  )
}

const filterOf = (R: number, C: number): Filter => ({
  resistance: `${R} ohm ±1 %`,
  capacitance: `${format(C, 'F', { ascii: true })} ±10 %`,
})

/** No larger capacitor is put before a converter. */
const largest = 100e-6
/** No smaller one is told from the pin's own. */
const smallest = 1e-10

/**
 * Filters of preferred values: in the on-window from the slowest that settles in time downwards, averaged from the
 * fastest whose ripple is small enough upwards. Small resistors with large capacitors are among them: what the
 * converter's sampling takes away, they give back in time.
 */
function usualFilters(read: ReadChoice, series: Series): Filter[] {
  const averaged = read.reading === 'averaged'
  const tau = averaged ? leastAveraging(read) : mostSettling(read)
  const before = averaged ? 0 : sourceAt(read, 'upper') - read.filter.resistance.upper
  const parts = averaged ? [1, 2, 5, 12] : [1, 0.3, 0.1, 0.03, 0.01]
  const wanted = [100, 330, 1e3, 3.3e3, 1e4].flatMap((R) =>
    parts.map((part) => [R, (part * tau) / (R + before)] as const),
  )
  const preferred = averaged ? preferredAtLeast : preferredAtMost
  const found = wanted
    .filter(([, C]) => averaged || C >= smallest)
    .map(([R, C]) => [R, preferred(Math.min(Math.max(C, smallest), largest), series)] as const)
  // Where nothing settles in time, the fastest shows by how much.
  return (found.length > 0 ? found : [[100, smallest] as const]).map(([R, C]) => filterOf(R, C))
}

/** Time constant that settles within the shortest on-time; resistor and capacitor may be 11.1 % high together. */
function mostSettling({ pwm, converter, sensor, timing }: ReadChoice): number {
  const { spreads, bits } = converter
  const t_on = pwm ? pwm.duty.from / pwm.frequency : 1e-2
  const spare = t_on - timing.edge.upper - spreads.t_acq.upper - spreads.t_conv.upper
  const tau_s = f.sensorTime({ BW_s: sensor.bandwidth.lower })
  return Math.max(spare / ((bits + 1) * Math.LN2) - tau_s, 0) / 1.12
}
