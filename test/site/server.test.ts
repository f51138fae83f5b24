import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { connect } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { oneAtATime } from '../tools/one-at-a-time.mjs'
import { serveFolder } from '../tools/static-server.mjs'

const folder = mkdtempSync(join(tmpdir(), 'ohmward-served-'))
let server: Awaited<ReturnType<typeof serveFolder>>

beforeAll(async () => {
  mkdirSync(`${folder}/divider`)
  writeFileSync(`${folder}/index.html`, 'first')
  writeFileSync(`${folder}/404.html`, 'no such page')
  writeFileSync(`${folder}/divider/index.html`, 'divider')
  server = await serveFolder({ folder, base: '/base/', strict: true })
})
afterAll(async () => {
  await server.close()
  rmSync(folder, { recursive: true })
})

/** Sends a request line as it is, and gives the answer's status and head. */
const asked = (line: string) =>
  new Promise<string>((resolve, reject) => {
    let said = ''
    const socket = connect(Number(new URL(server.url).port), '127.0.0.1', () =>
      socket.write(`${line} HTTP/1.1\r\nhost: localhost\r\nconnection: close\r\n\r\n`),
    )
    socket.on('data', (text) => (said += text))
    socket.on('end', () => resolve(said))
    socket.on('error', reject)
  })

describe('the server', () => {
  it('outlives every address', async () => {
    const lines = ['GET //', 'GET ///', 'GET /base//', 'GET http://', 'GET *', 'GET /base/%00', 'GET /base/%', 'GET ?']
    for (const line of [...lines, 'GET //elsewhere.example/..', 'POST /base/', 'GET /base/../../../etc/passwd']) {
      const head = await asked(line)
      expect(head, line).toMatch(/^HTTP\/1\.1 [2345]\d\d /)
      expect(head, line).not.toMatch(/location: \/\/|root:/)
    }
    expect(await (await fetch(server.url)).text()).toBe('first')
  })

  it('shows a page that is not there as a page, under the policy', async () => {
    for (const path of ['nothing', 'no/such/page', '../outside']) {
      const answer = await fetch(server.url + path)
      expect(answer.status, path).toBe(404)
      expect(answer.headers.get('content-type'), path).toBe('text/html; charset=utf-8')
      expect(answer.headers.get('content-security-policy'), path).toContain("default-src 'none'")
      expect(await answer.text(), path).toBe('no such page')
    }
  })

  it('leads to a folder whose slash is missing, with what the link carries', async () => {
    const answer = await fetch(`${server.url}divider?choice.reference=22+ohm`)
    expect(answer.url).toBe(`${server.url}divider/?choice.reference=22+ohm`)
    expect(await answer.text()).toBe('divider')
    expect((await fetch(server.url.slice(0, -1))).url).toBe(server.url)
  })

  it('takes a link of 100 kB', async () => {
    expect((await fetch(`${server.url}divider/?x=${'y'.repeat(100_000)}`)).status).toBe(200)
  })
})

describe('work that is done once at a time', () => {
  const lock = join(folder, 'lock')

  it('is waited for by who comes second, and not done again', async () => {
    let done = 0
    let waited = 0
    const work = async () => {
      await new Promise((resolve) => setTimeout(resolve, 100))
      done++
    }
    const both = await Promise.all([1, 2].map(() => oneAtATime(lock, work, () => waited++)))
    expect(both.sort()).toEqual([false, true])
    expect([done, waited]).toEqual([1, 1])
    expect(await oneAtATime(lock, work)).toBe(true)
  })

  it('is free again after a failure, and after a process that is gone', async () => {
    const failing = async () => {
      throw new Error('no paper')
    }
    await expect(oneAtATime(lock, failing)).rejects.toThrow('no paper')
    mkdirSync(lock)
    writeFileSync(`${lock}/process`, '999999999')
    expect(await oneAtATime(lock, async () => {})).toBe(true)
  })

  it('says in one sentence where nothing can be written', async () => {
    await expect(oneAtATime('/proc/lock', async () => {})).rejects.toThrow(
      /^Nothing can be written beside \/proc\/lock/,
    )
  })
})
