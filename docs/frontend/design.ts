import type { Change } from '@ohmward/budget'
import type { DesignPreview } from '@ohmward/frontend'
import { computed, onMounted, onUnmounted, reactive, shallowRef } from 'vue'
import { arrived, depart, departed } from '../.vitepress/theme/part-of-design.ts'
import type { Whole } from './answer.ts'
import type { PartLink } from './links.ts'
import type { Built } from './whole.data.ts'
import type { Asked, Reply } from './worker.ts'

/** What is put into a design, by path. */
type Puts = Pick<Change, 'puts'>

/** The live state of the page: the design as text, what was answered of it, and what is being computed. */
export function useDesign(built: Built) {
  const text = shallowRef(built.text)
  const builtAnswer = { text: built.text, whole: built }
  const answered = shallowRef<{ readonly text: string; readonly whole: Whole }>(builtAnswer)
  const changes = shallowRef({ text: built.text, found: built.changes })
  const boards = shallowRef({ text: built.text, found: built.boards })
  const preview = shallowRef<DesignPreview>()
  const before = shallowRef<readonly string[]>([])
  const state = reactive({ busy: '', progress: 0, refused: '', unread: '' })
  let worker: Worker | undefined

  function stop() {
    worker?.terminate()
    worker = undefined
    state.busy = ''
    preview.value = undefined
  }

  function ask(of: Asked, change?: Puts, file?: { readonly name: string; readonly text: string }) {
    stop()
    let asked = file?.text ?? text.value
    Object.assign(state, { busy: of, progress: 0, refused: '', unread: '' })
    worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' })
    worker.onerror = (event) => {
      stop()
      state.refused = `No answer: ${event.message || 'the program could not be loaded'}.`
    }
    worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      const { progress, text: put, whole, refused } = data
      if (progress !== undefined) {
        state.progress = progress
        return
      }
      if (put !== undefined) {
        before.value = [...before.value, text.value]
        asked = put
        text.value = put
        return
      }
      if (data.preview) {
        preview.value = data.preview
        return
      }
      if (whole) answered.value = { text: asked, whole }
      if (data.changes) changes.value = { text: asked, found: data.changes }
      if (data.boards) boards.value = { text: asked, found: data.boards }
      if (refused !== undefined && file) state.unread = `${file.name}: ${refused}`
      else if (refused !== undefined) state.refused = refused
      stop()
    }
    // What the page keeps is reactive, and no message may be.
    worker.postMessage({
      text: asked,
      of,
      ...(file && { isNew: true }),
      ...(change && { change: JSON.parse(JSON.stringify(change)) }),
    })
  }

  onMounted(() => {
    const [kept, back] = [departed(), arrived()]
    if (kept === undefined) return
    text.value = kept.text
    if (back) ask('answer', back)
    else if (kept.text !== built.text) ask('answer')
  })
  onUnmounted(stop)
  return reactive({
    text,
    state,
    whole: computed(() => answered.value.whole),
    /** Whether the shown answer belongs to what stands in the text. */
    isOld: computed(() => answered.value.text !== text.value),
    /** The map at a glance, while the walk of what was asked for is computed. */
    preview,
    changes: computed(() => changes.value.found),
    /** Whether the changes were tried on another design than the one that stands there. */
    areOld: computed(() => changes.value.text !== text.value),
    boards: computed(() => boards.value.found),
    /** Whether the boards were built of another design than the one that stands there. */
    areBoardsOld: computed(() => boards.value.text !== text.value),
    before,
    ask,
    stop,
    carryOut: (change: Puts) => ask('answer', change),
    /** A design from a file; one that can't be read leaves what stands there. */
    load: (name: string, content: string) => ask('answer', undefined, { name, text: content }),
    takeBack() {
      text.value = before.value.at(-1) ?? text.value
      before.value = before.value.slice(0, -1)
      ask('answer')
    },
    /** Before its reader goes to a block's page with a part of it. */
    leaveWith({ block, query }: PartLink, name: string, where: string) {
      depart({ text: text.value, name, block, query, where })
    },
    demo() {
      stop()
      depart(undefined)
      Object.assign(state, { refused: '', unread: '' })
      before.value = []
      text.value = built.text
      answered.value = builtAnswer
      changes.value = { text: built.text, found: built.changes }
      boards.value = { text: built.text, found: built.boards }
    },
  })
}

export type DesignWork = ReturnType<typeof useDesign>
