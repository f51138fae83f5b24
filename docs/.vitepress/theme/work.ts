import type { Assessment } from '@ohmward/budget'
import { computed, onMounted, onUnmounted, reactive, shallowRef, watch } from 'vue'
import type { Template } from '../math/template.ts'
import { asker } from './asker.ts'
import { argumentsOf, demoOf, type Form, type Sweep } from './block.ts'
import { fromQuery, toQuery } from './link.ts'
import { unitText } from './numbers.ts'
import { fieldOf, problemsOf } from './read.ts'
import type { Reply } from './worker.ts'

/** What a worked page is given at build, so that it stands complete before any script runs. */
export interface Worked {
  readonly assessment: Assessment
  readonly sweep?: Sweep
  /** Typeset formulas by expression. */
  readonly templates: Readonly<Record<string, Template>>
  /** Units by symbol. */
  readonly units: Readonly<Record<string, string>>
  /** What a symbol stands for, by symbol. */
  readonly names: Readonly<Record<string, string>>
}

/**
 * The live state of a worked page. Each change is checked at once in a worker, without simulation; that follows when
 * the reader rests. While a field can't be read, the last good answer stays, and `old` says so.
 */
export function useWork(form: Form, built: Worked) {
  const demo = demoOf(form)
  const texts = reactive<Record<string, string>>({ ...demo })
  const problems = shallowRef<Record<string, string>>({})
  const assessment = shallowRef(built.assessment)
  const sweep = shallowRef(built.sweep)
  /** The arguments that the shown answer belongs to, and those that were asked about last. */
  const good = shallowRef(argumentsOf(form, demo))
  /** The same a moment later, for what is long to set and far from the form: first the answer, then how it came about. */
  const after = shallowRef({ assessment: assessment.value, good: good.value })
  let asked = good.value
  const ready = shallowRef(false)
  const waiting = shallowRef(false)
  const failure = shallowRef('')
  const query = computed(() => toQuery(form, texts))
  const old = computed(() => Object.keys(problems.value).length > 0)

  let worker: ReturnType<typeof asker> | undefined
  let later: ReturnType<typeof setTimeout> | undefined
  let soon: ReturnType<typeof setTimeout> | undefined

  function hear(reply: Reply) {
    if (reply.assessment) {
      assessment.value = reply.assessment
      good.value = asked
      clearTimeout(soon)
      soon = setTimeout(() => {
        after.value = { assessment: assessment.value, good: good.value }
      })
      waiting.value = Object.values(reply.assessment.budgets).every(({ simulation }) => simulation === undefined)
    }
    if (reply.sweep) sweep.value = reply.sweep
    // What stood before in a field that can't be read now doesn't matter any more.
    if (reply.refused && !old.value) {
      const { field, message } = reply.refused
      problems.value = { ...problems.value, [fieldOf(form, field) ?? '']: message }
      worker?.drop()
    }
    failure.value = reply.failed ?? ''
    if (reply.refused || reply.failed) waiting.value = false
  }

  function answer() {
    problems.value = problemsOf(form, texts)
    // What was asked last goes on: its answer is the last good one.
    if (old.value) return
    asked = argumentsOf(form, texts)
    waiting.value = true
    worker?.ask(asked)
  }

  function remember() {
    clearTimeout(later)
    later = setTimeout(() => {
      history.replaceState(history.state, '', location.pathname + query.value + location.hash)
    }, 300)
  }

  onMounted(() => {
    worker = asker(form.id, hear)
    Object.assign(texts, fromQuery(form, location.search))
    ready.value = true
    if (query.value !== '') answer()
    watch(texts, () => {
      answer()
      remember()
    })
  })
  onUnmounted(() => {
    clearTimeout(later)
    clearTimeout(soon)
    worker?.stop()
  })

  return reactive({
    form,
    built,
    texts,
    problems,
    assessment,
    sweep,
    good,
    after,
    ready,
    waiting,
    failure,
    query,
    old,
    /** What stands in a field of the shown answer's choice, with proper signs. */
    given: (id: string) => {
      const given = id.split('.').reduce((here, step) => here?.[step], good.value as any)
      return unitText(String(given ?? '')).replaceAll(' ', '\u00a0')
    },
    outputs: computed(() => form.outputs(good.value, assessment.value)),
    /** Gets ready to answer, since the reader is about to type. */
    warm: () => worker?.warm(good.value),
    /** Puts several fields at once, as a preset does. */
    put: (more: Readonly<Record<string, string>>) => Object.assign(texts, more),
    reset: () => Object.assign(texts, demo),
  })
}

export type Work = ReturnType<typeof useWork>
