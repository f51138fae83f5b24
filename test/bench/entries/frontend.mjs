import { fileURLToPath } from 'node:url'
import { interleaved } from '../measure.mjs'

const from = (name) => import(fileURLToPath(new URL(`../../../packages/${name}/dist/index.js`, import.meta.url)))
const [frontend, divider, hall, mosfet, decoupling] = await Promise.all(
  ['frontend', 'divider', 'hall', 'mosfet', 'decoupling'].map(from),
)

const { exampleDesign, checkDesign, readDesign, simulateBoards, walkOf } = frontend

/** The four blocks, each checked once by itself over the whole discharge. */
function singles() {
  const design = readDesign(exampleDesign)
  const walk = walkOf(design, { charges: 2 })
  const all = walk.solve({ charge: { from: 1, to: walk.charges.at(-1) }, ...walk.around })
  const own = [
    [divider.checkDivider, frontend.dividerAt(design, all, walk.firmware)],
    [hall.checkHall, frontend.hallAt(design, all, walk.firmware)],
    [mosfet.checkMosfet, frontend.mosfetAt(design, all)],
    [decoupling.checkDecoupling, frontend.decouplingAt(design, all)],
  ]
  return () => {
    for (const [check, { choice, conditions }] of own) check(choice, conditions)
  }
}

const over = (call, rounds = 5) => {
  const [ours, theirs] = interleaved([call, singles()], { rounds, warm: 1 })
  return { value: ours / theirs, detail: `${ours.toFixed(0)} ms, single checks ${theirs.toFixed(0)} ms` }
}

export const entries = [
  {
    name: 'whole walk',
    measures:
      'a design over 40 charges, 3 temperatures and 3 states with worst cases, over the four blocks checked once',
    limit: { atMost: 6 },
    unit: '×',
    run: () => over(() => checkDesign(exampleDesign, { charges: 40 })),
  },
  {
    name: 'ten thousand boards',
    measures:
      '10⁴ boards at twelve places, what is in doubt there evaluated on each, over the four blocks checked once',
    limit: { atMost: 12 },
    unit: '×',
    run: () => over(() => simulateBoards(exampleDesign), 3),
  },
]
