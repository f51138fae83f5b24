import { readdirSync, readFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { afterEach, expect, it, vi } from 'vitest'
import { launch, packagedProgram, systemPrograms } from '../tools/browser.js'
import { openSite } from '../tools/site.js'

/** A program that ends at once instead of answering. */
const broken = async () => ({ executablePath: '/bin/false', env: {} })

afterEach(() => vi.unstubAllEnvs())

it('takes the browser that CHROMIUM_PATH names before any other', () => {
  vi.stubEnv('CHROMIUM_PATH', '/bin/false')
  expect(systemPrograms()[0]?.executablePath).toBe('/bin/false')
})

// Also where the system has one: nobody else would see that the packaged one is broken.
it('starts the packaged browser where the one of the system does not start, and opens a form in it', async () => {
  const browser = await launch([broken, packagedProgram])
  try {
    expect(browser.version()).toMatch(/^143\./)
    const page = await browser.newPage()
    let crashed = false
    page.on('crash', () => {
      crashed = true
    })
    await page.setContent(
      '<form><input value="47 ohm"><select><option>E12</option><option>E24</option></select></form>',
    )
    await page.locator('input').fill('51 ohm')
    await page.locator('select').selectOption('E24')
    expect(await page.locator('input').inputValue()).toBe('51 ohm')
    // Letters have a width only where a font was found.
    expect(
      await page.evaluate(() => document.createElement('canvas').getContext('2d')!.measureText('ohm').width),
    ).toBeGreaterThan(10)
    expect(crashed).toBe(false)
  } finally {
    await browser.close()
  }
})

it('lets the packaged browser find its fonts where the system has no configuration of its own', async () => {
  const { executablePath, env } = await packagedProgram()
  const conf = readFileSync(env['FONTCONFIG_FILE']!, 'utf8')
  const folders = [...conf.matchAll(/<dir>(.*?)<\/dir>/g)].map(([, folder]) => folder!)
  expect(folders).toHaveLength(1)
  expect(folders[0]!.startsWith(dirname(executablePath))).toBe(true)
  const fonts = readdirSync(folders[0]!, { recursive: true, encoding: 'utf8' }).filter((path) => path.endsWith('.ttf'))
  expect(fonts.length).toBeGreaterThan(0)
})

it('lets no page and no worker ask another host unseen, and reaches none', async () => {
  const site = await openSite()
  try {
    // Without the site's policy, which would refuse these before they were asked.
    const { page, problems } = await site.newPage({ bypassCSP: true })
    await page.goto(site.url())
    const answers = await page.evaluate(async (own) => {
      const from = (where: string) =>
        fetch(where, { mode: 'no-cors' }).then(
          () => 'answered',
          () => 'refused',
        )
      const code = `fetch('http://worker.example/', { mode: 'no-cors' }).then(() => 'answered', () => 'refused').then(postMessage)`
      const worker = new Worker(URL.createObjectURL(new Blob([code], { type: 'text/javascript' })))
      const heard = new Promise<string>((done) => worker.addEventListener('message', ({ data }) => done(data)))
      return [await from('http://page.example/'), await heard, await from(own)]
    }, site.url())
    expect(answers).toEqual(['refused', 'refused', 'answered'])
    const asked = problems.filter((problem) => problem.startsWith('foreign request'))
    expect(asked).toEqual(['foreign request: http://page.example/', 'foreign request: http://worker.example/'])
  } finally {
    await site.close()
  }
})

it('says in one sentence what to install where no browser starts, and skips nothing', async () => {
  vi.stubEnv('TMPDIR', '/proc/nowhere')
  const sentence = /^No browser starts here: install Chromium .*apt-get install chromium.*\.$/
  await expect(launch([broken, packagedProgram])).rejects.toThrow(sentence)
})
