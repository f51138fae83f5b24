import { budgetOf, type Caution, type CheckOptions, type HeldRows, type Report } from '@ohmward/budget'
import { nominalOf } from '@ohmward/quantity'
import type { DecouplingAssessment } from './assessment.js'
import { boardAt, boardWith } from './chain/board.js'
import { derivationOf, insertionOf } from './derivation/derivation.js'
import { railLimits } from './rail/limits.js'
import { pictureOf } from './rail/picture.js'
import { pwmSummary } from './rail/pwm-summary.js'
import { railOf } from './rail/rail.js'
import { steadySag } from './rail/sag.js'
import { capacitanceFor } from './search/capacitance.js'
import type { Lowest } from './search/inside.js'
import { model, type Plan } from './search/plan.js'
import { assumptionsOf } from './texts/assumptions.js'
import { cautionsOf } from './texts/cautions.js'
import { summaryOf } from './texts/summary.js'

/** What a rail check answers beside its margins: of the nominal, the worst and the best board where the rail falls lowest. */
export function reportOf(
  plan: Plan,
  { station, values: worst }: Lowest,
  { margins }: HeldRows,
  { simulation = {} }: CheckOptions,
): Report<DecouplingAssessment> {
  const { read, inputs, row } = plan
  const worstBoard = boardAt(read, inputs, worst)
  const steady = steadySag(read, worstBoard, (breaks) => capacitanceFor(plan, worst, breaks))
  const V_min = budgetOf({
    symbol: 'V_min',
    quantity: 'lowest rail voltage',
    unit: 'V',
    inputs: station.inputs,
    model: model((reading) => reading.V_min),
    row,
    extremes: station.extremes,
    simulation: simulation && { trials: 4096, ...simulation },
  })
  const made = boardWith(read, inputs, station.at)
  const rail = railOf(read, made.board)
  const lowest = rail.pwm ? rail.pwm.lowest : rail.step.lowest
  const given = Object.fromEntries(
    Object.entries(inputs).map(([name, input]) => [name, station.at[name] ?? nominalOf(input)]),
  )
  const { values, derivation } = derivationOf(read, made, given, lowest, rail)
  const { openCircuit, ambient, age } = read
  const full = { V_oc: openCircuit.to, T_a: ambient.to, Y_age: age.from }
  const inserted = insertionOf(read, boardWith(read, inputs, full))
  const best = railOf(read, boardAt(read, inputs, { ...station.at, ...station.extremes.atUpper }))
  return {
    summary: summaryOf(read, margins, steady, V_min),
    values: { ...values, ...inserted.values, V_min: rail.lowest, V_logic: rail.logic },
    derivation: [...derivation, ...inserted.derivation],
    budgets: { V_min },
    assumptions: assumptionsOf(read),
    steady,
    worst,
    lowest,
    limits: railLimits(read),
    picture: pictureOf([rail, railOf(read, worstBoard), best]),
    pwm: pwmSummary(read, made.board, rail),
  }
}

/** What no row covers, or what can hurt; and what couldn't be followed to its end. */
export const cautionsIn = (plan: Plan): Caution[] => [...cautionsOf(plan.read), ...unfollowedIn(plan)]

function unfollowedIn({ unfollowed }: Plan): Caution[] {
  if (unfollowed.size === 0) return []
  const text = `Not followed to its end: ${[...unfollowed].join('; ')}. The waveform rings for too long, or its times lie too far apart: take parts with more series resistance, or leave out what does nothing on this rail.`
  return [{ id: 'not-followed', text }]
}
