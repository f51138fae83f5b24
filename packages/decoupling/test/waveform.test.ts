import { describe, expect, it } from 'vitest'
import { circuit, respondTo, voltageAt } from '../src/waveform/inside.js'
import { type Case, randomCase } from './random.js'
import { Reference, uniform } from './reference.js'

/** The rail by the reference, the load's rise being a straight line to what the load then draws. */
function reference({ source, parts, idle, load, timing }: Case, samples: number): { t: number; v: number }[] {
  const { rise, duration, fall } = timing
  const out: { t: number; v: number }[] = []
  const rail = new Reference(source, parts, idle)
  const add = (start: number, time: number, [conductance, current, slope]: [number, number, number]): number => {
    const seen = rail.run(conductance, current, slope, time, samples)
    for (let i = 1; i < samples; i++) out.push({ t: start + (i * time) / samples, v: seen[i]! })
    return seen.at(-1)!
  }
  const endOfRise = (current: number): number =>
    new Reference(source, parts, idle).run(0, idle, current / rise, rise, 1)[1]!
  const open = endOfRise(0)
  const risen = load.kind === 'current' ? load.current : open / (load.resistance + open - endOfRise(1))
  add(0, rise, [0, idle, risen / rise])
  const v = add(rise, duration - rise, load.kind === 'current' ? [0, idle + risen, 0] : [1 / load.resistance, idle, 0])
  const left = load.kind === 'current' ? risen : v / load.resistance
  add(duration, fall, [0, idle + left, -left / fall])
  add(duration + fall, duration, [0, idle, 0])
  return out
}

describe('the exact waveform', () => {
  it('is that of the state equations by matrix exponential, on 200 random circuits, over- and underdamped', () => {
    const random = uniform(20_260)
    const regimes = new Set<string>()
    for (let n = 0; n < 200; n++) {
      const c = randomCase(random)
      const response = respondTo(circuit(c.source, c.parts, c.idle), c.load, c.timing)
      const { re, im } = response.pieces[0]!.piece.solved.roots
      regimes.add(`${re.length + im.filter((y) => y !== 0).length} ${im.some((y) => y !== 0) ? 'rings' : 'creeps'}`)
      for (const { t, v } of reference(c, 16)) {
        const error = Math.abs(voltageAt(response, t) - v) / c.source.voltage
        expect(error, `case ${n} at ${t} s: ${JSON.stringify(c)}`).toBeLessThan(1e-9)
      }
    }
    for (const order of [1, 2, 3, 4, 5]) expect([...regimes].some((regime) => regime.startsWith(`${order}`))).toBe(true)
    expect([...regimes].filter((regime) => regime.endsWith('rings')).length).toBeGreaterThan(3)
    expect([...regimes].filter((regime) => regime.endsWith('creeps')).length).toBeGreaterThan(3)
  }, 30_000)

  it('has its lowest point where no sample of a dense grid is lower, and passes through it', () => {
    const random = uniform(7)
    for (let n = 0; n < 200; n++) {
      const c = randomCase(random)
      const response = respondTo(circuit(c.source, c.parts, c.idle), c.load, c.timing)
      const { time, value, kind } = response.lowest
      const span = 2 * c.timing.duration
      let least = Number.POSITIVE_INFINITY
      for (let i = 0; i <= 4000; i++) least = Math.min(least, voltageAt(response, (i / 4000) * span))
      expect(value, `case ${n}`).toBeLessThanOrEqual(least + 1e-12 * least)
      expect(time).not.toBeNull()
      if (kind === 'stationary') {
        expect(Math.abs(voltageAt(response, time!) - value)).toBeLessThanOrEqual(1e-14 * value)
        const h = 1e-4 * c.timing.rise
        const slope = (voltageAt(response, time! + h) - voltageAt(response, time! - h)) / (2 * h)
        expect(Math.abs(slope * c.timing.duration)).toBeLessThan(1e-3 * c.source.voltage)
      }
    }
  }, 30_000)
})
