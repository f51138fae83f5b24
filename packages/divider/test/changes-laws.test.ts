import { changed } from '@ohmward/budget'
import { expect, it } from 'vitest'
import { remedies } from '../src/changes/index.js'
import { readChoice } from '../src/choice.js'
import type { DividerChoice } from '../src/index.js'
import { cell, knife, knifeAtRail } from './design.js'

const designs: Readonly<Record<string, DividerChoice>> = {
  'a load at ground': knife,
  'a load at the rail': knifeAtRail,
}

const ends = <T>(list: readonly T[]): readonly T[] => (list.length > 1 ? [list[0]!, list.at(-1)!] : list)

it.each(Object.entries(designs))(
  'every change can be typed in, with its first and with its last rung: %s',
  (_, choice) => {
    const read = readChoice(choice, cell)
    let tried = 0
    for (const spec of new Set(Object.values(remedies).flat()))
      for (const { puts } of ends(spec.rungs({ choice, conditions: cell, read }))) {
        for (const path of Object.keys(puts)) expect(path, spec.id).toMatch(/^\w+(\.\w+)*$/)
        const typed = changed({ choice, conditions: cell }, JSON.parse(JSON.stringify(puts)))
        expect(JSON.stringify(typed), spec.id).not.toBe(JSON.stringify({ choice, conditions: cell }))
        tried++
        // A rung may go further than another value of the design lets it; but no field of it is unknown.
        try {
          readChoice(typed.choice, typed.conditions)
        } catch (error) {
          expect(String(error), spec.id).not.toMatch(/Unknown|Missing/)
        }
      }
    expect(tried).toBeGreaterThan(20)
  },
)

it('tighter resistors are all three of them: reference, feedback and ground', () => {
  const spec = Object.values(remedies)
    .flat()
    .find(({ id }) => id === 'closer-resistors')!
  const rungs = spec.rungs({ choice: knife, conditions: cell, read: readChoice(knife, cell) })
  expect(rungs.length).toBeGreaterThan(0)
  for (const { puts } of rungs)
    for (const path of ['reference', 'gainResistors.feedback', 'gainResistors.ground'])
      expect(Object.keys(puts)).toContain(path)
})
