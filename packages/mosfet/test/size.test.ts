import { describe, expect, it, vi } from 'vitest'
import { checkMosfet, largestOnResistance, sizeMosfet } from '../src/index.js'
import { cell, knife, lowSide, nChannelLowVoltage, pChannelLogicLevel, pChannelLowVoltage, pin } from './choice.js'

// A sizing makes many checks.
vi.setConfig({ testTimeout: 60_000 })

const { transistor: _, ...high } = knife({ thermal: { junctionToAmbient: '70 K/W ±20 %' } })
const { transistor: __, ...low } = lowSide()
const verdict = (parts: Parameters<typeof checkMosfet>[0]) => checkMosfet(parts, cell(), { simulation: false }).verdict

describe('sizeMosfet', () => {
  it('every choice holds, every candidate turned down fails, with its reason', () => {
    const {
      choices,
      rejected,
      largestOnResistance: ohms,
    } = sizeMosfet({ ...high, transistors: { low: pChannelLowVoltage, logic: pChannelLogicLevel } }, cell())
    expect(choices.map(({ name }) => name)).toEqual(['low'])
    for (const { parts, assessment } of choices) {
      expect(assessment.verdict).toBe('holds')
      expect(verdict(parts)).toBe('holds')
    }
    expect(rejected.length).toBeGreaterThan(2)
    for (const { parts, reason, margin } of rejected) {
      expect(verdict(parts), reason).not.toBe('holds')
      expect(reason).toMatch(/short by|not sure/)
      expect(margin).not.toBe('')
    }
    expect(rejected.filter(({ name }) => name === 'logic').map(({ margin }) => margin)).toEqual(['gate-drive'])
    expect(ohms).toBeGreaterThan(0.019)
    expect(ohms).toBeLessThan(0.04)
  })

  it('H08, H09: draws the gate resistor that the pin bears and the pull-down that holds in reset', () => {
    const { choices, rejected } = sizeMosfet({ ...low, transistors: { n: nChannelLowVoltage } }, cell())
    const drive = choices[0]!.parts.drive
    // 4.2 V over 40 mA is 105 ohm, less at least 25 ohm in the pin: 80 ohm, so 100 ohm of E6.
    expect(drive.gateResistor).toBe('100 ohm ±1 %')
    expect(drive.pull?.resistance).toBe('2.2 kohm ±1 %')
    expect(rejected.map(({ margin }) => margin)).toContain('reset-state')
    expect(rejected.map(({ margin }) => margin)).toContain('pin-current')
    for (const { parts, reason } of rejected) expect(verdict(parts), reason).toBe('fails')
  })

  it('H07: the highest frequency is where switching reaches its share', () => {
    const share = 0.1
    const { choices } = sizeMosfet({ ...low, transistors: { n: nChannelLowVoltage }, switchingShare: '10 %' }, cell())
    const { highestFrequency, parts } = choices[0]!
    const at = checkMosfet({ ...parts, pwm: { ...parts.pwm, frequency: highestFrequency! } }, cell(), {
      simulation: false,
    }).values
    // The junction is a little warmer there, so conduction a little larger.
    expect(at['P_sw']! / at['P']!).toBeGreaterThan(0.95 * share)
    expect(at['P_sw']! / at['P']!).toBeLessThanOrEqual(share)
    const { choices: still } = sizeMosfet(
      { ...low, transistors: { n: nChannelLowVoltage }, pwm: { frequency: 0, duty: { from: 1, to: 1 } } },
      cell(),
    )
    expect(still[0]!.highestFrequency).toBeNull()
  })

  it('a drive without a resistor is left without one, and then nothing holds the gate', () => {
    const { pull: ___, ...bare } = pin
    const { choices, rejected } = sizeMosfet({ ...low, drive: bare, transistors: { n: nChannelLowVoltage } }, cell())
    expect(choices).toEqual([])
    expect(new Set(rejected.map(({ margin }) => margin))).toContain('reset-state')
  })

  it('takes another series, and puts the coolest first', () => {
    const small = { ...nChannelLowVoltage, onResistance: [{ gateSource: 1.8, maximum: 0.02 }] }
    const { choices } = sizeMosfet(
      { ...low, transistors: { small, large: nChannelLowVoltage }, series: 'E24', tolerance: '5 %' },
      cell(),
    )
    expect(choices.map(({ name }) => name)).toEqual(['large', 'small'])
    expect(choices[0]!.parts.drive.gateResistor).toMatch(/ ±5 %$/)
  })
})

describe('the largest on-resistance', () => {
  it('is where the junction just reaches its limit', () => {
    const choice = knife({ thermal: { junctionToAmbient: '70 K/W ±20 %' } })
    const ohms = largestOnResistance(choice, cell())!
    const slack = (maximum: number) => {
      const transistor = { ...pChannelLowVoltage, onResistance: [{ gateSource: 0.5, maximum }] }
      const { margins } = checkMosfet({ ...choice, transistor }, cell(), { simulation: false })
      return margins.find(({ id }) => id === 'junction')!.slack
    }
    expect(slack(ohms)).toBeGreaterThanOrEqual(0)
    expect(slack(ohms * 1.001)).toBeLessThan(0)
  })

  it('is nothing where the edges alone are too hot', () => {
    const drive = { ...pin, gateResistor: '10 kohm' }
    expect(
      largestOnResistance(lowSide({ drive, pwm: { frequency: '20 kHz', duty: { from: 0.4, to: 0.6 } } }), cell()),
    ).toBeNull()
  })

  it('is without bound where a load resists that much itself', () => {
    expect(largestOnResistance(lowSide({ load: { resistance: 10000 } }), cell())).toBeGreaterThan(500)
  })
})
