import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'
import { powerOf } from '../src/answer/power.js'
import { conductingIn } from '../src/walk/conducting.js'

/** The knife at 1 kHz, where the 25 us that its gate takes to be pulled off are a quarter of the shortest pulse. */
const design = (more: Partial<Design> = {}): Design => ({
  ...exampleDesign,
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.8 } },
  ...more,
})

const walkOver = (given: Design) => walkOf(readDesign(given), { charges: 2 })

/**
 * Mean power of a load over a period whose switch is on and off late, W: a source behind its resistance with a capacitor at the rail, in
 * small steps of time until they repeat.
 */
function meanOf(volts: number, source: number, load: number, own: number, farads: number, from: number, to: number) {
  const step = 5e-8
  let [rail, energy] = [volts, 0]
  for (let period = 0; period < 12; period++) {
    energy = 0
    for (let n = 0; n < 20_000; n++) {
      const time = (n + 0.5) * step
      const current = time >= from && time < to ? rail / load : 0
      rail += (((volts - rail) / source - current) / farads) * step
      energy += current ** 2 * own * step
    }
  }
  return energy / 1e-3
}

describe('a switch that is off late', () => {
  const walk = walkOver(design({ requirements: { ...exampleDesign.requirements, powerLimit: '15 W' } }))
  const edges = walk.firmware.edges()!
  const answer = powerOf(walk)
  const { source, rest, load, own, switch: on } = walk.over({ charge: { from: 1, to: 1 }, ...walk.around }).solved
  const farads = walk.design.parts.capacitance
  /** Power of full cells at a duty that is told, by a board whose switch takes its time to be off and none to be on. */
  const powerAt = (told: number) =>
    meanOf(rest.upper, source.resistance.lower, load.lower + on.lower, own.lower, farads, 0, told * 1e-3 + edges.off)

  it('gives the load more at every duty, in steps of time: no more than is said, and at the least duty a quarter more than that', () => {
    for (const [told, said] of [
      [0.8, answer.mean.upper],
      [0.1, answer.least.upper],
    ] as const) {
      expect(powerAt(told)).toBeLessThan(said * (1 + 1e-4))
      expect(powerAt(told)).toBeGreaterThan(0.9 * said)
    }
    expect(edges.off).toBeGreaterThan(20e-6)
    expect(answer.least.upper / 0.1).toBeGreaterThan(1.2 * (answer.mean.upper / 0.8))
  })

  it('keeps the limit by the duty that is told without a reading, and by what is shown with one', () => {
    const { dutyWithoutReading, setPoint } = answer.limit!
    // The steps are as much too high as they are long.
    expect(powerAt(dutyWithoutReading)).toBeLessThan(15 * (1 + 1e-4))
    expect(powerAt(dutyWithoutReading)).toBeGreaterThan(0.9 * 15)
    // What is shown knows only the duty that was told: at the limit it is less by as much as the pulse is longer.
    const [short, long] = [dutyWithoutReading * 1e-3, dutyWithoutReading * 1e-3 + edges.off]
    expect(setPoint!).toBeLessThan((15 * short) / long)
  })

  it('shows less than there is by its share of the shortest pulse, and more where it is on late', () => {
    const least = (duty: { from: number; to: number }) =>
      powerOf(walkOver(design({ pwm: { frequency: '1 kHz', duty } }))).error
    const [short, long] = [least({ from: 0.1, to: 0.8 }), least({ from: 0.8, to: 0.8 })].map(
      ({ voltageTimesCurrent }) => voltageTimesCurrent!,
    ) as [(typeof answer)['mean'], (typeof answer)['mean']]
    const at = (duty: number) => duty / (duty + edges.off * 1e3)
    expect((1 + short.lower) / (1 + long.lower)).toBeLessThan((at(0.1) / at(0.8)) * 1.02)
    expect(short.upper).toBeGreaterThan(long.upper)
  })

  it('has a mean reading know how long it was', () => {
    const hall = {
      ...exampleDesign.hall,
      reading: 'averaged',
      filter: { resistance: '3.3 kohm ±1 %', capacitance: '4.7 uF ±10 %' },
    } as const
    const slow = powerOf(walkOver(design({ hall }))).error.voltageTimesCurrent!
    const { gateResistor: _, ...drive } = exampleDesign.mosfet.drive as { readonly gateResistor?: unknown }
    const quick = { ...exampleDesign.mosfet, drive: { ...drive, pull: { at: 'gate', resistance: '300 ohm ±1 %' } } }
    const fast = powerOf(walkOver(design({ hall, mosfet: quick as unknown as Design['mosfet'] }))).error
    expect(slow.lower).toBeCloseTo(fast.voltageTimesCurrent!.lower, 2)
  })

  it('takes more from the cells in a burst, and leaves fewer of them', () => {
    const bursts = answer.bursts!
    const { energy, count } = bursts
    expect(energy[0]!.energy.upper).toBeCloseTo(answer.mean.upper * 20, 6)
    expect(count!.lower).toBeLessThan(count!.upper)
    const told = monitorOf(walk)!.lacking!.most
    const early = { ...walk, firmware: { ...walk.firmware, edges: () => ({ on: 0, off: 0 }) } }
    const without = monitorOf(early as never)!.lacking!.most
    expect(told / without).toBeGreaterThan(1.02)
    expect(told / without).toBeLessThan(1 + (edges.off * 1e3) / 0.8 + 1e-3)
    expect(powerOf(early as never).bursts!.count!.lower).toBeGreaterThan(1.02 * count!.lower)
  })
})

describe('the duties in which a load conducts', () => {
  const pwm = { pwm: { frequency: 1000, duty: { from: 0.1, to: 1 } } }

  it('are earlier and later by the edges in a period, inside it; a load that is on for good has none', () => {
    const of = (duty: number, on: number, off: number) => conductingIn(pwm, { on, off }, duty)
    expect(of(0.5, 1e-5, 2e-5).from).toBeCloseTo(0.49, 12)
    expect(of(0.5, 1e-5, 2e-5).to).toBeCloseTo(0.52, 12)
    expect(of(0.5, 0, 1).to).toBe(1)
    expect(of(0.5, 1, 0).from).toBeCloseTo(0.0005, 12)
    expect(of(1, 1e-5, 2e-5)).toEqual({ from: 1, to: 1 })
    expect(conductingIn(pwm, undefined, 0.5)).toEqual({ from: 0.5, to: 0.5 })
  })
})
