import { describe, expect, it } from 'vitest'
import { type Branch, circuit, type Load, respondTo, type Source, voltageAt } from '../src/waveform/index.js'
import { Reference, uniform } from './reference.js'

interface Case {
  readonly source: Source
  readonly parts: readonly Branch[]
  readonly idle: number
  readonly load: Load
  readonly timing: { rise: number; duration: number; fall: number }
}

/** Circuits of bounded stiffness: fastest to slowest natural time at most about 1 to 10 000, so that the reference keeps its digits. */
function randomCase(random: () => number): Case {
  const log = (from: number, to: number): number => from * (to / from) ** random()
  const count = 1 + Math.floor(3 * random())
  const hasLoop = random() < 0.6
  const hasEsl = random() < 0.5
  const parts = Array.from({ length: count }, () => {
    const capacitance = log(2e-5, 2e-3)
    return { capacitance, resistance: log(5e-3, 0.3), inductance: hasEsl && random() < 0.7 ? log(2e-9, 1e-7) : 0 }
  })
  const duration = log(2e-5, 2e-3)
  return {
    source: { voltage: log(3, 8.4), resistance: log(0.02, 0.3), inductance: hasLoop ? log(2e-8, 2e-6) : 0 },
    parts,
    idle: log(1e-3, 0.1),
    load: random() < 0.5 ? { kind: 'current', current: log(0.1, 8) } : { kind: 'resistor', resistance: log(0.3, 5) },
    timing: { rise: duration * log(0.01, 0.5), duration, fall: duration * log(0.01, 0.5) },
  }
}

/** The rail by the reference, as far as its load's rise is a straight line to what the load then draws. */
function reference({ source, parts, idle, load, timing }: Case, samples: number): { t: number; v: number }[] {
  const { rise, duration, fall } = timing
  const out: { t: number; v: number }[] = []
  const add = (start: number, time: number, seen: number[]): void => {
    for (let i = 1; i < samples; i++) out.push({ t: start + (i * time) / samples, v: seen[i]! })
  }
  const fresh = new Reference(source, parts, idle)
  const endOf = (current: number): number => {
    const trial = new Reference(source, parts, idle)
    return trial.run(0, idle, current / rise, rise, 1)[1]!
  }
  const a = endOf(0)
  const z = a - endOf(1)
  const current = load.kind === 'current' ? load.current : a / ((load as { resistance: number }).resistance + z)
  add(0, rise, fresh.run(0, idle, current / rise, rise, samples))
  const held =
    load.kind === 'current'
      ? fresh.run(0, idle + current, 0, duration - rise, samples)
      : fresh.run(1 / (load as { resistance: number }).resistance, idle, 0, duration - rise, samples)
  add(rise, duration - rise, held)
  const left = load.kind === 'current' ? current : held.at(-1)! / (load as { resistance: number }).resistance
  add(duration, fall, fresh.run(0, idle + left, -left / fall, fall, samples))
  add(duration + fall, duration, fresh.run(0, idle, 0, duration, samples))
  return out
}

describe('the exact waveform', () => {
  it('is that of the state equations by matrix exponential, on 200 random circuits', () => {
    const random = uniform(20_260)
    const regimes = new Set<string>()
    let worst = 0
    for (let n = 0; n < 200; n++) {
      const c = randomCase(random)
      const rail = circuit(c.source, c.parts, c.idle)
      const response = respondTo(rail, c.load, c.timing)
      const roots = response.pieces[0]!.piece.solved.roots
      regimes.add(`${roots.re.length} ${roots.im.some((y) => y !== 0) ? 'rings' : 'creeps'}`)
      for (const { t, v } of reference(c, 16)) {
        const error = Math.abs(voltageAt(response, t) - v) / c.source.voltage
        if (error > worst) worst = error
        expect(error, `case ${n} at ${t} s: ${JSON.stringify(c)}`).toBeLessThan(1e-9)
      }
      // The lowest point is no higher than any sample, and the waveform passes through it.
      const { lowest } = response
      for (const { v } of reference(c, 40)) expect(lowest.value).toBeLessThanOrEqual(v + 1e-9 * c.source.voltage)
    }
    console.log(worst, regimes)
    expect(regimes.size).toBeGreaterThan(5)
  })
})
