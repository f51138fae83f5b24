import type { Arguments } from './block.ts'
import type { Question, Reply } from './worker.ts'

/** How long the reader must rest before a simulation is worth its while, in milliseconds. */
const rest = 60

/**
 * Two workers of the same kind. One checks each choice at once and stays warm; the other simulates the newest choice,
 * and is ended and replaced when it is still busy with an old one.
 */
export function asker(block: string, hear: (reply: Reply) => void) {
  let newest = 0
  let quick: Worker | undefined
  let slow: Worker | undefined
  let busy = false
  /** The question whose whole answer is there: a quick one that comes late must not take its place. */
  let whole = 0
  let later: ReturnType<typeof setTimeout> | undefined

  const start = (hears: (id: number) => boolean): Worker => {
    const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
    worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      if (data.id === newest && hears(data.id)) hear(data)
    }
    worker.onerror = (event) => hear({ id: newest, failed: event.message || 'the worker could not be loaded' })
    return worker
  }

  const startQuick = () => start((id) => id !== whole)
  const startSlow = () =>
    start((id) => {
      busy = false
      whole = id
      return true
    })

  function simulate(question: Question) {
    if (busy) {
      slow?.terminate()
      slow = undefined
    }
    busy = true
    slow ??= startSlow()
    slow.postMessage({ ...question, whole: true })
  }

  return {
    /** Loads both workers ahead of the first question, and has them rehearse on a choice: first runs are slow. */
    warm(x: Arguments) {
      if (quick) return
      quick = startQuick()
      quick.postMessage({ id: 0, block, x, whole: false })
      slow ??= startSlow()
      slow.postMessage({ id: 0, block, x, whole: true })
    },
    ask(x: Arguments) {
      const question = { id: ++newest, block, x, whole: false }
      quick ??= startQuick()
      quick.postMessage(question)
      clearTimeout(later)
      later = setTimeout(() => simulate(question), rest)
    },
    /** Takes the newest question back: it turned out to be none. */
    drop() {
      clearTimeout(later)
    },
    stop() {
      clearTimeout(later)
      quick?.terminate()
      slow?.terminate()
    },
  }
}
