import type { DecouplingChoice, DecouplingConditions } from '@ohmward/decoupling'
import type { DividerChoice, DividerConditions } from '@ohmward/divider'
import type { HallChoice, HallConditions } from '@ohmward/hall'
import { between, exact, type Spread } from '@ohmward/quantity'
import { mainRail, type Part, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { behindAfter, holdsUp, leastLag, mostLag, railsInPause } from '../pulse/coming-back.js'
import { conductingOver, type Edges, isPulsed, leastLeft } from '../pulse/conducting.js'
import { isZeroedEachTime, readAfter } from '../pulse/off-times.js'
import { type Rings, rung } from '../pulse/rung.js'
import { lagAsSampled, lagAtZero, lagErrors, sensorRail } from '../pulse/sensor-lag.js'
import type { Tasks } from '../pulse/tasks.js'
import { inSeries } from '../supply/path.js'
import type { Ends } from '../supply/place.js'
import { drawOf, type LoadedRails, type RailState, railsOver } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { ambient, type BlockAt } from './block-at.js'
import { untilOff, untilOn } from './edges.js'
import { insertionOf, limitsOf, logicOf } from './rail-limits.js'

/** What the firmware takes for granted, whatever the place. */
export interface Firmware {
  /** Rail while the resistance is read, load off, and with the load on, V. */
  readonly measuring: number
  readonly rail: number
  /** What drives the test current, load off, V: the rail of the converter, or the main one where the load hangs on that. */
  readonly excitation: number
  /** Rails at rest over the whole walk, V: in one of them a zero was read. */
  readonly rests: Spread
  /** The same of the current sensor: its supply with the load on, and at rest over the whole walk, V. */
  readonly sensor: number
  readonly sensorRests: Spread
  /** What the converter does beside the current in a PWM period. */
  readonly tasks: Tasks
  /** What the switch takes to be on and off, at most, wherever it is; undefined where its block refuses the supply somewhere. */
  readonly edges: () => Edges | undefined
  /** From when the load's current has risen until it is sampled, at least, s: at once without a wait. */
  readonly sampledAfter: () => number
  /** From the load's edge until a zero of the current is read in a pause, at least, s. */
  readonly zeroAfter: () => number
  /** What a ring adds to the main rail as it is read, by the resistance of the source. */
  readonly ring: (resistance: Spread) => Rings
}

/**
 * The measurement of the resistance: the load is off. Its rail is that of the converter; an amplifier on another one has a
 * supply of its own.
 */
export function dividerAt(design: ReadDesign, solved: SolvedSpan, firmware: Firmware): DividerAt {
  const timing = untilOff(design, solved, firmware.edges)
  const { rails, lags } = asRead(design, solved, firmware, timing.edge)
  const converter = railOf(design, 'converter')
  const apart = apartFrom(design, 'amplifier', rails)
  const driving = design.parts.excitation.rail
  const choice = {
    ...design.divider,
    timing,
    ...(apart && !('amplifierSupply' in design.divider) && { amplifierSupply: apart }),
    // A load at the rail hangs on the main one, whatever the converter lives on; the firmware takes one value for all of it.
    ...(driving !== converter && { excitation: about(rails[driving]!, firmware.excitation) }),
    ...(lags > leastLag && {
      further: [
        ...(design.divider.further ?? []),
        { name: 'amplifier behind a moving rail', share: Math.min(lags, mostLag) },
      ],
    }),
  }
  const conditions = { rail: ends(rails[converter]!), nominalRail: firmware.measuring, ...ambient(solved.span) }
  return { choice, conditions, at: {} }
}

/** The measurement of the current: the load is on. Its rail is that of the converter; a sensor on another one has its own. */
export function hallAt(design: ReadDesign, solved: SolvedSpan, firmware: Firmware): HallAt {
  const { hall } = design
  const { span } = solved
  const rails = rungRails(design, solved, firmware)
  const converter = railOf(design, 'converter')
  const { rest, sag } = rails[converter]!
  const { rails: zeros, lag: zero } = atZero(design, solved, firmware)
  const after = firmware.sampledAfter()
  const ring = () => firmware.ring(solved.source.resistance).current
  const current = isPulsed(design) ? lagAsSampled(design, solved, after, ring()) : 0
  /** A rail that capacitors still hold up when it is asked for. */
  const held = ({ rest, sag }: Pick<RailState, 'rest' | 'sag'>, part: Part): Spread => {
    const early = rest.upper <= sag.upper ? 0 : holdsUp(design, solved, railOf(design, part), after)
    return early === 0 ? sag : between(sag.lower, sag.upper + early * (rest.upper - sag.upper), sag.nominal)
  }
  const apart = hall.sensorSupply === undefined ? apartFrom(design, 'sensor', rails) : undefined
  return {
    choice: {
      otherTasks: firmware.tasks,
      ...hall,
      timing: untilOn(design, solved, firmware.edges),
      pwm: pulsesRead(design, firmware),
      // The firmware takes one value for it over the whole discharge, and for the zero it stands higher than under load.
      ...(apart && { sensorSupply: about(held(apart, 'sensor'), firmware.sensor) }),
      ...lagErrors(design, { current, zero }),
      ...zeroOf(
        hall.calibration,
        { rail: zeros[converter]!, ...(apart && { supply: zeros[railOf(design, 'sensor')]! }) },
        { rail: firmware.rests, ...(apart && { supply: firmware.sensorRests }) },
      ),
    },
    conditions: { rail: ends(held({ rest, sag }, 'converter')), nominalRail: firmware.rail, ...ambient(span) },
    at: {},
  }
}

/** The rails as the current is sampled: the main one may still ring, and those behind it with it. */
function rungRails(design: ReadDesign, { rails, source, span }: SolvedSpan, { ring }: Firmware): LoadedRails {
  const { rest, sag } = rails[mainRail]!
  const swung = rung(sag, rest, ring(source.resistance).current)
  return swung === sag ? rails : railsOver(design, { rest, sag: swung }, span.celsius)
}

/** The rail of a part that doesn't live with the converter. */
function apartFrom<R>(design: ReadDesign, part: Part, rails: Readonly<Record<string, R>>): R | undefined {
  const name = railOf(design, part)
  return name === railOf(design, 'converter') ? undefined : rails[name]
}

/** What a zero was read at: the rail, and the supply of a sensor that lives on another one. */
interface AtZero {
  readonly rail: Spread
  readonly supply?: Spread
}

/** Where the rail of the zero reading isn't told: the board at rest, here just before each use, anywhere at power-up. */
function zeroOf(given: HallChoice['calibration'], here: AtZero, anywhere: AtZero): Pick<HallChoice, 'calibration'> {
  if (given === undefined || given === 'none') return {}
  const calibration = typeof given === 'string' ? ({ kind: given } as const) : given
  // What is no calibration at all, the block refuses.
  if (typeof calibration !== 'object' || calibration === null) return { calibration }
  if (calibration.kind === 'none') return {}
  const told = Object.fromEntries(Object.entries(calibration).filter(([, value]) => value !== undefined))
  return { calibration: { ...(calibration.kind === 'zero' ? anywhere : here), ...told } as HallChoice['calibration'] }
}

/** Time in which a switch may take the current from a load, s: beside what rings it goes at once. Common practice, no source. */
const quickest = 1e-7

/** In what time the current of the load goes, s: none at all where it comes so, and with inductance everywhere none can. */
export const goesIn = ({ load }: Pick<ReadDesign, 'load'>): number => Math.min(load.rise, quickest)

/** The last step below a duty of 1 that is followed: that of a timer of ten bits. Common practice, no source. */
const lastDuty = 1023 / 1024

/**
 * The pulses to cover, as the switch makes them: a duty of 1 ripples no more, one just below it is off for twice as long as its edge takes
 * at least, and none is shorter than the current takes to rise. Of a gate that may not get there the shortest is as short as any.
 */
function pulsesOf(design: ReadDesign, edges: Edges | undefined): DecouplingChoice['load']['pwm'] {
  const { frequency, duty } = design.pwm
  const edge = design.load.rise * frequency
  const { from: sure, to } = conductingOver(design, edges)
  const from = edges?.isStuck ? Math.min(sure, leastLeft * duty.from) : sure
  const last = Math.max(duty.from, Math.min(lastDuty, 1 - 2 * edge))
  return {
    frequency,
    duty: {
      from: Math.max(from, Math.min(duty.from, edge)),
      to: duty.to < 1 ? Math.max(duty.to, Math.min(to, last)) : last,
    },
  }
}

/** The pulses of which a mean is read, as the switch makes them; those that are sampled have the edges in their timing. */
function pulsesRead(design: ReadDesign, { edges }: Firmware): NonNullable<HallChoice['pwm']> {
  const { pwm, hall } = design
  if (hall.reading !== 'averaged' || !isPulsed(design)) return pwm
  const { from, to } = conductingOver(design, edges())
  return { ...pwm, duty: { from: Math.max(from, Math.min(pwm.duty.from, leastRead)), to } }
}

/** The least duty of which a mean is read. */
const leastRead = 1e-6

/**
 * The rail with its capacitors while the load is switched on, or in steady PWM at every duty that is to be covered.
 *
 * @param edges - delay and edge of the switch, at most, s: its pulses are longer and shorter by those than told
 */
export function decouplingAt(
  design: ReadDesign,
  solved: SolvedSpan,
  state: 'load on' | 'PWM' = 'load on',
  edges?: Edges,
): DecouplingAt {
  const { span, load, switch: on } = solved
  const { load: own, lifeYears, decoupling, board } = design
  const { supply } = design.parts
  return {
    choice: {
      ...decoupling,
      source: supply,
      ...(board !== undefined && { tap: board }),
      load: {
        resistance: inSeries(load, on),
        rise: own.rise,
        // What rings as it goes is held with it wholly on before.
        ...(state === 'load on' && { fall: goesIn(design) }),
        ...(state === 'PWM' && { pwm: pulsesOf(design, edges) }),
      },
      idle: drawOf(design, mainRail),
      limits: limitsOf(design),
      ...logicOf(design),
      ...insertionOf(design),
    },
    conditions: {
      ...(supply.source.kind === 'cell' && { charge: upward(span.charge) }),
      ageYears: { from: 0, to: lifeYears },
      ...ambient(span),
    },
    at: span.age.from === span.age.to ? { ageYears: span.age.to * lifeYears } : {},
  }
}

/** Every rail while the resistance is read, the switch off after its edge, V. */
export const railsAsRead = (design: ReadDesign, solved: SolvedSpan, firmware: Firmware, edge: number) =>
  asRead(design, solved, firmware, edge).rails

/** The same, and how far the amplifier shows the rail that drives the test current from where it is, a share of it at most. */
function asRead(design: ReadDesign, solved: SolvedSpan, { ring }: Firmware, edge: number) {
  const { top, resistance } = ring(solved.source.resistance)
  const since = Math.max(0, readAfter(design) - edge)
  const { rails, returns } = railsInPause(design, solved, { since, ring: resistance, top, state: 'measuring' })
  const { rail: name, voltage, lag } = design.parts.excitation
  // A supply of its own stands.
  if (voltage !== undefined) return { rails, lags: 0 }
  const back = returns.get(name)!
  const { rest, sag } = solved.rails[name]!
  const isStraight = back.steps > 1 || solved.source.currentLimit !== undefined
  const late = behindAfter(since, back, lag, isStraight)
  const fall = late === 0 ? 0 : late * Math.max(0, rest.lower - sag.lower)
  return { rails, lags: (fall + resistance.behind * rest.upper) / rails[name]!.lower }
}

/** The same of a zero of the current, and how far the sensor is shown behind its supply then; at rest where it isn't read in each pause. */
function atZero(
  design: ReadDesign,
  solved: SolvedSpan,
  { ring, zeroAfter }: Firmware,
): { readonly rails: Readonly<Record<string, Spread>>; readonly lag: number } {
  const { rails, source } = solved
  if (!isZeroedEachTime(design) || !isPulsed(design))
    return { rails: Object.fromEntries(Object.entries(rails).map(([name, { rest }]) => [name, rest])), lag: 0 }
  const { top, zero } = ring(source.resistance)
  const since = zeroAfter()
  const found = railsInPause(design, solved, { since, ring: zero, top, state: 'rest' })
  const back = found.returns.get(sensorRail(design))!
  return { rails: found.rails, lag: lagAtZero(design, solved, { since, back, ring: zero }) }
}

type DividerAt = BlockAt<DividerChoice, DividerConditions>
type HallAt = BlockAt<HallChoice, HallConditions>
type DecouplingAt = BlockAt<DecouplingChoice, DecouplingConditions>

/** A voltage with what the firmware takes it for as its nominal, wherever that lies. */
export const about = ({ lower, upper }: Spread, assumed: number): Spread =>
  lower === assumed && upper === assumed
    ? exact(assumed)
    : between(Math.min(lower, assumed), Math.max(upper, assumed), assumed)

const upward = ({ from, to }: Ends): Ends => ({ from: Math.min(from, to), to: Math.max(from, to) })

const ends = ({ lower, upper }: Spread) => ({ from: lower, to: upper })
