import { InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { expect, it, vi } from 'vitest'
import { dividerRecord } from '../src/choice.js'
import { checkDivider, type DividerChoice } from '../src/index.js'
import { cell, knife } from './design.js'

vi.setConfig({ testTimeout: 300_000 })

/** What a table allows: its ends, and values between on a logarithmic scale. */
const within = ({ above, min, max, integer }: { above?: number; min?: number; max?: number; integer?: boolean }) => {
  const least = min ?? 0
  const inside = fc
    .double({ min: -9, max: 0, noNaN: true })
    .map((power) => Math.max((max ?? 1) * 10 ** power, least, 1e-12))
    .map((value) => (integer ? Math.max(1, Math.round(value)) : value))
  return fc.oneof(fc.constant(above === undefined ? least : 1e-12), fc.constant(max ?? 1), inside)
}
const some = (fields: object) =>
  fc.record(
    Object.fromEntries(
      Object.entries(fields)
        .filter(([, field]) => field.kind === undefined)
        .map(([name, field]) => [name, within(field)]),
    ),
    { requiredKeys: [] },
  )
const { surroundings, timing, referencePart, excitationSwitch, amplifier, converter } = dividerRecord.fields
const choices = fc.record({
  surroundings: some(surroundings.fields),
  timing: some(timing.fields),
  referencePart: some(referencePart.fields),
  excitationSwitch: some(excitationSwitch.fields),
  amplifier: some(amplifier.fields),
  converter: some(converter.fields),
  topology: fc.constantFrom('load at ground', 'load at rail'),
  calibration: fc.constantFrom('none', 'zero', { kind: 'zero and span', resistor: '1 ohm ±0.1 %' }),
  element: fc.constantFrom(undefined, 'platinum', { coefficient: '4000 ppm/K ±5 %' }, [
    [0, 1],
    [300, 2.12],
  ]),
})

it('answers in finite numbers, or names the field, whatever the tables allow', () => {
  fc.assert(
    fc.property(choices, ({ element, amplifier, converter, ...drawn }) => {
      const choice = {
        ...knife,
        ...drawn,
        amplifier: { ...knife.amplifier, ...amplifier },
        converter: { ...knife.converter, ...converter },
        ...(element !== undefined && { thermometry: { element, hotCelsius: 250, error: 20, limitCelsius: 400 } }),
      } as unknown as DividerChoice
      try {
        const { margins, budgets } = checkDivider(choice, cell, { simulation: false })
        for (const { id, worst, slack, nominal, limit } of margins) {
          for (const value of [worst, slack, nominal, limit]) expect(Number.isFinite(value), id).toBe(true)
        }
        for (const { linear } of Object.values(budgets)) expect(Number.isFinite(linear.expanded)).toBe(true)
      } catch (error) {
        if (!(error instanceof InputError)) throw error
        expect(error.field).toMatch(
          /^(converter|amplifier|timing|surroundings|excitationSwitch|referencePart|pedestal)/,
        )
      }
    }),
    { numRuns: 40, seed: 7 },
  )
})

it('follows a measured curve of many points as fast as one of few', () => {
  const points = Array.from({ length: 1000 }, (_, i) => [i, 1 + i / 300] as const)
  const thermometry = { element: points, hotCelsius: 900, error: 20 } as const
  expect(() => checkDivider({ ...knife, thermometry }, cell, { simulation: false })).not.toThrow()
  expect(() =>
    checkDivider({ ...knife, thermometry: { ...thermometry, element: [...points, [1001, 9]] } }, cell),
  ).toThrow(/^thermometry\.element = a list: .*at most 1000/)
})
