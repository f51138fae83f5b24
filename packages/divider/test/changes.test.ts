import { changed } from '@ohmward/budget'
import { describe, expect, it, vi } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { checkDivider, type DividerChoice, dividerChanges, exampleAmplifiers } from '../src/index.js'
import { cell, knife, knifeAtRail } from './design.js'

vi.setConfig({ testTimeout: 120_000 })

const quick = { simulation: false } as const
/** One search and one check of each for all tests. */
const changesOf = remembered((choice: DividerChoice) => dividerChanges(choice, cell))
const check = remembered(checkDivider)

/** Designs that fail in a way of their own each. */
const failing: Readonly<Record<string, DividerChoice>> = {
  'an output that stops below the rail': { ...knife, amplifier: exampleAmplifiers.bipolarSingleSupply },
  'an error that is too large': { ...knife, error: '1 %' },
  'a wait that is too short': { ...knife, timing: { wait: '50 us' } },
  'too little gain': { ...knife, gainResistors: { feedback: '1 kohm ±1 %', ground: '1 kohm ±1 %' } },
  'a switch that carries less': { ...knife, excitationSwitch: { currentLimit: '50 mA' } },
  'a zero that is clipped': { ...knife, calibration: { kind: 'zero' } },
  'a filter without enough capacitance': { ...knife, timing: { filter: '10 us', samples: 16, wait: '2 ms' } },
  'a load at the rail': { ...knifeAtRail, error: '5 %' },
}

describe.each(Object.entries(failing))('what is proposed for %s', (_, choice) => {
  const before = () => check(choice, cell, quick)
  const found = () => changesOf(choice)

  it('is something, for a choice that fails', () => {
    expect(before().verdict).not.toBe('holds')
    expect(found().changes.length).toBeGreaterThan(0)
  })

  it('does, typed in as printed, what it promises', () => {
    const { changes, pairs } = found()
    for (const change of [...changes, ...pairs]) {
      const typed = changed({ choice, conditions: cell }, JSON.parse(JSON.stringify(change.puts)))
      const after = checkDivider(typed.choice, typed.conditions, { simulation: false })
      const row = (id: string) => after.margins.find((one) => one.id === id)
      expect(after.verdict, change.name).toBe(change.verdict)
      for (const { id } of change.mends) expect(row(id)?.verdict ?? 'holds', `${change.name}: ${id}`).toBe('holds')
      for (const { id, after: slack } of change.helps) expect(row(id)!.slack).toBe(slack)
      for (const { id } of change.breaks) expect(row(id)!.verdict, `${change.name}: ${id}`).not.toBe('holds')
      // Nothing else gets worse than it is said to.
      for (const one of after.margins.filter(({ verdict }) => verdict !== 'holds')) {
        const was = before().margins.find(({ id }) => id === one.id)
        if (was === undefined || was.verdict === 'holds') expect(change.breaks.map(({ id }) => id)).toContain(one.id)
      }
    }
  })

  it('changes something', () => {
    for (const { puts } of found().changes) {
      const typed = changed({ choice, conditions: cell }, puts)
      expect(JSON.stringify(typed)).not.toBe(JSON.stringify({ choice, conditions: cell }))
    }
  })
})

describe('a change that was wrong once', () => {
  it('a smaller converter reference is not named for an output that stops below the rail', () => {
    const names = changesOf(failing['an output that stops below the rail']!).changes.map(({ name }) => name)
    expect(names.join()).not.toMatch(/reference of the converter|converter reference/)
    expect(names).toContain('another class of amplifier')
  })

  it('a capacitor at the pin is as large as it must be', () => {
    const { changes } = changesOf(failing['a filter without enough capacitance']!)
    expect(changes.some(({ mends }) => mends.some(({ id }) => id === 'sampling'))).toBe(true)
  })
})
