import type { DesignChange } from '@ohmward/frontend'
import { computed, onUnmounted, reactive, shallowRef } from 'vue'
import type { Whole } from './answer.ts'
import type { Built } from './whole.data.ts'
import type { Reply } from './worker.ts'

/** The live state of the page: the design as text, what was answered of it, and what is being computed. */
export function useDesign(built: Built) {
  const text = shallowRef(built.text)
  const builtAnswer = { text: built.text, whole: built }
  const answered = shallowRef<{ readonly text: string; readonly whole: Whole }>(builtAnswer)
  const changes = shallowRef<{ readonly text: string; readonly found: NonNullable<Reply['changes']> }>()
  const before = shallowRef<readonly string[]>([])
  const state = reactive({ busy: '', progress: 0, refused: '' })
  let worker: Worker | undefined

  function stop() {
    worker?.terminate()
    worker = undefined
    state.busy = ''
  }

  function ask(of: 'answer' | 'changes', change?: DesignChange) {
    stop()
    let asked = text.value
    Object.assign(state, { busy: of, progress: 0, refused: '' })
    worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
    worker.onerror = (event) => {
      stop()
      state.refused = `No answer: ${event.message || 'the program could not be loaded'}.`
    }
    worker.onmessage = ({ data: { progress, text: put, whole, changes: found, refused } }: MessageEvent<Reply>) => {
      if (progress !== undefined) {
        state.progress = progress
        return
      }
      if (put !== undefined) {
        before.value = [...before.value, asked]
        asked = put
        text.value = put
        return
      }
      if (whole) answered.value = { text: asked, whole }
      if (found) changes.value = { text: asked, found }
      if (refused !== undefined) state.refused = refused
      stop()
    }
    // What the page keeps is reactive, and no message may be.
    worker.postMessage({ text: asked, of, ...(change && { change: JSON.parse(JSON.stringify(change)) }) })
  }

  onUnmounted(stop)
  return reactive({
    text,
    state,
    whole: computed(() => answered.value.whole),
    /** Whether the shown answer belongs to what stands in the text. */
    isOld: computed(() => answered.value.text !== text.value),
    changes: computed(() => (changes.value?.text === text.value ? changes.value.found : undefined)),
    before,
    ask,
    stop,
    carryOut: (change: DesignChange) => ask('answer', change),
    takeBack() {
      text.value = before.value.at(-1) ?? text.value
      before.value = before.value.slice(0, -1)
      ask('answer')
    },
    demo() {
      stop()
      state.refused = ''
      before.value = []
      text.value = built.text
      answered.value = builtAnswer
    },
  })
}

export type DesignWork = ReturnType<typeof useDesign>
