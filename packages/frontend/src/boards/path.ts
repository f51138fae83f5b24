import { exact, type Spread } from '@ohmward/quantity'
import { copperCoefficient, type ReadElement } from '@ohmward/supply'
import { elementGain, elementLoss, elementRise, warmResistance } from '@ohmward/supply/formulas'
import { hottestFollowed } from '../design/warm-path.js'

/** A value of every board, by its name and its spread. */
export type Column = (name: string, spread: Spread) => Float64Array

/** An element of the path on every board. */
interface ElementOn {
  readonly of: ReadElement
  /** At 20 °C, ohm, its coefficient, 1/K, and its forward voltage, V. */
  readonly R_20: Float64Array
  readonly alpha_el: Float64Array
  readonly V_el: Float64Array
}

/** A stretch of the path on every board, in air of a temperature. */
export class Conductors {
  readonly #elements: readonly ElementOn[]
  readonly #celsius: number
  readonly #count: number

  constructor(path: readonly ReadElement[], celsius: number, column: Column, count: number) {
    this.#celsius = celsius
    this.#count = count
    this.#elements = path.map((of) => ({
      of,
      R_20: column(`path ${of.name}`, of.resistance),
      alpha_el: column(`coefficient ${of.name}`, coefficientOf(of)),
      V_el: column(`drop ${of.name}`, of.drop),
    }))
  }

  /** Whether a current warms it. */
  get isWarmed(): boolean {
    return this.#elements.some(({ of }) => (of.thermalResistance ?? 0) > 0)
  }

  /** Forward voltages in series, V. */
  drop(): Float64Array {
    return this.#sum(({ V_el }, i) => V_el[i]!)
  }

  /** Resistance in series, ohm: as warm as the air, or as a current makes it that flows for long, A rms. */
  ohms(rms?: Float64Array): Float64Array {
    return this.#sum(({ of, R_20, alpha_el, V_el }, i) => {
      const own = { R_20: R_20[i]!, alpha_el: alpha_el[i]! }
      const R_el = warmResistance({ ...own, dT_el: this.#celsius - 20 })
      const R_thel = of.thermalResistance
      if (rms === undefined || R_thel === undefined) return R_el
      const I_el = rms[i]!
      const g_el = elementGain({ ...own, R_thel, I_el })
      const P_el = elementLoss({ I_el, R_el, V_el: V_el[i]! })
      const most = (of.highestCelsius ?? hottestFollowed) - this.#celsius
      // One that runs away is followed to its highest temperature, as in the walk.
      const rise = g_el < 1 ? elementRise({ R_thel, P_el, g_el }) : most
      return warmResistance({ ...own, dT_el: this.#celsius - 20 + rise })
    })
  }

  #sum(of: (element: ElementOn, i: number) => number): Float64Array {
    const total = new Float64Array(this.#count)
    for (const element of this.#elements) for (let i = 0; i < this.#count; i++) total[i]! += of(element, i)
    return total
  }
}

function coefficientOf({ temperatureCoefficient: given }: ReadElement): Spread {
  if (given === 'copper') return exact(copperCoefficient)
  return given === 'none' ? exact(0) : given
}
