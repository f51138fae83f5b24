import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import type { SolvedSpan } from '../supply/solve.js'
import { fastAt, heldRails, type Return } from './held-rails.js'
import { fallOf } from './pulse.js'

/**
 * How a rail falls as the load comes, as {@link Return} has it: the main one with its capacitors; behind a resistor with its own as well, none of
 * whose time constants is more than all resistances with all of these capacitances; behind a diode its capacitor alone feeds it, for as long as it may.
 */
export function fallingAs(design: ReadDesign, solved: SolvedSpan, name: string): Return {
  const [R_s, R_b] = [solved.source.resistance.lower, solved.load.lower + solved.switch.lower]
  const main = {
    time: design.pwm.duty.from === 1 || design.parts.capacitance === 0 ? 0 : fallOf(design, solved).time,
    steps: 1,
    fast: fastAt(design, (R_s * R_b) / (R_s + R_b)),
  }
  const of = (name: string): Return => {
    const rail = name === mainRail ? undefined : (design.rails ?? []).find((one) => one.name === name)
    if (rail === undefined) return main
    const { kind } = rail.through
    if (kind === 'diode') return { time: Number.POSITIVE_INFINITY, steps: 2 }
    const before = of(rail.source)
    if (kind !== 'resistor') return before
    const held = heldRails(design).flatMap(({ through }) => (through.kind === 'resistor' ? [through] : []))
    const R_all = held.reduce((sum, { resistance }) => sum + resistance.upper, solved.source.resistance.upper)
    const C_all = held.reduce((sum, { capacitance }) => sum + capacitance.upper, 0)
    return { time: Math.max(before.time, main.time + R_all * C_all), steps: held.length + 1 }
  }
  return of(name)
}
