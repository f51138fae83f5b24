import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { powerOf } from '../src/answer/power.js'
import { meanPowerAt, pulseGain } from '../src/walk/pulse.js'

/** A supply whose source feeds its board through leads, and what stands there. */
const fedBy = (inductance: string, capacitance: string, frequency: string, duty: number): Design => ({
  ...exampleDesign,
  supply: { ...exampleDesign.supply, inductance },
  pwm: { frequency, duty: { from: duty, to: duty } },
  load: { ...exampleDesign.load, rise: 0 },
  decoupling: {
    ...exampleDesign.decoupling,
    capacitors: [{ capacitance, ratedVoltage: 6.3, seriesResistance: 0 }],
  },
})

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
function pulsesOf({ V, R_s, L, C, R_b, period, duty }: Loop) {
  const quickest = Math.min(Math.sqrt(L * C), L / R_s, R_b * C)
  let [i, v] = [0, V]
  let [square, mean] = [0, 0]
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
  return { square: square / (duty * period), mean: mean / (duty * period) }
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
      const design = readDesign(fedBy(inductance, capacitance, frequency, duty))
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
    const of = (design: Design) => powerOf(walkOf(readDesign(design), { charges: 2 })).mean
    expect(of({ ...exampleDesign, supply: { ...supply, inductance: 0 } })).toEqual(of(exampleDesign))
  })

  it('is less by what a slow rise of the current takes: a third is left of a straight rise', () => {
    const rising = (rise: string | number) =>
      powerOf(walkOf(readDesign({ ...exampleDesign, load: { ...exampleDesign.load, rise } }), { charges: 2 }))
    const [at, slow] = [rising(0), rising('0.3 ms')]
    const { to, from } = readDesign(exampleDesign).pwm.duty
    // Of the longest pulse, in hundredths of a second.
    expect(slow.mean.lower / at.mean.lower).toBeCloseTo((to - (2 / 3) * 0.03) / to, 9)
    expect(slow.mean.upper).toBe(at.mean.upper)
    // The firmware takes the pulse for a full one.
    const [read, rose] = [at, slow].map(({ error }) => error.voltageTimesCurrent!.upper) as [number, number]
    expect(rose).toBeGreaterThan((1 + read) / ((from - (2 / 3) * 0.03) / from) - 1 - 0.05)
    expect(rose).toBeGreaterThan(read)
  })
})
