import { checkDecoupling } from '@ohmward/decoupling'
import { expect, it } from 'vitest'
import { inrush, lowestRail, railOf, ripples, steadyRail } from './decoupling/circuit.js'
import { drawRail, type RailDesign, type Value } from './decoupling/design.js'
import { anyOf, type Board, largest } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { compareWithKept } from './tools/kept.js'
import { Random } from './tools/random.js'
import { marginOf, Tally } from './tools/tally.js'

/** Least slack of each row over the boards of the model. */
function truths({ box, plain, choice }: RailDesign, random: Random): Map<string, number> {
  const found = new Map<string, number>()
  const row = (id: string, slack: (b: Board<Value>) => number, starts = 1, within = box) =>
    found.set(id, -largest(within, (b) => -slack(b), random, { starts }).value)
  row('rail-brown-out', (b) => lowestRail(railOf(b, plain), plain) - plain.limit)
  if (plain.duration === Number.POSITIVE_INFINITY)
    row('steady-sag', (b) => steadyRail(railOf(b, plain), plain) - plain.limit, 2)
  const { pwm } = plain
  if (pwm) {
    plain.kinds.forEach((kind, k) => {
      // Each part of a kind spreads by itself.
      const [capacitanceOne, resistanceOne] =
        k === 0 ? [box.capacitanceA, box.resistanceA] : [box.capacitanceB, box.resistanceB]
      const slack = (b: Board<Value>) => kind.ripple - ripples(railOf(b, plain, k), pwm).at(-1)!
      row(`ripple-${k + 1}`, slack, 2, { ...box, capacitanceOne, resistanceOne })
    })
  }
  if (choice.insertion) row('contact-surge', (b) => plain.surge - inrush(railOf(b, plain)))
  return found
}

// One test: what a mutant changes is seen where it is asked, and the designs are tried once.
it('a rail against its own differential equations', { timeout: 7_200_000 }, () => {
  const draws = new Random(seed + 1)
  const tally = new Tally('decoupling')
  const wrong: string[] = []
  let holds = 0
  for (let i = 0; i < count; i++) {
    // What is looked for in one design leaves the others as they are.
    const random = new Random(seed + 1000 + i)
    const design = drawRail(draws)
    const { choice, conditions, box, plain } = design
    const a = checkDecoupling(choice, conditions, { simulation: false })
    const name = `design ${i}`
    for (const [id, slack] of truths(design, random)) {
      const margin = marginOf(a, id)
      if (margin === undefined) wrong.push(`${name}: no row ${id}`)
      else tally.margin(margin, slack, name)
      if (margin?.verdict === 'holds' && slack < -1e-4 * Math.abs(margin.limit)) wrong.push(`${name}: ${id} breaks`)
    }
    if (a.verdict !== 'holds') continue
    holds++
    for (let board = 0; board < 20; board++) {
      if (lowestRail(railOf(anyOf(box, random), plain), plain) < plain.limit) wrong.push(`${name}: a board resets`)
    }
  }

  expect(wrong, 'no row that holds breaks on a board').toEqual([])
  expect(holds).toBeGreaterThan(count / 20)
  expect(tally.tooGood(1e-3), 'no worst case is better than the worst board').toEqual([])
  compareWithKept('decoupling', tally.results())
})
