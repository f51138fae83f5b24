import type { Spread } from '@ohmward/quantity'
import type { ReadElement } from '@ohmward/supply'
import { elementGain, elementLoss, elementRise, warmResistance } from '@ohmward/supply/formulas'
import { coefficientOf, hottestFollowed } from '../design/warm-path.js'

/** A value of every board, by its name and its spread. */
export type Column = (name: string, spread: Spread) => Float64Array

/** An element of the path on every board that a current warms. */
interface WarmedOn {
  readonly of: ReadElement
  /** At 20 °C, ohm, its coefficient, 1/K, its forward voltage, V, and its resistance in this air, ohm. */
  readonly R_20: Float64Array
  readonly alpha_el: Float64Array
  readonly V_el: Float64Array
  readonly R_el: Float64Array
}

/** What the formulas of an element work in: one place for all boards. */
const place = () => ({ R_20: 0, alpha_el: 0, dT_el: 0, R_thel: 0, I_el: 0, R_el: 0, V_el: 0, g_el: 0, P_el: 0 })

type Place = ReturnType<typeof place>

/** A stretch of the path on every board, in air of a temperature. */
export class Conductors {
  readonly #celsius: number
  readonly #count: number
  readonly #warmed: WarmedOn[] = []
  readonly #ohms = new Map<string, Float64Array>()
  /** Forward voltages in series, V. */
  readonly drop: Float64Array
  /** Resistance in series, as warm as the air, ohm; and that of what no current warms. */
  readonly cold: Float64Array
  readonly #still: Float64Array

  constructor(path: readonly ReadElement[], celsius: number, column: Column, count: number) {
    this.#celsius = celsius
    this.#count = count
    this.drop = new Float64Array(count)
    this.cold = new Float64Array(count)
    this.#still = new Float64Array(count)
    const y = { ...place(), dT_el: celsius - 20 }
    for (const of of path) {
      const R_20 = column(`path ${of.name}`, of.resistance)
      const alpha_el = column(`coefficient ${of.name}`, coefficientOf(of.temperatureCoefficient))
      const V_el = column(`drop ${of.name}`, of.drop)
      const R_el = R_20.map((own, i) => {
        y.R_20 = own
        y.alpha_el = alpha_el[i]!
        return warmResistance(y)
      })
      this.#ohms.set(of.name, R_el)
      const isWarmed = (of.thermalResistance ?? 0) > 0
      if (isWarmed) this.#warmed.push({ of, R_20, alpha_el, V_el, R_el })
      for (let i = 0; i < count; i++) {
        this.drop[i]! += V_el[i]!
        this.cold[i]! += R_el[i]!
        if (!isWarmed) this.#still[i]! += R_el[i]!
      }
    }
  }

  /** Whether a current warms it. */
  get isWarmed(): boolean {
    return this.#warmed.length > 0
  }

  /** Resistance in series, ohm, as warm as a current makes it that flows for long, A rms. */
  warm(rms: Float64Array): Float64Array {
    const total = this.#still.slice()
    for (const one of this.#warmed)
      this.#warm(one, rms).forEach((ohms, i) => {
        total[i]! += ohms
      })
    return total
  }

  /** Resistance of an element, ohm, as warm as the air, or as such a current makes it; undefined where it isn't in this stretch. */
  ohmsOf(name: string, rms?: Float64Array): Float64Array | undefined {
    const one = rms && this.#warmed.find(({ of }) => of.name === name)
    return one ? this.#warm(one, rms) : this.#ohms.get(name)
  }

  #warm(one: WarmedOn, rms: Float64Array): Float64Array {
    const found = new Float64Array(this.#count)
    // One that runs away is followed to its highest temperature, as in the walk.
    const most = (one.of.highestCelsius ?? hottestFollowed) - this.#celsius
    this.#followed(one, rms, (y, i) => {
      y.dT_el = this.#celsius - 20 + (y.g_el < 1 ? elementRise(y) : most)
      found[i] = warmResistance(y)
    })
    return found
  }

  /** How hot an element gets that such a current warms, degC, without end where it runs away; undefined where none warms it. */
  celsiusOf(name: string, rms: Float64Array): Float64Array | undefined {
    const one = this.#warmed.find(({ of }) => of.name === name)
    if (one === undefined) return undefined
    const found = new Float64Array(this.#count)
    this.#followed(one, rms, (y, i) => {
      found[i] = y.g_el < 1 ? this.#celsius + elementRise(y) : Number.POSITIVE_INFINITY
    })
    return found
  }

  #followed({ of, R_20, alpha_el, V_el, R_el }: WarmedOn, rms: Float64Array, take: (y: Place, i: number) => void) {
    const y = { ...place(), R_thel: of.thermalResistance! }
    for (let i = 0; i < this.#count; i++) {
      y.R_20 = R_20[i]!
      y.alpha_el = alpha_el[i]!
      y.V_el = V_el[i]!
      y.R_el = R_el[i]!
      y.I_el = rms[i]!
      y.g_el = elementGain(y)
      y.P_el = elementLoss(y)
      take(y, i)
    }
  }
}
