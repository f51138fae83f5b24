import {
  type DecisionRule,
  extremes,
  type Margin,
  type MarginText,
  marginOf,
  type Station,
  worstStation,
} from '@ohmward/budget'
import type { Input, Spread } from '@ohmward/quantity'
import { inputsBehind, type Switch, switchOf } from '../chain/index.js'
import { type MosfetInputSet, type MosfetInputs, type MosfetSymbol, onlyThese, row } from '../inputs.js'
import type { Topology } from '../topology.js'

/** The hottest case: its margin, the circuit with the line of on-resistance that holds there, and its inputs. */
export interface HottestCase {
  readonly margin: Margin
  readonly circuit: Switch
  readonly station: Station<MosfetSymbol>
}

const text: MarginText = {
  id: 'junction',
  name: 'junction, heated by the loss at its limit',
  unit: 'degC',
  sense: 'at most',
  remedies: [
    'a transistor with less on-resistance at this gate voltage',
    'more copper, vias, a larger case',
    'less duty, or shorter bursts',
    'more transistors in parallel',
    'faster edges or a lower frequency, where switching loss is the larger part',
  ],
  catches: ['H05', 'H06', 'H07'],
}

/**
 * The margin of the junction at the hottest case: the temperature that the loss at the junction limit would make, which
 * is below the limit exactly when a balance is.
 *
 * On-resistance steps down where the gate voltage reaches the next guaranteed line, so the hottest source voltage may
 * lie just below such a step. Each line is therefore held up to the highest voltage at which some board, by its
 * tolerances, still stands on it. Ambient and duty stand at their upper ends: the loss at the limit never falls with
 * either, a range that ends at a duty of 1 being held just below it.
 */
export function hottestCase(topology: Topology, inputs: MosfetInputSet, rule: DecisionRule): HottestCase {
  const cases = linesOf(topology, inputs).map(({ circuit, inputs: here }) => {
    const station = worstStation(
      { inputs: here, row, conditions: ['V_oc'] },
      (x) => circuit.limit(x).T_spare,
      (lower) => -lower,
    )
    return { station, circuit }
  })
  const { station, circuit } = cases.reduce((a, b) => (b.station.extremes.lower < a.station.extremes.lower ? b : a))
  const value = (x: MosfetInputs) => x.T_lim - circuit.limit(x).T_spare
  const margin = marginOf(
    { ...text, value, limit: (x) => x.T_lim },
    { inputs: station.inputs, row, conditions: [], ...rule },
  )
  return {
    margin: { ...margin, at: { ...station.at, T_a: upper(inputs.T_a), D: upper(inputs.D), ...margin.at } },
    circuit,
    station,
  }
}

interface LineRange {
  readonly circuit: Switch
  readonly inputs: MosfetInputSet
}

const upper = (input: Input): number => (typeof input === 'number' ? input : (input as Spread).upper)

/** The guaranteed lines that some board stands on at some source voltage, each with the voltages up to which. */
function linesOf(topology: Topology, inputs: MosfetInputSet): LineRange[] {
  const lines = topology.onResistance
  const whole = switchOf(topology)
  const open = inputs.V_oc as Spread
  const gateInputs = onlyThese(inputs, inputsBehind(whole, ['V_GS']))
  const gate = (V_oc: number) =>
    extremes({ ...gateInputs, V_oc } as Record<MosfetSymbol, Input>, (x) => whole.gate(x as MosfetInputs).V_GS, { row })
  const [atEmpty, atFull] = [gate(open.lower), gate(open.upper)]
  const found: LineRange[] = []
  lines.forEach((line, i) => {
    const next = lines[i + 1]?.gateSource ?? Number.POSITIVE_INFINITY
    const isReached = i === 0 || Math.max(atEmpty.upper, atFull.upper) >= line.gateSource
    if (!isReached || Math.min(atEmpty.lower, atFull.lower) >= next) return
    const end = atFull.lower < next ? open.upper : crossing((V) => gate(V).lower - next, open.lower, open.upper)
    const circuit = switchOf({ ...topology, onResistance: [line] })
    const V_oc: Spread = {
      ...open,
      nominal: end,
      upper: end,
      ...(end === open.lower && { distribution: { kind: 'exact' } }),
    }
    const held = { ...inputs, V_oc, T_a: upper(inputs.T_a), D: upper(inputs.D) }
    const here = onlyThese(held, inputsBehind(circuit, ['T_spare']))
    found.push({ circuit, inputs: here })
  })
  return found
}

/**
 * Just above where a rising function passes 0, to a part in 10^9. The gate voltage is nearly straight in the source
 * voltage, so the first guess mostly is the answer; halving keeps it safe.
 */
function crossing(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to]
  let [y, z] = [f(a), f(b)]
  const hair = 1e-9 * to
  for (let i = 0; i < 60 && b - a > hair; i++) {
    const straight = a - (y * (b - a)) / (z - y) + hair / 2
    const c = i % 3 === 2 ? (a + b) / 2 : Math.min(Math.max(straight, a + hair / 4), b - hair / 4)
    const w = f(c)
    if (w < 0) [a, y] = [c, w]
    else [b, z] = [c, w]
    if (w >= 0 && w <= hair) return c
  }
  return b
}
