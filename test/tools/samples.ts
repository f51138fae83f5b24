import { readFileSync } from 'node:fs'
import { inspect } from 'node:util'
import { runInNewContext } from 'node:vm'
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

/** A value that a comment shows behind an expression or below it: `x.verdict // 'holds'`, `// InputError: …`. */
export interface Shown {
  readonly expression: string
  /** Offsets in the sample's code. */
  readonly statement: readonly [start: number, end: number]
  readonly comment: string
  readonly commentStart: number
}

const literal = /^(-?\d|['"[{]|true\b|false\b|null\b|undefined\b|[A-Z]\w*Error: )/

/** Expressions on lines of their own whose comment is a value or an error; other comments are prose. */
export function shownValues(code: string): Shown[] {
  const file = ts.createSourceFile('sample.ts', code, ts.ScriptTarget.ES2022, true)
  const shown: Shown[] = []
  for (const statement of file.statements) {
    if (!ts.isExpressionStatement(statement)) continue
    const end = statement.getEnd()
    const found = /^(?:[ \t]*\n?)[ \t]*\/\/[ \t]*/.exec(code.slice(end))
    if (found === null) continue
    const commentStart = end + found[0].length
    const comment = code.slice(commentStart).split('\n')[0]!.trimEnd()
    if (!literal.test(comment)) continue
    const expression = statement.expression.getText()
    shown.push({ expression, statement: [statement.getStart(), end], comment, commentStart })
  }
  return shown
}

const print = (value: unknown): string => inspect(value, { depth: null, breakLength: Infinity, compact: true })

/** The part of a comment that states the value: prose may follow behind two spaces, except behind an error. */
export const statement = (comment: string): string =>
  /^\w+Error: /.test(comment) ? comment : comment.split(/ {2,}/)[0]!

/**
 * Whether a comment says what was printed: the same value however it is spaced, or its beginning up to `…`, as for a
 * number whose digits go on.
 */
export function says(comment: string, printed: string): boolean {
  const words = statement(comment)
  if (words === printed) return true
  const [beginning = '', rest] = comment.split('…')
  if (rest !== undefined) return beginning.length > 2 && printed.startsWith(beginning)
  try {
    return print(runInNewContext(`(${words})`)) === printed
  } catch {
    return false
  }
}
