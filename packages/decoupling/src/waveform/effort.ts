/** Steps that are left of what a check may take. */
export interface Allowance {
  left: number
}

/** What became of some work. */
export interface Watched<T> {
  readonly result: T
  /** Whether a value was replaced by a bound on its safe side. */
  readonly isBounded: boolean
  /** Whether something wasn't looked at to its end, so that nothing is sure. */
  readonly isOpen: boolean
}

/**
 * What following waveforms costs, counted in steps and not in seconds, so that the same question has the same answer. Where an
 * allowance is spent, or one waveform alone takes too much, a bound stands in for the value, and that is said.
 */
class Effort {
  #allowance: Allowance = { left: Number.POSITIVE_INFINITY }
  isBounded = false
  isOpen = false
  /** Steps so far, of all work. */
  spent = 0

  /** Does some work within an allowance. */
  watch<T>(allowance: Allowance, work: () => T): Watched<T> {
    const before = { allowance: this.#allowance, isBounded: this.isBounded, isOpen: this.isOpen }
    this.#allowance = allowance
    this.isBounded = false
    this.isOpen = false
    try {
      const result = work()
      return { result, isBounded: this.isBounded, isOpen: this.isOpen }
    } finally {
      this.#allowance = before.allowance
      this.isBounded ||= before.isBounded
      this.isOpen ||= before.isOpen
    }
  }

  spend(steps: number): void {
    this.#allowance.left -= steps
    this.spent += steps
  }

  /** Whether so many steps are left. */
  has(steps: number): boolean {
    return this.#allowance.left >= steps
  }

  /** Whether nothing so far was bounded or left open. */
  get isWhole(): boolean {
    return !this.isBounded && !this.isOpen
  }

  get isSpent(): boolean {
    return this.#allowance.left <= 0
  }

  /** Most steps for one waveform: many, or where little is left, few. */
  most(many: number, few: number): number {
    const { left } = this.#allowance
    return left > many ? many : Math.max(few, left)
  }
}

/** That of the work which is being done. */
export const effort = /*#__PURE__*/ new Effort()
