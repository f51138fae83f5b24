import { createHash } from 'node:crypto'
import { existsSync, readFileSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join, normalize } from 'node:path'

/** @type {Readonly<Record<string, string>>} */
const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8',
  '.woff2': 'font/woff2',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
}

/**
 * The policy of a careful host: nothing from elsewhere, no eval, and of inline scripts only those of this very page,
 * by their hash. No inline styles.
 *
 * @param {string} html
 */
export function policyFor(html) {
  const hashes = [...html.matchAll(/<script(?![^>]*\ssrc=)[^>]*>([\s\S]*?)<\/script>/g)].map(
    ([, script]) =>
      `'sha256-${createHash('sha256')
        .update(script ?? '')
        .digest('base64')}'`,
  )
  return [
    "default-src 'none'",
    ["script-src 'self'", ...new Set(hashes)].join(' '),
    "style-src 'self'",
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "worker-src 'self'",
    "manifest-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/**
 * The file that an address means: itself, its `.html`, or its folder's `index.html`.
 *
 * @param {string} folder
 * @param {string} path
 */
function fileOf(folder, path) {
  const clean = normalize(decodeURIComponent(path)).replace(/^(\.\.[/\\])+/, '')
  const candidates = clean.endsWith('/') ? [`${clean}index.html`] : [clean, `${clean}.html`]
  return candidates.map((name) => join(folder, name)).find((file) => existsSync(file) && statSync(file).isFile())
}

/**
 * Serves a folder under a base path, on this machine only.
 *
 * @param {{ folder: string, base?: string, port?: number, strict?: boolean }} options - `strict` sends the
 *   content-security policy; port 0 takes a free one
 * @returns {Promise<{ url: string, close: () => Promise<void> }>}
 */
export function serveFolder({ folder, base = '/', port = 0, strict = false }) {
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname
    if (!path.startsWith(base)) {
      if (path === '/') response.writeHead(302, { location: base }).end()
      else response.writeHead(404).end('not found')
      return
    }
    try {
      const file = fileOf(folder, path.slice(base.length - 1))
      const body = readFileSync(file ?? join(folder, '404.html'))
      const type = types[extname(file ?? '.html')] ?? 'application/octet-stream'
      const isPage = strict && type.startsWith('text/html')
      const policy = isPage ? { 'content-security-policy': policyFor(String(body)) } : {}
      response.writeHead(file === undefined ? 404 : 200, { 'content-type': type, ...policy })
      response.end(request.method === 'HEAD' ? undefined : body)
    } catch (error) {
      const isMalformed = error instanceof URIError
      response.writeHead(isMalformed ? 400 : 404).end(isMalformed ? 'bad address' : 'not found')
    }
  })
  return new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, '127.0.0.1', () => {
      const address = server.address()
      const actual = typeof address === 'object' && address !== null ? address.port : port
      resolve({
        url: `http://localhost:${actual}${base}`,
        close: () =>
          new Promise((done) => {
            server.close(() => done())
            server.closeAllConnections()
          }),
      })
    })
  })
}

/**
 * The base path that a built site was made for, read from its first page.
 *
 * @param {string} folder
 */
export function baseOf(folder) {
  const html = readFileSync(join(folder, 'index.html'), 'utf8')
  return /(?:src|href)="([^"]*?)assets\//.exec(html)?.[1] ?? '/'
}
