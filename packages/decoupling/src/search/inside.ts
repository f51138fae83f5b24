import {
  type DecisionRule,
  type Margin,
  type MarginSpec,
  marginOf,
  type Station,
  type WorstCase,
  worstCaseOf,
  worstStation,
} from '@ohmward/budget'
import { type Input, nominalOf } from '@ohmward/quantity'
import { hoursPerYear } from '../chain/capacitor.js'
import type { ReadDecoupling } from '../choice/choice.js'
import type { RailReading } from '../rail/reading.js'
import { effort } from '../waveform/inside.js'
import { model, type Plan } from './plan.js'
import { dutiesOf, frequenciesOf, loopsOf, resonancesOf } from './pulses.js'

type Values = Readonly<Record<string, number>>

/** A margin as this block states it: of reading. */
export type Spec = Omit<MarginSpec<string>, 'value' | 'limit'> & {
  readonly value: (reading: RailReading) => number
  readonly limit: number | ((reading: RailReading) => number)
}

/**
 * A margin over all parts and conditions. The ends of the conditions don't tell the worst: with age a ceramic's capacitance falls by
 * decades while the source's resistance rises straight, and with temperature both bend at the points of their curves. So age and
 * temperature are moved inside their ranges from the worst place at the ends, and so are frequency and duty, which are worst where a loop
 * resonates; where that is worse, everything is searched anew there.
 */
export function marginInside(plan: Plan, { value, limit, ...text }: Spec, rule: DecisionRule): Margin {
  const { row, conditions, courses } = plan
  // Another limit on the same side of the same value has the same worst case: the way there is gone again only where it would turn
  // otherwise, since what one limit leaves unsure another may not.
  const before = courses.get(value)
  if (typeof limit === 'number' && before?.sense === text.sense) {
    const margins = before.cases.map((worst) => worst.against(text, limit, rule))
    if (margins.every(({ verdict }, k) => (verdict === 'not sure') === before.isUnsure[k]))
      return margins[before.taken]!
  }
  const slackAt = (at: Values): number => {
    const reading = plan.at(at)
    const far = (typeof limit === 'number' ? limit : limit(reading)) - value(reading)
    return text.sense === 'at most' ? far : -far
  }
  const cases: WorstCase[] = []
  const hold = (inputs: Plan['inputs']): Margin => {
    const around = { inputs, row, conditions }
    const spec = { ...text, value: model(value) }
    if (typeof limit !== 'number') return marginOf({ ...spec, limit: model(limit) }, { ...around, ...rule })
    const worst = worstCaseOf({ ...spec, limit }, around)
    cases.push(worst)
    return worst.against(text, limit, rule)
  }
  // What can't be followed any more isn't sure, and there is nothing to search for.
  const isLost = (): boolean => effort.isSpent && effort.isOpen
  if (effort.isSpent) slackAt({})
  const inputs = isLost() ? nominalParts(plan) : plan.inputs
  let margin = hold(inputs)
  let taken = 0
  const isUnsure = [margin.verdict === 'not sure']
  for (let round = 0; round < 4 && !isLost(); round++) {
    const at = insideOf(plan, margin, slackAt)
    if (at === undefined) break
    const there = hold({ ...inputs, ...at })
    isUnsure.push(there.verdict === 'not sure')
    if (there.slack > margin.slack) break
    const isDeeper = there.slack < margin.slack
    margin = there
    taken = round + 1
    if (!isDeeper) break
  }
  // What couldn't be followed is said of every row that asks for it.
  if (cases.length > 0 && !effort.isOpen && !effort.isBounded)
    courses.set(value, { sense: text.sense, cases, isUnsure, taken })
  return margin
}

const nominalParts = ({ inputs, conditions }: Plan): Readonly<Record<string, Input>> =>
  Object.fromEntries(
    Object.entries(inputs).map(([name, input]) => [name, conditions.includes(name) ? input : nominalOf(input)]),
  )

/** Lowest voltage of the rail: one function for all that ask for it. */
export const lowestRail = ({ V_min }: RailReading): number => V_min

/** Where a voltage of the rail falls lowest, and the values of the inputs on the board there. */
export interface Lowest {
  readonly station: Station<string>
  readonly values: Values
}

/** Where a voltage of the rail falls lowest, over all parts and conditions, age and temperature inside their ranges too. */
export function lowestOf(plan: Plan, value: (reading: RailReading) => number = lowestRail): Lowest {
  const text = { id: '', name: '', unit: 'V', sense: 'at least', catches: [] } as const
  const { at } = marginInside(plan, { ...text, value, limit: 0 }, {})
  const inputs: Record<string, Input> = { ...plan.inputs }
  for (const name of plan.conditions) inputs[name] = at[name] ?? nominalOf(inputs[name]!)
  const circumstances = { inputs, row: plan.row, conditions: plan.conditions }
  const station = worstStation(circumstances, model(value), (lower) => -lower)
  return { station, values: { ...station.at, ...station.extremes.atLower } }
}

/**
 * Conditions inside the ranges that are the worst, the parts of a margin as they are: worse than those at which it stands; or these, where
 * they leave it unsure and nothing beside them is worse. Undefined where nothing is to be held anew.
 */
function insideOf(plan: Plan, margin: Margin, slackAt: (at: Values) => number): Values | undefined {
  const { read, conditions } = plan
  const enough = 1e-9 * Math.max(Math.abs(margin.limit), Math.abs(margin.slack))
  let best: Values = margin.at
  let least = margin.slack - enough
  const isBetter = (moved: Values, parts = best): boolean => {
    if (Object.entries(moved).every(([name, value]) => parts[name] === value)) return false
    const slack = slackAt({ ...parts, ...moved })
    if (!(slack < least)) return false
    least = slack
    best = { ...parts, ...moved }
    return true
  }
  // Where only the middle of all conditions met a resonance, the open-circuit voltage still stands in its own.
  const overVoltage = (): void => {
    for (const volts of [read.openCircuit.from, read.openCircuit.to]) isBetter({ V_oc: volts })
  }
  overVoltage()
  const closer = (name: string, places: readonly number[]) =>
    refine(places, best[name]!, (value) => isBetter({ [name]: value }))
  if (conditions.includes('f_pwm') || conditions.includes('D')) overPulses(plan, margin.at, isBetter, closer)
  const [ages, temperatures] = [agesOf(read), temperaturesOf(read)]
  for (const years of ages) isBetter({ Y_age: years })
  for (const celsius of temperatures) isBetter({ T_a: celsius })
  const isMoved = () => best !== margin.at
  if (!isMoved() && (margin.verdict !== 'not sure' || isCorner(plan, margin.at))) return undefined
  closer('Y_age', ages)
  closer('T_a', temperatures)
  if (isMoved()) overVoltage()
  // What stands at an end is free again: with another duty, another open-circuit voltage may be the worst.
  return Object.fromEntries(
    conditions.flatMap((name) => {
      const [input, value] = [plan.inputs[name]!, best[name]!]
      const isInside = typeof input === 'object' && value > input.lower && value < input.upper
      return isInside ? [[name, value]] : []
    }),
  )
}

/** Whether the worst case stands at an end of each condition. */
const isCorner = ({ conditions, inputs }: Plan, at: Values): boolean =>
  conditions.every((name) => {
    const input = inputs[name]
    return typeof input !== 'object' || at[name] === input.lower || at[name] === input.upper
  })

/**
 * Frequencies and duties inside their ranges, each with each: where pulses meet the ringing of a loop, one tells nothing without the
 * other, and each loop has a resonance of its own.
 */
function overPulses(
  plan: Plan,
  at: Values,
  isBetter: (moved: Values, parts?: Values) => boolean,
  closer: (name: string, places: readonly number[]) => void,
): void {
  const { read, conditions } = plan
  const isSwept = conditions.includes('f_pwm')
  const ofDuty = conditions.includes('D') ? dutiesOf(read).map((D): Values => ({ D })) : [{}]
  const all: number[] = frequenciesOf(read)
  for (const parts of loopsOf(plan, at)) {
    const resonances = resonancesOf(read, plan.at(parts).board)
    all.push(...resonances)
    const ofFrequency = [...frequenciesOf(read), ...resonances].map((f_pwm): Values => ({ f_pwm }))
    for (const f of isSwept ? ofFrequency : [{}]) for (const D of ofDuty) isBetter({ ...f, ...D }, parts)
  }
  for (let round = 0; round < 2; round++) {
    if (isSwept) closer('f_pwm', all)
    if (conditions.includes('D')) closer('D', dutiesOf(read))
  }
}

/** Halves the ways from a place to the next ones on both sides. */
function refine(places: readonly number[], start: number, isBetter: (x: number) => boolean): void {
  let x = start
  let [down, up] = [0, 0]
  for (const place of places) {
    // The same place, but for its last digit, is none beside it.
    const apart = Math.abs(place - x)
    if (apart <= 1e-9 * Math.abs(x)) continue
    if (place < x && (down === 0 || apart < down)) down = apart
    if (place > x && (up === 0 || apart < up)) up = apart
  }
  for (let round = 0; round < 12; round++) {
    down /= 2
    up /= 2
    if (down > 0 && isBetter(x - down)) {
      x -= down
      up = down
    } else if (up > 0 && isBetter(x + up)) {
      x += up
      down = up
    }
  }
}

/** Ages to look at: the ends and places evenly between them; where a ceramic ages, from the hour at which that begins by equal factors. */
export function agesOf({ age: { from, to }, capacitors }: ReadDecoupling): number[] {
  if (from === to) return [from]
  const list = [from, to]
  const start = Math.max(from, 1 / hoursPerYear)
  if (start < to && capacitors.some(({ fields }) => fields.ageing.upper > 0)) {
    for (let k = from < start ? 0 : 1; k < 4; k++) list.push(start * (to / start) ** (k / 4))
  }
  // Between a part that wears and a source that grows older, a current may be largest at any age.
  for (const share of [1 / 4, 1 / 2, 3 / 4]) list.push(from + share * (to - from))
  return list.sort((a, b) => a - b)
}

/** Temperatures to look at: the ends, the points of the curves between them, the middle. */
export function temperaturesOf({ ambient: { from, to }, capacitors, source }: ReadDecoupling): number[] {
  const curves = capacitors.flatMap(({ temperature, cold }) => [temperature, cold])
  const own = source.kind === 'cell' ? source.cell.temperatureFactor.x : []
  const points = [...curves.flatMap((curve) => curve?.at ?? []), ...own].filter(
    (celsius) => celsius > from && celsius < to,
  )
  return [...new Set([from, (from + to) / 2, to, ...points])].sort((a, b) => a - b)
}
