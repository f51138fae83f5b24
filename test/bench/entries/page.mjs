import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { runnerImport } from 'vite'
import * as adc from '../../../packages/adc/dist/index.js'
import * as packages from '../../../packages/divider/dist/index.js'
import { baseOf, serveFolder } from '../../tools/static-server.mjs'
import { median } from '../measure.mjs'
import { workloads } from '../workloads.mjs'

const root = fileURLToPath(new URL('../../..', import.meta.url))
const folder = `${root}docs/.vitepress/dist`
const keystrokes = 21

/**
 * Types into a field of the built page, one value after another, each once the answer to the last is complete. Runs in
 * the reader's window. Gives milliseconds from the event to the DOM that shows the answer, and on to the simulation's.
 *
 * @param {{ rounds: number, warm: number }} plan
 */
async function typing({ rounds, warm }) {
  const input = /** @type {HTMLInputElement} */ (document.getElementById('field-choice.reference'))
  const parts = ['.margins tbody', '.picture desc', '[aria-label^="Error budget of the"] caption'].map((selector) => {
    const part = document.querySelector(selector)
    if (part === null) throw new Error(`the page has no ${selector}`)
    return part
  })
  const isBusy = () => document.querySelector('.results[aria-busy]') !== null
  /** When something is so, looked at whenever the DOM changes. @param {() => boolean} isSo */
  const when = (isSo) =>
    new Promise((/** @type {(at: number) => void} */ resolve, reject) => {
      const late = setTimeout(() => reject(new Error('no answer within 20 s')), 20_000)
      const observer = new MutationObserver(() => {
        if (!isSo()) return
        clearTimeout(late)
        observer.disconnect()
        resolve(performance.now())
      })
      observer.observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true })
    })
  const rest = (/** @type {number} */ ms) => new Promise((resolve) => setTimeout(resolve, ms))
  /** @type {{ answer: number, simulation: number }[]} */
  const times = []
  for (let round = 0; round < warm + rounds; round++) {
    const before = parts.map((part) => part.textContent)
    // Far apart, so that no rounded number stays as it was; never the same, so that no answer is known.
    input.value = `${(round % 2 ? 30 : 60) + round / 10} ohm ±0.1 %`
    const answered = when(() => parts.every((part, i) => part.textContent !== before[i]))
    const start = performance.now()
    input.dispatchEvent(new Event('input', { bubbles: true }))
    const answer = await answered
    const simulation = isBusy() ? await when(() => !isBusy()) : answer
    if (round >= warm) times.push({ answer: answer - start, simulation: simulation - answer })
    await rest(50)
  }
  return times
}

/** @type {Promise<{ answer: number, simulation: number }[]> | undefined} */
let typed
const once = () => (typed ??= measure())

async function measure() {
  if (!existsSync(`${folder}/divider/index.html`)) throw new Error('the site is not built: run "pnpm site" first')
  const { module } = await runnerImport(`${root}test/tools/browser.ts`)
  const { url, close } = await serveFolder({ folder, base: baseOf(folder), strict: true })
  try {
    const browser = await module.launch()
    try {
      const page = await browser.newPage()
      await page.goto(`${url}divider/`, { waitUntil: 'networkidle' })
      // The script has taken over when the fields can be written in.
      await page.waitForSelector('[id="field-choice.reference"]:not([readonly])')
      await page.focus('[id="field-choice.reference"]')
      return await page.evaluate(typing, { rounds: keystrokes, warm: 4 })
    } finally {
      await browser.close()
    }
  } finally {
    await close()
  }
}

/** Milliseconds by the clock, as the page's, that a check alone takes here, without and with its simulation. */
function alone() {
  return ['check of a divider', 'simulated check of a divider'].map((name) => {
    const call = workloads.find(([one]) => one === name)?.[2]({ adc, divider: packages })
    const times = Array.from({ length: 40 }, () => {
      const start = performance.now()
      call()
      return performance.now() - start
    })
    return median(times.slice(-keystrokes))
  })
}

/** @param {string} name @param {string} measures @param {number} atMost @param {'answer' | 'simulation'} which */
const waiting = (name, measures, atMost, which) => ({
  name: `page, ${name}`,
  measures: `${measures}; the divider's built page in Chromium, median of ${keystrokes} keystrokes, wall clock`,
  limit: { atMost },
  unit: '×',
  run: async () => {
    const times = (await once()).map((it) => it[which])
    const [check, simulated] = alone()
    const [least, most] = [Math.min(...times), Math.max(...times)].map((ms) => ms.toFixed(1))
    const detail = `${median(times).toFixed(1)} ms (${least} to ${most}), alone ${check.toFixed(1)} and ${simulated.toFixed(1)} ms`
    return { value: median(times) / (which === 'answer' ? check : simulated), detail }
  },
})

export const entries = [
  waiting(
    'keystroke to margins',
    'input event to margins, linear budget and extremes in the DOM, over a check in Node.js',
    4,
    'answer',
  ),
  waiting(
    'simulation',
    'from there to the simulated interval in the DOM, with the rest of 60 ms, over a simulated check in Node.js',
    8,
    'simulation',
  ),
]
