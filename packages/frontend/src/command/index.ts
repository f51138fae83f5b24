import { InputError, nearestName } from '@ohmward/quantity'
import type { DesignAssessment } from '../answer/assessment.js'
import { checkDesign } from '../answer/check.js'
import { firstBoard, firstBoardCsv } from '../answer/first-board.js'
import { type BoardSimulation, simulateBoards } from '../boards/index.js'
import { type DesignChanges, designChanges } from '../changes/index.js'
import { exampleDesigns } from '../design/example.js'
import { designSchema, parseDesign, writeDesign } from '../design/read.js'
import type { Design } from '../design/record.js'
import { boardLines, changeLines, linesOf } from './print.js'

/** What a run of the command comes to. */
export interface Outcome {
  /** 0: the design holds. 1: it fails, or isn't sure. 2: bad input. */
  readonly exit: 0 | 1 | 2
  /** For the standard output and the standard error. */
  readonly out: string
  readonly error: string
}

/** What answers the verbs: the library itself, where a caller hasn't an answer already. */
export interface Answering {
  readonly check: (design: Design) => DesignAssessment
  readonly change: (design: Design) => DesignChanges
  readonly boards: (design: Design) => BoardSimulation
}

const library: Answering = { check: checkDesign, change: designChanges, boards: simulateBoards }

const usage = `ohmward check FILE.json [--json]   check a design against its limits, over the whole discharge
ohmward change FILE.json [--json]  what would help, each change tried on the whole design; takes a while
ohmward boards FILE.json [--json]  how many of 10 000 boards would work, and what fails on the others
ohmward list FILE.json             what to measure on the first board, as CSV
ohmward new [knife|mat]            print a design to start from: a knife on a cell, by default, or a mat on an adapter
ohmward schema                     print the JSON schema of a design, for an editor

Exit code: 0 holds (change, boards: answered), 1 fails or not sure, 2 bad input.
`

/**
 * The command of the terminal.
 *
 * @param args - what stands behind its name: `['check', 'knife.json', '--json']`
 * @param readFile - the text of a file; what it throws is bad input
 * @param answering - what answers instead of the library
 */
export function runCommand(
  args: readonly string[],
  readFile: (path: string) => string,
  answering: Partial<Answering> = {},
): Outcome {
  const [verb, ...rest] = args
  if (args.some((one) => one === '--help' || one === '-h')) return { exit: 0, out: usage, error: '' }
  const answers = { ...library, ...answering }
  switch (verb) {
    case 'check':
      return answer(verb, rest, readFile, (design) => {
        const found = answers.check(design)
        return { found, lines: linesOf(found), exit: found.verdict === 'holds' ? 0 : 1 }
      })
    case 'change':
      return answer(verb, rest, readFile, (design) => {
        const found = answers.change(design)
        return { found, lines: changeLines(found), exit: 0 }
      })
    case 'boards':
      return answer(verb, rest, readFile, (design) => {
        const found = answers.boards(design)
        return { found, lines: boardLines(found), exit: 0 }
      })
    case 'list':
      return withDesign(rest, 'list', readFile, (design) => ({
        exit: 0,
        out: firstBoardCsv(firstBoard(design)),
        error: '',
      }))
    case 'schema':
      return rest.length === 0
        ? { exit: 0, out: `${JSON.stringify(designSchema(), null, 2)}\n`, error: '' }
        : bad('schema takes no argument')
    case 'new':
      return started(rest)
    case undefined:
      return { exit: 2, out: '', error: usage }
    default: {
      const near = nearestName(verb, ['check', 'change', 'boards', 'list', 'new', 'schema'])
      return bad(`${verb} is not a command${near === undefined ? '' : `; did you mean ${near}?`}\n\n${usage}`)
    }
  }
}

/** A design to start from, by its name. */
function started([name = 'knife', ...more]: readonly string[]): Outcome {
  const names = Object.keys(exampleDesigns)
  const design = Object.entries<Design>(exampleDesigns).find(([own]) => own === name)?.[1]
  if (design !== undefined && more.length === 0) return { exit: 0, out: writeDesign(design), error: '' }
  const near = more.length === 0 ? nearestName(name, names) : undefined
  return bad(`new takes ${names.join(' or ')}${near === undefined ? '' : `; did you mean ${near}?`}`)
}

interface Answer {
  readonly found: object
  readonly lines: readonly string[]
  readonly exit: 0 | 1
}

/** An answer in lines, or as JSON where that is asked for. */
function answer(
  verb: string,
  args: readonly string[],
  readFile: (path: string) => string,
  answerOf: (design: Design) => Answer,
): Outcome {
  const isOption = (one: string) => one.startsWith('--')
  const unknown = args.find((one) => isOption(one) && one !== '--json')
  if (unknown !== undefined) return bad(`${unknown} is not an option; the only one is --json`)
  const files = args.filter((one) => !isOption(one))
  return withDesign(files, verb, readFile, (design) => {
    const { found, lines, exit } = answerOf(design)
    const out = args.includes('--json') ? JSON.stringify(found, null, 2) : lines.join('\n')
    return { exit, out: `${out}\n`, error: '' }
  })
}

/** Reads the one file that is named and answers for its design; what is wrong with it is bad input. */
function withDesign(
  files: readonly string[],
  verb: string,
  readFile: (path: string) => string,
  answer: (design: Design) => Outcome,
): Outcome {
  const [path] = files
  if (path === undefined || files.length > 1) return bad(`${verb} takes one file`)
  let text: string
  try {
    text = readFile(path)
  } catch (error) {
    return bad(`${path} can't be read: ${error instanceof Error ? error.message : String(error)}`)
  }
  try {
    return answer(parseDesign(text))
  } catch (error) {
    if (error instanceof InputError) return bad(`${path}: ${error.message}`)
    throw error
  }
}

const bad = (message: string): Outcome => ({
  exit: 2,
  out: '',
  error: message.endsWith('\n') ? message : `${message}\n`,
})
