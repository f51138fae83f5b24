import type { DecisionRule } from '@ohmward/budget'
import { conditions } from '../chain/inputs.js'
import { onlyThese, type Switch } from '../chain/switch.js'
import { type HottestCase, hottestCase } from './hottest.js'
import { type JunctionReport, reportOf } from './report.js'

/** The heat of a switch, worked out when it is first asked for. */
export interface Heat {
  /** Where some board is hottest, and where a typical one is. */
  readonly hottest: () => HottestCase
  readonly mild: () => HottestCase
  /** The junction of both. */
  readonly worst: () => JunctionReport
  readonly typical: () => JunctionReport
  /** Junction temperature from which edges start and at which the threshold is lowest: no more than its limit. °C */
  readonly start: (rule: DecisionRule) => number
}

/** The heat of a switch. */
export function heatOf(circuit: Switch, T_lim: number): Heat {
  const hottest = once(() => hottestCase(circuit))
  const mild = once(() => hottestCase(circuit.with({ inputs: onlyThese(circuit.inputs, new Set(conditions)) })))
  const worst = once(() => reportOf(hottest().circuit, hottest().worst))
  const typical = once(() => reportOf(mild().circuit, mild().at))
  return {
    hottest,
    mild,
    worst,
    typical,
    // Where a probability decides, the typical board is the one that the other margins start from.
    start: ({ accept }) => {
      const { junction } = accept === undefined ? worst() : typical()
      return junction.kind === 'balance' ? Math.min(junction.T_j, T_lim) : T_lim
    },
  }
}

/** A value that is worked out at the first call and kept. */
function once<T extends object>(make: () => T): () => T {
  let kept: T | undefined
  return () => {
    kept ??= make()
    return kept
  }
}
