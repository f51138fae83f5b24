import { describe, expect, it } from 'vitest'
import { type DecouplingChoice, decouplingChanges } from '../src/index.js'
import { base, bulk, check, named } from './usual-rail.js'

type Pwm = NonNullable<DecouplingChoice['load']['pwm']>
const conditions = {
  openCircuit: { from: 3.7, to: 3.7 },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
}
const pulsed = (pwm: Pwm, more: object = {}): DecouplingChoice => ({
  ...base,
  source: { resistance: 0.1 },
  load: { current: 8, pwm, ...more },
})
const worst = (pwm: Pwm, id = 'rail-brown-out') => named(check(pulsed(pwm)), id).worst

describe('ranges of PWM', () => {
  it('are the same as one value where both ends are it', () => {
    const one = worst({ frequency: '1 kHz', duty: 0.5 })
    expect(worst({ frequency: { from: 1000, to: '1 kHz' }, duty: { from: 0.5, to: 0.5 } })).toBe(one)
  })

  it('without inductance are worst at the lowest frequency and the largest duty', () => {
    const whole = worst({ frequency: { from: 500, to: 5e3 }, duty: { from: 0.1, to: 0.9 } })
    expect(whole).toBeCloseTo(worst({ frequency: 500, duty: 0.9 }), 12)
    const at = named(
      check(pulsed({ frequency: { from: 500, to: 5e3 }, duty: { from: 0.1, to: 0.9 } })),
      'rail-brown-out',
    )
    expect(at.at).toMatchObject({ f_pwm: 500, D: 0.9 })
  })

  it('carry most ripple inside their duties: half of the current at half of the time, by √(D(1-D))', () => {
    const rated = { ...bulk, capacitance: 0.1, rippleCurrent: 3 }
    const answer = check({
      ...pulsed({ frequency: 20e3, duty: { from: 0.2, to: 0.9 } }),
      source: { resistance: 10 },
      load: { current: 0.2, pwm: { frequency: 20e3, duty: { from: 0.2, to: 0.9 } } },
      limits: { brownOut: 0.1 },
      capacitors: [rated],
    })
    const { worst, at } = named(answer, 'ripple-1')
    expect(at['D']).toBeCloseTo(0.5, 2)
    // What the source, which has a thousand times the resistance, carries of it.
    expect(worst).toBeCloseTo(0.1, 3)
  })

  it('leave room for the edges at every frequency and duty', () => {
    const edges = { rise: '10 us', fall: '10 us' }
    const refused = (pwm: Pwm) => () => check(pulsed(pwm, edges))
    expect(refused({ frequency: { from: 100, to: 2e4 }, duty: { from: 0.1, to: 0.5 } })).toThrow(/^load\.rise = /)
    expect(refused({ frequency: { from: 100, to: 2e4 }, duty: { from: 0.5, to: 0.9 } })).toThrow(/^load\.fall = /)
    expect(refused({ frequency: { from: 2e4, to: 100 }, duty: 0.5 })).toThrow(/^load\.pwm\.frequency\.from = 20000/)
    expect(refused({ frequency: { from: 100, to: 2e3 }, duty: { from: 0.5, to: 0.9 } })).not.toThrow()
  })

  it('are no better than any duty in them, where the loop rings and the open-circuit voltage has a range too', () => {
    const wide = { ...conditions, openCircuit: { from: 3.5, to: 3.9 } }
    const under = (duty: Pwm['duty']) => {
      const choice = {
        ...base,
        source: { resistance: '0.04 ohm ±30 %', inductance: '10 uH ±10 %' },
        capacitors: [{ ...bulk, capacitance: '100 uF ±10 %', seriesResistance: 0.05 }],
        load: { resistance: '0.7 ohm ±5 %', rise: '1 us', pwm: { frequency: '3 kHz', duty } },
        limits: { brownOut: 1 },
      }
      return named(check(choice, wide), 'rail-brown-out').worst
    }
    const singles = [0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9].map(under)
    expect(Math.min(...singles)).toBeLessThan(Math.min(singles[0]!, singles.at(-1)!) - 0.1)
    // The middle of the second is the worst of all.
    for (const from of [0.2, 0.5]) expect(under({ from, to: 0.9 })).toBeLessThanOrEqual(Math.min(...singles) + 1e-6)
  })

  it('say what of them was tried', () => {
    const { assumptions } = check(pulsed({ frequency: { from: 500, to: 5e3 }, duty: { from: 0.1, to: 0.9 } }))
    expect(assumptions.filter((one) => /were tried/.test(one))).toHaveLength(2)
    const { assumptions: none } = check(pulsed({ frequency: 500, duty: 0.5 }))
    expect(none.filter((one) => /were tried/.test(one))).toEqual([])
  })

  it('are narrowed by a change', () => {
    const choice = { ...pulsed({ frequency: 1e3, duty: { from: 0.1, to: 0.95 } }), limits: { brownOut: 3 } }
    const { changes } = decouplingChanges(choice, conditions)
    const less = changes.find(({ id }) => id === 'duty-to')!
    expect(less.verdict).toBe('holds')
    const held = check({ ...choice, load: { current: 8, pwm: { frequency: 1e3, duty: { from: 0.1, to: less.text } } } })
    expect(held.verdict).toBe('holds')
  })
})
