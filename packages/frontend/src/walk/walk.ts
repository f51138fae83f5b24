import { type Verdict, verdictOf } from '@ohmward/budget'
import { between } from '@ohmward/quantity'
import { chargeAt } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'
import type { Firmware } from './choices.js'
import { holdAt, type RowAt } from './hold.js'
import type { Place } from './place.js'
import { type SolvedPlace, solveAt } from './solve.js'

/** A place of the walk: voltages and current there, and every row of every block. */
export interface PointAt extends SolvedPlace {
  readonly verdict: Verdict
  readonly rows: readonly RowAt[]
}

/** How finely a design is walked. */
export interface WalkOptions {
  /** Charges from full to the cut-off, at least 2; 9 unless told. A port has one. */
  readonly charges?: number
}

/** A walk that was begun: its places, and how one is held. */
export interface Walk {
  /** Charges from full to the cut-off. */
  readonly charges: readonly number[]
  /** Every temperature and age at which each charge is held. */
  readonly states: readonly Omit<Place, 'charge'>[]
  /** What the firmware takes for granted over the whole of it. */
  readonly firmware: Firmware
  readonly hold: (place: Place) => PointAt
}

/** Makes the walk of a design ready: full to cut-off, cold to warm, new to old. */
export function walkOf(design: ReadDesign, { charges: count = 9 }: WalkOptions = {}): Walk {
  const { source } = design.supply
  const end = source.kind === 'cell' ? chargeAt(source, source.lowestVoltage).nominal : 1
  const charges = source.kind === 'cell' ? steps(1, end, count) : [1]
  const celsius =
    source.kind === 'cell' || design.ambientCelsius.from < design.ambientCelsius.to
      ? celsiusOf(design)
      : [design.ambientCelsius.from]
  const ages = source.kind === 'cell' ? distinct([design.age.from, design.age.to]) : [design.age.to]
  const states = celsius.flatMap((one) => ages.map((age) => ({ celsius: one, age })))
  const corners = [charges[0]!, charges.at(-1)!].flatMap((charge) =>
    states.map((state) => solveAt(design, { ...state, charge })),
  )
  const firmware = firmwareOf(corners)
  return {
    charges,
    states,
    firmware,
    hold: (place) => {
      const solved = solveAt(design, place)
      const rows = holdAt(design, solved, firmware)
      return { ...solved, rows, verdict: verdictOf(rows.map(({ margin }) => margin)) }
    },
  }
}

/** What the firmware's constants assume: the middle of the rails from full to empty. */
function firmwareOf(corners: readonly SolvedPlace[]): Firmware {
  const over = (key: 'rest' | 'rail') =>
    between(Math.min(...corners.map((one) => one[key].lower)), Math.max(...corners.map((one) => one[key].upper)))
  const rests = over('rest')
  return { rest: rests.nominal, rail: over('rail').nominal, rests }
}

/** Both ends and what lies in the middle. */
const celsiusOf = ({ ambientCelsius: { from, to } }: ReadDesign) => distinct([from, (from + to) / 2, to])

const distinct = (values: readonly number[]): number[] => [...new Set(values)]

/** Evenly spaced from one end to the other, both included. */
const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
