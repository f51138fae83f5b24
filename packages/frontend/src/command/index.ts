import { InputError, nearestName } from '@ohmward/quantity'
import { checkDesign } from '../answer/check.js'
import { exampleDesign } from '../design/example.js'
import { parseDesign, writeDesign } from '../design/read.js'
import type { WalkOptions } from '../walk/walk.js'
import { linesOf } from './print.js'

/** What a run of the command comes to. */
export interface Outcome {
  /** 0: the design holds. 1: it fails, or isn't sure. 2: bad input. */
  readonly exit: 0 | 1 | 2
  /** For the standard output and the standard error. */
  readonly out: string
  readonly error: string
}

const usage = `ohmward check FILE.json [--json]   hold a design against its limits, over the whole discharge
ohmward new                        print a design to start from

Exit code: 0 it holds, 1 it fails or isn't sure, 2 bad input.
`

/**
 * The command of the terminal.
 *
 * @param args - what stands behind its name: `['check', 'knife.json', '--json']`
 * @param readFile - the text of a file; what it throws is bad input
 * @param options - how finely the design is walked
 */
export function runCommand(
  args: readonly string[],
  readFile: (path: string) => string,
  options: WalkOptions = {},
): Outcome {
  const [verb, ...rest] = args
  switch (verb) {
    case 'check':
      return check(rest, readFile, options)
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
      const near = nearestName(verb, ['check', 'new'])
      return bad(`${verb} is no command${near === undefined ? '' : `; did you mean ${near}?`}\n\n${usage}`)
    }
  }
}

function check(args: readonly string[], readFile: (path: string) => string, options: WalkOptions): Outcome {
  const isOption = (one: string) => one.startsWith('--')
  const unknown = args.find((one) => isOption(one) && one !== '--json')
  if (unknown !== undefined) return bad(`${unknown} is no option; there is --json`)
  const files = args.filter((one) => !isOption(one))
  const [path] = files
  if (path === undefined || files.length > 1) return bad('check takes one file')
  let text: string
  try {
    text = readFile(path)
  } catch (error) {
    return bad(`${path} can't be read: ${error instanceof Error ? error.message : String(error)}`)
  }
  try {
    const answer = checkDesign(parseDesign(text), options)
    const out = args.includes('--json') ? `${JSON.stringify(answer, null, 2)}\n` : `${linesOf(answer).join('\n')}\n`
    return { exit: answer.verdict === 'holds' ? 0 : 1, out, error: '' }
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
