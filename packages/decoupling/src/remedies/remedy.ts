/** A way out with its size, for the worst board. */
export interface Remedy {
  readonly id: string
  readonly name: string
  /** What it must be; `null` where it can't help. */
  readonly value: number | null
  readonly unit: string
  readonly sense: 'at least' | 'at most'
  /** What there is now, where it can be compared. */
  readonly present: number | null
  /** What it costs, or why it can't help. */
  readonly text: string
}
