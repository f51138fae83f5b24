import { type Verdict, verdictOf } from '@ohmward/budget'
import { missingFields, readNumber, type Spread } from '@ohmward/quantity'
import { chargeAt } from '@ohmward/supply'
import { edgesOf } from '../blocks/edges.js'
import type { Firmware } from '../blocks/firmware.js'
import { ringOf } from '../blocks/ring.js'
import { railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import type { KnownMargins } from '../kept/known-margins.js'
import { once } from '../kept/once.js'
import { hasHeldRails } from '../pulse/coming-back.js'
import { isZeroedEachTime, readAfter, restedFor, zeroAfter } from '../pulse/off-times.js'
import { sampledAfter } from '../pulse/pulse.js'
import { tasksOf } from '../pulse/tasks.js'
import { type Ends, type Place, type Span, spanOf } from '../supply/place.js'
import { type SolvedPlace, type SolvedSpan, solveOver } from '../supply/solve.js'
import { HeldSpan, type RowAt, type Work } from './held-span.js'
import { type Stage, stagesOf } from './stage.js'

/** A place of the walk: voltages and current there, and every row of every block. */
export interface PointAt extends SolvedPlace {
  readonly verdict: Verdict
  readonly rows: readonly RowAt[]
}

/** How finely a design is walked. */
export interface WalkOptions {
  /** Charges from full to the cut-off, 2 to 400; 40 by default. A port has one. */
  readonly charges?: number
}

/** A walk that was begun: its places, and how they are held. */
export interface Walk {
  readonly design: ReadDesign
  /** Charges from full to the cut-off. */
  readonly charges: readonly number[]
  /** Every temperature and age at which each charge is held. */
  readonly states: readonly Omit<Place, 'charge'>[]
  /** All temperatures and ages at once. */
  readonly around: Omit<Span, 'charge'>
  /** What the firmware takes for granted over the whole of it. */
  readonly firmware: Firmware
  readonly stages: readonly Stage[]
  /** Voltages and currents over a span. */
  readonly solve: (span: Span) => SolvedSpan
  /** A span whose rows are held when they are first asked for. */
  readonly over: (span: Span) => HeldSpan
  /** Lets go of what made a stage ready, at every span. */
  readonly forget: (stage: Stage) => void
  /** Whether some rows were not looked at everywhere: that took too much. */
  readonly isCut: () => boolean
  /** Every row at a place. */
  readonly hold: (place: Place) => PointAt
}

/** Makes the walk of a design ready: full to cut-off, cold to warm, new to old. @throws InputError for its options */
export const walkOf = (design: ReadDesign, options: WalkOptions = {}): Walk => begun(design, options, undefined)

/** Steps that the rows of one walk may take: some ten seconds'. Designs as they are built take 1 to 300 million. */
const stepsOfWalk = 4e8

/**
 * The same with an end to what it may cost; for one of several designs that differ little, what a block was asked before with the same is
 * known. @throws InputError for its options
 */
export const boundedWalk = (design: ReadDesign, options: WalkOptions, margins: KnownMargins | undefined): Walk =>
  begun(design, options, margins, { left: stepsOfWalk, first: new Map(), isCut: false })

function begun(design: ReadDesign, options: WalkOptions, margins: KnownMargins | undefined, work?: Work): Walk {
  missingFields(options, [], 'options', ['charges'])
  const { charges: wanted = 40 } = options
  const count = readNumber(wanted, { field: 'options.charges', unit: '1', integer: true, min: 2, max: 400 })
  const { source } = design.supply
  const isCell = source.kind === 'cell'
  const charges = isCell ? steps(1, design.parts.emptyCharge, count) : [1]
  const celsius = design.ambientCelsius
  const age = isCell ? design.age : { from: design.age.to, to: design.age.to }
  const states = middled(celsius).flatMap((one) =>
    distinct([age.from, age.to]).map((years) => ({ celsius: one, age: years })),
  )
  const solve = (span: Span) => solveOver(design, span)
  const everywhere = { charge: { from: charges[0]!, to: charges.at(-1)! }, celsius, age }
  const all = solve(everywhere)
  const usual = isCell ? Math.max(charges.at(-1)!, chargeAt(source, source.lowestVoltage).nominal) : 1
  const firmware = firmwareOf(design, solve({ charge: { from: 1, to: usual }, celsius, age }), all)
  const stages = stagesOf(design, firmware, margins)
  const known = new Map([[JSON.stringify(everywhere), new HeldSpan(all, stages, work)]])
  const over = (span: Span): HeldSpan => {
    const key = JSON.stringify(span)
    const held = known.get(key) ?? new HeldSpan(solve(span), stages, work)
    known.set(key, held)
    return held
  }
  return {
    design,
    charges,
    states,
    around: { celsius, age },
    firmware,
    stages,
    solve,
    over,
    forget: (stage) => {
      for (const span of known.values()) span.forget(stage)
    },
    isCut: () => work?.isCut === true,
    hold: (place) => {
      const held = over(spanOf(place))
      const rows = held.all()
      return { ...held.solved, place, rows, verdict: verdictOf(rows.map(({ margin }) => margin)) }
    },
  }
}

/**
 * What the firmware's constants assume of the rails of converter, excitation and sensor: what a regulator is for, and of a rail
 * without one the middle from full to the voltage at which the use of the cells ends. A zero may have been read anywhere that
 * they come to.
 */
function firmwareOf(design: ReadDesign, { rails }: SolvedSpan, everywhere: SolvedSpan): Firmware {
  const all = everywhere.rails
  const assumed = (name: string, state: 'measuring' | 'sag') => regulatedAt(design, name) ?? middle(rails[name]![state])
  const converter = railOf(design, 'converter')
  const sensor = railOf(design, 'sensor')
  const edges = () => edgesOf(design, everywhere)
  const edge = () => edges()?.off ?? Number.POSITIVE_INFINITY
  const sampled = once(() => sampledAfter(design, edges()?.on ?? Number.POSITIVE_INFINITY))
  const zero = once(() => (isZeroedEachTime(design) ? zeroAfter(design, edge()) : 0))
  return {
    measuring: assumed(converter, 'measuring'),
    rail: assumed(converter, 'sag'),
    excitation: assumed(design.parts.excitation.rail, 'measuring'),
    rests: all[converter]!.rest,
    sensor: assumed(sensor, 'sag'),
    sensorRests: all[sensor]!.rest,
    tasks: tasksOf(design),
    edges,
    sampledAfter: sampled,
    zeroAfter: zero,
    ring: ringOf(design, everywhere, { edges, sampledAfter: sampled }, () => ({
      resistance: { after: Math.max(0, readAfter(design) - edge()), lag: design.parts.excitation.lag },
      ...(isZeroedEachTime(design) && { zero: { after: zero(), lag: design.parts.sensorLag } }),
      ...(design.monitor?.reads === 'at rest' && { pause: { after: restedFor(design, edge()) ?? 0, lag: 0 } }),
      ...(hasHeldRails(design) && { top: { after: 0, lag: 0 } }),
    })),
  }
}

/** The output that the regulator of a rail is for, V; undefined for a rail without one. */
function regulatedAt(design: ReadDesign, name: string): number | undefined {
  const own = design.rails?.find((rail) => rail.name === name)
  if (own?.through.kind === 'regulator') return own.through.voltage.nominal
  return own?.through.kind === 'direct' ? regulatedAt(design, own.source) : undefined
}

const middle = ({ lower, upper }: Spread): number => (lower + upper) / 2

/** Both ends and what lies in the middle. */
const middled = ({ from, to }: Ends): number[] => distinct([from, (from + to) / 2, to])

const distinct = (values: readonly number[]): number[] => [...new Set(values)]

/** Evenly spaced from one end to the other, both included. */
const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))
