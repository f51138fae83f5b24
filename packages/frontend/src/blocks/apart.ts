import { between, exact, type Spread } from '@ohmward/quantity'
import { type Part, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'

/** The rail of a part that doesn't live with the converter. */
export function apartFrom<R>(design: ReadDesign, part: Part, rails: Readonly<Record<string, R>>): R | undefined {
  const name = railOf(design, part)
  return name === railOf(design, 'converter') ? undefined : rails[name]
}

/** A voltage with what the firmware takes it for as its nominal, wherever that lies. */
export const about = ({ lower, upper }: Spread, assumed: number): Spread =>
  lower === assumed && upper === assumed
    ? exact(assumed)
    : between(Math.min(lower, assumed), Math.max(upper, assumed), assumed)

/** Ends of a spread. */
export const ends = ({ lower, upper }: Spread) => ({ from: lower, to: upper })
