import { checkDesign, type DesignAssessment, hallAt, type RowOver, readDesign, walkOf } from '@ohmward/frontend'
import { InputError, readSpread } from '@ohmward/quantity'
import { expect, it } from 'vitest'
import { type Assumed, type Held, WholeBoard } from './frontend/held.js'
import { drawWhole, type Whole } from './frontend/whole.js'
import { type Box, fixed, largest } from './tools/board.js'
import { count, seed } from './tools/designs.js'
import { Random } from './tools/random.js'
import { Tally } from './tools/tally.js'

/** Charges of a walk: few, since each row is held over all between two of them as well. */
const charges = 8

/** A whole design takes as long as fifteen of one block. */
const many = Math.max(2, Math.round(count / 15))

/** The answer; nothing where the supply leaves a block nothing at all. */
function answer({ given }: Whole): DesignAssessment | undefined {
  try {
    return checkDesign(given, { charges })
  } catch (error) {
    if (error instanceof InputError) return undefined
    throw error
  }
}

/** The constants in the firmware, as the answer has them. */
function assumedOf({ given }: Whole): Assumed {
  const design = readDesign(given)
  const walk = walkOf(design, { charges })
  const { firmware, around, charges: all } = walk
  const solved = walk.solve({ charge: { from: all[0]!, to: all.at(-1)! }, ...around })
  const { sensorSupply } = hallAt(design, solved, firmware).choice
  if (sensorSupply === undefined || sensorSupply === 'rail') return { ...firmware, sensor: 0 }
  return { ...firmware, sensor: readSpread(sensorSupply, { field: 'sensorSupply', unit: 'V' }).nominal }
}

/**
 * Least slack of a row over the boards, from full to a charge. What a regulator holds doesn't move with the charge: it is
 * looked for from the weakest supply and the strongest, at either end of the charge, and from anywhere.
 */
function least({ box, slack, starts }: Held, from: number, random: Random): number {
  const among = (more: Partial<Box<string>>) => largest({ ...box, ...more }, (b) => -slack(b), random, { starts }).value
  const { celsius, life } = box
  const weakest = { celsius: fixed(celsius[0]), life: fixed(life[2]) }
  const strongest = { celsius: fixed(celsius[2]), life: fixed(life[0]) }
  const places = [weakest, strongest].flatMap((state) =>
    [1, from].map((charge) => ({ ...state, charge: fixed(charge) })),
  )
  return -Math.max(...places.map(among), among({ charge: [from, 1, 1] }))
}

const nameOf = (i: number, { plain: { source, rails, calibration, lives } }: Whole) => {
  const apart = Object.entries(lives).flatMap(([part, rail]) => (rail > 0 ? [`${part} on ${rail}`] : []))
  const of = source.kind === 'cell' ? `${source.inSeries} in series` : 'port'
  return `design ${i}: ${of}, ${rails[1].kind} and ${rails[2].kind} before ${apart.join(', ') || 'nothing'}, zero ${calibration}`
}

// One test: what a mutant changes is seen where it is asked, and the designs are tried once.
it('a whole design against boards of its own', { timeout: 7_200_000 }, () => {
  const draws = new Random(seed + 5)
  const tally = new Tally('frontend')
  const wrong: string[] = []
  /** Rows that fail though no board of the model does, where all parts live on one rail: there nothing moves apart. */
  const missed: string[] = []
  let failing = 0
  let answered = 0
  for (let i = 0; i < many; i++) {
    // What is looked for in one design leaves the others as they are.
    const random = new Random(seed + 1000 + i)
    const whole = drawWhole(draws)
    const a = answer(whole)
    if (a === undefined) continue
    answered++
    const name = nameOf(i, whole)
    const { lives } = whole.plain
    const isOne = new Set(Object.values(lives)).size === 1
    const rows = new Map<string, RowOver>(a.rows.map((row) => [row.id, row]))
    for (const held of new WholeBoard(whole, assumedOf(whole)).rows()) {
      const row = rows.get(held.id)
      if (row === undefined) {
        wrong.push(`${name}: no row ${held.id}`)
        continue
      }
      const { margin, heldDownTo, place } = row
      if (heldDownTo !== null) {
        const slack = least(held, heldDownTo, random)
        if (margin.verdict === 'holds') tally.margin({ ...margin, id: held.id }, slack, name)
        if (slack < -1e-3 * Math.abs(margin.limit))
          wrong.push(`${name}: ${held.id} breaks at a charge of ${heldDownTo} or more, by ${-slack} ${margin.unit}`)
      }
      if (margin.verdict !== 'fails' || !isOne) continue
      failing++
      const from = Math.max(whole.box.charge[0], (place?.charge ?? 0) - 0.02)
      const slack = least(held, from, random)
      if (slack > 1e-2 * Math.abs(margin.limit))
        missed.push(`${name}: ${held.id} fails by ${-margin.slack}, and ${slack} is left on every board`)
    }
  }

  expect(wrong, 'no row that holds breaks on a board').toEqual([])
  expect(answered).toBeGreaterThan(many / 2)
  expect(tally.tooGood(0.005), 'no worst case is better than the worst board').toEqual([])
  expect(missed.length, `what fails, fails on a board:\n${missed.join('\n')}`).toBeLessThanOrEqual(
    Math.max(1, failing / 10),
  )
})
