import type { Board, Box } from '../tools/board.js'
import { Network } from '../tools/network.js'
import type { Random } from '../tools/random.js'
import { curves, type Points, type Value, type WholeDesign } from './design.js'

/** Where a board is looked at. */
interface Place {
  readonly charge: number
  readonly celsius: number
  /** New or at the end of its life. */
  readonly isOld: boolean
}

/** Nodes: cell, board, sense point, input and output of the amplifier. */
const [cellNode, board, sense, minus, output] = [1, 2, 3, 4, 5]
const measuring = /*#__PURE__*/ new Network(5, 2)
const heating = /*#__PURE__*/ new Network(2, 1)

/** A line through points, at a place. */
export function along(points: Points, x: number): number {
  const i = points.findIndex(([at], k) => k > 0 && at >= x)
  const [[x0, y0], [x1, y1]] = [points[i - 1]!, points[i]!]
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
}

/** Share of boards, every part anywhere in its limits, on which nothing gives way at any of the places. */
export function shareOf(design: WholeDesign, random: Random, boards: number): number {
  const { charge, celsius } = design.plain
  const charges = [0, 0.2, 0.4, 0.6, 0.8, 1].map((down) => 1 - down * (1 - charge))
  const places = charges.flatMap((charge): Place[] => [
    { charge, celsius: celsius[0], isOld: true },
    { charge, celsius: celsius[1], isOld: false },
  ])
  let works = 0
  for (let n = 0; n < boards; n++) {
    const b = anywhere(design.box, random)
    if (places.every((place) => worksAt(design, b, place))) works++
  }
  return works / boards
}

function anywhere(box: Box<Value>, random: Random): Board<Value> {
  const b = {} as Board<Value>
  for (const name in box) {
    const [lower, , upper] = box[name as Value]
    b[name as Value] = lower + (upper - lower) * random.next()
  }
  return b
}

/** Whether a board keeps its supply, its amplifier its room and its sensor its error: each state by its node equations. */
function worksAt({ plain }: WholeDesign, b: Board<Value>, { charge, celsius, isOld }: Place): boolean {
  const V = along(curves.open, charge) + b.cellOff
  const aged = isOld ? b.aging : 1
  const cell = b.cell * along(curves.cold, celsius) * along(curves.empty, charge) * aged
  const contactsAt = (hot: number) => b.contacts * (1 + plain.growth * (hot - 20))

  const read = (R_x: number, R: number) => {
    measuring.clear()
    measuring.voltage(cellNode!, 0, V)
    measuring.resistor(cellNode!, board!, R)
    measuring.current(board!, 0, b.idle)
    measuring.resistor(board!, sense!, b.excitationSwitch + b.reference + b.lead)
    measuring.resistor(sense!, 0, R_x)
    measuring.resistor(output!, minus!, b.feedback)
    measuring.resistor(minus!, 0, b.ground)
    measuring.current(0, minus!, b.bias)
    measuring.amplifier(output!, sense!, minus!, 0, 0, b.offset)
    return measuring.solve()
  }
  // An open load stands at the amplifier's end: what may still be a load must read below it.
  const open = read(plain.open, cell + contactsAt(celsius))
  if (open[output!]! > open[board!]! - plain.room) return false

  // At the first step the contacts are as cold as the air; later as hot as their own loss makes them.
  const cold = loaded(celsius)
  let hot = cold
  for (let turn = 0; turn < 5 && plain.thermal > 0; turn++) hot = loaded(celsius + plain.thermal * hot.watts)
  return [cold, hot].every(({ rail }) => reads(rail))

  /** The rail with the load on, and the loss in the contacts, at their temperature. */
  function loaded(contacts: number) {
    // The gate is at the rail while it is on: which line of the sheet holds is known from there.
    let rail = V
    for (let turn = 0; turn < 3; turn++) {
      const [typical, most] = plain.lines[rail > 2.5 ? 1 : 0]!
      heating.clear()
      heating.voltage(cellNode!, 0, V)
      heating.resistor(cellNode!, board!, cell + contactsAt(contacts))
      heating.current(board!, 0, b.idle)
      heating.resistor(board!, 0, b.connector + b.load + b.conductor + typical + (2 * b.lot - 1) * (most - typical))
      rail = heating.solve()[board!]!
    }
    const amperes = (V - rail) / (cell + contactsAt(contacts))
    return { rail, watts: amperes ** 2 * contactsAt(contacts) }
  }

  /** Whether controller and sensor live on a rail, and the current is read well enough. */
  function reads(rail: number): boolean {
    if (rail < b.brownOut || rail < plain.sensorLowest) return false

    // A ratiometric sensor of 0.33 V and 0.2 V/A at 3.3 V, 2.7 to 5.5 V: what it says is a share of the rail, and so is the code.
    const away = (rail - 3.3) / (rail < 3.3 ? 3.3 - 2.7 : 5.5 - 3.3)
    const zero = 0.33 * (1 + b.zeroSupply * away) + b.zeroError
    const slope = 0.2 * (1 + b.sensitivityError + b.sensitivitySupply * away)
    const said = zero + slope * plain.amperes + 0.2 * b.nonlinearity * 12.5
    const code = (said / 3.3) * 4096 * (1 + b.converterGain) + b.converterOffset
    const shown = ((code / 4096) * 3.3 - 0.33) / 0.2
    return Math.abs(shown - plain.amperes) <= plain.allowed
  }
}
