import { relativeSlack } from '@ohmward/budget'
import { readSpread } from '@ohmward/quantity'
import { describe, expect, it, vi } from 'vitest'
import { checkMosfet, largestOnResistance, type MosfetChoice, sizeMosfet } from '../src/index.js'
import {
  cell,
  driver,
  inverterFast,
  inverterSlow,
  knife,
  lowSide,
  nChannelLowVoltage,
  pChannelLogicLevel,
  pChannelLowVoltage,
  pin,
} from './choice.js'

// A sizing makes many checks.
vi.setConfig({ testTimeout: 300_000 })

const { transistor: _, ...high } = knife({ thermal: { junctionToAmbient: '70 K/W ±20 %' } })
const { transistor: __, ...low } = lowSide()
const rest = ({ drive: ___, ...others }: typeof high) => others
const verdict = (choice: Parameters<typeof checkMosfet>[0]) =>
  checkMosfet(choice, cell(), { simulation: false }).verdict

describe('sizeMosfet', () => {
  it('every choice holds, every candidate turned down fails, with its reason', () => {
    const {
      choices,
      rejected,
      largestOnResistance: ohms,
    } = sizeMosfet({ ...high, transistors: { low: pChannelLowVoltage, logic: pChannelLogicLevel } }, cell())
    expect(choices.map(({ transistor }) => transistor)).toEqual(['low'])
    for (const { choice, assessment } of choices) {
      expect(assessment.verdict).toBe('holds')
      expect(verdict(choice)).toBe('holds')
    }
    expect(rejected.length).toBeGreaterThan(2)
    for (const { choice, reason, row } of rejected) {
      expect(verdict(choice), reason).not.toBe('holds')
      expect(reason).toMatch(/(over|below) its limit|not sure|against/)
      expect(row).not.toBe('')
    }
    expect(rejected.filter(({ transistor }) => transistor === 'logic').map(({ row }) => row)).toEqual(['gate-drive'])
    expect(ohms).toBeGreaterThan(0.019)
    expect(ohms).toBeLessThan(0.04)
  })

  it('H08, H09: draws the gate resistor that the pin bears and the pull-down that holds in reset', () => {
    const { choices, rejected } = sizeMosfet({ ...low, transistors: { n: nChannelLowVoltage } }, cell())
    const drive = choices[0]!.choice.drive
    // 4.2 V over 40 mA is 105 ohm, less at least 25 ohm in the pin: 80 ohm, so 100 ohm of E6 at least.
    expect(Number.parseFloat(String(drive.gateResistor))).toBeGreaterThanOrEqual(100)
    expect(drive.gateResistor).toMatch(/^\d+ ohm ±1 %$/)
    // The weak pull of 30 kohm at 4.2 V may lift the gate to no more than the smallest threshold of 0.45 V, less what
    // the heat takes: 0.45 / (4.2 - 0.45) of 30 kohm is 3.6 kohm, so 3.3 kohm of E6 at most.
    expect(readSpread(drive.pull!.resistance, { field: 'R_p', unit: 'ohm' }).nominal).toBeLessThanOrEqual(3300)
    expect(rejected.map(({ row }) => row)).toContain('reset-state')
    expect(rejected.map(({ row }) => row)).toContain('pin-current')
    for (const { choice, reason } of rejected.filter((___, i) => i % 4 === 0))
      expect(verdict(choice), reason).toBe('fails')
  })

  it('H07: the highest frequency is where switching reaches its share', () => {
    const share = 0.1
    const { choices } = sizeMosfet({ ...low, transistors: { n: nChannelLowVoltage }, switchingShare: '10 %' }, cell())
    const { highestFrequency, choice } = choices[0]!
    const at = checkMosfet({ ...choice, pwm: { ...choice.pwm, frequency: highestFrequency! } }, cell(), {
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
    expect(new Set(rejected.map(({ row }) => row))).toContain('reset-state')
  })

  it('takes another series, and puts the better transistor first', () => {
    const small = { ...nChannelLowVoltage, onResistance: [{ gateSource: 1.8, maximum: 0.02 }] }
    const { choices, rejected } = sizeMosfet(
      { ...low, transistors: { small, large: nChannelLowVoltage }, series: 'E3', tolerance: '5 %' },
      cell(),
    )
    expect(choices.map(({ transistor }) => transistor)).toEqual(['large', 'small'])
    for (const { choice } of [...choices, ...rejected]) {
      expect(choice.drive.gateResistor).toMatch(/^(1|10|100|2\.2|22|220|4\.7|47|470) k?ohm ±5 %$/)
      expect(choice.drive.pull!.resistance).toMatch(/^(1|10|100|2\.2|22|220|4\.7|47|470) k?ohm ±5 %$/)
    }
  })

  it('chooses among drives too, and says what it left out', () => {
    const drives = { slow: inverterSlow, fast: inverterFast, driver }
    const { choices, rejected, untried, beaten, skipped } = sizeMosfet(
      { ...rest(high), drives, transistors: { low: pChannelLowVoltage } },
      cell(),
      { most: 3 },
    )
    const found = choices.map(({ drive }) => drive)
    expect(new Set(found).size).toBe(found.length)
    expect(found).toContain('fast')
    for (const { choice } of choices) expect(verdict(choice)).toBe('holds')
    for (const { drive } of rejected) expect(Object.keys(drives)).toContain(drive)
    expect([untried, beaten, skipped].every(Number.isInteger)).toBe(true)
    const slacks = choices.map(({ assessment: { margins } }) => Math.min(...margins.map(relativeSlack)))
    expect(slacks.length).toBeGreaterThan(0)
  })

  it('takes the cheapest that holds where a cost is given', () => {
    const ohms = (choice: MosfetChoice) =>
      readSpread(choice.drive.gateResistor ?? 0, { field: 'R_g', unit: 'ohm' }).nominal
    const { choices } = sizeMosfet({ ...low, transistors: { n: nChannelLowVoltage } }, cell(), { cost: ohms })
    const { choice } = choices[0]!
    expect(verdict(choice)).toBe('holds')
    // Each smaller value of the series fails, whatever its pull resistor.
    const smaller = ['10', '15', '22', '33', '47', '68', '100'].filter((one) => Number(one) < ohms(choice))
    for (const one of smaller)
      expect(verdict({ ...choice, drive: { ...choice.drive, gateResistor: `${one} ohm ±1 %` } }), one).toBe('fails')
  })

  it('finds small pull-ups as well as large ones, with a gate resistor for each', () => {
    // Down to 100 ohm, where a twentieth of the pull-up would be less than any gate resistor.
    const { choices } = sizeMosfet(
      {
        ...high,
        drive: {
          ...inverterFast,
          pull: { at: 'gate', resistance: '120 ohm', ratedPower: '1 W' },
          baseResistor: '150 ohm',
        },
        pwm: { frequency: '20 kHz', duty: { from: 0.05, to: 0.9 } },
        transistors: { low: pChannelLowVoltage },
        series: 'E12',
      },
      cell(),
    )
    for (const { choice } of choices) expect(verdict(choice)).toBe('holds')
  })

  it('refuses options that don’t exist, and a drive beside drives', () => {
    const requirement = { ...low, transistors: { n: nChannelLowVoltage } }
    expect(() => sizeMosfet(requirement, cell(), { count: 3 } as never)).toThrow(/count/)
    expect(() => sizeMosfet({ ...requirement, drives: { pin } }, cell())).toThrow(/drive/)
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
