import type { Assessment } from '@ohmward/budget'
import { InputError } from '@ohmward/quantity'
import { computed, onMounted, onUnmounted, reactive, shallowRef, watch } from 'vue'
import type { Template } from '../math/template.ts'
import { argumentsOf, type Block, demoOf, type Sweep } from './block.ts'
import { fromQuery, toQuery } from './link.ts'
import { unitText } from './numbers.ts'
import { fieldOf, problemsOf } from './read.ts'
import { simulator } from './simulate.ts'

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
 * The live state of a worked page. Each keystroke checks at once, without simulation; that comes from a worker. While
 * a field can't be read, the last good answer stays, and `old` says so.
 */
export function useWork(block: Block, built: Worked) {
  const demo = demoOf(block)
  const texts = reactive<Record<string, string>>({ ...demo })
  const problems = shallowRef<Record<string, string>>({})
  const assessment = shallowRef(built.assessment)
  const sweep = shallowRef(built.sweep)
  const good = shallowRef(argumentsOf(block, demo))
  const ready = shallowRef(false)
  const waiting = shallowRef(false)
  const failure = shallowRef('')
  const query = computed(() => toQuery(texts, demo))

  let ask: ReturnType<typeof simulator> | undefined
  let later: ReturnType<typeof setTimeout> | undefined

  function answer() {
    problems.value = problemsOf(block, texts)
    if (Object.keys(problems.value).length > 0) return
    const x = argumentsOf(block, texts)
    try {
      assessment.value = block.check(x, false)
    } catch (error) {
      if (!(error instanceof InputError)) throw error
      problems.value = { [fieldOf(block, error) ?? '']: error.message }
      return
    }
    good.value = x
    waiting.value = true
    ask?.ask(x)
  }

  onMounted(() => {
    ask = simulator(
      block.id,
      (reply) => {
        if (reply.assessment) assessment.value = reply.assessment
        if (reply.sweep) sweep.value = reply.sweep
        waiting.value = false
      },
      (reason) => {
        failure.value = reason
        waiting.value = false
      },
    )
    Object.assign(texts, fromQuery(location.search, demo))
    ready.value = true
    if (query.value !== '') answer()
    watch(texts, () => {
      answer()
      clearTimeout(later)
      later = setTimeout(
        () => history.replaceState(history.state, '', location.pathname + query.value + location.hash),
        300,
      )
    })
  })
  onUnmounted(() => {
    clearTimeout(later)
    ask?.stop()
  })

  return reactive({
    block,
    built,
    demo,
    texts,
    problems,
    assessment,
    sweep,
    /** The arguments that the shown answer belongs to. */
    good,
    ready,
    waiting,
    failure,
    query,
    old: computed(() => Object.keys(problems.value).length > 0),
    /** What stands in a field of the shown answer's choice, with proper signs. */
    given: (id: string) =>
      unitText(String(id.split('.').reduce((here, step) => here?.[step], good.value as any) ?? '')),
    outputs: computed(() => block.outputs(good.value, assessment.value)),
    /** Puts several fields at once, as a preset does. */
    put: (more: Readonly<Record<string, string>>) => Object.assign(texts, more),
    reset: () => Object.assign(texts, demo),
  })
}

export type Work = ReturnType<typeof useWork>
