import { railResolution, referenceCode } from '@ohmward/adc/formulas'
import { between, exact, type Spread } from '@ohmward/quantity'
import type { ReadCell } from '@ohmward/supply'
import { hysteresisSlack } from '@ohmward/supply/formulas'
import { mainRail, railOf } from '../design/rails.js'
import { dividedResolution } from '../formulas/index.js'
import { actsAt, converterOf } from '../monitor/acts.js'
import { missedOfCells, shareAtPin } from '../monitor/cells-seen.js'
import { fullScaleOf } from '../monitor/converter.js'
import { lackingAt } from '../monitor/corners.js'
import { isReadSoon, lackingOf, lagOf } from '../monitor/lag.js'
import { type Landing, landingOf, noisy } from '../monitor/landing.js'
import { type Lowest, lowestAfter } from '../monitor/last-burst.js'
import { weakestAt } from '../monitor/weakest.js'
import type { Span } from '../supply/place.js'
import { railsOver } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { Walk } from '../walk/walk.js'

/** What the firmware does as the cells empty, in this order. */
export type Alarm = 'warning' | 'reduction' | 'stop' | 'latch'

/** One threshold of the rail against the internal reference. */
export interface AlarmAt {
  readonly name: Alarm
  /** Rail at which it should act, V. */
  readonly threshold: number
  /**
   * Code from which it acts: of the internal reference, which rises as the rail falls, or of the divided rail, which falls, at what the
   * converter nominally counts against; `null` where that falls with the cells, or is off by more than the internal reference: then no code
   * alone acts within what is said, only one over that of the reference on the same board. `null` also where it would lie beyond the last
   * code, which no reading comes to.
   */
  readonly code: number | null
  /** Code of the divided rail over that of the internal reference from which it acts, whatever the converter's rail; `null` without a divider, and beyond the last code. */
  readonly overReference: number | null
  /** Rail at which it really acts, over the spread of the reference, V. */
  readonly acts: Spread
  /** Voltage of the cells at rest then, V, and their charge; `null` for a port. */
  readonly rest: Spread
  readonly charge: Spread | null
  /** Distance to the next threshold on the same board, less noise and one count, V; `null` for the last. */
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
  /**
   * Highest voltage that is read, and what the converter counts against then, above which it reads nothing, V: at the pin behind the divider
   * on full cells; without one of the internal reference, where the lowest threshold acts on the rail.
   */
  readonly pin: { readonly highest: number; readonly allowed: number }
  /** Counts that a sample of the divided cells is short of at most; `null` without a divider, or with a ratio alone. */
  readonly missed: number | null
  /**
   * How far the cells may be from a step of the load when they are read, V: those of the rail follow it late, and so does a capacitor
   * at the pin of their divider; `null` where the load is on all the time and nothing stands at the pin.
   */
  readonly lag: number | null
  /**
   * What the cells still lack when they are read at rest: the share of what the load took in them, and at most how much of their voltage
   * that is at the stop, V; `null` under load, and for a port.
   */
  readonly lacking: { readonly share: number; readonly most: number } | null
  /** How far the converter's own rail, which alone it can read, lies below that of the cells, V; 0 where it is the same. */
  readonly unseen: number
  /** Full cells, as they are read, above the first threshold, and at rest above where it switches on again, at least, V; `null` for a port. */
  readonly aboveFirst: number | null
  /** Share of a full charge that is used at least before the stop acts; `null` for a port. */
  readonly beforeStop: number | null
  /**
   * The same where none of what the load takes in the cells has come back when they are read at rest; `null` where that is a minute
   * after the load, or said, or where they are read under it, or for a port.
   */
  readonly beforeStopSlow: number | null
  /**
   * What the hysteresis, or how far the latch is above the stop, has left above rebound, noise and a count, V; `null` for a port. Under
   * load all comes back that the load takes, at rest what the cells still lacked. Pitfall K04.
   */
  readonly hysteresis: number | null
  /** The same where all that the load takes in the cells comes back after the reading; `null` as there. */
  readonly hysteresisSlow: number | null
  /** The controller's rail under load at the stop, after the last burst, above the highest brown-out, V. Pitfall K06. */
  readonly aboveReset: number
  /** Cells at rest after the stop, and after the last burst, above their damage voltage, V; `null` for a port. Pitfall K05. */
  readonly aboveDamage: number | null
  /** The weakest cell under load at the stop, after the last burst, above the highest level of its protection, V; `null` where that isn't told. Pitfall K03. */
  readonly aboveProtection: number | null
  /** The weakest of several cells in series at rest after the stop, above its damage voltage, V; `null` for one cell, or a port. */
  readonly weakestAboveDamage: number | null
}

/** Order, codes and margins of the thresholds; `null` where the design has no monitor or no internal reference. */
export function monitorOf(walk: Walk): MonitorAnswer | null {
  const { design, charges, around } = walk
  const { monitor, controller } = design
  const { source } = design.supply
  const reference = controller.internalReference?.voltage
  if (monitor === undefined || reference === undefined) return null
  const { bits: N_bits } = converterOf(design)
  const V_bgnom = reference.nominal
  const left = monitor.calibration
  const isApart = monitor.reads === 'under load' || (monitor.latch ?? 0) >= monitor.stop
  const given = (
    [
      ['warning', monitor.warning],
      ['reduction', monitor.reduction],
      ['stop', monitor.stop],
      ['latch', monitor.latch],
    ] as const
  ).flatMap(([name, threshold]) => (threshold === undefined ? [] : [{ name, threshold }]))
  const all = walk.over({ charge: { from: charges[0]!, to: charges.at(-1)! }, ...around }).solved
  const share = shareAtPin(design)
  const { rest: ownRail } = all.rails[railOf(design, 'converter')]!
  const own = fullScaleOf(design, ownRail)
  const perCount = (V_rail: number) =>
    share
      ? dividedResolution({ V_own: own.upper, k_div: share.lower, N_bits })
      : railResolution({ V_rail, V_bg: V_bgnom, N_bits })
  const highest = () => own.upper
  const range = {
    design,
    charge: { from: charges[0]!, to: charges.at(-1)! },
    around,
    solve: (span: Span) => walk.over(span).solved,
    edges: () => walk.firmware.edges(),
  }
  const lacking = lackingOf(design)
  const landing = (name: Alarm, acts: Spread, share = lacking) => {
    // What the latch reads with the load just gone lacks all of it.
    const isAfter = name === 'latch' && monitor.reads === 'under load'
    const spec = isAfter ? ({ reads: 'at rest', lacking: 1 } as const) : { reads: monitor.reads, lacking: share }
    return landingOf(range, { acts: noisy(acts, monitor.noise), ...spec })
  }
  const stop = actsAt(design, monitor.stop, highest)
  const cut = landing('stop', stop)
  // Read so soon after the load, at the worst nothing of it has come back.
  const slow = isReadSoon(design) ? landing('stop', stop, 1) : null
  const lowest = cut && lowestAfter(design, cut)
  // A latch above the stop keeps it from switching on again as well as a hysteresis does; all on the same board.
  const again = Math.max(monitor.hysteresis, (monitor.latch ?? 0) - monitor.stop)
  const V_hys = again * (stop.lower / monitor.stop) - perCount(monitor.stop)
  const hysteresisOf = ({ rebound: V_reb }: Landing) => hysteresisSlack({ V_hys, V_reb, V_noise: 2 * monitor.noise })
  const alarms = given.map(({ name, threshold }, i): AlarmAt => {
    const next = given[i + 1]?.threshold
    const acts = actsAt(design, threshold, highest)
    const there = name === 'stop' ? cut : landing(name, acts)
    // A latch that isn't below the stop, or is read otherwise, doesn't come after it.
    const isLast = next === undefined || (given[i + 1]!.name === 'latch' && isApart)
    // It acts a little above the threshold rather than below it: a code that falls with the cells is rounded up.
    const code = share
      ? dividedCode(walk, threshold * share.nominal, { own: own.nominal, there: threshold })
      : Math.floor(referenceCode({ V_bg: V_bgnom, N_bits, V_rail: threshold }))
    const isRead = code === null || code < 2 ** N_bits
    return {
      name,
      threshold,
      code: isRead ? code : null,
      overReference: share && isRead ? (threshold * share.nominal) / V_bgnom : null,
      acts,
      rest: there?.rest ?? acts,
      charge: there?.charge ?? null,
      toNext: isLast ? null : (threshold - next) * (acts.lower / threshold) - 2 * monitor.noise - perCount(threshold),
    }
  })
  const full = walk.over({ charge: { from: 1, to: 1 }, ...around }).solved
  const lacked = cut && full.source.cells ? lackingAt(cut.on.corners.weak, 1, full.source.cells.voltage.lower) : 0
  const read = monitor.reads === 'at rest' ? full.rest.lower - lacked : full.rail.lower
  const weakest = lowest && source.kind === 'cell' ? weakestOf(source, lowest.rest, around.age.to) : null
  const atStop = stop.lower - monitor.noise
  const ofPort = { idle: atStop, rail: monitor.reads === 'under load' ? atStop : all.rail.lower }
  const on = stop.upper * (1 + monitor.hysteresis / monitor.stop)
  return {
    uncalibrated: shares(reference),
    calibrated: left ?? null,
    perCount: { full: perCount(all.rest.upper), stop: perCount(monitor.stop) },
    alarms,
    unseen: share ? 0 : unseenIn(all, railOf(design, 'converter')),
    pin: share
      ? { highest: all.rest.upper * share.upper, allowed: Math.min(own.lower, ownRail.lower) }
      : { highest: reference.upper, allowed: Math.min(...given.map(({ threshold }) => threshold)) },
    missed: missedOfCells(design) ?? null,
    lag: lagOf(design, all, walk.firmware),
    lacking: cut && monitor.reads === 'at rest' ? { share: lacking, most: cut.rebound } : null,
    aboveFirst: cut && Math.min(read - alarms[0]!.acts.upper, full.rest.lower - on) - monitor.noise,
    beforeStop: cut && 1 - cut.charge.upper,
    beforeStopSlow: slow && 1 - slow.charge.upper,
    hysteresis: cut && hysteresisOf(cut),
    hysteresisSlow: slow && hysteresisOf(slow),
    aboveReset: controllerAt(walk, lowest ?? ofPort) - controller.brownOut.upper,
    aboveDamage: lowest && source.kind === 'cell' ? lowest.rest - source.damageVoltage * source.inSeries : null,
    aboveProtection:
      lowest && weakest !== null && source.kind === 'cell' && source.protectionVoltage
        ? weakest - (lowest.rest - lowest.cells) / source.inSeries - source.protectionVoltage.upper
        : null,
    weakestAboveDamage:
      weakest !== null && source.kind === 'cell' && source.inSeries > 1 ? weakest - source.damageVoltage : null,
  }
}

/**
 * Code of a voltage at the pin; `null` where the converter doesn't count against what it usually does with the main rail at the threshold,
 * to half a count, or where boards differ in that by more than in the internal reference and none is calibrated.
 */
function dividedCode({ design, around }: Walk, V_pin: number, at: { readonly own: number; readonly there: number }) {
  const { bits: N_bits } = converterOf(design)
  const codeOn = (V_rail: number) => referenceCode({ V_bg: V_pin, N_bits, V_rail })
  const main = exact(at.there)
  const there = railsOver(design, { rest: main, sag: main }, around.celsius)[railOf(design, 'converter')]!.rest
  const { nominal, lower, upper } = fullScaleOf(design, there)
  const reference = design.controller.internalReference!.voltage
  const isSure =
    design.monitor!.calibration !== undefined ||
    (lower / nominal >= (1 - 1e-9) * (reference.lower / reference.nominal) &&
      upper / nominal <= (1 + 1e-9) * (reference.upper / reference.nominal))
  return !isSure || Math.abs(codeOn(nominal) - codeOn(at.own)) > 0.5 ? null : Math.ceil(codeOn(at.own))
}

/** Voltage of the weakest cell at rest where all in series stand at a voltage, V. */
const weakestOf = (cell: ReadCell, volts: number, age: number): number =>
  cell.inSeries === 1 ? volts : weakestAt(cell, volts, age)

/** Rail of the controller where the load brings the main one to its lowest, V. */
function controllerAt({ design, around }: Walk, { idle, rail }: Pick<Lowest, 'idle' | 'rail'>): number {
  if (rail <= 0) return 0
  const rails = railsOver(design, { rest: exact(idle), sag: exact(rail) }, around.celsius)
  return rails[railOf(design, 'controller')]!.sag.lower
}

/** A regulator or a diode between hides the cells: the thresholds are those of the main rail. */
function unseenIn({ rails, rest: main }: SolvedSpan, name: string): number {
  if (name === mainRail) return 0
  const { rest } = rails[name]!
  return Math.max(0, main.lower - rest.lower, main.upper - rest.upper)
}

const shares = ({ lower, nominal, upper }: Spread): Spread =>
  lower === upper ? exact(0) : between(nominal / upper - 1, nominal / lower - 1, 0)
