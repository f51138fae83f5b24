import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mosfetChoices, mosfetConditions } from '../../../test/tools/choices/mosfet.js'
import { checkMosfet, type MosfetChoice, type MosfetConditions } from '../src/index.js'
import { cell, driver, inverterFast, inverterSlow, knife, lowSide, pin } from './choice.js'

const check = (choice: MosfetChoice, around = cell()) => checkMosfet(choice, around, { simulation: false })
const margin = (choice: MosfetChoice, id: string, around = cell()) =>
  check(choice, around).margins.find((one) => one.id === id)!

describe('the resistor that pulls the gate', () => {
  const pull = (ohms: number, ratedPower?: number) =>
    ({ at: 'gate', resistance: ohms, ...(ratedPower && { ratedPower }) }) as const

  it('is held in every drive that has one: a square of a voltage over a resistance, for as long as the switch is on', () => {
    const pwm = { frequency: 100, duty: { from: 0.2, to: 0.9 } }
    const drives: MosfetChoice['drive'][] = [
      { kind: 'follower', supply: { regulated: 8 }, pull: pull(220) },
      { ...pin, supply: { regulated: 8 }, pull: pull(220) },
      { ...driver, supply: { regulated: 8 }, pull: pull(220) },
    ]
    for (const drive of drives) {
      const found = margin(lowSide({ drive, pwm }), 'pull-power')
      expect(found.worst).toBeCloseTo((8 ** 2 / 220) * 0.9, 9)
      expect(found.verdict).toBe('fails')
    }
    const strong = { kind: 'follower', supply: { regulated: 8 }, pull: pull(220, 0.5) } as const
    expect(margin(lowSide({ drive: strong, pwm }), 'pull-power').verdict).toBe('holds')
  })
})

describe('the cell that makes contact', () => {
  it('lifts the gate for no longer than the row says: ramp and decay by small steps', () => {
    for (const [R, threshold] of [
      [100e3, 0.7],
      [1e6, 0.5],
      [330e3, 1],
    ] as const) {
      const transistor = { ...knife().transistor, thresholdVoltage: threshold, thresholdFall: 0, plateauVoltage: 2 }
      const choice = knife({ transistor, drive: { ...inverterSlow, pull: { at: 'gate', resistance: R } } })
      const { worst } = margin(choice, 'contact-edge', cell({ openCircuit: { from: 4.2, to: 4.2 } }))
      const [C_iss, C_gd, t_ins] = [2.3e-9, 320e-12, 1e-5]
      const h = 1e-8
      let [gate, over] = [0, 0]
      for (let t = 0; t < 0.02; t += h) {
        const ramp = t < t_ins ? (C_gd * 4.2) / t_ins : 0
        gate += (h * (ramp - gate / R)) / C_iss
        if (gate > threshold) over += h
      }
      expect(worst).toBeGreaterThanOrEqual(over)
      if (over === 0) expect(worst).toBe(0)
      else expect(worst).toBeLessThan(over * 1.1 + t_ins)
    }
  })

  it('fails where the load would be on for longer than is allowed, or the transistor would burn', () => {
    const weak = { ...inverterSlow, pull: { at: 'gate', resistance: '10 Mohm' } } as const
    const transistor = { ...knife().transistor, thresholdVoltage: 0.5, thresholdFall: 0 }
    expect(margin(knife({ transistor, drive: weak }), 'contact-edge').verdict).toBe('fails')
    const strong = knife({ transistor, drive: weak, load: { resistance: 0.02 }, contactAllowed: '1 s' })
    const around = cell({ openCircuit: { from: 12, to: 12 }, sourceResistance: 0.01 })
    expect(margin(strong, 'contact-heat', around).verdict).toBe('fails')
  })
})

describe('the distance to runaway', () => {
  const runaway = (choice: MosfetChoice, around: MosfetConditions) => {
    const { margins } = check(choice, around)
    return margins.find(({ id }) => id === 'runaway')
  }

  it('is never better at worst than nominal, and never better in hotter air', () => {
    let seen = 0
    fc.assert(
      fc.property(mosfetChoices, mosfetConditions, fc.integer({ min: 1, max: 40 }), (choice, around, more) => {
        const cool = runaway(choice, around)
        if (cool === undefined) return
        seen++
        expect(cool.slack).toBeLessThanOrEqual(cool.nominalSlack + 1e-9 * Math.abs(cool.limit))
        const { from, to } = around.ambientCelsius as { from: number; to: number }
        const hot = runaway(choice, { ...around, ambientCelsius: { from, to: to + more } })!
        expect(hot.slack).toBeLessThanOrEqual(cool.slack + 1e-6 * (Math.abs(cool.slack) + Math.abs(cool.limit)))
      }),
      { numRuns: 90, seed: 46 },
    )
    expect(seen).toBeGreaterThan(20)
  })
})

describe('the sentence', () => {
  it('names the junction as it settles beside its limit, not as a hypothetical loss would heat it', () => {
    const { summary, worst, margins } = check(knife())
    expect(margins[0]!.id).toBe('junction')
    if (worst.junction.kind !== 'balance') throw new Error('runaway')
    expect(summary).toContain(
      `tightest is the junction as it settles, with ${Math.floor(10 * (150 - worst.junction.T_j)) / 10} K to spare`,
    )
  })

  it('says what a gate that is slow against the period means, and fails nothing for it', () => {
    const slow = knife({ drive: inverterFast, pwm: { frequency: '9 kHz', duty: { from: 0.4, to: 0.6 } } })
    const found = check(slow)
    expect(found.margins.map(({ id }) => id)).not.toContain('gate-time-constant')
  })
})
