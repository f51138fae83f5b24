/** What goes wrong in practice, in words. */
export interface Pitfall {
  readonly code: string
  readonly title: string
  /** What is seen on the bench. */
  readonly seen: string
  /** Why. */
  readonly why: string
  /** What helps, the best first. */
  readonly helps: readonly string[]
}

/** A chapter of them. */
export interface PitfallChapter {
  readonly letter: string
  readonly title: string
  readonly pitfalls: readonly Pitfall[]
}

type Line = readonly [code: string, title: string, seen: string, why: string, helps: readonly string[]]

/** A chapter from its lines. */
export const chapterOf = (title: string, lines: readonly Line[]): PitfallChapter => ({
  letter: lines[0]![0][0]!,
  title,
  pitfalls: lines.map(([code, title, seen, why, helps]) => ({ code, title, seen, why, helps })),
})
