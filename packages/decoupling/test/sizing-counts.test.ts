import { describe, expect, it } from 'vitest'
import { type Capacitor, checkDecoupling, sizeDecoupling } from '../src/index.js'
import { at, base, cell } from './exact-rail.js'

describe('sizing goes on where more parts help', () => {
  const requirement = {
    source: cell(0.1),
    load: { current: 8, pwm: { frequency: 50e3, duty: 0.5 } },
    limits: { brownOut: 3 },
    conditions: at(3.7),
  }
  const polymer: Capacitor = {
    name: 'polymer',
    capacitance: '470 uF ±20 %',
    ratedVoltage: 6.3,
    seriesResistance: '12 mohm',
    rippleCurrent: 1.2,
    lifeHours: 2000,
  }

  it('for ripple: of 7 parts the best carries 1.41 A, of 6 1.58 A', () => {
    const load = { current: 8, pwm: { frequency: 1e6, duty: 0.5 } }
    const { choices, rejected } = sizeDecoupling({ ...requirement, load, stock: [{ ...polymer, rippleCurrent: 1.5 }] })
    expect(rejected).toEqual([])
    expect(choices[0]!.choice.capacitors[0]!.count).toBe(7)
    // 4 A of alternating current, shared by conductance: 100 mohm, a part of three tenths of 12 mohm, six of 12 mohm.
    const best = 4 / 0.0036 / (1 / 0.1 + 1 / 0.0036 + 6 / 0.012)
    const { worst } = choices[0]!.assessment.margins.find(({ id }) => id === 'ripple-1')!
    expect(Math.abs(worst / best - 1)).toBeLessThan(0.005)
  })

  it('and takes the smallest number that holds: one less fails its check', () => {
    const load = { current: 8, pwm: { frequency: 1e6, duty: 0.5 } }
    const parts = [1.5, 2, 3].map((rippleCurrent) => ({
      ...polymer,
      name: `polymer ${rippleCurrent} A`,
      rippleCurrent,
    }))
    const { choices } = sizeDecoupling({ ...requirement, load, stock: parts })
    expect(choices.length).toBe(3)
    for (const { choice } of choices) {
      const [part] = choice.capacitors
      const verdictWith = (count: number) =>
        checkDecoupling({ ...choice, capacitors: [{ ...part!, count }] }, requirement.conditions, { simulation: false })
          .verdict
      expect(verdictWith(Number(part!.count))).toBe('holds')
      expect(verdictWith(Number(part!.count) - 1)).toBe('fails')
    }
  })

  it('for life: as many as share the heat', () => {
    const part = { ...polymer, rippleCurrent: 0, thermalResistance: 60 }
    const { choices } = sizeDecoupling({ ...requirement, stock: [part], wantedLifeHours: 450e3 })
    const count = Number(choices[0]!.choice.capacitors[0]!.count)
    // 2000 h at 105 °C, doubled for each 10 K below: 512 kh at 25 °C less what (I/n)² · 12 mohm · 60 K/W take.
    const life = (n: number) => 2000 * 2 ** ((80 - 60 * ((4 * 0.1) / (0.1 + 0.012 / n) / n) ** 2 * 0.012) / 10)
    expect(life(count)).toBeGreaterThan(450e3)
    expect(life(count - 1)).toBeLessThan(450e3)
    const [short] = sizeDecoupling({ ...requirement, stock: [part], mostParts: 1, wantedLifeHours: 450e3 }).rejected
    expect(short!.reason).toMatch(/ h below its limit$/)
  })

  it('for the peak at plugging in, and not where more make it worse', () => {
    const small: Capacitor = { name: 'ceramic', capacitance: 10e-6, ratedVoltage: 6.3, seriesResistance: 3e-3 }
    const wanted = {
      ...requirement,
      source: cell(0.03, { inductance: 0.3e-6 }),
      load: { current: 1, rise: 20e-6 },
      stock: [small],
      mostParts: 50,
    }
    const { choices } = sizeDecoupling(wanted)
    const count = Number(choices[0]!.choice.capacitors[0]!.count)
    expect(count).toBeGreaterThan(1)
    expect(checkDecoupling({ ...base, ...choices[0]!.choice }, wanted.conditions, { simulation: false }).verdict).toBe(
      'holds',
    )
    const surge = sizeDecoupling({ ...wanted, insertion: { contactSurge: 20 } })
    expect(surge.choices).toEqual([])
    expect(surge.rejected.length).toBe(1)
  })
})
