import type { Capacitor } from '@ohmward/decoupling'
import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { inPulse, shareOfPulse } from '../src/answer/power/in-pulse.js'
import { powerOf } from '../src/answer/power/power.js'
import { hallAt } from '../src/blocks/hall-at.js'
import { meanPowerAt, pulseGain } from '../src/pulse/pulse.js'
import { onLeads } from './shared.js'

interface Loop {
  readonly V: number
  readonly R_s: number
  readonly L: number
  readonly C: number
  readonly R_b: number
  readonly period: number
  readonly duty: number
}

/**
 * Mean square of the rail and its mean while the load is on, once every pulse is like the one before: the source's current and the
 * capacitor's voltage by Kirchhoff's laws, in steps of the midpoint rule.
 */
function pulsesOf({ V, R_s, L, C, R_b, period, duty }: Loop, [from, to]: readonly [from: number, to: number] = [1, 0]) {
  const quickest = Math.min(Math.sqrt(L * C), L / R_s, R_b * C)
  let [i, v] = [0, V]
  let [square, mean] = [0, 0]
  let [lowest, highest] = [Number.POSITIVE_INFINITY, 0]
  const follow = (time: number, G: number) => {
    const steps = Math.ceil(Math.max(100, (30 * time) / quickest))
    const h = time / steps
    for (let n = 0; n < steps; n++) {
      const i_mid = i + (h / 2) * ((V - v - R_s * i) / L)
      const v_mid = v + (h / 2) * ((i - G * v) / C)
      i += h * ((V - v_mid - R_s * i_mid) / L)
      v += h * ((i_mid - G * v_mid) / C)
      square += v_mid * v_mid * h
      mean += v_mid * h
      if (G > 0 && h * n >= from && h * n <= to) [lowest, highest] = [Math.min(lowest, v_mid), Math.max(highest, v_mid)]
    }
  }
  // What the beginning leaves has gone after twenty times what takes longest.
  const longest = 20 * Math.max((2 * L) / R_s, R_s * C, period)
  for (let t = 0; t < longest; t += period) {
    ;[square, mean] = [0, 0]
    follow(duty * period, 1 / R_b)
    const on = [square, mean] as const
    follow((1 - duty) * period, 0)
    ;[square, mean] = on
  }
  return { square: square / (duty * period), mean: mean / (duty * period), lowest, highest }
}

describe('the power of pulses', () => {
  it.each([
    ['leads that ring with a small capacitor from pulse to pulse', '2.5 uH', '6.8 uF', '75 kHz', 0.27],
    ['the same, twice as slow', '2.5 uH', '6.8 uF', '38 kHz', 0.5],
    ['a metre of leads at 20 kHz', '1.2 uH', '47 uF', '20 kHz', 0.4],
    ['leads that have done ringing before the pulse ends', '0.1 uH', '470 uF', '1 kHz', 0.3],
    ['short ones, overdamped', '20 nH', '1 mF', '1 kHz', 0.6],
  ])(
    'is no less by the check than of a source with its inductance: %s',
    (_, inductance, capacitance, frequency, duty) => {
      const design = readDesign(onLeads(inductance, capacitance, { frequency, duty }))
      const walk = walkOf(design, { charges: 2 })
      const { solved } = walk.over({ charge: { from: 1, to: 0.3 }, ...walk.around })
      const { source, rest, load, switch: on, own } = solved
      const [L, C] = [source.inductance.nominal, design.parts.capacitance]
      const told = meanPowerAt(design, solved)(duty).upper
      const gain = pulseGain(design, solved, duty).current
      for (const R_s of [source.resistance.lower, source.resistance.nominal, source.resistance.upper]) {
        const R_b = load.lower + on.lower
        const V = rest.upper
        const { square, mean } = pulsesOf({ V, R_s, L, C, R_b, period: 1 / design.pwm.frequency, duty })
        expect((duty * square * own.lower) / R_b ** 2).toBeLessThan(told * (1 + 1e-4))
        expect(mean / R_b).toBeLessThan((V / (R_s + R_b)) * gain * (1 + 1e-4))
      }
    },
  )

  it('is that without an inductance where it has died away: of the knife, to the last digit', () => {
    const { inductance: _, ...supply } = exampleDesign.supply as Design['supply'] & { inductance?: unknown }
    const of = (given: Design) => {
      const { design, over, around } = walkOf(readDesign(given), { charges: 2 })
      return meanPowerAt(design, over({ charge: { from: 1, to: 0.1 }, ...around }).solved)(0.9)
    }
    expect(of({ ...exampleDesign, supply: { ...supply, inductance: 0 } })).toEqual(of(exampleDesign))
  })

  it('is less by what a slow rise of the current takes: a third is left of a straight rise', () => {
    const rising = (rise: string | number) =>
      powerOf(walkOf(readDesign({ ...exampleDesign, load: { ...exampleDesign.load, rise } }), { charges: 2 }))
    const [at, slow] = [rising(0), rising('0.3 ms')]
    const { to: told, from } = readDesign(exampleDesign).pwm.duty
    // Of the longest pulse, in hundredths of a second, less what the switch takes to be on.
    const to = told - 100 * walkOf(readDesign(exampleDesign), { charges: 2 }).firmware.edges()!.on
    expect(slow.mean.lower / at.mean.lower).toBeCloseTo((to - (2 / 3) * 0.03) / to, 9)
    expect(slow.mean.upper).toBe(at.mean.upper)
    // The firmware takes the pulse for a full one.
    const [read, rose] = [at, slow].map(({ error }) => error.voltageTimesCurrent!.upper) as [number, number]
    expect(rose).toBeGreaterThan((1 + read) / ((from - (2 / 3) * 0.03) / from) - 1 - 0.05)
    expect(rose).toBeGreaterThan(read)
  })
})

describe('a sample of a pulse in which the rail rings', () => {
  /** Leads and a small capacitor, the current read soon. */
  const sampled = (inductance: string, capacitance: string, wait: string, frequency: string): Design => {
    const design = onLeads(inductance, capacitance, { frequency, duty: 0.5 })
    return { ...design, hall: { ...design.hall, wait, otherTasks: [] } }
  }

  it.each([
    ['a metre of leads, 30 us after the edge', '1.2 uH ±20 %', '22 uF ±20 %', '30 us', '100 Hz'],
    ['two, that still ring at the next edge', '2.5 uH', '10 uF ±20 %', '25 us', '8 kHz'],
    ['near its critical damping', '0.1 uH ±20 %', '470 uF ±20 %', '30 us', '1 kHz'],
  ])('finds no more and no less than the check says: %s', (_, inductance, capacitance, wait, frequency) => {
    const design = readDesign(sampled(inductance, capacitance, wait, frequency))
    const walk = walkOf(design, { charges: 2 })
    const { solved } = walk.over({ charge: { from: 1, to: 0 }, ...walk.around })
    const { conditions } = hallAt(design, solved, walk.firmware)
    const told = powerOf(walk).read!.largest
    const pulse = inPulse(walk)!
    const { frequency: f, duty } = design.pwm
    const share = shareOfPulse(pulse, { frequency: f, duty }, ['current', 'rail'])
    const { source, rest, load, switch: on } = solved
    const edges = walk.firmware.edges()!
    let most = 0
    for (const C of [0.8, 0.9, 1, 1.1, 1.2].map((factor) => factor * Number.parseFloat(capacitance) * 1e-6)) {
      for (const R_s of [source.resistance.lower, source.resistance.nominal]) {
        const loop = { V: rest.upper, R_s, L: source.inductance.upper, C, R_b: load.lower + on.lower }
        // The wait and the pulse begin with their commands, and the switch follows them late.
        for (const [late, later] of [0, 0.5, 1].flatMap((x) =>
          [0, 0.5, 1].map((y) => [x * edges.on, y * edges.off] as const),
        )) {
          const all = { ...loop, period: 1 / f, duty: duty.from + (later - late) * f }
          const { lowest, highest, square } = pulsesOf(all, [
            Number.parseFloat(wait) * 1e-6 - late,
            (pulse.rail as { to: number }).to,
          ])
          expect(highest / loop.R_b).toBeLessThan(told)
          most = Math.max(most, highest / loop.R_b)
          expect(highest).toBeLessThan((conditions.rail as { to: number }).to)
          expect(lowest).toBeGreaterThan((conditions.rail as { from: number }).from)
          expect(highest ** 2 / square).toBeLessThan(share.upper)
          expect(lowest ** 2 / square).toBeGreaterThan(share.lower)
        }
      }
    }
    expect(told / most).toBeLessThan(1.3)
  })

  it('is one as well where every capacitor has an inductance of its own, too small to matter beside the leads', () => {
    const design = sampled('1.2 uH ±20 %', '22 uF ±20 %', '30 us', '100 Hz')
    const [capacitor] = design.decoupling.capacitors as [Capacitor]
    const without = { ...design, load: { ...design.load, rise: '0.5 us' } } as Design
    const decoupling = { ...design.decoupling, capacitors: [{ ...capacitor, seriesInductance: '0.5 nH' }] }
    const [still, own] = [without, { ...without, decoupling } as Design].map(
      (given) => inPulse(walkOf(readDesign(given), { charges: 2 }))!.rings.rail,
    )
    expect(own!.highest).toBeCloseTo(still!.highest, 1)
    expect(own!.lowest).toBeCloseTo(still!.lowest, 1)
    expect(own!.highest - own!.lowest).toBeGreaterThan(0.1)
  })
})
