import type { ReadChoice } from '../choice.js'
import { type Size, sizes } from '../wanted.js'

/** Where none is held at a load, what is held at the next. */
const next: Readonly<Record<Size, readonly Size[]>> = {
  smallest: ['smallest', 'nominal', 'largest'],
  nominal: ['nominal', 'largest', 'smallest'],
  largest: ['largest', 'nominal', 'smallest'],
}

/** The load of each size. */
export const loadOf = ({ load }: ReadChoice, size: Size): number =>
  ({ smallest: load.from, nominal: load.nominal, largest: load.to })[size]

/** Resistance error allowed at a load; where none is held there, by what is held at the next. */
export function allowedAt(choice: ReadChoice, size: Size): number {
  const { kind, value } = next[size].map((one) => choice.error[one]).find((one) => one !== undefined)!
  return kind === 'share' ? value * loadOf(choice, size) : value
}

/** The loads at which an error is held, each with what is allowed there. */
export const heldLoads = (choice: ReadChoice) =>
  sizes
    .filter((size) => choice.error[size] !== undefined)
    .map((size) => ({ R_x: loadOf(choice, size), allowed: allowedAt(choice, size) }))

/** Smallest relative error allowed of a load; infinite where one of 0 ohm alone is held. */
export const allowedShare = (choice: ReadChoice): number =>
  Math.min(...heldLoads(choice).map(({ R_x, allowed }) => (R_x > 0 ? allowed / R_x : Infinity)))
