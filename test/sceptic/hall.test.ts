import { checkHall } from '@ohmward/hall'
import { expect, it } from 'vitest'
import { CurrentCircuit } from './hall/circuit.js'
import { type CurrentDesign, drawCurrent, type Value } from './hall/design.js'
import { anyOf, type Board, largest } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { compareWithKept } from './tools/kept.js'
import { Random } from './tools/random.js'
import { marginOf, Tally } from './tools/tally.js'

const now = (b: Board<Value>) => ({ rail: b.rail, warmth: b.warmth, isZero: false })

/** Real current at which a board's code reaches that of the trip: the code is a straight line in the current. */
function tripAt(circuit: CurrentCircuit, b: Board<Value>, code: number, half: number): number {
  // A single code is compared exactly: no rounding, only what moves its transition.
  const exact = { ...b, counts: b.counts - Math.sign(b.counts) * 0.5 }
  circuit.clips = false
  const [low, high] = [circuit.read(exact, 0, now(b)).code, circuit.read(exact, 1, now(b)).code]
  circuit.clips = true
  return (code - 0.5 + half - low) / (high - low)
}

/** Least slack of each row over the boards of the model. */
function truths(design: CurrentDesign, random: Random, tripCode: number | undefined): Map<string, number> {
  const { box, plain } = design
  const circuit = new CurrentCircuit(design)
  const found = new Map<string, number>()
  const row = (id: string, slack: (b: Board<Value>) => number, starts = 1) =>
    found.set(id, -largest(box, (b) => -slack(b), random, { starts }).value)
  const mean = (amperes: number) => (plain.averaged ? amperes * plain.duty.to : amperes)
  row('span-high', (b) => {
    const y = circuit.read(b, mean(plain.to), now(b))
    return y.supply - plain.highDrop - y.wanted
  })
  row(
    'span-low',
    (b) =>
      circuit.read(b, plain.averaged && plain.from < 0 ? mean(plain.from) : Math.min(plain.from, 0), now(b)).wanted -
      plain.lowOutput,
  )
  row('converter-high', (b) => {
    const y = circuit.read(b, mean(plain.to), now(b))
    return y.fullScale * (1 - 1 / 2 ** plain.bits) - y.pin
  })
  plain.errors.forEach(({ at, share }, i) => {
    const allowed = Number((share * at).toPrecision(3))
    const high = largest(box, (b) => circuit.reading(b, at) - at, random, { starts: 2 }).value
    const low = largest(box, (b) => at - circuit.reading(b, at), random, { starts: 2 }).value
    found.set(`error-${i + 1}`, allowed - Math.max(high, low))
  })
  if (plain.trip && tripCode !== undefined) {
    const { normal, withstand } = plain.trip
    row('trip-false', (b) => tripAt(circuit, b, tripCode, plain.half) - normal)
    row('trip-late', (b) => withstand - tripAt(circuit, b, tripCode, plain.half))
  }
  return found
}

// One test: what a mutant changes is seen where it is asked, and the designs are tried once.
it('a current sensor against its own chain', { timeout: 7_200_000 }, () => {
  const draws = new Random(seed + 3)
  const tally = new Tally('hall')
  const wrong: string[] = []
  let holds = 0
  for (let i = 0; i < count; i++) {
    // What is looked for in one design leaves the others as they are.
    const random = new Random(seed + 1000 + i)
    const design = drawCurrent(draws)
    const { choice, conditions, box, plain } = design
    const a = checkHall(choice, conditions, { simulation: false })
    const name = `design ${i}`
    const circuit = new CurrentCircuit(design)
    for (const [id, slack] of truths(design, random, a.trip?.code)) {
      const margin = marginOf(a, id)
      if (margin === undefined) wrong.push(`${name}: no row ${id}`)
      else tally.margin(margin, slack, name)
      if (margin?.verdict === 'holds' && slack < -1e-3 * Math.abs(margin.limit)) wrong.push(`${name}: ${id} breaks`)
    }
    if (a.verdict !== 'holds') continue
    holds++
    for (let board = 0; board < 30; board++) {
      const { at, share } = plain.errors[board % plain.errors.length]!
      const off = Math.abs(circuit.reading(anyOf(box, random), at) - at)
      if (off > share * at * 1.01) wrong.push(`${name}: a board reads wrong`)
    }
  }

  expect(wrong, 'no row that holds breaks on a board').toEqual([])
  expect(holds).toBeGreaterThan(count / 20)
  expect(tally.tooGood(3e-3), 'no worst case is better than the worst board').toEqual([])
  compareWithKept('hall', tally.results())
})
