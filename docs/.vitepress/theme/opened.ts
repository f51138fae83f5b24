import { onContentUpdated } from 'vitepress'
import { onMounted, onUnmounted } from 'vue'

/** What stands in an address, decoded; as it stands where it can't be: `%` alone is no escape. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}

/**
 * Opens what is folded where a link leads into it. A browser does so by itself when it loads a page, but not where the
 * site turns to another page, or to another place of the same one, without loading.
 */
export function openWhereLinked(): void {
  /** The address that was followed last: what the reader folds again stays folded. */
  let followed = ''
  const open = () => {
    if (location.href === followed || location.hash.length < 2) return
    const target = document.getElementById(decoded(location.hash.slice(1)))
    if (!target) return
    followed = location.href
    const folds: HTMLDetailsElement[] = []
    for (let at = target.closest('details'); at; at = at.parentElement?.closest('details') ?? null) folds.push(at)
    if (folds.length === 0) return
    for (const fold of folds) fold.open = true
    target.scrollIntoView()
  }
  onContentUpdated(open)
  onMounted(() => addEventListener('hashchange', open))
  onUnmounted(() => removeEventListener('hashchange', open))
}
