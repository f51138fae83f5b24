// Pages come from the network while there is one, so a reader gets the newest; files under assets/ carry a hash in
// their name and never change, so a kept one is as good as a new one.
const version = 'VERSION'
const files = ['FILES']
const site = version.slice(0, version.lastIndexOf(' '))

// A newer version waits until no tab of the older one is left: such a tab loads its workers and pages by the names that
// it was built with, and finds them in the older cache only.
self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(version).then((cache) => cache.addAll(files)))
})

self.addEventListener('activate', (event) => {
  const old = (name) => name.startsWith(`${site} `) && name !== version
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  )
})

const keep = async (request, response) => {
  if (response.ok) await (await caches.open(version)).put(request, response.clone())
  return response
}

const kept = (request) => caches.match(request, { ignoreSearch: request.mode === 'navigate' })

const fromNetwork = async (request) => {
  try {
    return await keep(request, await fetch(request))
  } catch (error) {
    const response = await kept(request)
    if (response) return response
    throw error
  }
}

const fromCache = async (request) => (await kept(request)) ?? keep(request, await fetch(request))

self.addEventListener('fetch', (event) => {
  const { request } = event
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return
  event.respondWith(request.url.includes('/assets/') ? fromCache(request) : fromNetwork(request))
})
