import { format } from '@ohmward/quantity'

/** A way out with its size, for the worst board. */
export interface Remedy {
  readonly id: string
  readonly name: string
  /** What it must be; `null` where it can't help. */
  readonly value: number | null
  /** The same with three digits, rounded to the safe side; `null` where it can't help. */
  readonly shown: string | null
  readonly unit: string
  readonly sense: 'at least' | 'at most'
  /** What there is now, where it can be compared. */
  readonly present: number | null
  /** What it costs, or why it can't help. */
  readonly text: string
}

/** A way out, its printed size still to come. */
export type Sized = Omit<Remedy, 'shown'>

/** A number at three digits, rounded to the side on which it is enough. */
export function shownOf({ value, unit, sense }: Pick<Remedy, 'value' | 'unit' | 'sense'>): string | null {
  if (value === null || value === 0) return value === null ? null : format(0, unit)
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) - 2)
  // What is a whole step but for its last bits stays.
  const steps = sense === 'at least' ? Math.ceil(value / step - 1e-9) : Math.floor(value / step + 1e-9)
  return format(steps * step, unit, { digits: 4 })
}
