import { exactly, type Input, InputError, part, type Read, range, type Spread, spread } from '@ohmward/quantity'

const time = { unit: 's', min: 0, max: 100 } as const

/** What is switched: one of three. */
const sizes = /*#__PURE__*/ (() =>
  ({
    current: /*#__PURE__*/ spread({
      symbol: 'I_step',
      unit: 'A',
      above: 0,
      max: 1e4,
      optional: true,
      meaning: 'a constant current',
    }),
    resistance: /*#__PURE__*/ spread({
      symbol: 'R_L',
      unit: 'ohm',
      above: 0,
      max: 1e6,
      optional: true,
      meaning: 'a resistor',
    }),
    power: /*#__PURE__*/ spread({
      symbol: 'P_L',
      unit: 'W',
      above: 0,
      max: 1e5,
      optional: true,
      meaning: 'a constant power',
    }),
  }) as const)()

/** When it is switched, and what it must get. */
const timing = /*#__PURE__*/ (() =>
  ({
    rise: /*#__PURE__*/ exactly({
      symbol: 't_r',
      ...time,
      otherwise: 0,
      meaning: "rise time of the load's current, in a straight line",
    }),
    fall: /*#__PURE__*/ exactly({
      symbol: 't_f',
      ...time,
      optional: true,
      meaning: 'the same when it is switched off; the rise time by default',
    }),
    duration: /*#__PURE__*/ exactly({
      symbol: 't_on',
      unit: 's',
      min: 1e-9,
      max: 1e5,
      optional: true,
      meaning: 'how long it stays on, from the beginning of the rise; without end by default; not with PWM',
    }),
    pwm: /*#__PURE__*/ part(
      {
        frequency: /*#__PURE__*/ range({
          unit: 'Hz',
          min: 1e-2,
          max: 1e7,
          orOne: true,
          meaning: 'PWM frequency, one or a range to cover',
        }),
        duty: /*#__PURE__*/ range({
          unit: '1',
          above: 0,
          below: 1,
          orOne: true,
          meaning: 'share of the time that it is on, one or a range to cover',
        }),
      },
      { meaning: 'pulses instead of staying on', optional: true },
    ),
    wantedPower: /*#__PURE__*/ spread({
      symbol: 'P_want',
      unit: 'W',
      above: 0,
      max: 1e5,
      optional: true,
      meaning: 'power that the load must get, where a resistor is controlled by its duty',
    }),
  }) as const)()

/** What is switched on the rail, and when. */
export const loadRecord = /*#__PURE__*/ (() => ({ ...sizes, ...timing }) as const)()

type GivenLoad = Read<typeof loadRecord>

type Ends = { readonly from: number; readonly to: number }

/** What is switched, as it was read. */
export interface ReadLoad {
  readonly kind: 'current' | 'resistor' | 'power'
  readonly value: Spread
  readonly rise: number
  readonly fall: number
  readonly duration: number
  /** To cover: every frequency and every duty in them. */
  readonly pwm: { readonly frequency: Ends; readonly duty: Ends } | undefined
  readonly wantedPower: Spread | undefined
}

/** What is switched on the rail as its user writes it: one size, and when. */
export type OneSize = { readonly current: Input } | { readonly resistance: Input } | { readonly power: Input }

const kinds = { current: 'current', resistance: 'resistor', power: 'power' } as const

/** The load in one piece. @throws InputError where it has no size or several, or its times don't go together */
export function loadOf(given: GivenLoad): ReadLoad {
  const { rise, fall = rise, pwm, wantedPower } = given
  const stated = (['current', 'resistance', 'power'] as const).filter((word) => given[word] !== undefined)
  const [word] = stated
  const value = word && given[word]
  if (word === undefined || value === undefined || stated.length > 1) {
    const said = stated.join(' and ') || undefined
    throw new InputError({ field: 'load', value: said, allowed: 'one of { current }, { resistance }, { power }' })
  }
  if (pwm && word === 'power') {
    throw new InputError({
      field: 'load.pwm',
      value: pwm,
      allowed: 'nothing, except with load.current or load.resistance',
    })
  }
  if (pwm && given.duration !== undefined) {
    throw new InputError({ field: 'load.duration', value: given.duration, allowed: 'nothing beside load.pwm' })
  }
  const duration = given.duration ?? Number.POSITIVE_INFINITY
  const period = pwm && 1 / pwm.frequency.to
  const on = period === undefined ? ends(duration) : { from: pwm!.duty.from * period, to: pwm!.duty.to * period }
  mustFit({ rise, fall, on, period })
  if (wantedPower && word !== 'resistance') {
    const { nominal } = wantedPower
    throw new InputError({ field: 'load.wantedPower', value: nominal, unit: 'W', allowed: 'only with load.resistance' })
  }
  return { kind: kinds[word], value, rise, fall, duration, pwm, wantedPower }
}

const ends = (one: number): Ends => ({ from: one, to: one })

/** Edges that fit into what is on and off, at the highest frequency. */
function mustFit(x: {
  readonly rise: number
  readonly fall: number
  readonly on: Ends
  readonly period: number | undefined
}): void {
  const { rise, fall, on, period } = x
  if (rise > on.from) {
    const hint = 'The load would be switched off before it is on'
    throw new InputError({
      field: 'load.rise',
      value: rise,
      unit: 's',
      allowed: `at most the on-time, ${on.from} s`,
      hint,
    })
  }
  if (period !== undefined && on.to + fall > period) {
    const allowed = `at most the off-time, ${period - on.to} s`
    throw new InputError({ field: 'load.fall', value: fall, unit: 's', allowed })
  }
}
