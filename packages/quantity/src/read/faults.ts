import { InputError } from './error.js'

/** Wrong fields of one record, gathered so that its user hears of all of them at once. */
export class Faults {
  private readonly found: InputError[] = []

  /** What a reader leaves; nothing where it refuses, which is kept for later. Other errors pass. */
  attempt<T>(read: () => T): T | undefined {
    try {
      return read()
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      this.found.push(error)
      return undefined
    }
  }

  /** @throws InputError of the first field that was refused, with the others in `also` */
  refuse(): void {
    const [first, ...others] = this.found
    if (first === undefined) return
    if (others.length === 0) throw first
    const { field, value, unit, allowed, hint } = first
    const also = [...first.also, ...others.flatMap((one) => [one, ...one.also])]
    throw new InputError({ field, value, unit, allowed, hint, also })
  }
}
