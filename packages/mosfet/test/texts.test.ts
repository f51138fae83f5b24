import { schemaOf } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { remedies } from '../src/changes/index.js'
import { readMosfet } from '../src/choice.js'
import {
  checkMosfet,
  choiceRecord,
  exampleChoice,
  exampleConditions,
  exampleDrives,
  exampleTransistors,
  type MosfetChoice,
} from '../src/index.js'
import { readTransistor } from '../src/parts/transistor.js'
import { cell, driver, inverterFast, inverterSlow, knife, lowSide, nChannelLowVoltage, pin } from './choice.js'

const choices: MosfetChoice[] = [
  knife({ edgeLimit: '1 ms', lossLimit: '2 W', switchingShare: 0.5 }),
  knife({ drive: { ...pin, highLevel: '4 V' }, bursts: { on: 1, period: 10, count: 5 } }),
  lowSide({ wiring: { sharedSource: '1 mohm' } }),
  lowSide({
    drive: { ...driver, supply: { regulated: 5 } },
    load: { current: 5 },
    edges: 'clamped inductive',
    parallel: 2,
  }),
  lowSide({ drive: { ...inverterFast, basePullUp: '10 kohm' } }),
  lowSide({
    drive: inverterSlow,
    transistor: { ...nChannelLowVoltage, temperatureLaw: { kind: 'linear', perKelvin: 0.004 } },
  }),
]

/** The pitfalls that each margin catches. */
const catches: Record<string, string[]> = {
  'gate-drive': ['H01', 'H02', 'H03', 'H04', 'H13'],
  'gate-threshold': ['H01', 'H13'],
  'gate-plateau': ['H04'],
  'gate-maximum': [],
  'drive-supply': ['H02'],
  'pin-current': ['H09'],
  'pull-power': ['H04'],
  saturation: ['H04'],
  'off-level': ['H08'],
  'reset-state': ['H04', 'H08'],
  'contact-edge': ['H08'],
  'contact-heat': ['H08'],
  'drain-current': [],
  'drain-voltage': ['H12'],
  'avalanche-energy': ['H11', 'H12'],
  'on-edge': ['H04', 'H07'],
  'off-edge': ['H04', 'H07'],
  'longest-edge': ['H04', 'H07'],
  'mean-heat': ['H06'],
  'safe-area': ['H10'],
  junction: ['H05', 'H06', 'H07'],
  runaway: ['H05'],
  loss: ['H07'],
  'switching-share': ['H07'],
}

describe('the words of an assessment', () => {
  const all = choices.map((choice) => checkMosfet(choice, cell(), { simulation: false }))

  it('every margin names itself, its pitfalls and what to do', () => {
    const seen = new Set<string>()
    for (const { id, name, unit, sense, catches: caught } of all.flatMap(({ margins }) => margins)) {
      seen.add(id)
      expect(name).toMatch(/^[a-z][^.]{5,}[^.]$/)
      expect(['V', 'A', 'W', 's', 'J', 'Hz', 'degC']).toContain(unit)
      expect(['at least', 'at most']).toContain(sense)
      expect(remedies[id]!.length, id).toBeGreaterThan(0)
      for (const one of remedies[id]!) expect(one.name).toMatch(/\S{4,}/)
      expect(caught, id).toEqual(catches[id])
    }
    expect([...seen].sort()).toEqual(Object.keys(catches).sort())
  })

  it('every caution and assumption is a sentence', () => {
    for (const { cautions, assumptions } of all) {
      expect(cautions.length).toBeGreaterThan(3)
      for (const { id, text } of cautions) {
        expect(id).toMatch(/^[a-z-]{4,}$/)
        expect(text).toMatch(/^[A-Z].*\w.*\.$/s)
      }
      const ids = cautions.map(({ id }) => id)
      expect(ids.slice(0, 2)).toEqual(['fails-short', 'lithium-ion'])
      expect(ids).toEqual(expect.arrayContaining(['verify', 'thermal-resistance']))
      // What can hurt someone comes first.
      const dangers = cautions.map(({ danger }) => danger === true)
      expect(dangers).toEqual(dangers.toSorted((a, b) => Number(b) - Number(a)))
      for (const text of assumptions) expect(text).toMatch(/^\S.*\w.*\.$/s)
      expect(assumptions.length).toBeGreaterThan(8)
    }
    const said = (i: number) => all[i]!.assumptions.join(' ')
    expect(said(0)).toMatch(/the data sheet’s curve.*solved with the hot transistor.*until the temperature settles/)
    expect(said(1)).toMatch(/effective impedance/)
    expect(said(2)).toMatch(/a power of the absolute temperature/)
    expect(said(3)).toMatch(/The load draws a constant current.*2 devices share.*floats on its leakage/)
    expect(said(5)).toMatch(/a straight line/)
    expect(said(2)).not.toMatch(/floats on its leakage/)
  })

  it('every example can be read, and is as it says', () => {
    for (const [name, transistor] of Object.entries(exampleTransistors)) {
      const read = readTransistor(transistor)
      expect(name.startsWith(`${read.channel}-channel`)).toBe(true)
      expect(name).toContain(`from ${read.onResistance[0]!.gateSource} V`)
    }
    for (const drive of Object.values(exampleDrives)) {
      const { kind } = readMosfet({ ...exampleChoice, drive }, exampleConditions).drive
      expect(kind).toBe(drive.kind)
    }
  })

  it('what was taken by default stands there with its value and unit', () => {
    const { assumptions } = checkMosfet(exampleChoice, exampleConditions, { simulation: false })
    const taken = assumptions.filter((text) => text.startsWith('By default: '))
    for (const text of [
      'drive.currentGain = 50 (',
      'drive.pull.ratedPower = 100 mW (',
      'drive.baseOff = 400 mV (',
      'parallel = 1 (',
      'thermal.tolerance = ±20 % (',
      'wiring.contactTime = 10 µs (',
    ]) {
      expect(
        taken.some((one) => one.startsWith(`By default: ${text}`)),
        text,
      ).toBe(true)
    }
    const told = checkMosfet(
      { ...exampleChoice, thermal: { copperSquareMillimetres: 250, tolerance: '20 %' }, parallel: 1 },
      exampleConditions,
      { simulation: false },
    ).assumptions
    expect(told.some((one) => /thermal\.tolerance|parallel = /.test(one))).toBe(false)
  })

  it('the schema of a choice names its fields and lets no other in', () => {
    const schema = schemaOf(choiceRecord, { title: 'switch' }) as Record<string, any>
    expect(schema['additionalProperties']).toBe(false)
    expect(schema['required']).toEqual(expect.arrayContaining(['transistor', 'drive', 'pwm']))
    expect(schema['properties'].pwm.properties.frequency.description).toMatch(/Hz/)
    expect(schema['properties'].drive.oneOf.length).toBeGreaterThanOrEqual(4)
  })
})
