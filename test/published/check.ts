/** One printed value of the world outside, and how the packages compute it. */
export interface PublishedCheck {
  /** Unique: document, place, quantity, such as `GUM-H1-u`. */
  readonly id: string
  /** Package that computes it: `budget`. */
  readonly package: string
  /** Document, year, clause or table. */
  readonly source: string
  /** Set where the value wasn't read in the document: it is recalled, or `workedOut` with a formula that was read. */
  readonly fromMemory?: true
  readonly quantity: string
  readonly unit: string
  /** As printed. */
  readonly printed: number
  /** Half a unit of the last printed digit, unless the remark says why. */
  readonly tolerance: number
  readonly compute: () => number
  readonly remark?: string
}

/** Marks a value that isn't printed itself: only the formula was read. */
export const workedOut = {
  fromMemory: true,
  remark: 'Worked out with the formula that was read; the value itself was not.',
} as const

/** One line of arithmetic from a known pitfall, computed again without any package and, where one covers it, with. */
export interface TrapRow {
  /** Number of the pitfall: `A01`. */
  readonly trap: string
  readonly statement: string
  readonly printed: number
  readonly tolerance: number
  readonly unit: string
  /** Plain arithmetic, no package. */
  readonly independent: () => number
  /** The same through a package. */
  readonly library?: () => number
}

/** What the committed results file says about a published check. */
export interface PublishedResult extends Omit<PublishedCheck, 'compute' | 'fromMemory' | 'remark'> {
  readonly fromMemory: boolean
  readonly computed: number
  /** Computed minus printed. */
  readonly difference: number
  readonly remark: string
}

/** What the committed results file says about a row of the pitfalls. */
export interface TrapResult extends Omit<TrapRow, 'independent' | 'library'> {
  readonly independent: number
  /** `null` where no package covers the line. */
  readonly library: number | null
}

/**
 * Significant digits of every computed value in the results files. Enough to show the agreement with any printed
 * value, few enough that the last bit of an elementary function on another machine doesn't matter.
 */
export const resultDigits = 8

/** Rounds to the digits of the results files. */
export const rounded = (value: number, digits = resultDigits): number => Number(value.toPrecision(digits))

/** Computed minus printed to three digits; what is below the results' own digits is 0. */
export function difference(computed: number, printed: number): number {
  const delta = rounded(computed) - printed
  const noise = Math.max(Math.abs(computed), Math.abs(printed)) * 10 ** (1 - resultDigits)
  return Math.abs(delta) < noise ? 0 : rounded(delta, 3)
}

/** A tolerance given in decimals may not fail by the binary form of the decimals. */
export function isWithin(computed: number, printed: number, tolerance: number): boolean {
  return Math.abs(computed - printed) <= tolerance + 4 * Number.EPSILON * Math.abs(printed)
}
