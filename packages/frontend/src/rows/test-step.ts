import { type Margin, type OwnRow, plainMargin } from '@ohmward/budget'
import { exact, format, type Spread } from '@ohmward/quantity'
import { heldThrough, type ReadRail } from '@ohmward/supply'
import { mainRail, railOf, wayTo } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { hull } from '../supply/hull.js'
import { drawOf } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { ReadyRow } from './ready-row.js'

/**
 * The controller's rail as the test current comes, against its brown-out threshold: a rail behind a resistor, or a regulator in
 * dropout, stands lower while it flows, and a regulator answers to it late: until then its output capacitor alone gives it.
 * Where nothing is stated of either, a rail that does not hold with what is usual is not sure. Pitfalls J07, J08.
 */
export function testStepRows(design: ReadDesign, solved: SolvedSpan): ReadyRow[] {
  const name = railOf(design, 'controller')
  if (name === mainRail || !carriesTest(design, name, solved.test)) return []
  const { upper: limit } = design.controller.brownOut
  const text = {
    id: 'brown-out-test',
    name: `lowest ${name} rail against the brown-out threshold, as the test current starts`,
    unit: 'V',
    sense: 'at least',
    catches: ['J07', 'J08'],
  } as const
  const hold = (): Margin => {
    const lowest = lowestOver(design, solved, name)
    const margin = plainMargin(text, lowest.lower, limit, lowest.nominal)
    if (margin.verdict === 'holds') return margin
    const told = { ...margin, probability: shareThatHolds(design, solved, name) }
    const unstated = wayTo(design, name).find((rail) => design.parts.unanswered.includes(rail.name))
    if (unstated === undefined || solved.rails[name]!.measuring.lower < limit) return told
    return { ...told, verdict: 'not sure', reason: reasonOf(unstated) }
  }
  const row: OwnRow = { kind: 'own', ...text, hold }
  return [{ id: `rails/${text.id}`, row }]
}

const reasonOf = ({ name, through }: ReadRail): string => {
  if (through.kind !== 'regulator') return ''
  const [time, farad] = [format(through.responseTime.upper, 's'), format(through.outputCapacitance.lower, 'F')]
  return `the response time of the regulator of ${name}, or its output capacitor, is not stated (responseTime, outputCapacitance): ${time} and ${farad} assumed`
}

/** Whether the test current flows through what is before a rail. */
const carriesTest = (design: ReadDesign, name: string, test: Spread): boolean =>
  drawOf(design, name, test).upper > drawOf(design, name).upper

/** The lowest that a rail comes to as the test current comes, V. */
function lowestOver(design: ReadDesign, { rails, test, span }: SolvedSpan, name: string): Spread {
  const { from, to } = span.celsius
  const step = exact(test.upper)
  const lowest = (of: string, celsius: number): Spread => {
    if (of === mainRail) return rails[mainRail]!.measuring
    const rail = design.rails!.find((one) => one.name === of)!
    const source = lowest(rail.source, celsius)
    const current = drawOf(design, of, test)
    const late = rail.through.kind === 'regulator' && carriesTest(design, of, test) ? { step } : {}
    const held = heldThrough(rail, { rest: source, sag: source, time: exact(0), current, celsius, ...late })
    return held.kind === 'impossible' ? exact(0) : held.voltage
  }
  return hull((from === to ? [from] : [from, to]).map((celsius) => lowest(name, celsius)))
}

/** How finely the tolerances of a regulator are cut. */
const cuts = 12

/** Share of boards that hold: regulators and thresholds anywhere within their limits, all alike, the rest at its worst. */
function shareThatHolds(design: ReadDesign, solved: SolvedSpan, name: string): number {
  const { brownOut } = design.controller
  const middles = Array.from({ length: cuts }, (_, i) => (i + 0.5) / cuts)
  let held = 0
  for (const volts of middles) {
    for (const farad of middles) {
      const rails = design.rails!.map((rail) =>
        rail.through.kind === 'regulator' ? builtAs(rail, volts, farad) : rail,
      )
      const lowest = lowestOver({ ...design, rails }, solved, name).lower
      // The threshold lies anywhere between its limits.
      const { lower, upper } = brownOut
      held += upper > lower ? Math.min(1, Math.max(0, (lowest - lower) / (upper - lower))) : lowest >= lower ? 1 : 0
    }
  }
  return held / cuts ** 2
}

/** A regulator as one board has it. */
function builtAs(rail: ReadRail, volts: number, farad: number): ReadRail {
  const { through } = rail
  if (through.kind !== 'regulator') return rail
  const at = ({ lower, upper }: Spread, share: number) => exact(lower + (upper - lower) * share)
  const voltage = at(through.voltage, volts)
  return { ...rail, through: { ...through, voltage, outputCapacitance: at(through.outputCapacitance, farad) } }
}
