import { describe, expect, it } from 'vitest'
import { checkDivider, dividerChanges, sizeDivider } from '../src/index.js'
import { cell, knife } from './design.js'

const { reference: _, gainResistors: __, ...given } = knife

describe('a limit of the test current', () => {
  it('that stands one level too high is told where it belongs', () => {
    expect(() => checkDivider({ ...knife, currentLimit: '60 mA' } as never, cell)).toThrow(
      /Unknown: currentLimit \(did you mean load\.currentLimit\?\)/,
    )
    expect(() => checkDivider({ ...knife, offsetVoltage: 1 } as never, cell)).toThrow(/amplifier\.offsetVoltage/)
  })

  it('of the load holds beside that of its switch', () => {
    const limit = (load: object, currentLimit: string) =>
      checkDivider({ ...knife, load: { ...knife.load, ...load }, excitationSwitch: { currentLimit } } as never, cell, {
        simulation: false,
      }).margins.find(({ id }) => id === 'test-current')!.limit
    expect(limit({}, '0.1 A')).toBe(0.1)
    expect(limit({ currentLimit: '20 mA' }, '0.1 A')).toBe(0.02)
    expect(limit({ currentLimit: '0.2 A' }, '0.1 A')).toBe(0.1)
  })

  it('of the load is no reason for another switch', () => {
    const choice = {
      ...knife,
      load: { ...knife.load, currentLimit: '20 mA' },
      excitationSwitch: { currentLimit: '1 A' },
    }
    const { changes } = dividerChanges(choice as never, cell, { checks: 60 })
    expect(changes.map(({ id }) => id)).toContain('less-current')
    expect(changes.map(({ id }) => id)).not.toContain('stronger-switch')
  })

  it('of the load is held by sizing', () => {
    const load = { ...given.load, currentLimit: '40 mA' }
    const { choices } = sizeDivider({ ...given, load, rail: cell.rail, tolerance: '0.5 %', most: 2 } as never)
    for (const { assessment } of choices) {
      expect(assessment.margins.find(({ id }) => id === 'test-current')!.worst).toBeLessThanOrEqual(0.04)
    }
    expect(choices.length).toBe(2)
  })
})
