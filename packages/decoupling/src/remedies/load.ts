import { format } from '@ohmward/quantity'
import type { Board } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import type { Sized } from './remedy.js'
import { type Solve, withBoard, withLoad } from './solve.js'

/** PWM that is proposed where there is none. */
const usualPwm = { frequency: 20e3, edge: 1e-6 }

/** Less of the load itself. */
export function loadRows(read: ReadDecoupling, { load }: Board, solve: Solve): Sized[] {
  const k = solve(
    withBoard(({ load: one }, x) => ({
      load:
        one.kind === 'current'
          ? { ...one, current: one.current * x }
          : one.kind === 'resistor'
            ? { ...one, resistance: one.resistance / x }
            : { ...one, power: one.power * x },
    })),
    1,
    1e-4,
  )
  if (k === null) return []
  const text =
    read.load.duration === Number.POSITIVE_INFINITY
      ? 'Less power, longer heating. Where the steady sag is too much a ramp does not help: it ends at the same voltage.'
      : 'Less power, longer heating.'
  if (load.kind === 'current') {
    const present = load.current
    return [
      { id: 'less-current', name: 'load current', value: k * present, unit: 'A', sense: 'at most', present, text },
    ]
  }
  if (load.kind === 'power') {
    const present = load.power
    return [{ id: 'less-power', name: 'load power', value: k * present, unit: 'W', sense: 'at most', present, text }]
  }
  const present = load.resistance
  const value = present / k
  return [{ id: 'more-resistance', name: 'load resistance', value, unit: 'ohm', sense: 'at least', present, text }]
}

/** When the load is on: duty, length of the burst, rise time. */
export function timeRows(read: ReadDecoupling, solve: Solve): Sized[] {
  const { rise, duration, pwm } = read.load
  if (duration < Number.POSITIVE_INFINITY) {
    const value = solve(
      withLoad((_, x) => ({ duration: x })),
      duration,
      Math.max(rise, 1e-9),
    )
    const text = 'Less heat in each burst; pauses in which the capacitors recover.'
    const row = { id: 'shorter-burst', name: 'length of the burst', unit: 's', sense: 'at most' } as const
    return value === null ? [] : [{ ...row, value, present: duration, text }]
  }
  if (pwm) return dutyRow(read.load, solve)
  const value = solve(
    withLoad((_, x) => ({ rise: x })),
    Math.max(rise, 1e-9),
    10,
  )
  const text = 'A switch that is driven slowly warms at each turn.'
  const row = { id: 'slower', name: 'rise time', unit: 's', sense: 'at least' } as const
  const slower = value === null ? [] : [{ ...row, value, present: rise, text }]
  return [...dutyRow(read.load, solve), ...slower]
}

/** PWM, with less duty where there is some already. */
function dutyRow({ pwm, kind, rise: given, fall: fell }: ReadDecoupling['load'], solve: Solve): Sized[] {
  if (kind === 'power') return []
  const { frequency, edge } = usualPwm
  const most = pwm ? Number.POSITIVE_INFINITY : edge
  const [rise, fall] = [Math.min(given, most), Math.min(fell, most)]
  const pulses = pwm ?? { frequency: { from: frequency, to: frequency }, duty: { from: 0.5, to: 0.5 } }
  const fastest = pulses.frequency.to
  const value = solve(
    ({ read, board }, duty) => ({
      read: { ...read, load: { ...read.load, rise, fall, pwm: pulses } },
      board: {
        ...board,
        pwm: board.pwm ? { ...board.pwm, duty: Math.min(duty, board.pwm.duty) } : { frequency, duty, rise, fall },
      },
    }),
    pwm?.duty.to ?? Math.min(0.999, 1 - fall * frequency),
    Math.max(1e-3, rise * fastest),
  )
  if (value === null) return []
  const edges = rise > 0 ? ` with edges of ${format(rise, 's')}` : ''
  const text = `Less power on average; the capacitors must bear the ripple current.${pwm ? '' : ` At ${format(frequency, 'Hz')}${edges}.`}`
  return [{ id: 'less-duty', name: 'duty', value, unit: '1', sense: 'at most', present: pwm?.duty.to ?? 1, text }]
}

export function sourceRow({ source }: Board, solve: Solve): Sized[] {
  const k = solve(
    withBoard(({ source: one }, x) => ({ source: { ...one, resistance: one.resistance * x } })),
    1,
    1e-4,
  )
  if (k === null) return []
  const text =
    'A cell for higher drain or two in parallel, wider copper, better contacts; also cold and aged. A larger inrush at insertion.'
  const present = source.resistance
  return [
    { id: 'less-source', name: 'source resistance', value: k * present, unit: 'ohm', sense: 'at most', present, text },
  ]
}
