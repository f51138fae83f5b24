import { onUnmounted, reactive, shallowRef, watch } from 'vue'
import { argumentsOf, fieldsOf, type Preset } from '../block.ts'
import { problemAt } from '../read.ts'
import type { Work } from '../work.ts'
import type { Question, Reply } from '../worker.ts'
import type { Candidate, Trial } from './rank.ts'
import { useMyParts } from './store.ts'
import { fieldsAt, ownAt, textsToPut } from './texts.ts'

/** Holds every part of a kind against the design, one after the other, in a worker of the page's own kind. */
export function useTrials(work: Work, given: () => Preset) {
  const { parts } = useMyParts()
  const trials = shallowRef<readonly Trial[]>([])
  const state = reactive({ isRunning: false, isOld: false, count: 0, failure: '' })
  let worker: Worker | undefined

  const { path: place = '' } = given()
  const inside = fieldsAt(work.form, place).map(({ id }) => id)
  const isOfPart = (id: string) => inside.includes(id) || id === `${place}.name`

  /** The reader's parts and the classes, each as it would stand in the form; the number of parts is the design's. */
  function candidates(): Candidate[] {
    const { choices } = given()
    const own = ownAt(work.form, place, parts.value).map((one) => ({ ...one, isOwn: true }))
    const classes = Object.entries(choices).map(([name, all]) => ({
      name,
      isOwn: false,
      texts: Object.fromEntries(Object.entries(all).filter(([id]) => isOfPart(id))),
    }))
    return [...own, ...classes].map((one) => ({ ...one, texts: textsToPut(work.form, place, one.texts, work.texts) }))
  }

  function stop() {
    worker?.terminate()
    worker = undefined
    state.isRunning = false
  }

  function start() {
    stop()
    const texts = { ...work.texts }
    const waiting = candidates()
    trials.value = []
    Object.assign(state, { isRunning: true, isOld: false, count: waiting.length, failure: '' })
    const own = new Worker(new URL('../worker.ts', import.meta.url), { type: 'module' })
    worker = own
    const next = () => {
      const done = trials.value.length
      const candidate = waiting[done]
      if (!candidate) return stop()
      const x = argumentsOf(work.form, { ...texts, ...candidate.texts })
      own.postMessage({ id: done + 1, block: work.form.id, x, whole: false } satisfies Question)
    }
    own.onmessage = ({ data }: MessageEvent<Reply>) => {
      if (worker !== own) return
      trials.value = [...trials.value, { ...waiting[trials.value.length]!, ...cameOf(data) }]
      next()
    }
    own.onerror = (event) => {
      state.failure = event.message || 'its program could not be loaded'
      stop()
    }
    next()
  }

  function cameOf({ assessment, refused, failed }: Reply): Pick<Trial, 'assessment' | 'refused'> {
    if (assessment) return { assessment }
    return { refused: refused ? Object.values(problemAt(work.form, refused)).join(' ') : (failed ?? 'no answer') }
  }

  // What stands elsewhere in the design decides too; another part in the same place doesn't.
  const others = fieldsOf(work.form).filter(({ id }) => !isOfPart(id))
  watch(
    others.map(
      ({ id }) =>
        () =>
          work.texts[id],
    ),
    () => {
      state.isOld = trials.value.length > 0 || state.isRunning
    },
  )
  onUnmounted(stop)
  return { trials, state, start, stop }
}
