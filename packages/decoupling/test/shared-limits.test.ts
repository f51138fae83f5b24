import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice } from '../src/index.js'
import { flatConditions, flatKnife } from './flat-knife.js'

const margins = (choice: DecouplingChoice) =>
  new Map(checkDecoupling(choice, flatConditions, { simulation: false }).margins.map((one) => [one.id, one]))

describe('limits on one rail', () => {
  it.each([
    ['all hold', { brownOut: '2.1 V ±5 %', clock: '1.7 V', amplifier: '1.8 V' }],
    ['the highest fails', { brownOut: '2.7 V ±5 %', clock: '1.7 V', sensor: '2 V' }],
    ['the highest fails on some boards only', { brownOut: '2.38 V', clock: '2.2 V' }],
  ])('have together the margins that each has alone: %s', (_, limits) => {
    const together = margins({ ...flatKnife, limits })
    for (const [name, limit] of Object.entries(limits)) {
      const id = `rail-${name.replace('O', '-o')}`
      const alone = margins({ ...flatKnife, limits: { [name]: limit } }).get(id)!
      const shared = together.get(id)!
      expect(shared).toMatchObject({ verdict: alone.verdict, at: alone.at, name: alone.name, catches: alone.catches })
      for (const word of ['limit', 'worst', 'nominal', 'slack', 'nominalSlack'] as const) {
        expect(shared[word]).toBeCloseTo(alone[word], 12)
      }
      expect(shared.probability).toBeCloseTo(alone.probability!, 9)
    }
  })

  it('count also for the ratings that the highest rail must keep', () => {
    const insertion = { ...flatKnife.insertion, railMaximum: '4.1 V' }
    const strict = margins({ ...flatKnife, insertion })
    expect(strict.get('rail-maximum')).toMatchObject({ verdict: 'fails', limit: 4.1 })
    expect(strict.get('rail-maximum')!.slack).toBeCloseTo(-0.1, 9)
    expect(strict.get('rated-voltage')).toMatchObject({ verdict: 'holds', limit: 6.3 })
    expect(strict.get('rated-voltage')!.slack).toBeCloseTo(2.1, 9)
  })
})
