import { demand, demandFinite, demandNumber, nextDown, nextUp, type Series } from '@ohmward/quantity'
import { demandCount } from '../../model/options.js'
import { demandMove } from './given.js'
import { standing } from './path.js'
import type { ChangeSpec, ChangeStart, Rung } from './spec.js'
import { numberOf, printable, typed } from './value.js'

/** What a change of one number says of itself. */
interface Move {
  readonly id: string
  readonly name: string
  /** Where it stands in the choice, or after `conditions.` in the conditions. */
  readonly path: string
  readonly unit: string
  /** What stands there, where it isn't read under the same path. */
  readonly from?: (read: any) => unknown
  /** Paths that get the same value: the second of a pair. */
  readonly also?: readonly string[]
  /** Whether it costs no part. */
  readonly isFree?: true
}

const present = (
  { path, from }: Move,
  given: ChangeStart,
): { given: unknown; read: unknown; value: number | undefined } => {
  const here = standing(given, path)
  const read = from ? from(given.read) : here.read
  return { given: here.given, read, value: numberOf(read) }
}

/** What every change of one number says of itself. */
const said = ({ id, name, isFree }: Move): Omit<ChangeSpec, 'rungs'> => ({
  id,
  name,
  order: 'mildest first',
  ...(isFree && { isFree }),
})

const putting = ({ path, also = [] }: Move, text: string): Rung => ({
  puts: Object.fromEntries([path, ...also].map((one) => [one, text])),
  text,
})

/** The next preferred values, up or down; the tolerance stays. @throws InputError naming what it says wrongly of itself */
export function preferred(
  move: Move & { readonly towards: 'up' | 'down'; readonly series?: Series; readonly steps?: number },
): ChangeSpec {
  demandMove(move, 'preferred')
  const { unit, towards, series = 'E24', steps = 48 } = move
  demand(towards === 'up' || towards === 'down', { field: 'towards', value: towards, allowed: "'up' or 'down'" })
  demandCount('steps', steps)
  const next = towards === 'up' ? nextUp : nextDown
  // A series that isn't one is refused here, not where the change is tried.
  next(1, series)
  return {
    ...said(move),
    rungs: (given) => {
      const here = present(move, given)
      const rungs: Rung[] = []
      let value = here.value
      if (value === undefined || !(value > 1e-12)) return rungs
      for (let i = 0; i < steps && value > 1e-12 && value < 1e12; i++) {
        value = next(value, series)
        rungs.push(putting(move, typed(here.given, here.read, value, unit, 4)))
      }
      return rungs
    },
  }
}

/** A number that is solved for, rounded to the safe side at the digits that are shown: only such numbers are tried. @throws InputError naming what it says wrongly of itself */
export function solved(
  move: Move & {
    /** How far it may go; a function where that depends on the choice. */
    readonly to: number | ((read: any) => number)
    readonly digits?: number
  },
): ChangeSpec {
  demandMove(move, 'solved')
  const { unit, to, digits = 2 } = move
  if (typeof to !== 'function') demandFinite('to', to)
  demandNumber(digits, { field: 'digits', unit: '1', min: 1, max: 15, integer: true })
  return {
    ...said(move),
    rungs: (given) => {
      const here = present(move, given)
      if (here.value === undefined) return []
      const end = typeof to === 'number' ? to : to(given.read)
      return printable(here.value, end, digits).map((value) =>
        putting(move, typed(here.given, here.read, value, unit, Math.max(digits, 4))),
      )
    },
  }
}

/** A tighter tolerance class for one field or several; the nominal values stay. @throws InputError naming what it says wrongly of itself */
export function tighter(spec: {
  readonly id: string
  readonly name: string
  readonly paths: readonly string[]
  readonly unit: string
  /** Percent, the loosest first. */
  readonly classes?: readonly number[]
  /** What comes with a class: values by path, and the words for them. */
  readonly beside?: (percent: number, given: ChangeStart) => Rung
}): ChangeSpec {
  demandMove(spec, 'tighter')
  const { id, name, paths, unit, classes = [1, 0.5, 0.1, 0.05, 0.01], beside } = spec
  for (const percent of classes) demandNumber(percent, { field: 'classes', unit: '1', above: 0, max: 100 })
  return {
    id,
    name,
    order: 'mildest first',
    rungs: (given) => {
      const parts = paths.flatMap((path) => {
        const { read } = standing(given, path)
        const nominal = numberOf(read)
        if (nominal === undefined || nominal === 0 || typeof read !== 'object') return []
        const { lower, upper } = read as { lower: number; upper: number }
        return [{ path, nominal, percent: (50 * (upper - lower)) / Math.abs(nominal) }]
      })
      return classes.flatMap((percent) => {
        const looser = parts.filter((part) => part.percent > percent * 1.001)
        if (looser.length === 0) return []
        const text = `±${percent} %`
        const puts = looser.map(({ path, nominal }) => [path, `${typed(nominal, nominal, nominal, unit, 6)} ${text}`])
        const more = beside?.(percent, given)
        const said = more?.text ? `${text}, ${more.text}` : text
        return [{ puts: { ...Object.fromEntries(puts), ...more?.puts }, text: said }]
      })
    },
  }
}

/** A name as words: `zeroDrift` is `zero drift`; one in words stays. */
const inWords = (name: string): string =>
  /^[a-z]+([A-Z][a-z]+)+$/.test(name) ? name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`) : name

/** Another part of the same kind: each of those offered is tried. @throws InputError naming what it says wrongly of itself */
export function replaced(spec: {
  readonly id: string
  readonly name: string
  readonly path: string
  readonly parts: Readonly<Record<string, unknown>>
  /** What is put beside it, such as a supply that the part needs. */
  readonly beside?: (part: unknown, given: ChangeStart) => Readonly<Record<string, unknown>>
}): ChangeSpec {
  demandMove(spec, 'replaced')
  const { id, name, path, parts, beside } = spec
  return {
    id,
    name,
    order: 'any',
    rungs: (given) => {
      const here = JSON.stringify(standing(given, path).given)
      return Object.entries(given.parts?.[path] ?? parts)
        .filter(([, part]) => JSON.stringify(part) !== here)
        .map(([name, part]) => ({ puts: { [path]: part, ...beside?.(part, given) }, text: inWords(name) }))
    },
  }
}

/** A change that puts something in as given; none where it is there already, or where `when` says that it makes no sense. @throws InputError naming what it says wrongly of itself */
export function put(spec: {
  readonly id: string
  readonly name: string
  readonly puts: Readonly<Record<string, unknown>>
  readonly text: string
  readonly when?: (read: any) => boolean
  /** Whether it costs no part. */
  readonly isFree?: true
}): ChangeSpec {
  demandMove(spec, 'put')
  const { id, name, puts, text, when, isFree } = spec
  return {
    id,
    name,
    order: 'any',
    ...(isFree && { isFree }),
    rungs: (given) => {
      const isThere = Object.entries(puts).every(
        ([path, value]) => JSON.stringify(standing(given, path).given) === JSON.stringify(value),
      )
      return isThere || when?.(given.read) === false ? [] : [{ puts, text }]
    },
  }
}
