import { checkMosfet } from '@ohmward/mosfet'
import { expect, it } from 'vitest'
import { hottest, lowestCarries, on } from './mosfet/circuit.js'
import { drawSwitch, type SwitchDesign, type Value } from './mosfet/design.js'
import { type Board, largest } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { compareWithKept } from './tools/kept.js'
import { Random } from './tools/random.js'
import { marginOf, Tally } from './tools/tally.js'

/** Least slack of each row over the boards of the model. */
function truths({ box, plain }: SwitchDesign, random: Random): Map<string, number> {
  const found = new Map<string, number>()
  const row = (id: string, slack: (b: Board<Value>) => number) =>
    found.set(id, -largest(box, (b) => -slack(b), random, { starts: 2, inside: 2 }).value)
  row('gate-drive', (b) => on(b, plain, 25).gate - plain.lines[0]!.gate)
  row('gate-maximum', (b) => plain.gateMaximum - b.open)
  row('drain-current', (b) => plain.currentMaximum - on(b, plain, 25).current * lowestCarries(plain))
  if (plain.drive === 'pin') row('pin-current', (b) => plain.pinMaximum - b.open / (b.driveResistance + b.gateResistor))
  else row('pull-power', (b) => plain.pullRated - ((b.open - b.saturation) ** 2 / b.pull) * b.duty)
  return found
}

// One test: what a mutant changes is seen where it is asked, and the designs are tried once.
it('a switch against its own loop, gate and heat', { timeout: 7_200_000 }, () => {
  const draws = new Random(seed + 2)
  const tally = new Tally('mosfet')
  const wrong: string[] = []
  const pulsed: string[] = []
  let holds = 0
  for (let i = 0; i < count; i++) {
    // What is looked for in one design leaves the others as they are.
    const random = new Random(seed + 1000 + i)
    const design = drawSwitch(draws)
    const { choice, conditions, box, plain } = design
    const a = checkMosfet(choice, conditions, { simulation: false })
    const name = `design ${i}`
    for (const [id, slack] of truths(design, random)) {
      const margin = marginOf(a, id)
      if (margin === undefined) wrong.push(`${name}: no row ${id}`)
      else tally.margin(margin, slack, name)
      if (margin?.verdict === 'holds' && slack < -1e-6 * Math.abs(margin.limit)) wrong.push(`${name}: ${id} breaks`)
    }
    const junction = marginOf(a, 'junction')!
    const heat = (b: Board<Value>) => hottest(b, plain) ?? 2000
    const truth = largest(box, heat, random, { starts: 1, inside: 1 }).value
    const text = `${name}: ${truth.toFixed(0)} °C of ${plain.limitCelsius} found, ${junction.verdict} with ${junction.slack.toFixed(1)} K claimed, ${plain.frequency} Hz, duty to ${box.duty[2]}`
    if (junction.verdict === 'holds' && truth > plain.limitCelsius) {
      if (plain.frequency > 0 && plain.ladder) pulsed.push(text)
      else wrong.push(text)
    }
    // Beyond its limit a junction may run away, and how far says nothing.
    const slack = plain.limitCelsius - truth
    if (slack > 0) tally.slack('junction', junction.slack, slack, plain.limitCelsius, name)
    if (a.verdict === 'holds') holds++
  }

  expect(wrong, 'no row that holds breaks on a board').toEqual([])
  expect(holds).toBeGreaterThan(count / 20)
  expect(pulsed, 'no junction that holds is hotter under pulses followed through a ladder').toEqual([])
  expect(tally.tooGood(1e-3), 'no worst case is better than the worst board').toEqual([])
  compareWithKept('mosfet', tally.results())
})
