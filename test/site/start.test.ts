import { spawn } from 'node:child_process'
import { expect, it } from 'vitest'
import { root } from '../tools/workspace.js'

it('start prints the worked check, serves the built site, and ends cleanly', async () => {
  const env = { ...process.env, PORT: '0' }
  const child = spawn('node', [`${root}test/tools/start.mjs`, '--built'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve))
  let said = ''
  const url = await new Promise<string>((resolve, reject) => {
    const listen = (text: Buffer) => {
      said += text
      const found = /The site: (\S+)/.exec(said)?.[1]
      if (found !== undefined) resolve(found)
    }
    child.stdout.on('data', listen)
    child.stderr.on('data', listen)
    child.on('exit', () => reject(new Error(said)))
  })
  expect(said).toMatch(/hot knife: (holds|fails|not sure)\n/)
  expect(said).toMatch(/First to give way: .*\n[\s\S]*\nPower\n[\s\S]*\nCell monitor\n[\s\S]*\nDrawer: /)
  const page = await fetch(url)
  expect(page.status).toBe(200)
  expect(page.headers.get('content-security-policy')).toContain("default-src 'none'")
  const missing = await fetch(`${url}no-such-page`)
  expect(missing.status).toBe(404)
  expect(missing.headers.get('content-type')).toBe('text/html; charset=utf-8')
  expect(missing.headers.get('content-security-policy')).toContain("default-src 'none'")
  child.kill('SIGINT')
  expect(await ended).toBe(0)
})
