import type { ReadDesign } from '../design/record.js'
import { ringLow } from '../formulas/index.js'
import { once } from '../kept/once.js'
import { sourceOver } from './source.js'

/** Least share of their capacitance that bias, wear and cold leave the capacitors of a rail. Common practice, no source. */
const leastShare = 0.1

/** Capacitances between all of it and the least that are looked at, by equal factors. */
const looks = 9

/** Damped by so much, over its angular frequency, a ring passes where it comes to by a five hundredth of the step: by nothing. */
const calm = 2

const known = new WeakMap<ReadDesign, () => number>()

/**
 * How long what rings between the inductance of the source and the capacitors of the main rail holds that below where it comes to, at most, s:
 * half a swing, and a whole one where pulses begin while it still rings. 0 where nothing rings.
 */
export function ringLowOf(design: ReadDesign): number {
  const found = known.get(design) ?? once(() => longestLow(design))
  known.set(design, found)
  return found()
}

function longestLow(design: ReadDesign): number {
  const { parts, load, ambientCelsius: celsius, age, pwm } = design
  const { capacitance: most, emptyCharge } = parts
  const supply = { supply: parts.supply, board: design.board }
  const { inductance, resistance } = sourceOver(supply, { charge: { from: 1, to: emptyCharge }, celsius, age })
  const L_s = inductance.upper
  if (L_s === 0 || most === 0 || most === Number.POSITIVE_INFINITY) return 0
  const shortest = Math.min(pwm.duty.from, pwm.duty.to < 1 ? 1 - pwm.duty.to : 1) / pwm.frequency
  let longest = 0
  for (let k = 0; k < looks; k++) {
    const C_all = most * leastShare ** (k / (looks - 1))
    for (const R_s of [resistance.lower, resistance.upper])
      for (const R_b of [load.resistance.lower, 1e9]) {
        const rate = (R_s / L_s + 1 / (R_b * C_all)) / 2
        const difference = (R_s / L_s - 1 / (R_b * C_all)) / 2
        const square = 1 / (L_s * C_all) - difference ** 2
        if (square <= 0 || rate >= calm * Math.sqrt(square)) continue
        const isOver = pwm.duty.from === 1 || rate * shortest >= 5
        longest = Math.max(longest, (isOver ? 1 : 2) * ringLow({ L_s, C_all, R_s, R_b }))
      }
  }
  return longest
}
