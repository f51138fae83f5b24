import { afterAll, beforeAll, it } from 'vitest'
import { openSite, type Site } from '../tools/site.js'

let site: Site
beforeAll(async () => {
  site = await openSite()
})
afterAll(() => site?.close())
it('shots', async () => {
  for (const [width, scheme] of [
    [1440, 'light'],
    [960, 'dark'],
    [390, 'light'],
    [320, 'dark'],
  ] as const) {
    const { page, close } = await site.newPage({ viewport: { width, height: 900 }, colorScheme: scheme })
    await page.goto(site.url('frontend/'))
    await page.locator('#design-text:not([readonly])').waitFor()
    await page.screenshot({ path: `/tmp/wshots/f-${width}-${scheme}.png`, fullPage: true })
    const wide = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth])
    console.log(width, wide)
    await close()
  }
  const { page, close } = await site.newPage({ viewport: { width: 1000, height: 1400 } })
  await page.goto(site.url('frontend/'))
  await page.locator('#design-text:not([readonly])').waitFor()
  await page.pdf({ path: '/tmp/wshots/f.pdf', format: 'A4' })
  await close()
}, 200000)
