/** A stream of numbers from 0 to 1 that is the same on every run and every machine (a 32-bit counter, mixed). */
export class Random {
  private state: number

  constructor(seed: number) {
    this.state = seed >>> 0
  }

  /** From 0 up to 1. */
  next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }

  /** Evenly between two numbers, with as many digits as people write. */
  even(from: number, to: number): number {
    return digits(from + (to - from) * this.next())
  }

  /** Evenly in decades. */
  decades(from: number, to: number): number {
    return digits(from * (to / from) ** this.next())
  }

  /** One of a list. */
  one<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]!
  }

  /** True in a share of all calls. */
  now(share: number): boolean {
    return this.next() < share
  }

  /** From a normal distribution (Box and Muller). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.next())) * Math.cos(2 * Math.PI * this.next())
  }
}

/** Three digits. */
export const digits = (x: number): number => Number(x.toPrecision(3))
