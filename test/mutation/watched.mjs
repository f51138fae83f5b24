import { Worker } from 'node:worker_threads'

/** A worker that is asked one thing at a time, and is replaced where it hangs or ends. */
export class Watched {
  /** @type {Worker | undefined} */
  #worker
  #code
  #beats = new SharedArrayBuffer(16)

  /** @param {string} code - the tests, see bundle.mjs */
  constructor(code) {
    this.#code = code
  }

  /** Its answer, or in words what happened to it. @param {object} question @returns {Promise<any>} */
  async ask(question) {
    const beat = new Float64Array(this.#beats)
    beat.fill(0)
    this.#worker ??= new Worker(new URL('./worker.mjs', import.meta.url), {
      workerData: { code: this.#code, beats: this.#beats },
      resourceLimits: { maxOldGenerationSizeMb: 3000 },
    })
    const worker = this.#worker
    return new Promise((resolve) => {
      const onMessage = (/** @type {object} */ given) => answer(given)
      const onError = (/** @type {unknown} */ error) =>
        answer({ status: 'killed', by: 'an error outside the tests', error: String(error) }, true)
      const onExit = () => answer({ status: 'killed', by: 'its end' }, true)
      const clock = setInterval(() => {
        const [started = 0, most = 0] = beat
        if (started > 0 && Date.now() > started + most) answer({ status: 'timed out', by: 'the clock' }, true)
      }, 100)
      const answer = (/** @type {object} */ given, isOver = false) => {
        clearInterval(clock)
        worker.off('message', onMessage).off('error', onError).off('exit', onExit)
        if (isOver) this.#worker = undefined
        if (isOver) void worker.terminate()
        resolve(given)
      }
      worker.on('message', onMessage).on('error', onError).on('exit', onExit)
      worker.postMessage(question)
    })
  }

  async end() {
    await this.#worker?.terminate()
  }
}
