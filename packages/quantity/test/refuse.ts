import { InputError } from '@ohmward/quantity'
import { expect } from 'vitest'

/** Runs what must be refused and returns the error, which must be the library's own. */
export function refusalOf(run: () => unknown): InputError {
  try {
    run()
  } catch (error) {
    expect(error).toBeInstanceOf(InputError)
    return error as InputError
  }
  throw new Error('nothing was refused')
}
