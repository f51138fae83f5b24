import { effort } from './effort.js'

/** Nearer than so many steps to the end of what a check may take, what is left decides how far a waveform is followed: nothing is remembered there. */
const enough = 1e6
/** Numbers of the longest question: those of seven branches with their curves, of source, load and pulses. */
const most = 40

/**
 * Numbers that were worked out lately, by the numbers that they follow from. The rows of a rail ask for the same circuits one after the
 * other, of which half were asked for already: an end of a range changes nothing in some of them, and the load on and in pulses has the
 * same capacitors. What is taken from here spends its steps again, so that a check ends where it would have ended without. Each
 * question has one place, which the next one that falls there takes over; a table of numbers, since what lived on as objects cost more to
 * collect than to work out again.
 */
export class Lately {
  /** The question, to be written here from the beginning. */
  readonly asked = new Float64Array(most)
  /** The answer. */
  readonly told: Float64Array
  readonly #words = new Uint32Array(this.asked.buffer)
  readonly #width: number
  #table: Float64Array | undefined

  /**
   * @param places - how many are remembered, a power of 2
   * @param size - numbers of an answer
   */
  constructor(
    private readonly places: number,
    size: number,
  ) {
    this.told = new Float64Array(size)
    this.#width = 2 + most + size
  }

  /** Leaves in `told` the answer to the first `size` numbers of `asked`: that of lately, or what `work` leaves there. */
  answer(size: number, work: () => void): void {
    const { asked, told } = this
    this.#table ??= new Float64Array(this.places * this.#width).fill(Number.NaN)
    const rows = this.#table
    const place = this.#placeOf(size)
    const isKnown = rows[place] === size && this.#isAsked(rows, place + 2, size)
    const from = place + 2 + most
    if (isKnown && effort.has(rows[place + 1]! + enough)) {
      effort.spend(rows[place + 1]!)
      for (let k = 0; k < told.length; k++) told[k] = rows[from + k]!
      return
    }
    const before = effort.spent
    work()
    // What wasn't followed to its end is no answer for the next one.
    if (!effort.isWhole || !effort.has(enough)) return
    rows[place] = size
    rows[place + 1] = effort.spent - before
    for (let k = 0; k < size; k++) rows[place + 2 + k] = asked[k]!
    for (let k = 0; k < told.length; k++) rows[from + k] = told[k]!
  }

  #placeOf(size: number): number {
    let hash = 0
    for (let k = 0; k < 2 * size; k++) hash = Math.imul(hash ^ this.#words[k]!, 0x01000193) ^ (hash >>> 15)
    return (hash & (this.places - 1)) * this.#width
  }

  #isAsked(rows: Float64Array, from: number, size: number): boolean {
    for (let k = 0; k < size; k++) if (rows[from + k] !== this.asked[k]) return false
    return true
  }
}
