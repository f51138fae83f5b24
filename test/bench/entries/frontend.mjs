import { fileURLToPath } from 'node:url'
import { interleaved } from '../measure.mjs'

const from = (name) => import(fileURLToPath(new URL(`../../../packages/${name}/dist/index.js`, import.meta.url)))
const [frontend, divider, hall, mosfet, decoupling] = await Promise.all(
  ['frontend', 'divider', 'hall', 'mosfet', 'decoupling'].map(from),
)

const { exampleDesign, checkDesign, previewDesign, readDesign, simulateBoards, walkOf } = frontend

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

let made = 0
/** The design, by a hair another one at each call: nothing that is kept of an earlier one helps. */
function another() {
  made += 1
  return { ...exampleDesign, ambientCelsius: { from: 1e-9 * made, to: 50 - 1e-9 * made } }
}

const [boards, places, trials] = [10_000, 12, 8192]

/**
 * The chains as they are followed for a board: three by their columns; that of the rail is its waveform, which its own simulation
 * follows: what more trials cost there, seven times as many as the fewest, so that what else a check does doesn't drown it.
 */
function chains() {
  const walk = walkOf(readDesign(exampleDesign), { charges: 2 })
  const at = (x) => ({ from: x, to: x })
  const held = walk.over({ charge: at(0.1), celsius: at(0), age: at(1) })
  const calls = ['divider', 'hall', 'mosfet'].map((block) => {
    const stage = walk.stages.find((one) => one.block === block)
    const { row } = held.ready(stage).find(({ row }) => row.reading !== undefined)
    const columns = Object.entries({ ...row.reading.inputs, ...row.at }).map(([symbol, input]) => {
      const [from, to] = typeof input === 'number' ? [input, input] : [input.lower, input.upper]
      return [symbol, Float64Array.from({ length: boards }, (_, i) => from + ((to - from) * i) / boards)]
    })
    const all = Object.fromEntries(columns)
    return () => {
      for (let i = 0; i < boards; i++) row.reading.follow(row.reading.row(all, i))
    }
  })
  const { choice, conditions } = frontend.decouplingAt(walk.design, held.solved)
  const rail = (trials) => () => decoupling.checkDecoupling(choice, conditions, { simulation: { trials } })
  const follows = () => {
    for (const call of calls) call()
  }
  return { follows, few: rail(trials), many: rail(8 * trials) }
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
    run: () => over(() => checkDesign(another(), { charges: 40 })),
  },
  {
    name: 'glance at the walk',
    measures: 'every row at the twelve charges of the map with its estimate, over the four blocks checked once',
    limit: { atMost: 2 },
    unit: '×',
    run: () => over(() => previewDesign(another())),
  },
  {
    name: 'glance at 40 charges',
    measures:
      'the same at 40 charges, 3 temperatures and 3 states, looked at where a row bends, over the four blocks checked once',
    limit: { atMost: 2 },
    unit: '×',
    run: () => over(() => previewDesign(another(), { charges: 40 })),
  },
  {
    name: 'ten thousand boards',
    measures: '10⁴ boards at twelve places, one pass a board, over the chains of the four blocks evaluated as often',
    limit: { atMost: 3 },
    unit: '×',
    run: () => {
      const { follows, few, many } = chains()
      const [ours, three, less, more] = interleaved([() => simulateBoards(another()), follows, few, many], {
        rounds: 3,
        warm: 1,
      })
      const rail = ((more - less) * boards) / (7 * trials)
      const theirs = places * (three + rail)
      const detail = `${ours.toFixed(0)} ms; ${places} times ${three.toFixed(0)} ms of reading and switching, ${rail.toFixed(0)} ms of the rail`
      return { value: ours / theirs, detail }
    },
  },
]
