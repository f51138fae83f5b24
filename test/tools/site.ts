import { existsSync } from 'node:fs'
import type { Browser, BrowserContextOptions, Page } from 'playwright-core'
import { launch } from './browser.js'
import { baseOf, serveFolder } from './static-server.mjs'
import { files, root } from './workspace.js'

const folder = 'docs/.vitepress/dist'

/** A page that is being watched. */
export interface Watched {
  readonly page: Page
  /** Console errors, uncaught errors, failed requests, and requests to another host, as they come. */
  readonly problems: readonly string[]
  /** Closes the page and its context. */
  readonly close: () => Promise<void>
}

export interface Site {
  readonly browser: Browser
  /** Address of a page: `url('divider/')`. */
  readonly url: (path?: string) => string
  /** Paths of all built pages, without the 404 page: `''`, `divider/`, `api/…`. */
  readonly pages: readonly string[]
  /**
   * Opens nothing yet: a fresh context and page, watched from its first request on. Without the site's service worker,
   * which would answer unseen; a test of reading offline asks for `{ serviceWorkers: 'allow' }`.
   */
  readonly newPage: (options?: BrowserContextOptions) => Promise<Watched>
  readonly close: () => Promise<void>
}

/** Serves the built site as a strict host would, and starts a browser. Build it first: `pnpm site`. */
export async function openSite(): Promise<Site> {
  if (!existsSync(`${root}${folder}/index.html`)) throw new Error('the site is not built: run "pnpm site" first')
  const server = await serveFolder({ folder: `${root}${folder}`, base: baseOf(`${root}${folder}`), strict: true })
  const browser = await launch().catch(async (error: unknown) => {
    await server.close()
    throw error
  })
  const pages = files(folder, '.html')
    .map((path) => path.slice(folder.length + 1))
    .filter((path) => path !== '404.html')
    .map((path) => path.replace(/(^|\/)index\.html$/, '$1'))
  const url = (path = '') => server.url + path
  return {
    browser,
    url,
    pages,
    newPage: (options = {}) => watchedPage(browser, new URL(server.url).origin, options),
    close: async () => {
      await browser.close()
      await server.close()
    },
  }
}

async function watchedPage(browser: Browser, origin: string, options: BrowserContextOptions): Promise<Watched> {
  const context = await browser.newContext({ reducedMotion: 'reduce', serviceWorkers: 'block', ...options })
  const page = await context.newPage()
  const problems: string[] = []
  page.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()}`)
  })
  page.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`))
  page.on('response', (response) => {
    if (response.status() >= 400) problems.push(`${response.status()}: ${response.url()}`)
  })
  // Only watched: the browser knows no other host, and to route each request took a third of the time that a page loads.
  context.on('request', (request) => {
    const wanted = request.url()
    if (!wanted.startsWith(`${origin}/`) && !/^(data|blob):/.test(wanted)) problems.push(`foreign request: ${wanted}`)
  })
  return { page, problems, close: () => context.close() }
}
