import { computed, ref } from 'vue'

/** A filter by words and block. An entry is shown where its texts hold every word that is typed. */
export function useFilter() {
  const words = ref('')
  const block = ref('')
  const wanted = computed(() => words.value.toLowerCase().split(/\s+/).filter(Boolean))
  return {
    words,
    block,
    isOn: computed(() => wanted.value.length > 0 || block.value !== ''),
    /** @param texts - of an entry, the block that it belongs to first */
    matches: ([own = '', ...texts]: readonly string[]): boolean => {
      if (block.value !== '' && own !== block.value) return false
      const all = [own, ...texts].join(' ').toLowerCase()
      return wanted.value.every((word) => all.includes(word))
    },
  }
}
