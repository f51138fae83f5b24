import { onMounted, shallowRef } from 'vue'
import { byKind, isSame, listed, type Part } from './part.ts'

const key = 'ohmward-parts'
const parts = shallowRef<readonly Part[]>([])
const trouble = shallowRef('')
let isRead = false

/** Reads what the browser keeps, and follows what another page of the site does to it. */
function read() {
  try {
    parts.value = listed(JSON.parse(localStorage.getItem(key) ?? '{}'))
    trouble.value = ''
  } catch {
    trouble.value = 'What this browser keeps of your parts can not be read; keeping a part starts a new list.'
  }
}

function write(more: readonly Part[]) {
  parts.value = more
  try {
    localStorage.setItem(key, JSON.stringify(byKind(more)))
    trouble.value = ''
  } catch {
    trouble.value = 'This browser refuses to keep the list: it is gone with this page. Save it as a file.'
  }
}

/** The reader's parts. They stay in the browser; nothing is sent anywhere. */
export function useMyParts() {
  onMounted(() => {
    if (isRead) return
    isRead = true
    read()
    window.addEventListener('storage', (event) => {
      if (event.key === key || event.key === null) read()
    })
  })
  return {
    parts,
    trouble,
    /** Keeps parts; one of the same kind and name is replaced. */
    keep: (more: readonly Part[]) =>
      write([...parts.value.filter((old) => !more.some((part) => isSame(part, old))), ...more]),
    remove: (part: Part) => write(parts.value.filter((old) => !isSame(old, part))),
  }
}
