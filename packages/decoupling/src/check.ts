import {
  type Assessment,
  type Budget,
  budgetOf,
  type DecisionRule,
  type Margin,
  ordered,
  readRule,
  type SimulateOptions,
  tightestText,
  verdictOf,
} from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { type Board, boardAt, boardWith } from './chain/board.js'
import { capacitanceFor } from './changes/capacitor.js'
import { type Remedy, remediesFor } from './changes/remedies.js'
import { remedyTexts } from './changes/texts.js'
import { railMarginIds } from './changes/trial.js'
import type { DecouplingChoice, DecouplingConditions, ReadDecoupling } from './choice/choice.js'
import { nominalOf } from './choice/inputs.js'
import { readDecoupling } from './choice/read.js'
import { derivationOf, insertionOf } from './derivation/derivation.js'
import { meanCurrentOfCurrent, rippleOfOne } from './formulas/index.js'
import type { Findings } from './rail/findings.js'
import { heatingOf } from './rail/life.js'
import { pictureOf, type RailPicture } from './rail/picture.js'
import { type RailAnswer, railOf } from './rail/rail.js'
import { dutyOf, hasRest, restOf, steadyCurrent, steadyRail } from './rail/steady.js'
import { type RailLimit, railLimits, railMargins, steadyDrop, steadyLimits } from './rows/limits.js'
import { rippleMargins } from './rows/ripple.js'
import { startMargin } from './rows/start.js'
import { lowestStation } from './search/inside.js'
import { model, planOf } from './search/plan.js'
import { assumptionsOf, cautionsOf } from './texts/cautions.js'
import { pwmCurrents } from './waveform/index.js'

/** How a check is made. */
export interface DecouplingOptions extends DecisionRule {
  /** `false` leaves the simulation out, for speed; or how to simulate. */
  readonly simulation?: false | Omit<SimulateOptions<string>, 'row' | 'correlations' | 'groups' | 'level'>
}

/** Budgets of a decoupling check. */
export interface DecouplingBudgets extends Readonly<Record<string, Budget>> {
  /** The lowest rail voltage at the worst conditions. */
  readonly V_min: Budget
}

/** What a rail check answers beside its margins. */
export interface DecouplingAssessment extends Assessment<DecouplingBudgets> {
  /** The steady sag of the worst board, which no capacitor changes. */
  readonly steady: {
    readonly voltage: number
    /** Mean current of the load while it is on, or over a period of PWM. */
    readonly current: number
    readonly sourceResistance: number
    readonly limit: number
    readonly limitName: string
    /** Whether the sag alone breaks the limit. */
    readonly breaks: boolean
    /** Voltage at rest of the place that the limit is on, with only what is drawn all the time. */
    readonly rest: number
    readonly idle: number
    /** Whether no capacitor can help: the sag breaks the limit and the load stays on, or the source at rest is below it. */
    readonly isImpossible: boolean
    /**
     * Capacitance on the rail, everything lost that is lost, that the burst needs on the worst board with the series resistance that
     * stands there; 0 where none, `null` where none is enough: then that resistance is too large, or the sag stays.
     */
    readonly capacitance: number | null
  }
  /** Ways out, sized on the worst board; empty where everything holds. */
  readonly remedies: readonly Remedy[]
  /** Values of the inputs on the worst board, by symbol. */
  readonly worst: Readonly<Record<string, number>>
  /** Nominal lowest point at the worst conditions. */
  readonly lowest: { readonly time: number | null; readonly value: number; readonly kind: string }
  /** The limits at their largest, the highest first. */
  readonly limits: readonly RailLimit[]
  readonly picture: RailPicture
  /** Steady PWM with nominal parts at the worst conditions; `null` without PWM or without a steady state. */
  readonly pwm: PwmSummary | null
}

/** Steady PWM in numbers. */
export interface PwmSummary {
  readonly ripple: number
  readonly mean: number
  readonly sourceRms: number
  readonly loadPower: number
  /** Of one part of each kind: ripple current, self-heating. */
  readonly capacitors: readonly { readonly name: string; readonly rms: number; readonly heating: number }[]
}

/**
 * Holds a rail against its limits while a load is switched on it, over the discharge, the temperature and the age.
 *
 * @param choice - source, capacitors, load, limits
 * @param conditions - open-circuit voltage, temperature, age to cover
 * @returns verdict, margins (least relative slack first), the budget of the lowest rail, derivation, cautions; the steady sag
 *   that no capacitor changes, and the remedies with their sizes
 * @throws InputError naming the first field that isn't allowed; nothing is computed then
 */
export function checkDecoupling(
  choice: DecouplingChoice,
  conditions: DecouplingConditions,
  { simulation = {}, accept }: DecouplingOptions = {},
): DecouplingAssessment {
  const rule = readRule(accept)
  const read = readDecoupling(choice, conditions)
  const plan = planOf(read)
  const { inputs, row } = plan
  const lowest = (findings: Findings) => findings.lowest
  const station = lowestStation(plan, lowest)
  const worst = { ...station.at, ...station.extremes.atLower }
  const worstBoard = boardAt(read, inputs, worst)
  const worstRail = railOf(read, worstBoard)
  const steady = steadyOf(read, worstBoard)
  const found = [...railMargins(plan, rule), ...rippleMargins(plan, rule), ...startMargin(plan, worst)]
  const margins = ordered(steady.isImpossible ? found.map(withoutCapacitance) : found)
  const V_min = budgetOf({
    symbol: 'V_min',
    quantity: 'lowest rail voltage',
    unit: 'V',
    inputs: station.inputs,
    model: model(lowest),
    row,
    extremes: station.extremes,
    simulation: simulation === false ? false : { trials: 4096, ...simulation },
  })
  const made = boardWith(read, inputs, station.at)
  const { board } = made
  const bestBoard = boardAt(read, inputs, { ...station.at, ...station.extremes.atUpper })
  const rail = railOf(read, board)
  const point = rail.pwm ? rail.pwm.lowest : rail.step.lowest
  const given = Object.fromEntries(
    Object.entries(inputs).map(([name, input]) => [name, station.at[name] ?? nominalOf(input)]),
  )
  const { values, derivation } = derivationOf(read, made, given, point, rail)
  const { openCircuit, ambient, age } = read
  const inserted = insertionOf(
    read,
    boardWith(read, inputs, { V_oc: openCircuit.to, T_a: ambient.to, Y_age: age.from }),
  )
  const verdict = verdictOf(margins)
  return {
    block: 'decoupling',
    verdict,
    summary: summaryOf(read, margins, steady, V_min),
    values: { ...values, ...inserted.values, V_min: rail.lowest, V_logic: rail.logic },
    derivation: [...derivation, ...inserted.derivation],
    budgets: { V_min },
    margins,
    cautions: cautionsOf(read),
    assumptions: assumptionsOf(read),
    steady,
    remedies: verdict === 'holds' ? [] : remediesFor(read, inputs, margins),
    worst,
    lowest: point,
    limits: railLimits(read),
    picture: pictureOf([rail, worstRail, railOf(read, bestBoard)]),
    pwm: pwmSummary(read, board, rail),
  }
}

function pwmSummary(read: ReadDecoupling, board: Board, { circuit, pwm }: RailAnswer): PwmSummary | null {
  if (!pwm) return null
  const { mean, sourceRms, loadPower, capacitorRms } = pwmCurrents(circuit, pwm)
  const capacitors = read.capacitors.map((part, k) => {
    const rms = rippleOfOne({ I_kind: capacitorRms[k]!, n_C: part.count })
    const { thermalResistance } = part.fields
    return { name: part.name, rms, heating: heatingOf(part, board, k, { R_thC: thermalResistance.nominal, I_C: rms }) }
  })
  return { ripple: pwm.ripple, mean, sourceRms, loadPower, capacitors }
}

function steadyOf(read: ReadDecoupling, board: Board): DecouplingAssessment['steady'] {
  const limits = railLimits(read)
  const room = (limit: RailLimit): number => steadyRail(read, board) - steadyDrop(read, limit)(board) - limit.volts
  const [endless] = steadyLimits(read).sort((a, b) => room(a) - room(b))
  const restRoom = (one: RailLimit): number => restOf(board) - steadyDrop(read, one)(board) - one.volts
  const dead = limits.filter((one) => restRoom(one) <= 0).sort((a, b) => restRoom(a) - restRoom(b))[0]
  const limit = dead ?? endless ?? limits.find(({ place }) => place === 'rail') ?? limits[0]!
  const { name, volts, place } = limit
  const drop = steadyDrop(read, limit)(board)
  const voltage = steadyRail(read, board) - drop
  const isHeld = place === 'logic rail' && endless === undefined
  const isDead = dead !== undefined || !hasRest(board)
  const breaks = isDead || (!isHeld && voltage < volts)
  const isImpossible = isDead || (breaks && endless !== undefined)
  return {
    voltage,
    current: meanCurrentOfCurrent({ I_step: steadyCurrent(read, board), D_m: dutyOf(read) }),
    sourceResistance: board.source.resistance,
    limit: volts,
    limitName: name,
    breaks,
    rest: hasRest(board) ? restOf(board) - drop : 0,
    idle: board.idle,
    isImpossible,
    capacitance: isImpossible ? null : isHeld ? 0 : capacitanceFor(read, board, breaks),
  }
}

/** The remedies of a margin of the rail where no capacitor helps. */
function withoutCapacitance(margin: Margin): Margin {
  if (margin.remedies !== remedyTexts.rail) return margin
  return { ...margin, remedies: margin.remedies.filter((one) => !one.startsWith('more capacitance')) }
}

/** A size in its unit; hours where the margin is a life. */
export const amount = ({ id, unit }: Margin, value: number): string =>
  `${format(value, unit, { digits: 2 })}${id.startsWith('life') ? ' hours' : ''}`

/** The verdict in a sentence or two, the steady sag first where it decides. */
function summaryOf(
  read: ReadDecoupling,
  margins: readonly Margin[],
  steady: DecouplingAssessment['steady'],
  { extremes, linear }: Budget,
): string {
  const [least] = margins
  const { slack } = least!
  const volts = (value: number) => format(Math.max(0, value), 'V', { digits: 3 })
  const current = (value: number) => format(value, 'A', { digits: 3 })
  if (steady.isImpossible) {
    const path = format(steady.sourceResistance, 'ohm', { digits: 3 })
    if (steady.rest <= steady.limit) {
      return `Fails: no capacitor can help. On the worst board the ${current(steady.idle)} that are drawn all the time leave ${volts(steady.rest)} at rest, load off, ${volts(steady.limit - steady.rest)} short of the limit of ${volts(steady.limit)}. See the remedies.`
    }
    return `Fails: no capacitor can help. On the worst board ${current(steady.current)} through ${path} leave ${volts(steady.voltage)} in the end, ${volts(steady.limit - steady.voltage)} short of the limit of ${volts(steady.limit)}. See the remedies.`
  }
  const words = { holds: 'Holds', fails: 'Fails', 'not sure': 'Not sure' }
  const spare = amount(least!, Math.abs(slack))
  const tightest = tightestText(least!, spare)
  const rail = railMarginIds(read)
  const need = !margins.some((one) => one.verdict === 'fails' && rail.includes(one.id))
    ? ''
    : steady.capacitance === null
      ? ' No capacitance is enough with this series resistance: take a kind with less of it, or more in parallel.'
      : steady.capacitance > 0
        ? ` It takes about ${format(steady.capacitance, 'F', { digits: 2 })} of capacitance.`
        : ''
  return `${words[verdictOf(margins)]}: ${tightest}. The rail falls to ${volts(linear.nominal)} with nominal parts, at worst to ${volts(extremes.lower)}.${need}`
}
