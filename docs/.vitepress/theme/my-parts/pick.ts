import { computed } from 'vue'
import type { Preset } from '../block.ts'
import { classOf } from '../link.ts'
import type { Work } from '../work.ts'
import { useMyParts } from './store.ts'
import { ownAt, stands, textsToPut } from './texts.ts'

const mark = 'my part: '

/** What a select of a part offers: the reader's own parts, and the classes; which stands in the fields; choosing one. */
export function usePick(work: Work, given: () => Preset) {
  const { parts } = useMyParts()
  const own = computed(() => ownAt(work.form, given().path, parts.value))
  return {
    own,
    /** The value of an option for a part of the reader's own. */
    valueFor: (name: string) => mark + name,
    chosen: computed(() => {
      const mine = own.value.find(({ texts }) => stands(texts, work.texts))
      return mine ? mark + mine.name : (classOf({ preset: given() }, work.texts) ?? '')
    }),
    choose(event: Event) {
      const { value } = event.target as HTMLSelectElement
      const mine = own.value.find(({ name }) => mark + name === value)
      if (mine) work.put(textsToPut(work.form, given().path!, mine.texts, work.texts))
      else work.put(given().choices[value] ?? {})
    },
  }
}
