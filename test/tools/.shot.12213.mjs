// test/tools/site.ts

// test/tools/browser.ts
import { execFileSync } from 'node:child_process'
import {
  createReadStream,
  createWriteStream,
  existsSync,
  existsSync as existsSync4,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
} from 'node:fs'
import { chmod } from 'node:fs/promises'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { createBrotliDecompress } from 'node:zlib'
import { chromium } from 'playwright-core'

var require2 = createRequire(import.meta.url)
var systemNames = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable']
function systemPrograms() {
  const folders = [...(process.env['PATH'] ?? '').split(':'), '/usr/bin']
  const paths2 = [
    process.env['CHROMIUM_PATH'] ?? '',
    ...systemNames.flatMap((name) => folders.map((folder2) => join(folder2, name))),
  ]
  return [...new Set(paths2)]
    .filter((path) => path !== '' && existsSync(path))
    .map((executablePath) => ({ executablePath, env: {} }))
}
async function packagedProgram() {
  const home = join(dirname(require2.resolve('@sparticuz/chromium')), '../..')
  const { version } = require2(join(home, 'package.json'))
  const folder2 = join(tmpdir(), `ohmward-chromium-${version}`)
  if (!existsSync(folder2)) {
    const half = mkdtempSync(`${folder2}-`)
    await unpack(join(home, 'bin/chromium.br'), join(half, 'chromium'))
    await chmod(join(half, 'chromium'), 493)
    for (const archive of ['al2023', 'fonts', 'swiftshader']) {
      const tar = join(half, `${archive}.tar`)
      const target = archive === 'swiftshader' ? half : join(half, archive)
      await unpack(join(home, `bin/${archive}.tar.br`), tar)
      mkdirSync(target, { recursive: true })
      execFileSync('tar', ['-xf', tar, '-C', target])
      rmSync(tar)
    }
    try {
      renameSync(half, folder2)
    } catch {
      rmSync(half, { recursive: true })
    }
  }
  const env = { LD_LIBRARY_PATH: join(folder2, 'al2023/lib'), FONTCONFIG_PATH: join(folder2, 'fonts/fonts') }
  return { executablePath: join(folder2, 'chromium'), env }
}
var unpack = (from, to) => pipeline(createReadStream(from), createBrotliDecompress(), createWriteStream(to))
async function launch(candidates = [...systemPrograms().map((it) => async () => it), packagedProgram]) {
  const reasons = []
  for (const candidate of candidates) {
    try {
      const { executablePath, env } = await candidate()
      return await chromium.launch({
        executablePath,
        args: ['--no-sandbox', '--headless'],
        env: { ...process.env, ...env },
      })
    } catch (error) {
      reasons.push(error.message.split('\n')[0])
    }
  }
  throw new Error(
    `No browser starts here: install Chromium (on Debian "apt-get install chromium"), or set CHROMIUM_PATH to one (tried: ${reasons.join('; ')}).`,
  )
}

// test/tools/static-server.mjs
import { createHash } from 'node:crypto'
import { existsSync as existsSync2, readFileSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import { extname, join as join2, normalize } from 'node:path'

var types = {
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
function policyFor(html) {
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
function fileOf(folder2, path) {
  const clean = normalize(decodeURIComponent(path)).replace(/^(\.\.[/\\])+/, '')
  const candidates = clean.endsWith('/') ? [`${clean}index.html`] : [clean, `${clean}.html`]
  return candidates.map((name) => join2(folder2, name)).find((file) => existsSync2(file) && statSync(file).isFile())
}
function serveFolder({ folder: folder2, base = '/', port = 0, strict = false }) {
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? '/', 'http://localhost').pathname
    if (!path.startsWith(base)) {
      if (path === '/') response.writeHead(302, { location: base }).end()
      else response.writeHead(404).end('not found')
      return
    }
    try {
      const file = fileOf(folder2, path.slice(base.length - 1))
      const body = readFileSync(file ?? join2(folder2, '404.html'))
      const type = types[extname(file ?? '.html')] ?? 'application/octet-stream'
      const isPage = strict && type.startsWith('text/html')
      const policy = isPage ? { 'content-security-policy': policyFor(String(body)) } : {}
      response.writeHead(file === void 0 ? 404 : 200, { 'content-type': type, ...policy })
      response.end(request.method === 'HEAD' ? void 0 : body)
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
function baseOf(folder2) {
  const html = readFileSync(join2(folder2, 'index.html'), 'utf8')
  return /(?:src|href)="([^"]*?)assets\//.exec(html)?.[1] ?? '/'
}

// test/tools/workspace.ts
import { existsSync as existsSync3, readdirSync, readFileSync as readFileSync2 } from 'node:fs'
import { fileURLToPath } from 'node:url'

var root = fileURLToPath(new URL('../..', import.meta.url))
var packages = readdirSync(`${root}packages`).filter((name) => existsSync3(`${root}packages/${name}/package.json`))
function files(folder2, ending) {
  return readdirSync(`${root}${folder2}`, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith(ending) && !path.includes('node_modules'))
    .map((path) => `${folder2}/${path}`)
    .sort()
}

// test/tools/site.ts
var folder = 'docs/.vitepress/dist'
async function openSite() {
  if (!existsSync4(`${root}${folder}/index.html`)) throw new Error('the site is not built: run "pnpm site" first')
  const server = await serveFolder({ folder: `${root}${folder}`, base: baseOf(`${root}${folder}`), strict: true })
  const browser = await launch().catch(async (error) => {
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
async function watchedPage(browser, origin, options) {
  const context = await browser.newContext({ reducedMotion: 'reduce', serviceWorkers: 'block', ...options })
  const page = await context.newPage()
  const problems = []
  page.on('console', (message) => {
    if (message.type() === 'error') problems.push(`console: ${message.text()}`)
  })
  page.on('pageerror', (error) => problems.push(`uncaught: ${error.message}`))
  page.on('response', (response) => {
    if (response.status() >= 400) problems.push(`${response.status()}: ${response.url()}`)
  })
  await context.route('**/*', async (route) => {
    const wanted = route.request().url()
    if (wanted.startsWith(`${origin}/`) || /^(data|blob):/.test(wanted)) return route.continue()
    problems.push(`foreign request: ${wanted}`)
    return route.abort()
  })
  return { page, problems, close: () => context.close() }
}

// test/tools/axe.ts
import { readFileSync as readFileSync3 } from 'node:fs'
import { createRequire as createRequire2 } from 'node:module'

var source = readFileSync3(createRequire2(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
async function axeFindings(page) {
  await page.evaluate(source)
  const violations = await page.evaluate(async () => {
    const { axe } = globalThis
    const { violations: violations2, passes } = await axe.run()
    if (passes.length === 0) throw new Error('axe looked at nothing')
    return violations2
  })
  return violations.flatMap((violation) =>
    violation.nodes.map((node) => `${violation.id} at ${node.target.join(' ')}: ${node.failureSummary}`),
  )
}

// ../../tmp/shot.mts
var [paths, modes = 'light:1440', what = 'full'] = process.argv.slice(2)
var site = await openSite()
for (const path of paths.split(','))
  for (const mode of modes.split(',')) {
    const [colorScheme, width] = mode.split(':')
    const { page, problems, close } = await site.newPage({ colorScheme, viewport: { width: +width, height: 1e3 } })
    const p = path === '/' ? '' : path
    await page.goto(site.url(p), { waitUntil: 'networkidle' })
    if (what.startsWith('clip')) {
      const [, y, h] = what.split(':')
      await page.screenshot({
        path: `/tmp/shots/${p.replaceAll('/', '_')}-${colorScheme}-${width}.png`,
        fullPage: true,
        clip: { x: 0, y: +y, width: +width, height: +h },
      })
    } else
      await page.screenshot({
        path: `/tmp/shots/${p.replaceAll('/', '_')}-${colorScheme}-${width}.png`,
        fullPage: what === 'full',
      })
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    console.log(
      p || '/',
      mode,
      'overflow',
      over,
      'height',
      await page.evaluate(() => document.documentElement.scrollHeight),
      problems,
      (await axeFindings(page)).map((x) => x.slice(0, 400)),
    )
    if (over > 0)
      console.log(
        await page.evaluate(() =>
          [...document.querySelectorAll('body *')]
            .filter(
              (e) => e.getBoundingClientRect().right > innerWidth + 1 && !e.closest('.scroll, .equation, pre, .hidden'),
            )
            .slice(0, 12)
            .map(
              (e) =>
                e.tagName +
                '.' +
                e.getAttribute('class') +
                ' ' +
                Math.round(e.getBoundingClientRect().right) +
                ' ' +
                (e.textContent ?? '').slice(0, 40),
            ),
        ),
      )
    await close()
  }
await site.close()
