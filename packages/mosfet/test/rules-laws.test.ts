import { relativeSlack } from '@ohmward/budget'
import { readNumber } from '@ohmward/quantity'
import { describe, expect, it, vi } from 'vitest'
import { checkMosfet, type MosfetChoice, sizeMosfet, type Transistor } from '../src/index.js'
import { cell, driver, inverterFast, inverterSlow, knife, lowSide, pChannelLowVoltage } from './choice.js'

vi.setConfig({ testTimeout: 300_000 })

const plain = (choice: MosfetChoice, options = {}) => checkMosfet(choice, cell(), { simulation: false, ...options })
const numberIn = (text: string, unit: 'V' | 'W' | 's') => readNumber(text, { field: 'text', unit })

describe('a drive with a supply of its own', () => {
  const driven = (supplyMinimum: string) =>
    plain(lowSide({ drive: { ...driver, supply: { regulated: '5 V ±2 %' }, supplyMinimum } }))

  it.each([
    ['4.8 V', 'holds'],
    ['4.95 V', 'fails'],
  ])('is held against the least that it works at: 4.9 V against %s %s', (least, verdict) => {
    const row = driven(least).margins.find(({ id }) => id === 'drive-supply')!
    expect(row.worst).toBeCloseTo(4.9, 10)
    expect(row.limit).toBe(numberIn(least, 'V'))
    expect(row.verdict).toBe(verdict)
  })
})

describe('a contact that lifts the gate', () => {
  // Of a resistor most power is left at half the voltage and half the current; a constant current keeps all of both.
  it.each([
    ['a resistor', undefined, 1 / 4],
    ['a constant current', { current: 5 }, 1],
  ] as const)('heats with what %s leaves at most', (_, load, share) => {
    const { values } = plain(lowSide({ drive: driver, ...(load && { load }) }))
    const { P_con, V_oc, I_max, T_con, T_air, Z_con } = values as Record<string, number>
    expect(P_con! / (V_oc! * I_max!)).toBeCloseTo(share, 12)
    expect(T_con! - T_air!).toBeCloseTo(Z_con! * P_con!, 12)
  })
})

describe('a rule that accepts by probability', () => {
  it('starts the other margins from a typical board, which is cooler and turns off with more to spare', () => {
    // Warm enough that a tolerance of the thermal resistance tells: the threshold falls with every kelvin.
    const warm = lowSide({ thermal: { junctionToAmbient: '120 K/W ±30 %' } })
    const spare = (options: object) =>
      Object.fromEntries(plain(warm, options).margins.map((one) => [one.id, one.limit - one.worst]))
    const [strict, typical] = [spare({}), spare({ accept: 0.5 })]
    for (const id of ['off-level', 'reset-state']) expect(typical[id]!).toBeGreaterThan(strict[id]! + 1e-3)
  })

  it('is that of a sizing too: what is chosen by it is accepted, and may not hold at worst', () => {
    const { transistor: _, ...rest } = knife({ thermal: { junctionToAmbient: '125 K/W ±45 %' } })
    const { choices } = sizeMosfet({ ...rest, transistors: { low: pChannelLowVoltage } }, cell(), { accept: 0.5 })
    expect(choices.length).toBeGreaterThan(0)
    for (const { choice } of choices) {
      expect(plain(choice, { accept: 0.5 }).verdict).toBe('holds')
      const { margins } = plain(choice)
      expect(Math.min(...margins.map(relativeSlack))).toBeLessThan(0)
    }
  })
})

describe('what the words say', () => {
  const warm = [
    knife(),
    knife({ thermal: { junctionToAmbient: '83 K/W ±20 %' } }),
    knife({ thermal: { junctionToAmbient: '91 K/W ±20 %' } }),
    lowSide({ drive: driver }),
  ]

  it.each(warm)('the junction at worst is told no cooler than it is', (choice) => {
    const { summary, worst } = plain(choice)
    if (worst.junction.kind !== 'balance') throw new Error('no balance')
    const [, told] = /at worst (\S+) °C\.$/.exec(summary)!
    expect(Number(told)).toBeGreaterThanOrEqual(worst.junction.T_j)
    expect(Number(told)).toBeLessThan(worst.junction.T_j * 1.01)
  })

  it('a switching loss beyond the conduction loss is told with both, in watts', () => {
    const drive = { ...driver, gateResistor: '4.7 kohm ±1 %' }
    const fast = plain(lowSide({ drive, pwm: { frequency: '4 kHz', duty: { from: 0.1, to: 0.3 } } }))
    const { text } = fast.cautions.find(({ id }) => id === 'switching-loss')!
    const [, switching, conduction] = /^Switching loss \(([^)]*W)\) exceeds conduction loss \(([^)]*W)\)/.exec(text)!
    expect(numberIn(switching!, 'W')).toBeGreaterThan(numberIn(conduction!, 'W'))
    const [, time, share] = /time constant is (.*s), (\S+) % of the period/.exec(
      fast.cautions.find(({ id }) => id === 'gate-time-constant')!.text,
    )!
    expect(Number(share) / 100 / numberIn(time!, 's') / 4000).toBeCloseTo(1, 1)
  })

  it('slow edges ask for a safe operating area where the choice names none', () => {
    const asked = (safePulses?: string) => {
      const { safePulses: _, ...transistor }: Transistor = pChannelLowVoltage
      const choice = knife({ drive: inverterSlow, transistor: { ...transistor, ...(safePulses && { safePulses }) } })
      const { cautions, margins } = plain(choice)
      expect(margins.some(({ id, worst }) => id === 'off-edge' && worst > 1e-5)).toBe(true)
      return cautions.some(({ id }) => id === 'slow-edge')
    }
    expect(asked()).toBe(true)
    expect(asked('10 us: 900 W; 100 us: 320 W; 1 ms: 105 W; 10 ms: 34 W')).toBe(false)
    // What is fast needs none.
    const { safePulses: _, ...transistor }: Transistor = pChannelLowVoltage
    const fast = plain(knife({ drive: { ...inverterFast, gateResistor: '1 ohm' }, transistor }))
    const isSlow = fast.margins.some(({ id, worst }) => id.endsWith('-edge') && id !== 'contact-edge' && worst > 1e-5)
    expect(fast.cautions.some(({ id }) => id === 'slow-edge')).toBe(isSlow)
  })
})
