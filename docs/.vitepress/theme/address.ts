import { useRouter } from 'vitepress'
import { onMounted, onUnmounted } from 'vue'

/** Reads the address when the page opens and whenever its query changes: by a link on the page, or by going back. */
export function useAddress(read: (query: string) => void) {
  const router = useRouter()
  let before: typeof router.onAfterRouteChange
  let last = ''

  function follow() {
    if (location.search === last) return
    last = location.search
    read(last)
  }

  onMounted(() => {
    before = router.onAfterRouteChange
    router.onAfterRouteChange = async (href) => {
      await before?.(href)
      follow()
    }
    last = location.search
    read(last)
  })
  onUnmounted(() => {
    if (before) router.onAfterRouteChange = before
    else delete router.onAfterRouteChange
  })
  return {
    /** Puts a query in the address, in place of the one that stands there. */
    put(query: string) {
      history.replaceState(history.state, '', location.pathname + query + location.hash)
      last = location.search
    },
  }
}
