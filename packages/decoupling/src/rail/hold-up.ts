import { demand, format, InputError, preferredAtLeast, type Series } from '@ohmward/quantity'

/** A hold-up capacitor that was sized. */
export interface SizedHoldUp {
  /** Preferred value that is enough with its tolerance and its age, F. */
  readonly value: number
  /** What the burst needs, F. */
  readonly needed: number
  readonly text: string
}

/**
 * Sizes the hold-up capacitor of a logic rail behind a diode: the preferred value that is enough after tolerance and age.
 *
 * @param x - lowest rail at rest, V; largest forward voltage, cold, V; limit at its largest, V; logic current, A; burst, s
 * @param part - share of its value that is left at least by tolerance, bias, cold and age; 0.6 by default
 * @returns `null` where the diode alone takes more than there is
 * @throws InputError where a value isn't finite and above 0
 */
export function sizeHoldUp(
  x: {
    readonly rest: number
    readonly forwardVoltage: number
    readonly limit: number
    readonly current: number
    readonly time: number
  },
  part: { readonly left?: number; readonly series?: Series } = {},
): SizedHoldUp | null {
  demand(typeof x === 'object' && x !== null, {
    field: 'x',
    value: x,
    allowed: 'rest, forwardVoltage, limit, current, time',
  })
  const { left = 0.6, series = 'E6' } = part
  for (const [field, value] of Object.entries({ ...x, left })) {
    if (!(Number.isFinite(value) && value > 0))
      throw new InputError({ field, value, allowed: 'finite and more than 0' })
  }
  if (left > 1) throw new InputError({ field: 'left', value: left, allowed: 'more than 0, at most 1' })
  const head = x.rest - x.forwardVoltage - x.limit
  if (head <= 0) return null
  const needed = (x.current * x.time) / head
  const value = preferredAtLeast(needed / left, series)
  const text = `${format(value, 'F')} of which ${format(value * left, 'F', { digits: 2 })} are left hold ${format(x.time, 's')} at ${format(x.current, 'A')}`
  return { value, needed, text }
}
