import { type Router, useRouter } from 'vitepress'
import { onMounted, onUnmounted } from 'vue'

const followers = new Set<() => void>()
const watched = new WeakSet<Router>()

/** Has the router tell the pages at hand of each new address; one page may be there before another is gone. */
function watchOnce(router: Router) {
  if (watched.has(router)) return
  watched.add(router)
  const before = router.onAfterRouteChange
  router.onAfterRouteChange = async (href) => {
    await before?.(href)
    for (const follow of followers) follow()
  }
}

/** Reads the address when the page opens and whenever its query changes: by a link on the page, or by going back. */
export function useAddress(read: (query: string) => void) {
  const router = useRouter()
  let path = ''
  let last = ''

  function follow() {
    if (location.search === last) return
    last = location.search
    read(last)
  }

  onMounted(() => {
    watchOnce(router)
    followers.add(follow)
    path = location.pathname
    last = location.search
    read(last)
  })
  onUnmounted(() => followers.delete(follow))
  return {
    /** Puts a query in the address, unless the reader has gone elsewhere meanwhile. */
    put(query: string) {
      if (location.pathname !== path || location.search !== last) return
      history.replaceState(history.state, '', location.pathname + query + location.hash)
      last = location.search
    },
  }
}
