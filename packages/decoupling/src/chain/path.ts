import { chain, type PlaceOf } from '@ohmward/budget'
import { copperCoefficient, type ReadElement } from '@ohmward/supply'
import { warmResistance } from '@ohmward/supply/formulas'
import type { ReadSource } from '../choice/choice.js'

/** Resistance of an element of the path at its temperature. */
export const elementChain = /*#__PURE__*/ chain([warmResistance])

/** Values of an element by symbol. */
export type ElementPlace = PlaceOf<typeof elementChain.formulas>

/** The power path up to the rail on one board. */
export interface Path {
  /** Each element's values, in the order of the current. */
  readonly elements: readonly ElementPlace[]
  /** Fills them at a temperature; the resistance of all, ohm. */
  readonly follow: (celsius: number) => number
  /** Resistance of the protection's switches, ohm; 0 without one. */
  readonly protection: () => number
}

/** Makes the places of a path; the resistances at 20 °C are put. */
export function pathOf({ path, protection }: ReadSource): Path {
  const elements = path.map((element) =>
    Object.assign(elementChain.place(), { R_20: 0, alpha_el: coefficientOf(element), dT_el: 0 }),
  )
  const follow = (celsius: number): number => {
    let sum = 0
    for (const y of elements) {
      y.dT_el = celsius - 20
      y.R_el = warmResistance(y)
      sum += y.R_el
    }
    return sum
  }
  return { elements, follow, protection: () => elements[protection]?.R_el ?? 0 }
}

function coefficientOf({ temperatureCoefficient: alpha }: ReadElement): number {
  if (alpha === 'copper') return copperCoefficient
  return alpha === 'none' ? 0 : alpha.nominal
}
