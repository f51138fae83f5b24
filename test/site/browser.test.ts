import { afterEach, expect, it, vi } from 'vitest'
import { launch, packagedProgram, systemPrograms } from '../tools/browser.js'

/** A program that ends at once instead of answering. */
const broken = async () => ({ executablePath: '/bin/false', env: {} })

afterEach(() => vi.unstubAllEnvs())

it('takes the browser that CHROMIUM_PATH names before any other', () => {
  vi.stubEnv('CHROMIUM_PATH', '/bin/false')
  expect(systemPrograms()[0]?.executablePath).toBe('/bin/false')
})

it('starts the packaged browser where the one of the system does not start', async () => {
  const browser = await launch([broken, packagedProgram])
  expect(browser.version()).toMatch(/^143\./)
  await browser.close()
})

it('says in one sentence what to install where no browser starts, and skips nothing', async () => {
  vi.stubEnv('TMPDIR', '/proc/nowhere')
  const sentence = /^No browser starts here: install Chromium .*apt-get install chromium.*\.$/
  await expect(launch([broken, packagedProgram])).rejects.toThrow(sentence)
})
