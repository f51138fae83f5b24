/** Once the site has been loaded it works without the network; not while it is being written. */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return
  navigator.serviceWorker.register(`${import.meta.env.BASE_URL}sw.js`).catch(() => {
    // A browser that refuses, as in a private window, reads the site from the network.
  })
}
