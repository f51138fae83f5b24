import { demand } from './demand.js'

/** Edits from one word to another: a letter more, less, another one, or two exchanged (optimal string alignment). */
function distance(a: string, b: string): number {
  let last: number[] = []
  let before = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const here = [i]
    for (let j = 1; j <= b.length; j++) {
      const other = a[i - 1] === b[j - 1] ? 0 : 1
      let least = Math.min(before[j]! + 1, here[j - 1]! + 1, before[j - 1]! + other)
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, last[j - 2]! + 1)
      here.push(least)
    }
    last = before
    before = here
  }
  return before[b.length]!
}

/**
 * The known name that a misspelled one is nearest to, whatever its capitals; nothing where none is near.
 *
 * @param word - what was written
 * @param known - the names that there are
 * @throws InputError for what is no text or no list of texts
 */
export function nearestName(word: string, known: readonly string[]): string | undefined {
  const isText = (value: unknown) => typeof value === 'string'
  demand(isText(word), { field: 'word', value: word, allowed: 'a text' })
  const areTexts = Array.isArray(known) && known.every(isText)
  demand(areTexts, { field: 'known', value: known, allowed: 'a list of texts' })
  if (word.length > 60) return undefined
  const written = word.toLowerCase()
  let best: string | undefined
  // Of one letter, every other one is as near as any.
  let least = Math.min(Math.max(1, Math.floor(written.length / 3)) + 1, written.length)
  for (const name of known) {
    const edits = distance(written, name.toLowerCase())
    if (edits < least) {
      least = edits
      best = name
    }
  }
  return best
}
