import { cutOffLanding, railResolution, referenceCode } from '@ohmward/adc/formulas'
import { between, exact, readNumber, type Spread } from '@ohmward/quantity'
import { cutOffAt, spreadOf } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { Ends } from '../walk/place.js'
import type { SolvedSpan } from '../walk/solve.js'
import type { Walk } from '../walk/walk.js'

/** What the firmware does as the cells empty, in this order. */
export type Alarm = 'warning' | 'reduction' | 'stop' | 'latch'

/** One threshold of the rail against the internal reference. */
export interface AlarmAt {
  readonly name: Alarm
  /** Rail at which it should act, V. */
  readonly threshold: number
  /** Code of the internal reference from which it acts: the code rises as the rail falls. */
  readonly code: number
  /** Rail at which it really acts, over the spread of the reference, V. */
  readonly acts: Spread
  /** Voltage of the cells at rest then, V, and their charge; `null` for a port. */
  readonly rest: Spread
  readonly charge: Spread | null
  /** Down to where the next one acts, on the same board, noise and one count taken off; `null` of the last. V */
  readonly toNext: number | null
}

/** The cells as the firmware sees them. */
export interface MonitorAnswer {
  /** Relative error of the rail as it is read: uncalibrated, and with what is left after one point where that is told. */
  readonly uncalibrated: Spread
  readonly calibrated: Spread | null
  /** Rail for one count at full cells and at the stop, V. Pitfall D04. */
  readonly perCount: { readonly full: number; readonly stop: number }
  readonly alarms: readonly AlarmAt[]
  /** What the hysteresis has left above rebound and noise, V; latched, none is needed and this is `null`. Pitfall K04. */
  readonly hysteresis: number | null
  /** The loaded rail at the stop above the highest brown-out, V. Pitfall K06. */
  readonly aboveReset: number
  /** Cells at rest after the stop above their damage voltage, V; `null` for a port. Pitfall K05. */
  readonly aboveDamage: number | null
}

/** Order, codes and margins of the thresholds; `null` where the design has no monitor or no internal reference. */
export function monitorOf(walk: Walk): MonitorAnswer | null {
  const { design, charges, around } = walk
  const { monitor, controller } = design
  const reference = controller.internalReference?.voltage
  if (monitor === undefined || reference === undefined) return null
  const N_bits = readNumber(design.hall.converter.bits, { field: 'hall.converter.bits', unit: 'bit', min: 1, max: 32 })
  const ends: Ends = { from: charges[0]!, to: charges.at(-1)! }
  const solved = walk.over({ charge: ends, ...around }).solved
  const V_bgnom = reference.nominal
  const left = monitor.calibration
  const real: Spread =
    left === undefined ? reference : between(V_bgnom * (1 + left.lower), V_bgnom * (1 + left.upper), V_bgnom)
  const given = (
    [
      ['warning', monitor.warning],
      ['reduction', monitor.reduction],
      ['stop', monitor.stop],
      ['latch', monitor.latch],
    ] as const
  ).flatMap(([name, threshold]) => (threshold === undefined ? [] : [{ name, threshold }]))
  const perCount = (V_rail: number) => railResolution({ V_rail, V_bg: V_bgnom, N_bits })
  const alarms = given.map(({ name, threshold }, i): AlarmAt => {
    const next = given[i + 1]?.threshold
    const acts = spreadOf(cutOffLanding, { V_cut: threshold, V_bg: real, V_bgnom })
    const reads = name === 'latch' ? 'at rest' : monitor.reads
    const at = landing(walk, solved, acts, reads)
    return {
      name,
      threshold,
      // Rounded down: it acts a little above the threshold rather than below it.
      code: Math.floor(referenceCode({ V_bg: V_bgnom, N_bits, V_rail: threshold })),
      acts,
      rest: at?.rest ?? acts,
      charge: at?.charge ?? null,
      toNext:
        next === undefined
          ? null
          : (threshold - next) * (real.lower / V_bgnom) - 2 * monitor.noise - perCount(threshold),
    }
  })
  const stop = landing(
    walk,
    solved,
    spreadOf(cutOffLanding, { V_cut: monitor.stop, V_bg: real, V_bgnom }),
    monitor.reads,
  )!
  const mainBrownOut = stop.aboveReset
  return {
    uncalibrated: shares(reference),
    calibrated: left ?? null,
    perCount: { full: perCount(solved.rest.upper), stop: perCount(monitor.stop) },
    alarms,
    hysteresis: monitor.latch === undefined ? stop.hysteresisSlack : null,
    aboveReset:
      railOf(design, 'controller') === mainRail
        ? mainBrownOut
        : sagAbove(solved, design.controller.brownOut, railOf(design, 'controller')),
    aboveDamage: design.supply.source.kind === 'cell' ? stop.aboveDamage : null,
  }
}

/** A controller behind a rail of its own: what the sag over the whole walk leaves it. */
const sagAbove = ({ rails }: SolvedSpan, brownOut: Spread, name: string): number =>
  rails[name]!.sag.lower - brownOut.upper

const shares = ({ lower, nominal, upper }: Spread): Spread =>
  lower === upper ? exact(0) : between(nominal / upper - 1, nominal / lower - 1, 0)

/** Where a threshold lands. The load is a resistance, so its current goes with the rail; the source as weak as it gets. */
function landing(
  { design }: Walk,
  { source, load, switch: on }: SolvedSpan,
  threshold: Spread,
  reads: 'at rest' | 'under load',
) {
  const { monitor, controller, supply } = design
  if (supply.source.kind !== 'cell' || monitor === undefined) return portAt(threshold, controller.brownOut)
  const most = reads === 'under load' ? threshold.upper : threshold.upper
  const R = { lower: load.lower + on.lower, upper: load.upper + on.upper }
  const current = between(threshold.lower / (R.upper + source.resistance.upper), most / R.lower)
  return cutOffAt(supply.source, {
    threshold,
    reads,
    current,
    resistance: source.resistance,
    hysteresis: exact(monitor.hysteresis),
    noise: monitor.noise,
    brownOut: controller.brownOut,
  })
}

const portAt = (threshold: Spread, brownOut: Spread) => ({
  rest: threshold,
  charge: null,
  hysteresisSlack: 0,
  aboveReset: threshold.lower - brownOut.upper,
  aboveDamage: 0,
})
