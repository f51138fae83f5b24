import { InputError, nearestName } from '@ohmward/quantity'
import type { DesignAssessment } from '../answer/assessment.js'
import { checkDesign } from '../answer/check.js'
import { firstBoard, firstBoardCsv } from '../answer/first-board.js'
import { exampleDesign } from '../design/example.js'
import { designSchema, parseDesign, writeDesign } from '../design/read.js'
import type { Design } from '../design/record.js'
import { linesOf } from './print.js'

/** What a run of the command comes to. */
export interface Outcome {
  /** 0: the design holds. 1: it fails, or isn't sure. 2: bad input. */
  readonly exit: 0 | 1 | 2
  /** For the standard output and the standard error. */
  readonly out: string
  readonly error: string
}

/** Holds a design: by the whole walk, unless a caller has its answer already. */
export type Checking = (design: Design) => DesignAssessment

const usage = `ohmward check FILE.json [--json]   hold a design against its limits, over the whole discharge
ohmward list FILE.json             what to measure on the first board, as CSV
ohmward new                        print a design to start from
ohmward schema                     print the JSON schema of a design, for an editor

Exit code: 0 it holds, 1 it fails or isn't sure, 2 bad input.
`

/**
 * The command of the terminal.
 *
 * @param args - what stands behind its name: `['check', 'knife.json', '--json']`
 * @param readFile - the text of a file; what it throws is bad input
 * @param checking - how a design is checked
 */
export function runCommand(
  args: readonly string[],
  readFile: (path: string) => string,
  checking: Checking = checkDesign,
): Outcome {
  const [verb, ...rest] = args
  switch (verb) {
    case 'check':
      return check(rest, readFile, checking)
    case 'list':
      return withDesign(rest, 'list', readFile, (design) => ({
        exit: 0,
        out: firstBoardCsv(firstBoard(design)),
        error: '',
      }))
    case 'schema':
      return rest.length === 0
        ? { exit: 0, out: `${JSON.stringify(designSchema(), null, 2)}\n`, error: '' }
        : bad('schema takes nothing behind it')
    case 'new':
      return rest.length === 0
        ? { exit: 0, out: writeDesign(exampleDesign), error: '' }
        : bad('new takes nothing behind it')
    case '--help':
    case '-h':
      return { exit: 0, out: usage, error: '' }
    case undefined:
      return { exit: 2, out: '', error: usage }
    default: {
      const near = nearestName(verb, ['check', 'list', 'new', 'schema'])
      return bad(`${verb} is no command${near === undefined ? '' : `; did you mean ${near}?`}\n\n${usage}`)
    }
  }
}

function check(args: readonly string[], readFile: (path: string) => string, checking: Checking): Outcome {
  const isOption = (one: string) => one.startsWith('--')
  const unknown = args.find((one) => isOption(one) && one !== '--json')
  if (unknown !== undefined) return bad(`${unknown} is no option; there is --json`)
  const files = args.filter((one) => !isOption(one))
  return withDesign(files, 'check', readFile, (design) => {
    const answer = checking(design)
    const out = args.includes('--json') ? `${JSON.stringify(answer, null, 2)}\n` : `${linesOf(answer).join('\n')}\n`
    return { exit: answer.verdict === 'holds' ? 0 : 1, out, error: '' }
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
