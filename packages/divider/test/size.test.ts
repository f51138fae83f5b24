import { exampleConverters } from '@ohmward/adc'
import { changesOf } from '@ohmward/budget'
import { preferredIn } from '@ohmward/quantity'
import { describe, expect, it, vi } from 'vitest'
import { only } from '../../../test/tools/only.js'
import {
  checkDivider,
  type DividerRequirement,
  divider,
  dividerRemedies,
  exampleAmplifiers,
  sizeDivider,
} from '../src/index.js'
import { cell, check, ideal, knife } from './design.js'

// A search that finds nothing makes some seventy checks.
vi.setConfig({ testTimeout: 120_000 })

const { reference: _, gainResistors: __, ...given } = knife
const wanted: DividerRequirement = {
  ...given,
  rail: { from: 3, to: 4.2 },
  excitationSwitch: { currentLimit: '100 mA' },
}
const at = { rail: wanted.rail, ambientCelsius: { from: 0, to: 50 } }

describe('sizing', () => {
  const { choices, rejected, needed } = sizeDivider(wanted)

  it('returns choices that hold, of preferred values, each reference once', () => {
    expect(choices.length).toBe(3)
    for (const { choice, assessment } of choices) {
      const again = check(choice, at)
      expect(again.verdict).toBe('holds')
      expect(again).toEqual(assessment)
      const ohm = (text: unknown) => Number.parseFloat(String(text)) * (String(text).includes('kohm') ? 1e3 : 1)
      for (const value of [ohm(choice.reference), ohm(choice.gainResistors.feedback)])
        expect(preferredIn({ from: value * 0.999, to: value * 1.001 }, 'E24').length).toBe(1)
      expect(String(choice.reference)).toMatch(/±1 %/)
      expect(String(choice.gainResistors.ground)).toMatch(/^1 kohm ±1 %/)
      expect(choice.gainResistors.ratioDrift).toBe(1e-4)
    }
    expect(new Set(choices.map(({ choice }) => choice.reference)).size).toBe(choices.length)
    expect(needed).toBeUndefined()
  })

  it('finds a load at the rail too, where nothing is calibrated', () => {
    const { choices } = sizeDivider({ ...wanted, topology: 'load at rail', calibration: 'none', error: '50 %' })
    expect(choices.length).toBeGreaterThan(0)
    for (const { choice, assessment } of choices) {
      expect(choice.topology).toBe('load at rail')
      expect(assessment.verdict).toBe('holds')
    }
  })

  it('puts the largest relative slack first', () => {
    const slack = choices.map(({ assessment: { margins } }) => margins[0]!.slack / Math.abs(margins[0]!.limit))
    expect(slack).toEqual([...slack].sort((a, b) => b - a))
  })

  it('turns down only what fails its check, and names a margin that does', () => {
    expect(rejected.length).toBeGreaterThan(0)
    for (const { choice, row, reason } of rejected.filter((_one, i) => i % 3 === 0)) {
      const answer = check(choice, at)
      expect(answer.verdict).not.toBe('holds')
      const named = answer.margins.find(({ id }) => id === row)
      expect(named?.verdict, `${row}: ${reason}`).not.toBe('holds')
      expect(reason.length).toBeGreaterThan(10)
    }
  })

  it('stays within the current of the switch', () => {
    for (const { assessment } of choices) {
      const current = assessment.margins.find(({ id }) => id === 'test-current')!
      expect(current.worst).toBeLessThanOrEqual(0.1)
    }
  })

  it('takes the series, the tolerance, the ground resistor and the number that it is told', () => {
    const told = sizeDivider({
      ...wanted,
      series: 'E6',
      tolerance: '0.5 %',
      ground: '2 kohm',
      ratioDrift: 5e-5,
      most: 1,
    })
    expect(told.choices.length).toBe(1)
    const { reference, gainResistors } = told.choices[0]!.choice
    expect(reference).toMatch(/±0\.5 %/)
    expect(gainResistors).toMatchObject({ ground: '2 kohm ±0.5 %', ratioDrift: 5e-5 })
    const digits = Number.parseFloat(String(reference))
    expect([1, 1.5, 2.2, 3.3, 4.7, 6.8, 10, 15, 22, 33, 47, 68, 100, 150, 220, 330, 470, 680]).toContain(digits)
  })

  it('refuses what isn’t allowed', () => {
    for (const [change, field] of [
      [{ most: 0 }, /^most = 0: .*at least 1 and at most 20/],
      [{ most: 21 }, /^most = 21/],
      [{ most: 1.5 }, /^most = 1\.5/],
      [{ series: 'E7' }, /^series = "E7": .*"E3" or "E6"/],
      [{ tolerance: 'much' }, /^tolerance/],
      [{ tolerance: '120 %' }, /^tolerance/],
      [{ ground: 5 }, /^ground = 5/],
      [{ ground: 2e6 }, /^ground = 2000000/],
      [{ rail: { from: 0, to: 3 } }, /^rail\.from = 0/],
      [{ error: undefined }, /Missing: error/],
      [{ reference: 47 }, /Unknown: reference/],
      [{ ratioDrift: 1 }, /^ratioDrift = 1 1\/K/],
    ] as const)
      expect(() => sizeDivider({ ...wanted, ...change } as never)).toThrow(field)
  })
})

describe('sizing where nothing holds', () => {
  it('says what offset would do: with it a check holds, with a little more it fails', () => {
    const amplifier = exampleAmplifiers.cmosRailToRail
    const requirement = { ...wanted, amplifier, tolerance: '0.2 %' }
    const { choices, rejected, needed } = sizeDivider(requirement)
    expect(choices).toEqual([])
    expect(rejected.length).toBeGreaterThan(0)
    // What it lacks and nothing else.
    expect(needed!.text).toMatch(
      /, an amplifier with an offset of at most \S+ \S+( with its inputs at 0 V)? would do\.$/,
    )
    const { offsetVoltage, text } = needed!
    expect(offsetVoltage).toBeGreaterThan(0)
    expect(offsetVoltage).toBeLessThan(3e-3)
    const [, reference, feedback] = /^With (.*?) and (.*?), an amplifier/.exec(text)!
    const drop = needed!.outputDrop ?? 25e-3
    const share = (offset: number) => ({
      ...given,
      excitationSwitch: wanted.excitationSwitch!,
      reference: reference!,
      gainResistors: { feedback: feedback!, ground: '1 kohm ±0.2 %', ratioDrift: 1e-4 },
      amplifier: {
        ...amplifier,
        offsetCommonMode: 0,
        offsetVoltage: offset,
        offsetDrift: (8e-6 * offset) / 3e-3,
        highOutputDrop: drop,
        lowOutput: drop,
      },
    })
    expect(check(share(offsetVoltage! * 0.999), at).verdict).toBe('holds')
    expect(check(share(offsetVoltage! * 1.2 + 1e-4), at).verdict).toBe('fails')
  })

  it('says that no amplifier would do where none would', () => {
    const { choices, needed } = sizeDivider({ ...wanted, error: '0.1 %' })
    expect(choices).toEqual([])
    expect(needed!.text).toMatch(/^A better offset or swing alone would not do; nearest is /)
    expect(needed!.text).not.toMatch(/larger (reference|feedback)|smaller (reference|feedback)/)
    expect(needed!.offsetVoltage).toBeUndefined()
  })
})

describe('sizing of a load over twenty to one', () => {
  const { choices, rejected, needed } = sizeDivider({
    load: { from: '0.1 ohm', to: '2 ohm', nominal: '0.5 ohm' },
    error: '10 %',
    rail: { from: 3, to: 4.2 },
    amplifier: { ...exampleAmplifiers.zeroDrift, offsetVoltage: '8 uV' },
    converter: exampleConverters['12-bit controller converter'],
    excitationSwitch: { resistance: '0.5 ohm ±50 %', currentLimit: '60 mA' },
  })

  it('names a real candidate, its row, and what costs nothing before any part', () => {
    expect(choices).toEqual([])
    const [, reference, feedback, samples] =
      /^Close is (.*?) with (.*?): error at the smallest load: .*With more samples averaged \((\d+)\) everything holds\.$/.exec(
        needed!.text,
      )!
    const named = rejected.find(
      ({ choice }) => choice.reference === reference && choice.gainResistors.feedback === feedback,
    )!
    expect(check({ ...named.choice, timing: { samples: Number(samples) } }, at).verdict).toBe('holds')
    expect(check(named.choice, at).verdict).toBe('fails')
  })

  it('puts the nearest first, what nominal parts fail last', () => {
    const lacks = rejected.flatMap(({ lack }) => lack ?? [])
    expect(lacks.length).toBeGreaterThan(10)
    expect(lacks).toEqual([...lacks].sort((a, b) => a - b))
    expect(rejected.slice(0, lacks.length).every(({ lack }) => lack !== undefined)).toBe(true)
  })
})

describe('sizing of ideal parts', () => {
  it('finds the largest gain that keeps headroom', () => {
    const { reference: ___, gainResistors: ____, ...parts } = ideal
    const { choices } = sizeDivider({ ...parts, rail: cell.rail, tolerance: '0.1 %', most: 1 })
    const { assessment } = choices[0]!
    expect(assessment.verdict).toBe('holds')
    expect(
      checkDivider(choices[0]!.choice, at, { simulation: false }).margins.find(({ id }) => id === 'headroom')!.slack,
    ).toBeGreaterThan(0)
  })
})

it('asks for a pedestal where the zero is to be read, without checking each candidate in full', () => {
  const wanted = {
    load: { from: '1.5 ohm', to: '3 ohm' },
    error: '3 %',
    rail: { from: 3, to: 4.2 },
    tolerance: '0.1 %',
    series: 'E6',
    amplifier: exampleAmplifiers.zeroDrift,
    converter: exampleConverters['12-bit controller converter'],
    calibration: { kind: 'zero and span', resistor: '2 ohm ±0.1 %' },
  } as const
  const { choices, rejected, needed } = sizeDivider(wanted)
  expect(choices).toEqual([])
  const beyond = rejected.filter(({ row }) => row !== 'zero' && row !== 'headroom' && row !== 'test-current')
  expect(beyond.filter(({ row }) => row !== 'dissipation')).toEqual([])
  expect(rejected.some(({ row }) => row === 'zero')).toBe(true)
  expect(needed!.text).toMatch(/output at the zero reading/)
  const { choice } = rejected.find(({ row }) => row === 'zero')!
  const around = { rail: wanted.rail, ambientCelsius: { from: 0, to: 50 } }
  const { changes } = changesOf(divider, only(dividerRemedies, ['pedestal']), choice, around)
  const pedestal = changes.find(({ id }) => id === 'pedestal')!
  expect(pedestal.mends.map(({ id }) => id)).toContain('zero')
  // With one it works, as a newcomer found by trying.
  expect(sizeDivider({ ...wanted, pedestal: '3 %', most: 1 }).choices.length).toBe(1)
})

describe('the gain that sizing starts from', () => {
  const { reference: _ref, gainResistors: _pair, ...parts } = ideal
  const ohms = (text: unknown) => Number.parseFloat(String(text)) * (String(text).includes('kohm') ? 1e3 : 1)
  /** Highest output of what is found, at a rail of 3 V and the largest load, V. */
  const outputOf = (voltage: string) => {
    const converter = { ...parts.converter, reference: { kind: 'absolute', voltage } as const }
    // Steps of 4.8 %: ten of them lead down by two fifths only, and the load may be read 5 % larger than it is.
    const { choices } = sizeDivider({
      ...parts,
      converter,
      rail: { from: 3, to: 3 },
      series: 'E48',
      tolerance: '0.1 %',
      most: 1,
    })
    expect(choices.length, voltage).toBe(1)
    const { reference, gainResistors } = choices[0]!.choice
    return ((3 * 1.2) / (ohms(reference) + 1.2)) * (1 + ohms(gainResistors.feedback) / 1e3)
  }

  it('ends at the converter’s reference where that is below what the output reaches, at the rail where it is not', () => {
    for (const [voltage, full] of [
      ['1.2 V', 1.2],
      ['5 V', 3],
    ] as const) {
      const output = outputOf(voltage)
      expect(output, voltage).toBeLessThan(full)
      expect(output, voltage).toBeGreaterThan(0.55 * full)
    }
  })
})
