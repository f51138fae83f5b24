import { readFileSync } from 'node:fs'
import { inspect } from 'node:util'
import ts from 'typescript'
import { root } from './workspace.js'

/**
 * One ```ts fence of a document. A fence without imports goes on where the one before it ended. "```ts no-run" is
 * only type-checked, any other word after `ts` is refused.
 */
export interface Sample {
  /** File and line, for messages. */
  readonly place: string
  readonly path: string
  /** Code of this fence alone, and the line on which it begins, counted from 0. */
  readonly code: string
  readonly start: number
  /** Code of the fences that it goes on from. */
  readonly before: string
  readonly isRun: boolean
  /** What it must print: the ```text fence that follows before any heading, if one does. */
  readonly output?: { readonly text: string; readonly start: number; readonly end: number }
}

/** Every sample of a document, in its order. */
export function samplesOf(path: string): Sample[] {
  const lines = readFileSync(root + path, 'utf8').split('\n')
  const samples: Sample[] = []
  let before = ''
  for (let i = 0; i < lines.length; i++) {
    const fence = /^```ts\b(.*)$/.exec(lines[i]!)
    if (fence === null) {
      if (/^```\S/.test(lines[i]!)) i = endOf(lines, i)
      continue
    }
    const word = fence[1]!.trim()
    const place = `${path}:${i + 1}`
    if (word !== '' && word !== 'no-run') throw new Error(`${place}: after "ts" only "no-run" is known`)
    const end = endOf(lines, i)
    const code = lines.slice(i + 1, end).join('\n')
    if (/^import\b/m.test(code)) before = ''
    const output = outputAfter(lines, end)
    samples.push({ place, path, code, start: i + 1, before, isRun: word === '', ...(output && { output }) })
    before += `${code}\n`
    i = end
  }
  return samples
}

function endOf(lines: readonly string[], start: number): number {
  const end = lines.findIndex((line, i) => i > start && /^```\s*$/.test(line))
  if (end === -1) throw new Error(`a fence on line ${start + 1} never ends`)
  return end
}

function outputAfter(lines: readonly string[], from: number): Sample['output'] {
  const next = lines.findIndex((line, i) => i > from && /^(```\S|#)/.test(line))
  if (next === -1 || !/^```text\s*$/.test(lines[next]!)) return undefined
  const end = endOf(lines, next)
  return { text: lines.slice(next + 1, end).join('\n'), start: next + 1, end }
}

/** A value that a comment behind an expression shows: `x.verdict // 'holds'`. */
export interface Shown {
  /** Offset in the sample's code right behind the statement. */
  readonly end: number
  readonly expression: string
  readonly statementStart: number
  readonly comment: string
  /** Offset of the comment's text and its end, in the sample's code. */
  readonly commentStart: number
  readonly commentEnd: number
}

const literal = /^(-?\d|['"[{]|true\b|false\b|null\b|undefined\b)/

/** Expressions on lines of their own whose comment is a value; other comments are prose. */
export function shownValues(code: string): Shown[] {
  const file = ts.createSourceFile('sample.ts', code, ts.ScriptTarget.ES2022, true)
  const shown: Shown[] = []
  for (const statement of file.statements) {
    if (!ts.isExpressionStatement(statement)) continue
    const end = statement.getEnd()
    const range = ts.getTrailingCommentRanges(code, end)?.[0]
    if (range === undefined || code.slice(range.pos, range.pos + 2) !== '//') continue
    const raw = code.slice(range.pos + 2, range.end)
    const comment = raw.trim()
    if (!literal.test(comment)) continue
    const commentStart = range.pos + 2 + raw.indexOf(comment)
    shown.push({
      end,
      expression: statement.expression.getText(),
      statementStart: statement.getStart(),
      comment,
      commentStart,
      commentEnd: commentStart + comment.length,
    })
  }
  return shown
}

export const print = (value: unknown): string => inspect(value, { depth: null, breakLength: Infinity, compact: true })

/**
 * Whether a comment says what was printed: the same, prose behind two spaces allowed, or its beginning up to `…`.
 * A number may end in `…` where its digits go on.
 */
export function says(comment: string, printed: string): boolean {
  const words = comment.split(/ {2,}/)[0]!
  return words.endsWith('…') ? printed.startsWith(words.slice(0, -1)) && words.length > 3 : words === printed
}
