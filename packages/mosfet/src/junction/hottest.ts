import { type Station, worstStation } from '@ohmward/budget'
import { nominalOf, type Spread } from '@ohmward/quantity'
import { type MosfetInputSet, type MosfetSymbol, upperOf } from '../chain/inputs.js'
import { onlyThese, type Switch } from '../chain/switch.js'

/** Where some board's junction is hottest. */
export interface HottestCase {
  /** The switch on the guaranteed line on which that is, with what is behind the heat. */
  readonly circuit: Switch
  readonly station: Station<MosfetSymbol>
  /** The conditions there. */
  readonly at: Readonly<Record<string, number>>
  /** The conditions, and the parts that are not nominal in the hottest board. */
  readonly worst: Readonly<Record<string, number>>
  /** The hottest board on each of the guaranteed lines, at the highest voltage that stands on it. */
  readonly onEach: readonly { readonly circuit: Switch; readonly at: Readonly<Record<string, number>> }[]
}

/**
 * The conditions and the guaranteed line at which the loss at the junction limit is largest: the temperature that it would
 * make is below the limit exactly when a balance is.
 *
 * On-resistance steps down where the gate voltage reaches the next guaranteed line, so the hottest source voltage may
 * lie just below such a step. Each line is therefore held up to the highest voltage at which some board, by its
 * tolerances, still stands on it. Ambient and duty stand at their upper ends: the loss at the limit never falls with
 * either, a range that ends at a duty of 1 being held just below it.
 */
export function hottestCase(whole: Switch): HottestCase {
  const cases = linesOf(whole).map((circuit) => {
    const { inputs, row, place } = circuit
    const spare = () => {
      circuit.limit()
      return place.T_spare
    }
    const station = worstStation<MosfetSymbol>({ inputs, row, conditions: ['V_oc'] }, spare, (lower) => -lower)
    return { station, circuit }
  })
  const { circuit, station } = cases.reduce((a, b) => (b.station.extremes.lower < a.station.extremes.lower ? b : a))
  const { T_a, D } = whole.inputs
  const onEach = cases.map(({ circuit, station }) => {
    const { atLower } = station.extremes
    const moved = Object.entries(station.inputs).filter(([symbol, input]) => nominalOf(input) !== atLower[symbol])
    const parts = Object.fromEntries(moved.map(([one]) => [one, atLower[one]!]))
    return { circuit, at: { ...station.at, T_a: upperOf(T_a), D: upperOf(D), ...parts } }
  })
  const at = { ...station.at, T_a: upperOf(T_a), D: upperOf(D) }
  return { circuit, station, at, worst: onEach.find((one) => one.circuit === circuit)!.at, onEach }
}

/**
 * The switch on each of the guaranteed lines that some board stands on at some source voltage, with the voltages up to
 * which, and what is behind the heat.
 */
function linesOf(whole: Switch): Switch[] {
  const { lines, inputs, row, place } = whole
  const open = inputs.V_oc as Spread
  const gateInputs = whole.only(['V_GS'])
  const level = () => {
    whole.gate()
    return place.V_GS
  }
  // Both ends of the level are asked for, whichever is called the worse.
  const gate = (V_oc: number) => {
    const inputs = { ...gateInputs, V_oc }
    return worstStation<MosfetSymbol>({ inputs, row, conditions: [] }, level, (lower) => -lower).extremes
  }
  const atEmpty = gate(open.lower)
  const atFull = open.upper === open.lower ? atEmpty : gate(open.upper)
  // On a line of its own the on-resistance no longer goes with the gate voltage.
  // Where it runs straight, it goes with it between two.
  const width = whole.isStraight ? 2 : 1
  const behind = whole.with({ lines: lines.slice(0, width) }).behind(['T_spare'])
  const found: Switch[] = []
  lines.forEach((line, i) => {
    const next = lines[i + 1]?.gateSource ?? Number.POSITIVE_INFINITY
    const isReached = i === 0 || Math.max(atEmpty.upper, atFull.upper) >= line.gateSource
    if (!isReached || Math.min(atEmpty.lower, atFull.lower) >= next) return
    const end = atFull.lower < next ? open.upper : crossing((V) => gate(V).lower - next, open.lower, open.upper)
    const V_oc: Spread = {
      ...open,
      nominal: end,
      upper: end,
      ...(end === open.lower && { distribution: { kind: 'exact' } }),
    }
    const held: MosfetInputSet = { ...inputs, V_oc, T_a: upperOf(inputs.T_a), D: upperOf(inputs.D) }
    found.push(whole.with({ lines: lines.slice(i, i + width), inputs: onlyThese(held, behind) }))
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
