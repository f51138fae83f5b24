import { type ChangeSpec, changed, type Remedies } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import fc from 'fast-check'
import { expect } from 'vitest'

/** A choice with what surrounds it, as a user writes them. */
interface Given<C, D> {
  readonly choice: C
  readonly conditions: D
}

/** How the choices of a block are read, and what may be changed in one. */
interface Catalogue<C, D, R> {
  readonly read: (choice: C, conditions: D) => R
  readonly remediesOf: (read: R) => Remedies
  readonly choices: fc.Arbitrary<Given<C, D>>
  /** Choices in which a change has a sense that random ones hardly meet. */
  readonly more?: readonly Given<C, D>[]
}

const plain = (value: unknown) => JSON.stringify(value, (_, one) => (one === undefined ? 'left out' : one))

/**
 * Holds every change of a block to what a change is: it has a name and an id of its own, says what is put in, and what is put in
 * makes another choice of it, in some choice at least one that the block takes.
 */
export function holdsAsCatalogue<C, D, R>({ read, remediesOf, choices, more = [] }: Catalogue<C, D, R>): void {
  const [named, taken, seen] = [new Map<string, string>(), new Set<string>(), new Set<string>()]
  for (const { choice, conditions } of [...fc.sample(choices, { numRuns: 12, seed: 20261129 }), ...more]) {
    const before = readOrNot(() => read(choice, conditions))
    if (before === undefined) continue
    for (const spec of specsOf(remediesOf(before))) {
      seen.add(spec.id)
      expect(spec.id).toMatch(/^[a-z0-9-]+$/)
      expect(spec.name.length).toBeGreaterThan(3)
      expect(named.get(spec.id) ?? spec.name, `one name of ${spec.id}`).toBe(spec.name)
      named.set(spec.id, spec.name)
      const rungs = spec.rungs({ choice, conditions, read: before })
      for (const { puts, text } of [rungs[0], rungs[rungs.length >> 1], rungs[rungs.length - 1]].filter(
        (one) => one !== undefined,
      )) {
        expect(text, spec.id).toMatch(/^(?!.*(undefined|NaN|Infinity|\[object))./)
        expect(Object.keys(puts).length, spec.id).toBeGreaterThan(0)
        for (const path of Object.keys(puts)) expect(path, spec.id).toMatch(/^[a-zA-Z][\w.]*$/)
        const other = changed({ choice, conditions }, puts)
        const after = readOrNot(() => read(other.choice, other.conditions))
        if (after === undefined) continue
        expect(plain(after) === plain(before), `${spec.id} (${text}) leaves ${plain(puts)} as it was`).toBe(false)
        taken.add(spec.id)
      }
    }
  }
  expect(
    [...seen]
      .filter((id) => !taken.has(id))
      .sort()
      .join(' '),
    'changes that no choice takes',
  ).toBe('')
}

const specsOf = (remedies: Remedies): ReadonlySet<ChangeSpec> => new Set(Object.values(remedies).flat())

/** What the block's own error refuses is no fault of a change: the engine leaves it out. */
function readOrNot<R>(read: () => R): R | undefined {
  try {
    return read()
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}
