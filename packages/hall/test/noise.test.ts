import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { hallModel } from '../src/index.js'
import { cell, knife } from './design.js'

describe('rounding under noise that a slow filter makes alike', () => {
  it('is no less than what simulated samples of one window leave', () => {
    const choice = {
      ...knife,
      sensor: { ...knife.sensor, noiseDensity: '10 uV/Hz^0.5' },
      converter: { ...knife.converter, noise: 0 },
      filter: { resistance: '990 ohm', capacitance: '68 nF' },
      timing: { samples: 16, samplesPerWindow: 16 },
    } as const
    const { inputs } = hallModel(choice, cell, 1)
    const limit = (name: string) => (inputs[name] as Spread).upper
    const said = Math.hypot(limit('e_q') / Math.sqrt(3), limit('e_n') / 3)
    // One pole of 68 µs, samples 3 µs apart; the noise of 10 µV/√Hz in π/2 · 2.29 kHz, in counts of 3.6 V/4096.
    const rho = Math.exp(-3 / 68)
    const sigma = (10e-6 * Math.sqrt((Math.PI / 2) * 2290)) / (3.6 / 4096)
    let seed = 1
    const uniform = () => {
      seed = (seed * 48271) % 2147483647
      return seed / 2147483647
    }
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    let squares = 0
    const trials = 4000
    for (let n = 0; n < trials; n++) {
      const place = uniform()
      let noise = sigma * normal()
      let sum = 0
      for (let i = 0; i < 16; i++) {
        sum += Math.round(place + noise) - place - noise
        noise = rho * noise + sigma * Math.sqrt(1 - rho * rho) * normal()
      }
      squares += (sum / 16) ** 2
    }
    const left = Math.sqrt(squares / trials)
    // Independent samples would leave 1/√12/4 of a count.
    expect(left).toBeGreaterThan(1.05 / Math.sqrt(12) / 4)
    expect(said).toBeGreaterThan(0.98 * left)
    expect(said).toBeLessThan(3 * left)
  })
})
