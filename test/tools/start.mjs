// Prints the check of the demo design, the whole of it, then builds the documentation site and serves it.
import { spawn } from 'node:child_process'
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './load.mjs'
import { oneAtATime } from './one-at-a-time.mjs'
import { baseOf, serveFolder } from './static-server.mjs'

const folder = join(root, 'docs/.vitepress/dist')

const elsewhere = 'Copy the project to where you may write, and start it there; "--built" serves a site that is there.'

/** Builds the site quietly; what the build says is shown when it fails. */
function buildSite() {
  return new Promise((/** @type {(value: void) => void} */ resolve, reject) => {
    const child = spawn('pnpm', ['run', 'site'], { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] })
    let said = ''
    for (const stream of [child.stdout, child.stderr]) stream.on('data', (text) => (said += text))
    child.on('error', reject)
    child.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`the site's build failed\n${said}`))))
  })
}

/** The demo design's check as the command prints it. */
async function demoCheck() {
  const { runCommand } = await import(new URL('packages/frontend/dist/command/index.js', `file://${root}`).href)
  const { out } = runCommand(['new'], () => '')
  return runCommand(['check', 'knife.json'], () => out).out
}

/** Serves on the port that PORT names, or else on the first free one from 4100 on. */
async function serve() {
  const asked = process.env['PORT']
  const ports = asked === undefined ? [...Array.from({ length: 20 }, (_, i) => 4100 + i), 0] : [Number(asked)]
  for (const port of ports) {
    try {
      return await serveFolder({ folder, base: baseOf(folder), port, strict: true })
    } catch (error) {
      const { code, message } = /** @type {NodeJS.ErrnoException} */ (error)
      if (asked === undefined && code === 'EADDRINUSE') continue
      throw new Error(`PORT=${asked} can't be served: ${message}`)
    }
  }
  throw new Error('no port is free')
}

for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(0))

try {
  console.log(
    "\nThe demo design: a sailmaker's cordless hot knife, a blade of 0.7 ohm on one cell. It is meant to fail.\n",
  )
  console.log(await demoCheck())
  if (!process.argv.includes('--built')) {
    console.log('Building the site…')
    await oneAtATime(join(root, 'node_modules/.building-the-site'), buildSite, () =>
      console.log('Another start is at it: waiting for that one.'),
    ).catch((error) => {
      const { message } = /** @type {Error} */ (error)
      throw new Error(`${message} ${message.startsWith('Nothing can be written') ? elsewhere : ''}`.trim())
    })
  }
  if (!existsSync(join(folder, 'index.html'))) throw new Error('There is no built site: start without "--built".')
  const { url } = await serve()
  console.log(`The same, to try your own parts in: ${url}divider/\nThe site: ${url} (Ctrl-C ends it)`)
} catch (error) {
  console.error(error instanceof Error ? error.message : error)
  process.exit(1)
}
