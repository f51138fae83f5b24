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

/** What every answer says: the browser takes a file for what it is called, and guesses nothing. */
const always = { 'x-content-type-options': 'nosniff' }

/** Longest head of a request, in bytes: a link may carry a whole choice. */
const longest = 256 * 1024

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
 * The path of a request, decoded, without its query. Slashes at its begin are one, so that it never names a host.
 *
 * @param {string} target
 * @throws URIError where it can't be decoded
 */
const pathOf = (target) => decodeURIComponent((target.split(/[?#]/)[0] ?? '').replace(/^[/\\]+/, '/'))

/** @param {string} file */
const isFile = (file) => !file.includes('\0') && existsSync(file) && statSync(file).isFile()

/**
 * The file that a path means: itself, its `.html`, or its folder's `index.html`; and whether that folder's slash is
 * missing.
 *
 * @param {string} folder
 * @param {string} path
 * @returns {{ file?: string, slash?: true }}
 */
function fileOf(folder, path) {
  const clean = normalize(path).replace(/^(\.\.[/\\])+/, '')
  const candidates = clean.endsWith('/') ? [`${clean}index.html`] : [clean, `${clean}.html`]
  const file = candidates.map((name) => join(folder, name)).find(isFile)
  if (file !== undefined) return { file }
  return isFile(join(folder, clean, 'index.html')) ? { slash: true } : {}
}

/**
 * Serves a folder under a base path, on this machine only.
 *
 * @param {{ folder: string, base?: string, port?: number, strict?: boolean }} options - `strict` sends the
 *   content-security policy; port 0 takes a free one
 * @returns {Promise<{ url: string, close: () => Promise<void> }>}
 */
export function serveFolder({ folder, base = '/', port = 0, strict = false }) {
  /** @param {import('node:http').ServerResponse} response @param {number} status @param {string} text */
  const say = (response, status, text) =>
    response.writeHead(status, { 'content-type': 'text/plain; charset=utf-8', ...always }).end(text)

  /** @param {import('node:http').IncomingMessage} request @param {import('node:http').ServerResponse} response */
  function answer({ url = '/', method }, response) {
    if (method !== 'GET' && method !== 'HEAD') return say(response, 405, 'only for reading')
    const path = pathOf(url)
    const query = /\?[^#]*/.exec(url)?.[0] ?? ''
    /** @param {string} to */
    const redirect = (to) => response.writeHead(302, { location: encodeURI(to) + query, ...always }).end()
    if (path === '/' && base !== '/') return redirect(base)
    if (`${path}/` === base) return redirect(base)
    const { file, slash } = path.startsWith(base) ? fileOf(folder, path.slice(base.length - 1)) : {}
    if (slash) return redirect(`${path}/`)
    const page = file ?? join(folder, '404.html')
    if (!isFile(page)) return say(response, 404, 'not found')
    const body = readFileSync(page)
    const type = types[extname(page)] ?? 'application/octet-stream'
    const isPage = strict && type.startsWith('text/html')
    const policy = isPage ? { 'content-security-policy': policyFor(String(body)) } : {}
    response.writeHead(file === undefined ? 404 : 200, { 'content-type': type, ...always, ...policy })
    return response.end(method === 'HEAD' ? undefined : body)
  }

  const server = createServer({ maxHeaderSize: longest }, (request, response) => {
    try {
      answer(request, response)
    } catch (error) {
      const isMalformed = error instanceof URIError
      say(response, isMalformed ? 400 : 500, isMalformed ? 'bad address' : 'the file could not be read')
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
