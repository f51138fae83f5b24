import type { ReadChoice } from '../choice.js'

/** Resistance error allowed at a resistance. */
export const allowedAt = ({ error }: ReadChoice, R_x: number) =>
  error.kind === 'share' ? error.value * R_x : error.value
