import type { Assessment, Choosing } from '@ohmward/budget'
import { type Form, fieldsOf, type Sizing, type SizingAsk, type Texts } from './block.ts'
import { classesOf } from './form/texts.ts'

/** How a page shows what a block's sizing found. */
interface Shown<C> {
  readonly sought: string
  readonly asks: readonly SizingAsk[]
  /** A choice by its values. */
  readonly named: (choice: C) => string
  /** What puts it into the form. */
  readonly puts: (choice: C) => Texts
  /** What else is to say of the search. */
  readonly more?: string | undefined
}

/** Turned-down choices that a page shows, each reason once: a search turns down dozens. */
const mostRejected = 12

/** What a sizing found, as a page shows it. */
export function summed<C>(
  { choices, rejected, untried }: Pick<Choosing<C, Assessment>, 'choices' | 'rejected' | 'untried'>,
  { sought, asks, named, puts, more = '' }: Shown<C>,
): Sizing {
  const grouped = new Map<string, { readonly choice: C; readonly reason: string; count: number }>()
  for (const { choice, reason } of rejected) {
    const same = grouped.get(reason)
    if (same) same.count++
    else grouped.set(reason, { choice, reason, count: 1 })
  }
  const shown = [...grouped.values()].slice(0, mostRejected)
  const left = rejected.length - shown.reduce((sum, { count }) => sum + count, 0)
  const words = [
    more,
    left > 0 ? `${left} more were turned down.` : '',
    untried > 0 ? `${untried} more were not checked in full and may be better.` : '',
  ]
  return {
    sought,
    asks,
    choices: choices.map(({ choice, assessment }) => ({
      name: named(choice),
      says: assessment.summary,
      puts: puts(choice),
    })),
    rejected: shown.map(({ choice, reason, count }) => ({
      name: named(choice),
      says: count > 1 ? `${reason}; ${count - 1} more likewise` : reason,
    })),
    text: words.filter(Boolean).join(' '),
  }
}

/** Words to choose from, and the one that is taken: what the reader says, or else what is usual. */
export function ask(name: string, label: string, words: readonly string[], wanted: Texts, usual: string): SizingAsk {
  const chosen = wanted[name] ?? usual
  return { name, label, words: words.includes(chosen) ? words : [chosen, ...words], chosen }
}

/** Series of preferred values (IEC 60063) that a reader may want. */
export const seriesWords = ['E6', 'E12', 'E24', 'E48', 'E96'] as const

/** A part as texts of the form's fields below its path; what it doesn't give is emptied. */
export const partTexts = (form: Pick<Form, 'groups'>, path: string, part: object): Texts =>
  classesOf(fieldsOf(form), path, { part })['part']!
