import type { Assessment, Changes } from '@ohmward/budget'
import { computed, onMounted, onUnmounted, reactive, shallowRef, watch } from 'vue'
import type { Template } from '../math/template.ts'
import { useAddress } from './address.ts'
import { asker } from './asker.ts'
import { argumentsOf, demoOf, emptyOf, type Form, type Sizing, type Sweep } from './block.ts'
import { type Piece, useFreshness } from './freshness.ts'
import { asPart, fromQuery, isPart, toQuery } from './link.ts'
import { unitText } from './numbers.ts'
import { problemAt, problemsOf } from './read.ts'
import type { Reply } from './worker.ts'

/** A symbol, and where its formula stands on `/formulas/`. */
export type FormulaLink = readonly [symbol: string, id: string]

/** What a worked page is given at build, so that it stands complete before any script runs. */
export interface Worked {
  readonly assessment: Assessment
  readonly sweep?: Sweep
  readonly changes?: Changes
  readonly sizing: Sizing
  /** Typeset formulas by expression. */
  readonly templates: Readonly<Record<string, Template>>
  /** Where its formulas stand on `/formulas/`: of a step by "symbol = expression", of a margin by its id. */
  readonly places: {
    readonly steps: Readonly<Record<string, string>>
    readonly margins: Readonly<Record<string, readonly FormulaLink[]>>
  }
  /** Units by symbol. */
  readonly units: Readonly<Record<string, string>>
  /** What a symbol stands for, by symbol. */
  readonly names: Readonly<Record<string, string>>
}

/** What stood in the fields before a change that can be taken back: one that mends, or one of the form itself. */
interface Before {
  readonly name: string
  readonly texts: Readonly<Record<string, string>>
  readonly isForm?: true
}

/**
 * The live state of a worked page. Each change is checked at once in a worker, without simulation; that follows when
 * the reader rests. Until the answer to what stands in the form is there, the last one stays, and `stale` says why.
 */
export function useWork(form: Form, built: Worked) {
  const demo = demoOf(form)
  const texts = reactive<Record<string, string>>({ ...demo })
  const problems = shallowRef<Record<string, string>>({})
  const assessment = shallowRef(built.assessment)
  const sweep = shallowRef(built.sweep)
  const changes = shallowRef(built.changes)
  /** What stood in the fields before each change that was put in, the last one last. */
  const before = shallowRef<readonly Before[]>([])
  /** The arguments that the shown answer belongs to, and those that were asked about last. */
  const good = shallowRef(argumentsOf(form, demo))
  /** The same a moment later, for what is long to set and far from the form: first the answer, then how it came about. */
  const after = shallowRef({ assessment: assessment.value, good: good.value })
  let asked = good.value
  const ready = shallowRef(false)
  /** What the link carried in vain, in words. */
  const dropped = shallowRef<readonly string[]>([])
  const waiting = shallowRef(false)
  /** What became of the check, and of the simulation, where they failed. */
  const failures = reactive({ check: '', simulation: '' })
  /** Whether the choice is a part of a design, see `part-of-design.ts`. */
  const ofDesign = shallowRef(false)
  const query = computed(() => (ofDesign.value ? asPart(toQuery(form, texts)) : toQuery(form, texts)))
  const isUnread = computed(() => Object.keys(problems.value).length > 0)
  const fresh = useFreshness()
  const failure = computed(() =>
    failures.check !== ''
      ? `The check failed: ${failures.check}.`
      : fresh.isLate.value && !isUnread.value
        ? 'No answer yet: the check takes long, its program is still on its way, or it hangs.'
        : '',
  )
  /** Why a piece of the answer is marked as old; empty where it belongs to what stands in the form. */
  const stale = (piece: Piece): string => {
    if (isUnread.value) return 'shows the last valid choice'
    if (failure.value !== '' || (piece !== 'check' && failures.simulation !== '')) return 'out of date: no answer'
    return fresh.isMarked(piece) ? 'out of date: computing' : ''
  }

  let worker: ReturnType<typeof asker> | undefined
  let later: ReturnType<typeof setTimeout> | undefined
  let soon: ReturnType<typeof setTimeout> | undefined

  function hear({ id, assessment: answered, sweep: swept, changes: tried, refused, failed }: Reply, isWhole: boolean) {
    if (answered) {
      assessment.value = answered
      good.value = asked
      failures.check = ''
      fresh.receive('check', id)
      if (isWhole) fresh.receive('simulation', id)
      clearTimeout(soon)
      soon = setTimeout(() => {
        after.value = { assessment: assessment.value, good: good.value }
      })
      waiting.value = Object.values(answered.budgets).every(({ simulation }) => simulation === undefined)
    }
    if (swept) {
      sweep.value = swept
      fresh.receive('sweep', id)
    }
    if (tried) {
      changes.value = tried
      fresh.receive('changes', id)
    }
    // What stood before in a field that can't be read now doesn't matter any more.
    if (refused && !isUnread.value) {
      problems.value = problemAt(form, refused)
      worker?.drop()
    }
    if (failed !== undefined) failures[isWhole && fresh.has('check') ? 'simulation' : 'check'] = failed
    if (refused || failed !== undefined) waiting.value = false
  }

  function answer() {
    const turn = fresh.change()
    problems.value = problemsOf(form, texts)
    Object.assign(failures, { check: '', simulation: '' })
    // What was asked last goes on: its answer is the last good one.
    if (isUnread.value) return
    asked = argumentsOf(form, texts)
    waiting.value = true
    worker?.ask(asked, turn)
  }

  function remember() {
    clearTimeout(later)
    later = setTimeout(() => address.put(query.value), 300)
  }

  onMounted(() => {
    worker = asker(form.id, hear)
    watch(texts, () => {
      answer()
      remember()
    })
  })
  const address = useAddress((link) => {
    const carried = fromQuery(form, link)
    Object.assign(texts, carried.texts)
    dropped.value = carried.dropped
    ofDesign.value = isPart(link)
    ready.value = true
    // Until now the page couldn't know what its link says, see `scheme.js`.
    delete document.documentElement.dataset['linked']
  })
  onUnmounted(() => {
    clearTimeout(later)
    clearTimeout(soon)
    fresh.stop()
    worker?.stop()
  })

  return reactive({
    form,
    built,
    texts,
    problems,
    assessment,
    sweep,
    changes,
    before,
    good,
    after,
    ready,
    waiting,
    failure,
    failures,
    query,
    dropped,
    ofDesign,
    stale,
    /** What stands in a field of the shown answer's choice, with proper signs. */
    given: (id: string) => {
      const given = id.split('.').reduce((here, step) => here?.[step], good.value as any)
      return unitText(String(given ?? '')).replaceAll(' ', '\u00a0')
    },
    outputs: computed(() => form.outputs(good.value, assessment.value)),
    /** Gets ready to answer, since the reader is about to type. */
    warm: () => worker?.warm(good.value),
    /** Asks once more, as after a failure. */
    again: answer,
    /** Puts several fields at once, as a preset does. */
    put: (more: Readonly<Record<string, string>>) => Object.assign(texts, more),
    /** Puts a change in; it can be taken back. */
    carryOut: (name: string, more: Readonly<Record<string, string>>) => {
      before.value = [...before.value, { name, texts: { ...texts } }]
      Object.assign(texts, more)
    },
    /** Takes the last change back that was put in: the fields are as they were before it. */
    takeBack: () => {
      const last = before.value.at(-1)
      before.value = before.value.slice(0, -1)
      if (last) Object.assign(texts, last.texts)
    },
    /** Takes the demo out, for a design of the reader's own; it can be taken back. */
    empty: () => {
      before.value = [...before.value, { name: 'emptying the form', texts: { ...texts }, isForm: true }]
      Object.assign(texts, emptyOf(form))
      ofDesign.value = false
    },
    /** How many fields are empty that must be given. */
    needed: computed(() => Object.keys(problems.value).filter((id) => texts[id] === '').length),
    reset: () => {
      before.value = []
      Object.assign(texts, demo)
      ofDesign.value = false
      dropped.value = []
    },
  })
}

export type Work = ReturnType<typeof useWork>
