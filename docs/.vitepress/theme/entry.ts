import { computed, ref } from 'vue'
import { type Field, fieldNow } from './block.ts'
import { step } from './step.ts'
import { isBare, parted, takesTolerance } from './tolerance.ts'
import type { Work } from './work.ts'

/**
 * What happens in a field while the reader types, wherever it stands: a value without a tolerance keeps the one that stood
 * there, which is shown apart until the reader leaves; the arrows step.
 */
export function useEntry(work: Work, given: () => Field) {
  const field = computed(() => fieldNow(given(), work.texts))
  /** The tolerance that stood in the field when the reader came to it. */
  let stood = ''
  /** What was typed without a tolerance, and the whole text that was made of it. */
  const bare = ref<{ readonly typed: string; readonly whole: string }>()
  const isTyping = ref(false)
  const text = computed(() => work.texts[field.value.id]!)
  /** What is typed stands in the field as it is. */
  const kept = computed(() => (bare.value?.whole === text.value ? bare.value : undefined))
  const come = () => {
    stood = parted(text.value)[1]
  }
  const leave = () => {
    isTyping.value = false
  }
  return {
    field,
    kept,
    come,
    leave,
    problem: computed(() => work.problems[field.value.id]),
    shown: computed(() => (isTyping.value && kept.value ? kept.value.typed : text.value)),
    isExact: computed(
      () => takesTolerance(field.value) && parted(field.value.demo)[1] !== '' && isBare(field.value, text.value),
    ),
    /** A value that is typed without a tolerance keeps the one that stood there. */
    type(event: Event) {
      const input = event.target as HTMLInputElement
      if (document.activeElement !== input) come()
      isTyping.value = true
      const typed = input.value
      const whole = stood !== '' && isBare(field.value, typed) ? typed.trimEnd() + stood : typed
      bare.value = whole === typed ? undefined : { typed, whole }
      work.texts[field.value.id] = whole
    },
    countAsExact() {
      work.texts[field.value.id] = kept.value!.typed
      stood = ''
    },
    key(event: KeyboardEvent) {
      const up = event.key === 'ArrowUp'
      if (!(up || event.key === 'ArrowDown') || !work.ready) return
      const next = step(text.value, field.value, up)
      if (next === undefined) return
      event.preventDefault()
      leave()
      work.texts[field.value.id] = next
    },
  }
}
