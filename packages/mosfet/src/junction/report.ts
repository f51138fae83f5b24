import type { Place } from '../chain/follow.js'
import type { Switch } from '../chain/switch.js'
import { largestPulsedResistance } from '../formulas/thermal.js'
import type { Law } from './law.js'
import { currentAt, type HeldLoss, runawayDistance } from './runaway.js'
import { type Balance, type Junction, siliconEnd, solveJunction } from './solve.js'

/** One point of the curve of junction temperature against load current, the current held. */
export interface CurvePoint {
  /** A. */
  readonly current: number
  readonly celsius: number
}

/** The junction of one board at one set of conditions, and how far it is from its limit and from runaway. */
export interface JunctionReport {
  readonly junction: Junction
  /** Load current with the junction where it settles; with an ideal switch where it runs away. A */
  readonly current: number
  /** Load current that brings the junction to its rated limit, the current held; A. `null`: none does, it never conducts. */
  readonly limitCurrent: number | null
  /** Load current at which no temperature balances, the current held; A. `null`: the law has none. */
  readonly runawayCurrent: number | null
  /** Thermal resistance that brings the junction to its limit, K/W. `null`: there is no loss. */
  readonly limitResistance: number | null
  /** Thermal resistance at which no temperature balances, K/W. */
  readonly runawayResistance: number | null
  /** Junction temperature at which the law runs away, °C; `null`: an asymptote. */
  readonly runawayCelsius: number | null
  /** From the ambient to the last balance that silicon stands; empty where it never conducts. */
  readonly curve: readonly CurvePoint[]
}

/**
 * Solves the junction at these inputs and says how far limit and runaway are. Everything up to the junction's own
 * temperature stands in the switch's place then, and what goes with that temperature where there is one.
 *
 * @param at - inputs that differ from their nominal values
 */
export function reportOf(circuit: Switch, at: Readonly<Record<string, number>>): JunctionReport {
  const { law } = circuit
  const { junction, current } = settledAt(circuit, at)
  const y = circuit.place
  const { T_a, R_thJA, D_on: D, n, T_lim, T_top } = y
  // Edges in proportion to the current, the rest of the switching loss as it is.
  const { R_th, share } = heating(y)
  const s = (share * n * (y.P_edge + y.T_edge / R_thJA)) / y.I_max
  const loss = { T_a, R_th, D, R_on: y.R_on, P_0: share * (y.P_oss + y.P_wire), s }
  const distance = runawayDistance(loss, law, current / n)
  return {
    junction,
    current,
    limitCurrent: finite(currentAt(loss, law, T_lim) * n),
    runawayCurrent: distance.current === null ? null : distance.current * n,
    limitResistance: finite(largestPulsedResistance({ R_thJA, T_lim, T_a, T_top })),
    runawayResistance: distance.thermalResistance === null ? null : distance.thermalResistance * share,
    runawayCelsius: distance.celsius,
    curve: D === 0 ? [] : curveOf(loss, law, Math.min(distance.celsius ?? siliconEnd, siliconEnd), n),
  }
}

/** The junction at these inputs and the load current that goes with it; all of it stands in the switch's place then. */
export function settledAt(
  circuit: Switch,
  at: Readonly<Record<string, number>>,
): Pick<JunctionReport, 'junction' | 'current'> {
  circuit.putAt(at)
  const y = circuit.cold()
  const junction = solveJunction(balanceOf(circuit), circuit.law)
  return { junction, current: junction.kind === 'balance' ? circuit.hot(junction.T_j).I : y.I_max }
}

/**
 * The ripple follows the conduction loss, as the mean does: together they are a larger thermal resistance, of which the
 * other losses see the share of the mean.
 */
function heating({ R_thJA, Z_on, D_on: D }: Place): { readonly R_th: number; readonly share: number } {
  const R_th = D === 0 ? R_thJA : R_thJA + ((1 - D) * Z_on) / D
  return { R_th, share: R_thJA / R_th }
}

/** Heat balance of one device, from what stands in the place. */
function balanceOf({ place, topology }: Switch): Balance {
  const { T_a, R_thJA, n, D_on: D, V_oc, R_s, R_L, R_sh, I_set, R_on, P_sw, T_edge } = place
  const { R_th, share } = heating(place)
  const P_0 = share * (P_sw + T_edge / R_thJA)
  if (topology.load === 'current') return { T_a, R_th, P_0, D, R_on, V: I_set / n, r: 1, k: 0 }
  return { T_a, R_th, P_0, D, R_on, V: V_oc, r: n * (R_s + R_L + R_sh), k: 1 }
}

const finite = (value: number): number | null => (Number.isFinite(value) ? value : null)

const steps = 32

/** Load current at junction temperatures from the ambient to `end`, closer below, so that currents are nearly even. */
function curveOf(loss: HeldLoss, law: Law, end: number, n: number): CurvePoint[] {
  return Array.from({ length: steps + 1 }, (_, i) => {
    const celsius = loss.T_a + (end - loss.T_a) * (i / steps) ** 2
    return { current: n * currentAt(loss, law, celsius), celsius }
  })
}
