import type { Design } from '@ohmward/frontend'
import { type Box, eitherSign, fixed, type Limits, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'
import type { Whole } from './whole.js'

/** What more of a board decides how it is used: charge, monitor, drawer, capacitors. */
export type UseValue =
  | 'capacity'
  | 'capacityLeft'
  | 'selfDischarge'
  | 'asleep'
  | 'leak'
  | 'internal'
  | 'calibrated'
  | 'readGain'
  | 'readCounts'
  | 'pinCounts'
  | 'stopNoise'
  | 'lacks'
  | 'nextNoise'
  | 'scale'
  | 'upper'
  | 'lower'
  | 'pinLeak'
  | 'farads'
  | 'series'
  | 'onShare'
  | 'begun'

/** Thresholds of the monitor, V, in the order in which they are to act. */
export interface Watch {
  readonly underLoad: boolean
  readonly alarms: readonly (readonly [name: string, threshold: number])[]
  readonly hysteresis: number | undefined
  readonly isCalibrated: boolean
  readonly isDivided: boolean
  readonly bits: number
  readonly internal: number
}

/** Numbers of the use of a design that no board varies. */
export interface Use {
  readonly frequency: number
  readonly duty: number
  readonly time: number
  readonly watchdog: number | undefined
  readonly powerLimit: number
  readonly usable: number
  readonly lowest: number
  readonly damage: number
  readonly watch: Watch | undefined
}

/** A design with its use. */
export interface Used extends Whole {
  readonly useBox: Box<UseValue>
  readonly use: Use
}

const none = fixed(0)

/** PWM, capacitors, monitor, bursts, drawer and a power limit at random, for a whole design. */
export function drawUse(random: Random, whole: Whole): Used {
  const { given, plain, divider } = whole
  const isCell = plain.source.kind === 'cell'
  const cells = plain.source.kind === 'cell' ? plain.source.inSeries : 1
  const frequency = random.one([50, 200, 1000, 5000, 20_000])
  const duty = random.one([0.4, 0.6, 0.8, 0.95, 1])
  const farads = within(random.one([47, 220, 1000, 4700]) * 1e-6, 20, 'F')
  const series = random.one([0.002, 0.01, 0.05])
  const wait = random.now(0.3) ? whole.current.plain.wait : digits((0.2 / frequency) * random.one([0.1, 0.3, 0.6, 0.9]))
  const underLoad = random.now(0.4)
  const time = random.even(5, 40)
  const watchdog = random.now(0.5) ? digits(time * random.even(1.1, 3)) : undefined
  const asleep = within(random.decades(2e-6, 2e-4), 50, 'A')
  const leak = random.now(0.6) ? within(random.decades(2e5, 5e6), 5, 'ohm') : undefined
  const lost = random.one([0.01, 0.03, 0.06])
  const left = random.even(0.65, 0.95)
  const usable = random.one([0.7, 0.85, 0.95])
  const calibrated = random.now(0.5) ? random.one([0.003, 0.01]) : undefined
  const noise = random.one([0, 0.005, 0.02])
  const stop = digits(cells * (underLoad ? random.even(2.5, 3) : random.even(2.85, 3.4)))
  const isDivided = plain.lives.converter > 0
  // A converter with a reference of its own reads no rail but through a divider.
  const { ownReference } = divider.plain
  const isWatched = isCell && random.now(0.85) && (isDivided || !ownReference)
  const latch = random.now(0.5) ? digits(stop - 0.1 * cells) : undefined
  const hysteresis = random.even(0.05, 1.5)
  const lacking = underLoad ? undefined : random.one([undefined, 0, 0.1, 0.4])
  const pair = { upper: within(100_000 * (cells * 2 - 1), 1, 'ohm'), lower: within(100_000, 1, 'ohm') }
  const alarms = [
    ['warning', digits(stop + 0.2 * cells)],
    ['reduction', digits(stop + 0.1 * cells)],
    ['stop', stop],
    ...(latch === undefined ? [] : [['latch', latch] as const]),
  ] as const
  const most = (plain.source.kind === 'cell' ? 4.2 * cells : whole.box.port[2]) ** 2 / whole.box.blade[0]
  const powerLimit = digits(most * random.even(0.2, 0.9))
  const { monitor: _, ...bare } = given
  const { source } = given.supply
  const internal = whole.plain.internal
  const hall = { ...given.hall, wait }
  const used = {
    ...bare,
    supply: {
      ...given.supply,
      source: {
        ...source,
        ...(isCell && { capacity: '3000 mAh ±5 %', capacityLeft: left, selfDischarge: lost, damageVoltage: 2.5 }),
      },
    },
    load: { ...given.load, rise: '1 us' },
    pwm: { frequency: `${frequency} Hz`, duty: { from: 0.2, to: duty } },
    hall,
    decoupling: {
      ...given.decoupling,
      capacitors: [{ capacitance: farads.given, seriesResistance: series, ratedVoltage: 25 }],
    },
    ...(isWatched && {
      monitor: {
        reads: underLoad ? 'under load' : 'at rest',
        ...Object.fromEntries(alarms),
        hysteresis,
        noise,
        ...(lacking !== undefined && { lacking }),
        ...(calibrated !== undefined && { calibration: calibrated }),
        ...(isDivided && { divider: { upper: pair.upper.given, lower: pair.lower.given } }),
      },
    }),
    bursts: { time, ...(watchdog !== undefined && { watchdog }) },
    standby: [
      { name: 'asleep', current: asleep.given },
      ...(leak ? [{ name: 'divider', resistance: leak.given }] : []),
    ],
    requirements: { usableCharge: usable, powerLimit, powerError: 0.9 },
  } as unknown as Design
  const d = divider.plain
  const counts = isWatched && calibrated === undefined
  const { converterGain, converterOffset, counts: rounded } = divider.box
  // Offset and nonlinearity, and half a count of rounding for the code and for the threshold each.
  const whole1 = eitherSign(converterOffset[2] + rounded[2] + 0.5)
  const [least, usual, largest] = divider.box.converterReference
  const warmth = Math.max(...whole.box.celsius.map((celsius) => Math.abs(celsius - 25)))
  const drift = divider.box.referenceDrift[2] * warmth
  return {
    ...whole,
    // In pulses a junction is as warm as its mean loss makes it.
    box: { ...whole.box, junction: [0, duty, duty] },
    current: { ...whole.current, plain: { ...whole.current.plain, wait } },
    given: used,
    useBox: {
      capacity: isCell ? ([10_260, 10_800, 11_340] as Limits) : none,
      capacityLeft: fixed(left),
      selfDischarge: fixed(lost),
      asleep: asleep.limits,
      leak: leak?.limits ?? fixed(1e30),
      internal,
      calibrated: eitherSign(calibrated ?? 0),
      readGain: counts ? converterGain : none,
      readCounts: counts ? whole1 : none,
      pinCounts: counts && isDivided ? whole1 : none,
      stopNoise: eitherSign(noise),
      lacks: [0, 0, underLoad ? 0 : (lacking ?? 0.2)],
      nextNoise: eitherSign(noise),
      scale: ownReference ? [least * (1 - drift), usual, largest * (1 + drift)] : none,
      upper: pair.upper.limits,
      lower: pair.lower.limits,
      pinLeak: counts && isDivided ? divider.box.pinLeakage : none,
      farads: farads.limits,
      series: [0, series, series],
      onShare: [0.2, duty, duty],
      begun: [0, 0, 1],
    },
    use: {
      frequency,
      duty,
      time,
      watchdog,
      powerLimit,
      usable,
      lowest: 3,
      damage: 2.5,
      watch: isWatched
        ? {
            underLoad,
            alarms,
            hysteresis: latch === undefined || underLoad ? hysteresis : undefined,
            isCalibrated: calibrated !== undefined,
            isDivided,
            bits: d.bits,
            internal: internal[1],
          }
        : undefined,
    },
  }
}
