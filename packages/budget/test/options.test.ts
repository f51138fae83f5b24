import { plusMinus } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import {
  blockOf,
  budgetOf,
  type CheckOptions,
  changesOf,
  choose,
  compare,
  extremes,
  propagate,
  readCheckOptions,
  simulate,
  simulateAsync,
} from '../src/index.js'

const inputs = { a: plusMinus(1, 0.1), b: plusMinus(2, 0.1, { kind: 'normal', coverage: 2 }) }
const model = ({ a, b }: { a: number; b: number }) => a * b
const any = (value: unknown) => value as never

const verbs: Record<string, (options: unknown) => unknown> = {
  propagate: (options) => propagate(inputs, model, any(options)),
  extremes: (options) => extremes(inputs, model, any(options)),
  simulate: (options) => simulate(inputs, model, any(options)),
  compare: (options) => compare(propagate(inputs, model), simulate(inputs, model), any(options)),
  readCheckOptions: (options) => readCheckOptions(any(options)),
}

describe.each(Object.entries(verbs))('%s', (_, verb) => {
  it.each([{ coverage: 2 }, { acept: 0.9 }, { sead: 3 }, { simulatoin: false }])('refuses %o', (options) => {
    const [name] = Object.keys(options)
    const { field, hint } = refusalOf(() => verb(options))
    expect(field).toBe('options')
    expect(hint).toContain(`Unknown: ${name}`)
  })

  it.each([null, 3, 'off', []])('refuses %o for options', (options) => {
    expect(refusalOf(() => verb(options)).field).toBe('options')
  })
})

describe('a name that is nearly right', () => {
  it.each([
    [() => verbs['propagate']!({ levl: 0.9 }), 'did you mean level?'],
    [() => verbs['simulate']!({ sead: 3 }), 'did you mean seed?'],
    [() => verbs['simulate']!({ limits: { lowr: 3 } }), 'did you mean lower?'],
    [() => verbs['readCheckOptions']!({ acept: 0.9 }), 'did you mean accept?'],
    [() => verbs['readCheckOptions']!({ simulatoin: false }), 'did you mean simulation?'],
    [() => verbs['readCheckOptions']!({ simulation: { trails: 1000 } }), 'did you mean trials?'],
  ])('%s is named', (run, hint) => {
    expect(refusalOf(run).hint).toContain(hint)
  })

  it('of a budget and of its simulation is refused too', async () => {
    const spec = { symbol: 'y', quantity: 'y', unit: 'V', inputs, model }
    expect(refusalOf(() => budgetOf(any({ ...spec, simulatio: false }))).hint).toContain('did you mean simulation?')
    expect(refusalOf(() => budgetOf(any({ ...spec, simulation: 'off' }))).field).toBe('simulation')
    expect(refusalOf(() => budgetOf(any({ ...spec, simulation: null }))).field).toBe('simulation')
    await expect(simulateAsync(inputs, model, any({ onprogress: () => 0 }))).rejects.toThrow(/did you mean onProgress/)
    expect(refusalOf(() => simulate(inputs, model, any({ k: 2 }))).hint).toContain('Unknown: k')
  })

  it('of 100,000 letters is shown short', () => {
    expect(
      refusalOf(() =>
        propagate(
          inputs,
          model,
          any(Object.fromEntries(Array.from({ length: 100 }, (_, k) => ['x'.repeat(1e4) + k, 1]))),
        ),
      ).message.length,
    ).toBeLessThan(600)
  })
})

describe('a coverage factor', () => {
  it('makes the interval k u, with the level that it covers', () => {
    const sum = ({ a, b }: { a: number; b: number }) => a + b
    const { u, expanded, level, k } = propagate(inputs, sum, { k: 2 })
    // u² = 0.1²/3 + 0.05² by hand. A normal distribution has 95.45 % within 2 u.
    expect(u).toBeCloseTo(Math.sqrt(0.01 / 3 + 0.0025), 12)
    expect([k, expanded]).toEqual([2, 2 * u])
    expect(level).toBeCloseTo(0.9545, 4)
  })

  it('covers less with few degrees of freedom: table G.2 of JCGM 100:2008 has 95.45 % at 3.31 for 3 of them', () => {
    const few = { a: { ...plusMinus(0, 1, { kind: 'normal', coverage: 1 } as const), degreesOfFreedom: 3 } }
    expect(propagate(few, ({ a }) => a, { k: 3.31 }).level).toBeCloseTo(0.9545, 3)
  })

  it('gives the simulation of a budget its level, so that the two compare', () => {
    const budget = budgetOf({ symbol: 'y', quantity: 'y', unit: 'V', inputs, model, k: 2 })
    expect(budget.simulation!.level).toBe(budget.linear.level)
    expect(budget.comparison).toBeDefined()
  })

  it.each([0, -1, Number.NaN, Infinity, '2', null])('is refused as %o', (k) => {
    expect(refusalOf(() => propagate(inputs, model, any({ k }))).field).toBe('k')
  })

  it('is refused beside a level', () => {
    expect(refusalOf(() => propagate(inputs, model, { k: 2, level: 0.9 })).field).toBe('level')
  })
})

describe('what the engines are called with', () => {
  it.each<[string, () => unknown, string]>([
    ['a model that is no function', () => propagate(inputs, any(3)), 'model'],
    ['no model', () => extremes(inputs, any(undefined)), 'model'],
    ['inputs that are a list', () => simulate(any([1, 2]), any(model)), 'inputs'],
    ['no inputs', () => propagate(any(null), any(model)), 'inputs'],
    ['a row that is no function', () => propagate(inputs, model, any({ row: 1 })), 'row'],
    ['correlations of numbers', () => propagate(inputs, model, any({ correlations: [1] })), 'correlations[0]'],
    ['correlations that are no list', () => simulate(inputs, model, any({ correlations: {} })), 'correlations'],
    [
      'a correlation between nothing',
      () => propagate(inputs, model, any({ correlations: [{ between: 'ab', coefficient: 1 }] })),
      'correlations[0].between',
    ],
    [
      'a coefficient in words',
      () => propagate(inputs, model, any({ correlations: [{ between: ['a', 'b'], coefficient: '1' }] })),
      'correlations[0].coefficient',
    ],
    ['groups of numbers', () => propagate(inputs, model, any({ groups: [1] })), 'groups[0]'],
    ['a group of nothing', () => propagate(inputs, model, any({ groups: [{ name: 'g' }] })), 'groups[0].inputs'],
    ['a level in words', () => propagate(inputs, model, any({ level: '0.9' })), 'level'],
    ['a unit that is no text', () => verbs['compare']!({ unit: 5 }), 'unit'],
    ['a budget without interval', () => compare(any({}), simulate(inputs, model)), 'linear.interval'],
    ['no simulation', () => compare(propagate(inputs, model), any(null)), 'simulation.interval'],
  ])('%s is refused', (_, run, field) => {
    expect(refusalOf(run).field).toBe(field)
  })
})

describe('readCheckOptions', () => {
  it('fills in what is usual and keeps what was asked', () => {
    expect(readCheckOptions()).toEqual({ simulation: { maximumTrials: 65_536 } })
    const given: CheckOptions = { simulation: { trials: 4096, seed: 3 }, accept: 0.95 }
    expect(readCheckOptions(given)).toEqual({ ...given, simulation: { maximumTrials: 65_536, trials: 4096, seed: 3 } })
    expect(readCheckOptions({ simulation: false })).toEqual({ simulation: false })
  })

  it.each([
    [{ accept: 95 }, 'accept'],
    [{ simulation: { trials: 1 } }, 'trials'],
    [{ simulation: { method: 'x' } }, 'method'],
  ])('refuses %o', (given, field) => {
    expect(refusalOf(() => readCheckOptions(any(given))).field).toBe(field)
  })
})

describe('choosing and changing', () => {
  const none = any({})
  const block = blockOf<object, object, object>({
    name: 'none',
    read: (choice) => choice,
    setup: () => any({ rows: [] }),
    at: (read) => read,
  })
  it.each<[string, () => unknown, string]>([
    ['a misspelled option of a choice', () => choose(block, [], none, any({ mots: 3 })), 'options'],
    ['no options of a choice', () => choose(block, [], none, any(null)), 'options'],
    ['half a check', () => choose(block, [], none, { checks: 0.5 }), 'checks'],
    ['a cost that is a number', () => choose(block, [], none, any({ cost: 3 })), 'cost'],
    ['a misspelled option of changes', () => changesOf(block, none, none, none, any({ chekcs: 3 })), 'options'],
    ['a block that was not made as one', () => choose({ ...block }, [], none), 'block'],
    ['one candidate in the place of a list', () => choose(block, any('x'), none), 'candidates'],
    [
      'a remedy that is no change',
      () => changesOf(block, { level: [any({ id: 'x' })] }, none, none),
      'remedies.level[0]',
    ],
    [
      'parts without names',
      () => changesOf(block, none, none, none, { parts: any({ amplifier: 3 }) }),
      'parts.amplifier',
    ],
    ['fewer than no checks', () => changesOf(block, none, none, none, { checks: -1 }), 'checks'],
  ])('%s is refused', (_, run, field) => {
    expect(refusalOf(run).field).toBe(field)
  })
})
