import type { Assessment } from '@ohmward/budget'
import type { Arguments, Sweep } from './block.ts'

/** What comes back from the worker. */
export interface Reply {
  readonly id: number
  readonly assessment?: Assessment
  readonly sweep?: Sweep
}

/** A worker that answers the newest question only; one that is still busy with an old one is ended and replaced. */
export function simulator(block: string, reply: (answer: Reply) => void, fail: (reason: string) => void) {
  let worker: Worker | undefined
  let newest = 0
  let busy = false

  function start(): Worker {
    const made = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
    made.onmessage = ({ data }: MessageEvent<Reply>) => {
      if (data.id !== newest) return
      if (data.assessment) busy = false
      reply(data)
    }
    made.onerror = (event) => fail(event.message)
    return made
  }

  return {
    ask(x: Arguments) {
      if (busy) stop()
      worker ??= start()
      busy = true
      worker.postMessage({ id: ++newest, block, x })
    },
    stop,
  }

  function stop() {
    worker?.terminate()
    worker = undefined
    busy = false
  }
}
