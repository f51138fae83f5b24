import { referenceShift } from '@ohmward/adc/formulas'
import { type BlockRow, holdRow, type Margin } from '@ohmward/budget'
import { type HallChoice, hall } from '@ohmward/hall'
import { between, exact, InputError, readNumber, type Spread } from '@ohmward/quantity'
import { spreadOf } from '@ohmward/supply'
import { hallAt } from '../../blocks/hall-at.js'
import { railOf } from '../../design/rails.js'
import type { ReadDesign } from '../../design/record.js'
import { sensorSpread } from '../../design/sensor.js'
import {
  powerErrorOnce,
  powerErrorPulsed,
  powerErrorSquare,
  powerErrorTwice,
  powerShareError,
  railReadError,
} from '../../formulas/index.js'
import { converterOf, weighingCode } from '../../monitor/acts.js'
import { readThrough, seesCells } from '../../monitor/cells-seen.js'
import { conductingIn } from '../../pulse/conducting.js'
import { riseOf } from '../../pulse/pulse.js'
import { sumOf } from '../../supply/path.js'
import type { Ends } from '../../supply/place.js'
import { behindOf } from '../../supply/power.js'
import type { BlockName } from '../../walk/stage.js'
import type { Walk } from '../../walk/walk.js'
import { inPulse, largestRead, shareOfPulse } from './in-pulse.js'
import { largestAsked, shareShown } from './shown.js'
import { usableSpan } from './usable.js'

/** Relative error of the power as the firmware reads it; `null` where a reading has none. */
export interface PowerErrors {
  /** Rail against the internal reference, times the current; `null` too where the converter can't see the cells. */
  readonly voltageTimesCurrent: Spread | null
  /** How many times the internal reference enters it: twice where a sensor of fixed output is read against the rail. */
  readonly referenceEnters: 1 | 2
  /** Square of the current, times the resistance. */
  readonly squareTimesResistance: Spread | null
}

/** Errors of the power over a range of duties: a reading takes more of a short pulse, and a mean current is less of one. */
export type ErrorsOver = (duty: Ends) => PowerErrors

/** The two ways to read a power, and what their readings share. */
export function errorsOf(walk: Walk): ErrorsOver {
  const { design } = walk
  const { controller, monitor, pwm } = design
  const isTwice = entersTwice(design)
  const { current, own, load, switch: on, rail } = walk.over(usableSpan(walk)).solved
  const pulse = inPulse(walk)
  const errors = heldErrors(walk, 'hall')
  const corrected = isTwice ? correctedErrors(walk) : errors
  const reach = reachOf(design)
  const e_R = relativeError(heldErrors(walk, 'divider'), own, { from: reach.ohms, to: own.upper })
  const e_k = shareError(own, sumOf([behindOf({ own, load }), on]))
  const reference = controller.internalReference?.voltage
  const e_bg =
    monitor?.calibration ?? (reference && spreadOf(referenceShift, { V_assumed: reference.nominal, V_ref: reference }))
  const e_V = e_bg && seesCells(design) ? readError(walk, e_bg, rail.lower) : undefined
  const least = (duty: Ends) => current.lower * shareShown(walk, duty.from).from
  const sampled = largestRead(walk, pulse)
  const beyond = { from: reach.amperes, to: sampled }
  /** What is read: the current of a pulse that is as large as at its edge, or a mean that is as small as the duty makes it. */
  const most = Math.max(current.upper * (1 + (pulse?.first ?? 0)), sampled)
  const read = (duty: Ends) => between(least(duty), Math.max(most, least(duty)), least(duty))
  const times = (e_P: Spread, duty: Ends, second: 'current' | 'rail') => {
    const k_P = pulse ? shareOfPulse(pulse, { frequency: pwm.frequency, duty }, ['current', second]) : exact(1)
    // The firmware knows the duty that it tells; what the switch makes of it is furthest off where it is shortest.
    const { from, to } = conductingIn(design, walk.firmware.edges(), duty.from)
    const [short, long] = shownOf({ from: duty.from / to, to: duty.from / from }, second)
    // What is read of a pulse has risen already; of its power the rise takes most where it is shortest.
    const most = (k_P.upper * long) / riseOf(design, from)
    const least = k_P.lower * short
    return spreadOf(powerErrorPulsed, { e_P, k_P: between(least, most, 1) })
  }
  /** A sample is taken for as long as the duty tells. A mean has in it how long it was, and its square has that twice. */
  const shownOf = ({ from, to }: Ends, second: 'current' | 'rail'): [number, number] =>
    design.hall.reading !== 'averaged' ? [from, to] : second === 'rail' ? [1, 1] : [1 / to, 1 / from]
  const product = (duty: Ends): Spread | null => {
    const e_I = relativeError(corrected, read(duty), beyond)
    if (e_I === null || e_V === undefined) return null
    const e_P = isTwice
      ? spreadOf(powerErrorTwice, { e_bg: e_V, e_I, e_k, e_q: zeroError(walk, e_V), k_q: zeroShare(walk, least(duty)) })
      : spreadOf(powerErrorOnce, { e_bg: e_V, e_I, e_k })
    return times(e_P, duty, 'rail')
  }
  const square = (duty: Ends): Spread | null => {
    const e_I = relativeError(errors, read(duty), beyond)
    if (e_I === null || e_R === null) return null
    return times(spreadOf(powerErrorSquare, { e_I, e_R }), duty, 'current')
  }
  return (duty) => ({
    voltageTimesCurrent: product(duty),
    referenceEnters: isTwice ? 2 : 1,
    squareTimesResistance: square(duty),
  })
}

/** The largest resistance and current that must be read, ohm and A. */
function reachOf({ divider, hall: { current } }: ReadDesign) {
  const [from, to] = (['from', 'to'] as const).map((end) =>
    readNumber(current[end], { field: `hall.current.${end}`, unit: 'A' }),
  ) as [number, number]
  const ohms = readNumber(divider.load.to, { field: 'divider.load.to', unit: 'ohm' })
  return { ohms, amperes: largestAsked({ from, to }) }
}

/** A sensor of fixed output whose code is a share of the rail: the firmware must know the rail to make volts of it. */
function entersTwice({ hall: { sensor, converter } }: ReadDesign): boolean {
  const { reference } = converter
  const kind = typeof reference === 'object' && reference !== null ? reference.kind : reference
  return sensor.output === 'fixed' && kind !== 'absolute'
}

/** Relative error of the rail as it is read: what the converter adds, where no calibration has it in it, and the divider. */
const readError = (walk: Walk, e_bg: Spread, rail: number): Spread =>
  readThrough(walk.design, rail, walk.design.monitor?.calibration === undefined ? converted(walk, e_bg) : e_bg)

/** The reference through the converter, whose counts weigh most where its code is least. */
function converted(walk: Walk, e_bg: Spread): Spread {
  const { design, firmware } = walk
  const { gain: e_gain, counts, noise } = converterOf(design)
  const code_bg = weighingCode(design, walk.over(usableSpan(walk)).solved.rail.lower, firmware.rests.upper)
  const most = counts + 0.5 + 3 * noise
  return spreadOf(railReadError, { e_bg, e_gain, n_err: between(-most, most, 0), code_bg })
}

/** What the firmware can't know of the way from board to load: it takes the nominal drop off. */
const shareError = (R_L: Spread, R_way: Spread): Spread =>
  spreadOf(powerShareError, { R_L, R_way, R_Lnom: R_L.nominal, R_waynom: R_way.nominal })

/** A largest error at a true value. */
export interface ErrorAt {
  readonly truth: number
  readonly error: number
  /** Whether that is all of it: what stands at a clip may err by less than what does not. */
  readonly isSure: boolean
}

const errorsAmong = (rows: readonly BlockRow[], held: (row: BlockRow) => Margin): ErrorAt[] =>
  rows.flatMap((row) =>
    row.kind === 'error' && row.unit !== 'K' && row.unit !== 'degC' && row.truth > 0
      ? [errorOf(row.truth, held(row))]
      : [],
  )

const errorOf = (truth: number, { worst, verdict }: Margin): ErrorAt => ({
  ...{ truth, error: worst },
  isSure: verdict !== 'not sure',
})

/** The errors that a block holds over all that is used. */
function heldErrors(walk: Walk, block: BlockName): ErrorAt[] {
  const stage = walk.stages.find((one) => one.block === block)!
  const held = walk.over(usableSpan(walk))
  const ready = held.ready(stage)
  const ids = new Map(ready.map(({ id, row }) => [row, id]))
  return errorsAmong(
    ready.map(({ row }) => row),
    (row) => held.margin(stage, ids.get(row)!)!,
  )
}

/**
 * The errors of the current where the firmware takes each code against the rail as it has just read it: the full scale is then
 * what it takes it for, while the sensor still feels its supply move.
 */
function correctedErrors(walk: Walk): ErrorAt[] {
  const { design, firmware } = walk
  const { solved } = walk.over(usableSpan(walk))
  const { choice, conditions } = hallAt(design, solved, firmware)
  const { sensorSupply, calibration } = choice
  const isOnRail = sensorSupply === undefined || sensorSupply === 'rail'
  const { rest } = solved.rails[railOf(design, 'converter')]!
  const { from, to } = conditions.rail as Ends
  const rail = { from: firmware.rail, to: firmware.rail }
  const supply = isOnRail ? { sensorSupply: from === to ? exact(from) : between(from, to) } : {}
  const zero = typeof calibration === 'object' && calibration.kind !== 'none' ? calibration : undefined
  const restsAt = { rail: firmware.rail, ...(isOnRail && { supply: zero?.kind === 'zero' ? firmware.rests : rest }) }
  try {
    const { rows } = hall.setup(
      hall.read(
        { ...choice, ...supply, ...(zero && { calibration: { ...zero, ...restsAt } as HallChoice['calibration'] }) },
        { ...conditions, rail, nominalRail: firmware.rail },
      ),
    )
    return errorsAmong(rows, (row) => holdRow(row).margin)
  } catch (error) {
    // As where the block itself refuses what the supply leaves it.
    if (error instanceof InputError) return []
    throw error
  }
}

const kindOf = (calibration: ReadDesign['hall']['calibration']): string =>
  typeof calibration === 'object' ? calibration.kind : (calibration ?? 'none')

/**
 * Largest error of a block's reading as a share of what is read, over all that it may have to read. A block holds its error
 * at a few true values; between two of them it is at most what the straight line between says, below the least one what it is
 * there, above the largest, or below one that is in doubt, in proportion. A reading below nothing is shown as nothing; of what is larger
 * than must be read nothing is known but that it is shown as no less than that.
 *
 * @param beyond - from the largest that must be read to the largest that is
 */
export function relativeError(found: readonly ErrorAt[], { lower, upper }: Spread, beyond?: Ends): Spread | null {
  const errors = [...found].sort((a, b) => a.truth - b.truth)
  if (errors.length === 0) return null
  const truths = errors.map(({ truth }) => truth).filter((truth) => truth > lower && truth < upper)
  const share = Math.max(...[lower, ...truths, upper].map((x) => errorAt(errors, x) / x))
  const cut = beyond && beyond.to > beyond.from ? 1 - (beyond.from - errorAt(errors, beyond.from)) / beyond.to : 0
  return share === 0 && cut === 0 ? exact(0) : between(-Math.min(Math.max(share, cut), 1), share, 0)
}

function errorAt(errors: readonly ErrorAt[], x: number): number {
  const above = errors.findIndex(({ truth }) => truth >= x)
  if (above === 0) return errors[0]!.error
  const below = errors[(above < 0 ? errors.length : above) - 1]!
  const inProportion = (below.error * x) / below.truth
  if (above < 0) return inProportion
  const next = errors[above]!
  if (!next.isSure) return Math.max(inProportion, (next.error * x) / next.truth)
  return below.error + ((next.error - below.error) * (x - below.truth)) / (next.truth - below.truth)
}

/**
 * What of the rail's error is in the zero of the current: all of it where the firmware has the data sheet's; what the
 * reference has moved where a zero was read with it; nothing where that was just before.
 */
function zeroError({ design }: Walk, e_V: Spread): Spread {
  const kind = kindOf(design.hall.calibration)
  if (kind === 'none') return e_V
  return kind === 'zero' ? (design.controller.internalReference?.drift ?? e_V) : exact(0)
}

/** Zero output of a sensor over the span that the least load current makes, both as the firmware takes them. */
const zeroShare = ({ design: { hall } }: Walk, least: number): number =>
  sensorSpread(hall.sensor, 'zeroOutput').nominal / (sensorSpread(hall.sensor, 'sensitivity').nominal * least)
