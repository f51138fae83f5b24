import {
  type Caution,
  designAid,
  lithiumIon,
  type Margin,
  tightestText,
  verdictOf,
  verdictWords,
} from '@ohmward/budget'
import { bareText, format, takenFor } from '@ohmward/quantity'
import { choiceRecord, type MosfetChoice, type ReadMosfet } from './choice.js'
import { reversedCurrent, reversedLoss } from './formulas/diodes.js'
import { longestTimeConstant } from './formulas/limits.js'
import { referenceCelsius } from './junction/law.js'
import type { JunctionReport } from './junction/report.js'
import { freewheelDrop } from './parts/freewheel.js'
import { copperTolerance, spreadingTime } from './parts/thermal.js'

/** What the cautions look at. */
export interface CautionContext {
  readonly read: ReadMosfet
  readonly worst: JunctionReport
  /** Edges of every period, at most, s. */
  readonly edges: readonly number[]
  /** The voltage at the drain; undefined where its rating isn't stated. */
  readonly drain: Margin | undefined
  /** Conduction and switching loss of a typical board at the worst of the conditions, W. */
  readonly P_cond: number
  readonly P_sw: number
  /** Time constant of its gate, s. */
  readonly tau_g: number
  /** Loss of the freewheeling diode at the smallest duty and the largest current, W. */
  readonly P_fw: number
  /** What happens when a burst doesn't end; absent without bursts. */
  readonly endless?: JunctionReport
}

/** What no calculation covers, or can hurt. */
export function cautionsOf({
  read,
  worst,
  edges,
  drain,
  P_cond,
  P_sw,
  tau_g,
  P_fw,
  endless,
}: CautionContext): Caution[] {
  const { transistor, openCircuit, wiring, bursts, junctionToAmbient, frequency } = read
  const cautions: Caution[] = [
    {
      id: 'fails-short',
      text: 'Transistors usually fail short, and the load stays on: fit a fuse, and a second switch where that can hurt.',
      catches: ['H11'],
      danger: true,
    },
    lithiumIon,
    designAid,
    {
      id: 'thermal-resistance',
      text: 'A data sheet’s thermal resistance is for its own copper, in still air, alone on its board. Your copper is smaller and shared.',
      catches: ['H06'],
    },
  ]
  const { junction } = worst
  if (junction.kind === 'runaway') {
    cautions.push({
      id: 'runaway',
      text: `At the worst case the junction runs away: ${junction.reason}.`,
      catches: ['H05'],
    })
  } else if (junction.loopGain > 0.5) {
    const text = `At the worst case a kelvin of heating makes ${format(junction.loopGain, '1', { digits: 2 })} kelvin more: above 0.5 the temperature is sensitive to every tolerance.`
    cautions.push({ id: 'loop-gain', text, catches: ['H05'] })
  }
  if (endless && endless.junction.kind === 'runaway') {
    cautions.push({
      id: 'endless-burst',
      text: `A burst that doesn’t end runs away: ${endless.junction.reason}.`,
      catches: ['H11'],
    })
  } else if (
    endless?.junction.kind === 'balance' &&
    endless.junction.T_j > transistor.fields.junctionMaximumCelsius.lower
  ) {
    const text = `A burst that doesn’t end brings the junction to ${format(endless.junction.T_j, 'degC', { digits: 3 })}, above its limit.`
    cautions.push({ id: 'endless-burst', text, catches: ['H11'] })
  }
  const last = bursts && transistor.transientImpedance!.at(-1)!
  if (last && last.kelvinPerWatt < 0.99 * junctionToAmbient.nominal) {
    const [ends, board] = [last.kelvinPerWatt, junctionToAmbient.nominal].map((value) =>
      format(value, 'K/W', { digits: 3 }),
    )
    const text = `The transient impedance ends at ${ends}, your board at ${board}: the whole curve is scaled up to it, too much for short bursts. Give a curve for your copper, up to where it settles.`
    cautions.push({ id: 'impedance-ends', text, catches: ['H06'] })
  }
  if (P_sw > P_cond) {
    const text = `Switching loss (${format(P_sw, 'W', { digits: 2 })}) exceeds conduction loss (${format(P_cond, 'W', { digits: 2 })}): a lower frequency or faster edges cool more than a better transistor.`
    cautions.push({ id: 'switching-loss', text, catches: ['H07'] })
  }
  if (frequency > 0 && tau_g > longestTimeConstant({ f: frequency })) {
    const [time, share] = [format(tau_g, 's', { digits: 2 }), format(tau_g * frequency, '1', { as: '%', digits: 2 })]
    cautions.push({
      id: 'gate-time-constant',
      text: `The gate’s time constant is ${time}, ${share} of the period: over a hundredth the edges take a good part of it. If they fit and the junction stays cool, that is acceptable.`,
      catches: ['H09'],
    })
  }
  if (transistor.channel === 'N' && wiring.sharedSource.upper > 0) {
    const text =
      'The source of an N-channel switch belongs at ground: a drop in between is lost to the gate. With the load there it is a source follower.'
    cautions.push({ id: 'source', text, catches: ['H13'] })
  }
  if (transistor.safePulses === undefined && edges.some((time) => time > 1e-5)) {
    const text =
      'Edges are slow and no safe operating area is given: during an edge the transistor is a heater. Below its zero-temperature-coefficient gate voltage a dense trench part concentrates the current in hot spots.'
    cautions.push({ id: 'slow-edge', text, catches: ['H10'] })
  }
  if (drain !== undefined && drain.verdict !== 'holds') {
    cautions.push({
      id: 'spike',
      text: 'The spike at turn-off comes too close to the drain’s rating. Shorten the loop, slow the edge, or clamp it at the board: a diode from the load’s switched terminal to its other rail, with a capacitor close by, leaves only the loop of capacitor, diode and switch as wiring.inductance. An avalanche rating is for faults: used in every period, it heats the junction too.',
      catches: ['H12'],
    })
  }
  cautions.push(...diodeCautions(read, P_fw))
  if (openCircuit.to > 60) {
    cautions.push({
      id: 'insulation',
      text: 'Above 60 V insulation is a matter for the product-safety standard and a qualified person.',
      danger: true,
    })
  }
  return cautions
}

/** What diodes do that no row holds: a reversed cell, and freewheeling without a rating. */
function diodeCautions(read: ReadMosfet, P_fw: number): Caution[] {
  const cautions: Caution[] = []
  const { load, transistor, openCircuit, sourceResistance, wiring, junctionToAmbient, freewheel } = read
  const { lower, upper } = transistor.fields.bodyDiodeDrop
  if (!read.hasPolarityProtection && load.kind === 'resistance' && openCircuit.to > lower) {
    const [R_s, R_sh] = [sourceResistance.lower, wiring.sharedSource.lower]
    const I_rev = reversedCurrent({ V_oc: openCircuit.to, V_SD: lower, R_s, R_L: load.value.lower, R_sh })
    const P_rev = reversedLoss({ V_SD: upper, I_rev })
    const [amperes, watts] = [format(I_rev, 'A', { digits: 2 }), format(P_rev, 'W', { digits: 2 })]
    const rise = format(P_rev * junctionToAmbient.upper, 'K', { digits: 2 })
    cautions.push({
      id: 'reversed-cell',
      text: `Reversed cells or a reversed plug drive up to ${amperes} through load and body diode, whatever the gate does: the load is on, and one transistor may dissipate up to ${watts}, for a rise of ${rise} if it lasts. Fit a keyed holder or plug, or a second transistor.`,
      catches: ['K13'],
      danger: true,
    })
  }
  if (read.edges === 'clamped inductive' && freewheel.ratedPower === undefined) {
    const text = `The freewheeling diode dissipates up to ${format(P_fw, 'W', { digits: 2 })}, and its rating isn’t given.`
    cautions.push({ id: 'freewheel', text })
  }
  return cautions
}

/** Assumptions, in sentences. */
export function assumptionsOf(read: ReadMosfet): string[] {
  const { transistor, load, edges, parallel, bursts, drive, supplied } = read
  const words = {
    linear: 'a straight line',
    power: 'a power of the absolute temperature',
    points: 'the data sheet’s curve',
  }
  return [
    'All values are magnitudes: a P-channel transistor is on when its gate is below its source.',
    transistor.between === 'step'
      ? 'Between two guaranteed lines of the on-resistance that of the lower gate voltage holds, typical and largest.'
      : 'Between two guaranteed lines the on-resistance is a straight line, as you chose: no data sheet guarantees it.',
    ...(transistor.onResistance.length > 1 && transistor.between === 'step'
      ? ['At a step from line to line every tolerance is taken on the worse line: a little hotter than any one board.']
      : []),
    `The on-resistance rises with temperature along ${words[transistor.law.kind]}, without a spread of its own.`,
    'The rail sags as far as an ideal switch would pull it: a data sheet states no smallest on-resistance.',
    ...(supplied?.supply.source.kind === 'port'
      ? ['The port delivers whatever the switch draws: its current limit is not followed here.']
      : []),
    load.kind === 'resistance'
      ? 'The load is a resistance; the current is solved with the hot transistor in series.'
      : 'The load draws a constant current.',
    'Distances to runaway take the current as held; a resistive load throttles itself a little.',
    ...(parallel > 1
      ? [
          `The ${parallel} devices share loss equally, each with its own thermal resistance. Drain current and junction are held against unlike lots as well, of which one carries more and bears the edges alone, as for the safe operating area.`,
        ]
      : []),
    ...(bursts
      ? ['R_thJA is the effective impedance at the end of the last burst, the loss taken as that of its end all along.']
      : ['The duty lasts until the temperature settles.']),
    ...(drive.hasResetPull || drive.pull === 'none' ? [] : ['During reset the pin floats on its leakage.']),
    'Edges are straight: where the wiring’s spike is large, the peak power at turn-off comes out up to several times too high.',
    'Gate charge and plateau are those of the data sheet’s test, mostly typical: their spread is what you give them.',
    ...(edges === 'clamped inductive' ? ['The freewheeling diode has no recovery charge.'] : []),
    'Limits without a stated distribution are rectangular (JCGM 100:2008, 4.3.7).',
    ...takenIn(read),
  ]
}

/** What wasn’t given, each with the value taken by default. */
function takenIn({ given, copperArea, edges, transistor: { law } }: ReadMosfet): string[] {
  const { thermal, transistor, freewheel } = given as MosfetChoice
  const isOwn = law.kind !== 'points' && !('referenceCelsius' in (transistor.temperatureLaw as object))
  return [
    ...bareText(choiceRecord, given),
    ...takenFor(choiceRecord, given).map(({ text }) => `By default: ${text}.`),
    ...(isOwn
      ? [
          `By default: transistor.temperatureLaw.referenceCelsius = ${format(referenceCelsius, 'degC')} (where its factor is 1).`,
        ]
      : []),
    ...(transistor.transientImpedance === undefined && thermal.spreadingTime === undefined
      ? [
          `By default: thermal.spreadingTime = ${format(spreadingTime, 's')} (in which the junction would reach its final temperature, rising with the square root of time; common practice, no source), as no transient impedance is given.`,
        ]
      : []),
    ...(edges === 'clamped inductive' && freewheel === undefined
      ? [`By default: freewheel.drop = ${freewheelDrop} (forward voltage of the freewheeling diode).`]
      : []),
    ...(copperArea !== undefined && thermal.tolerance === undefined
      ? [`By default: thermal.tolerance = ±${format(copperTolerance, '1', { as: '%' })} (of what the copper gives).`]
      : []),
  ]
}

/** The answer in a sentence or two. */
export function summaryOf(margins: readonly Margin[], typical: JunctionReport, worst: JunctionReport): string {
  const first = margins[0]!
  const least = first.id === 'junction' ? junctionText(first, worst) : tightestText(first)
  const celsius = ({ junction }: JunctionReport, towards?: 'up') =>
    junction.kind === 'balance'
      ? format(junction.T_j, 'degC', { digits: 3, ...(towards && { towards }) })
      : 'in runaway'
  return `${verdictWords[verdictOf(margins)]}: ${least}. Junction ${celsius(typical)} for a typical board, at worst ${celsius(worst, 'up')}.`
}

/** The junction as it settles, not as the loss at its limit would heat it: both have the same sign. */
function junctionText(margin: Margin, { junction }: JunctionReport): string {
  if (junction.kind === 'runaway') return 'the junction runs away'
  const slack = margin.limit - junction.T_j
  return tightestText({ ...margin, name: 'junction as it settles', slack })
}
