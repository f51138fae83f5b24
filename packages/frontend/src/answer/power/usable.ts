import type { Walk } from '../../walk/walk.js'

/** From full to the charge that must be usable, or to the cut-off where that comes first. */
export function usableSpan({ charges, around, design }: Walk) {
  const to = Math.max(charges.at(-1)!, 1 - design.requirements.usableCharge)
  return { charge: { from: charges[0]!, to: Math.min(to, charges[0]!) }, ...around }
}
