import type { Arguments } from './block.ts'
import type { Question, Reply } from './worker.ts'

/** How long the reader must rest before a simulation is worth its while, in milliseconds. */
const rest = 60

/** How long a check may take before a newer question ends it, in milliseconds; the first one loads the program too. */
const enough = 1000
const enoughAtFirst = 10_000

/**
 * Two workers of the same kind. One checks each choice at once and stays warm; the other simulates the newest choice.
 * A simulation that is still busy with an old choice is ended and replaced; so is a check that takes too long, and of
 * the questions that come while one checks only the newest is put to it.
 *
 * @param hear - what to do with a reply to the newest question; `isWhole` where it comes from the simulating worker
 */
export function asker(block: string, hear: (reply: Reply, isWhole: boolean) => void) {
  let newest = 0
  let quick: Worker | undefined
  let slow: Worker | undefined
  /** When the quick worker was asked what it hasn't answered yet. */
  let since: number | undefined
  let isFirst = true
  let next: Question | undefined
  let busy = false
  /** The question whose whole answer is there: a quick one that comes late must not take its place. */
  let whole = 0
  let later: ReturnType<typeof setTimeout> | undefined

  const start = (answered: (reply: Reply) => void, failed: (words: string) => void): Worker => {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
    worker.onmessage = ({ data }: MessageEvent<Reply>) => answered(data)
    worker.onerror = (event) => failed(event.message || 'its program could not be loaded')
    worker.onmessageerror = () => failed('its answer could not be read')
    return worker
  }

  const startQuick = () =>
    start(
      (reply) => {
        since = undefined
        isFirst = false
        if (next) check(next)
        else if (reply.id === newest && reply.id !== whole) hear(reply, false)
      },
      (words) => {
        endQuick()
        hear({ id: newest, failed: words }, false)
      },
    )
  const startSlow = () =>
    start(
      (reply) => {
        if (reply.id !== newest) return
        busy = reply.isPart === true
        whole = reply.id
        hear(reply, true)
      },
      (words) => {
        endSlow()
        hear({ id: newest, failed: words }, true)
      },
    )

  function endQuick() {
    quick?.terminate()
    quick = since = next = undefined
    isFirst = true
  }

  function endSlow() {
    slow?.terminate()
    slow = undefined
    busy = false
  }

  function check(question: Question) {
    next = undefined
    quick ??= startQuick()
    since = performance.now()
    quick.postMessage(question)
  }

  function simulate(question: Question) {
    if (busy) endSlow()
    slow ??= startSlow()
    busy = true
    slow.postMessage({ ...question, whole: true })
  }

  /** Where no worker can be started, that is the answer. */
  function attempt(put: (question: Question) => void, question: Question, isWhole: boolean) {
    try {
      put(question)
    } catch (error) {
      hear({ id: question.id, failed: String(error) }, isWhole)
    }
  }

  return {
    /** Loads both workers ahead of the first question, and has them rehearse on a choice: first runs are slow. */
    warm(x: Arguments) {
      if (quick) return
      const rehearsal = { id: 0, block, x, whole: false }
      try {
        quick = startQuick()
        quick.postMessage(rehearsal)
        slow ??= startSlow()
        slow.postMessage({ ...rehearsal, whole: true })
      } catch {
        // The first question will meet the same, and say so.
      }
    },
    /** @param id - ascending, from 1 */
    ask(x: Arguments, id: number) {
      newest = id
      const question = { id, block, x, whole: false }
      if (since !== undefined && performance.now() - since > (isFirst ? enoughAtFirst : enough)) endQuick()
      if (since === undefined) attempt(check, question, false)
      else next = question
      clearTimeout(later)
      later = setTimeout(() => attempt(simulate, question, true), rest)
    },
    /** Takes the newest question back: it turned out to be none. */
    drop() {
      clearTimeout(later)
    },
    stop() {
      clearTimeout(later)
      endQuick()
      endSlow()
    },
  }
}
