import { checkDivider } from '@ohmward/divider'
import { InputError } from '@ohmward/quantity'
import { expect, it } from 'vitest'
import { DividerCircuit } from './divider/circuit.js'
import { type DividerDesign, drawDivider } from './divider/design.js'
import { chainOf, missing, truths } from './divider/rows.js'
import { anyOf } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { compareWithKept } from './tools/kept.js'
import { Random } from './tools/random.js'
import { marginOf, Tally } from './tools/tally.js'

/** Boards at random read with whole codes: loads at which one is wrong by more than allowed. */
function broken(design: DividerDesign, random: Random): number {
  const { plain, box } = design
  const circuit = new DividerCircuit(design)
  const round = (code: number) => {
    let sum = 0
    const curve = plain.nonlinearity * (2 * random.next() - 1)
    for (let i = 0; i < plain.samples; i++) {
      const noise = plain.noise * Math.max(-3, Math.min(3, random.normal()))
      sum += Math.floor(code + curve + noise + 0.5 - plain.half) + plain.half
    }
    return sum / plain.samples
  }
  let count = 0
  for (let board = 0; board < 40; board++) {
    const b = anyOf(box, random)
    const load = [plain.smallest, plain.middle, plain.highest][board % 3]!
    if (Math.abs(circuit.reading(b, load, round) - load) > plain.share * load * (1 + 1e-9)) count++
  }
  return count
}

/** The check's answer; nothing where a calibration whose two readings clip is refused. */
function answer({ choice, conditions }: DividerDesign) {
  try {
    return checkDivider(choice, conditions, { simulation: false })
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}

// One test: what a mutant changes is seen where it is asked, and the designs are tried once.
it('a low-ohm measurement against its node equations', { timeout: 7_200_000 }, () => {
  const draws = new Random(seed)
  const tally = new Tally('divider')
  const wrong: string[] = []
  let holds = 0
  for (let i = 0; i < count; i++) {
    // What is looked for in one design leaves the others as they are.
    const random = new Random(seed + 1000 + i)
    const design = drawDivider(draws)
    const a = answer(design)
    if (a === undefined) continue
    const name = `design ${i}`
    for (const [id, slack] of truths(design, random)) {
      const margin = marginOf(a, id)
      // A calibration whose two readings clip corrects by nothing: no number says how wrong that is.
      if (!(Math.abs(slack) < 1e6)) continue
      if (margin === undefined) wrong.push(`${name}: no row ${id}`)
      else tally.margin(margin, slack, name)
      if (margin?.verdict === 'holds' && slack < -1e-6 * Math.abs(margin.limit)) wrong.push(`${name}: ${id} breaks`)
    }
    const settled = marginOf(a, 'settling')!
    const left = missing(design)
    if (settled.verdict === 'holds' && left > 0.5) wrong.push(`${name}: ${left.toPrecision(3)} counts unsettled`)
    for (const [symbol, x] of Object.entries(chainOf(design)))
      tally.same(`chain: ${symbol}`, a.values[symbol]!, x, name)
    if (a.verdict !== 'holds') continue
    holds++
    if (broken(design, random) > 0) wrong.push(`${name}: a board reads wrong`)
  }

  expect(wrong, 'no row that holds breaks on a board').toEqual([])
  expect(holds).toBeGreaterThan(count / 20)
  expect(tally.tooGood(1e-3), 'no worst case is better than the worst board').toEqual([])
  compareWithKept('divider', tally.results())
})
