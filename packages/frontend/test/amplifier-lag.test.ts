import { type Design, dividerAt, exampleDesign, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { onLeads } from './shared.js'

const place = { charge: 0.3, celsius: 25, age: 1 }

/** The hot knife, its resistance read so long after a pulse through a filter. */
const readAfter = (wait: string, filter: string, capacitance: string, inductance: string): Design =>
  onLeads(
    inductance,
    capacitance,
    { frequency: '100 Hz', duty: 0.5 },
    { divider: { ...exampleDesign.divider, timing: { ...exampleDesign.divider.timing, wait, filter } } },
  )

/** What the check says of it, and what it stands on. */
function told(given: Design) {
  const design = readDesign(given)
  const solved = solveAt(design, place)
  const { choice } = dividerAt(design, solved, walkOf(design, { charges: 2 }).firmware)
  const lag = choice.further?.find(({ name }) => name === 'amplifier behind a moving rail')
  return { solved, share: Number(lag?.share ?? 0), edge: choice.timing!.edge as number }
}

interface Loop {
  readonly V: number
  readonly R_s: number
  readonly L: number
  readonly C: number
}

/** Output of amplifier and filter over a rail that comes back, less 1, in small steps of time: both follow it one behind the other. */
function shown({ V, R_s, L, C }: Loop, sag: number, current: number, poles: readonly [number, number], time: number) {
  let [u, i, y, z] = [sag, current, sag, sag]
  const dt = 2e-9
  for (let t = 0; t < time; t += dt) {
    if (L === 0) i = (V - u) / R_s
    else i += ((V - u - R_s * i) * dt) / L
    u += (i * dt) / C
    y += ((u - y) * dt) / poles[0]
    z += ((y - z) * dt) / poles[1]
  }
  return z / u - 1
}

// Of the amplifier: a noise gain of 23, its gain-bandwidth product at the least; a conversion takes some of the time as well.
const tau_a = () => {
  const { gainResistors, amplifier } = exampleDesign.divider
  const [R_f, R_g] = [gainResistors.feedback, gainResistors.ground].map((one) => Number.parseFloat(one))
  return (1 + R_f! / R_g!) / (2 * Math.PI * Number.parseFloat(amplifier.gainBandwidth) * 1e6)
}

describe('an amplifier behind a rail that moves while the resistance is read', () => {
  it.each([
    ['0.3 ms', 3e-4, '20 us', 20e-6],
    ['0.4 ms', 4e-4, '5 us', 5e-6],
  ])('shows it lower as it rises, by no more than is said: %s after the load', (wait, time, filter, tau_f) => {
    for (const C of [0.3e-3, 1e-3, 2e-3]) {
      const { solved, share, edge } = told(readAfter(wait, filter, `${C} F`, '0 uH'))
      const { rest, source, rail } = solved
      const loop = { V: rest.lower, R_s: source.resistance.upper, L: 0, C }
      const error = shown(loop, rail.lower, 0, [tau_a(), tau_f], time - edge)
      expect(error).toBeLessThan(0)
      expect(share).toBeGreaterThan(-error)
      // Somewhere below that capacitance and resistance it lags most.
      if (C > 1e-3) expect(share).toBeLessThan(-6 * error + 2e-4)
    }
  })

  it('shows it on either side where it rings', () => {
    const { solved, share, edge } = told(readAfter('60 us', '2 us', '22 uF ±20 %', '1.2 uH'))
    const { rest, source, rail, current } = solved
    let most = 0
    for (const factor of [0.8, 0.9, 1, 1.1, 1.2])
      for (const time of [60e-6, 62e-6, 64e-6, 66e-6, 68e-6]) {
        const loop = { V: rest.lower, R_s: source.resistance.lower, L: 1.2e-6, C: factor * 22e-6 }
        most = Math.max(most, Math.abs(shown(loop, rail.lower, current.lower, [tau_a(), 2e-6], time - edge)))
      }
    expect(most).toBeGreaterThan(0.02)
    expect(share).toBeGreaterThan(most)
  })

  it('is nothing once the rail stands', () => {
    expect(told(readAfter('4 ms', '2 us', '22 uF', '20 nH')).share).toBe(0)
  })
})
