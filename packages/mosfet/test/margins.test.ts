import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { inputsBehind, switchOf } from '../src/chain/index.js'
import { readMosfet } from '../src/choice.js'
import { checkMosfet, type MosfetChoice } from '../src/index.js'
import { inputsOf, type MosfetInputs, topologyOf } from '../src/inputs.js'
import { hasTwoRegimes, marginSpecs } from '../src/margins/index.js'
import { cell, driver, inverterFast, inverterSlow, knife, lowSide, nChannelLowVoltage, pin } from './choice.js'

const choices: Record<string, MosfetChoice> = {
  'P-channel, inverting transistor': knife({ edgeLimit: '1 ms' }),
  'P-channel, pull-up on the drive side, bursts': knife({
    drive: { ...inverterSlow, pull: { at: 'drive', resistance: '4.7 kohm ±5 %' } },
    bursts: { on: 2, period: 10, count: 5 },
  }),
  'P-channel, pin with a lower high level': knife({ drive: { ...pin, highLevel: '4 V ±0.1 V' } }),
  'N-channel, pin': lowSide(),
  'N-channel, driver, clamped inductive, held current': lowSide({
    drive: { ...driver, supply: { regulated: '5 V ±5 %' } },
    load: { current: '5 A ±10 %' },
    edges: 'clamped inductive',
    wiring: { sharedSource: '3 mohm ±1 mohm' },
  }),
  'N-channel, inverting transistor held on in reset': lowSide({
    drive: { ...inverterFast, basePullUp: '10 kohm ±5 %' },
  }),
  'N-channel, follower behind a diode': lowSide({
    drive: {
      kind: 'follower',
      gateResistor: 22,
      supply: { diode: '0.3 V ±0.1 V' },
      pull: { at: 'gate', resistance: '2.2 kohm ±5 %' },
    },
  }),
  'N-channel, complementary followers': lowSide({
    drive: { kind: 'follower', complementary: true, gateResistor: 22 },
    parallel: 2,
  }),
  'no edges': lowSide({
    pwm: { frequency: 0, duty: { from: 1, to: 1 } },
    transistor: { ...nChannelLowVoltage, temperatureLaw: { kind: 'linear', perKelvin: 0.004 } },
  }),
}

describe('what stands behind a margin', () => {
  it.each(Object.entries(choices))('%s: inputs not named change neither value nor limit', (_, choice) => {
    const read = readMosfet(choice, cell())
    const circuit = switchOf(topologyOf(read))
    const inputs = inputsOf(read)
    const x: Record<string, number> = {}
    for (const [symbol, input] of Object.entries(inputs))
      x[symbol] = typeof input === 'number' ? input : (input as { nominal: number }).nominal
    const specs = marginSpecs({ read, circuit }, 90)
    expect(specs.length).toBeGreaterThan(8)
    for (const { id, reads, value, limit } of specs) {
      const behind = inputsBehind(circuit, reads)
      const answer = (at: Record<string, number>) => [
        value(at as unknown as MosfetInputs),
        typeof limit === 'number' ? limit : limit(at as unknown as MosfetInputs),
      ]
      const before = answer(x)
      expect(before.every(Number.isFinite), `${id} is finite`).toBe(true)
      let moving = 0
      for (const symbol of Object.keys(x)) {
        const after = answer({ ...x, [symbol]: x[symbol]! * 1.01 + 1e-3 })
        if (!behind.has(symbol)) expect(after, `${id} reads ${symbol}`).toEqual(before)
        else if (after[0] !== before[0] || after[1] !== before[1]) moving++
      }
      expect(moving, `${id} reads something`).toBeGreaterThan(0)
    }
  })
})

describe('an edge that the transistor’s gain limits on some boards only', () => {
  // With a base resistor of 2.7 kilohm the collector current lies about that of the gate resistor.
  const choice = knife({
    drive: { ...inverterFast, baseResistor: '2.7 kohm ±5 %', pull: { at: 'gate', resistance: '2.2 kohm ±10 %' } },
  })
  const read = readMosfet(choice, cell())
  const circuit = switchOf(topologyOf(read))
  const inputs = inputsOf(read)

  it('is seen as having two regimes, others not', () => {
    expect(hasTwoRegimes(circuit, inputs)).toBe(true)
    for (const one of [knife(), lowSide()]) {
      const other = readMosfet(one, cell())
      expect(hasTwoRegimes(switchOf(topologyOf(other)), inputsOf(other))).toBe(false)
    }
  })

  it('has the worst case that all corners of its tolerances show', () => {
    const varying = ['V_oc', 'R_s', 'R_L', 'V_drop', 'R_g', 'R_p', 'V_BE', 'R_b', 'R_be', 'V_th'] as const
    let slowest = 0
    for (let corner = 0; corner < 2 ** varying.length; corner++) {
      const x: Record<string, number> = {}
      for (const [symbol, input] of Object.entries(inputs))
        x[symbol] = typeof input === 'number' ? input : (input as Spread).nominal
      varying.forEach((symbol, i) => {
        const { lower, upper } = inputs[symbol] as Spread
        x[symbol] = corner & (1 << i) ? upper : lower
      })
      slowest = Math.max(slowest, circuit.times(x as unknown as MosfetInputs).t_r)
    }
    const { margins } = checkMosfet(choice, cell(), { simulation: false })
    const { worst } = margins.find(({ id }) => id === 'on-edge')!
    expect(worst).toBeGreaterThanOrEqual(slowest * (1 - 1e-9))
    expect(worst).toBeLessThan(slowest * 1.05)
  })
})
