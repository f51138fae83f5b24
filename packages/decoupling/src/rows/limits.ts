import type { BlockRow, OwnRow, RowText } from '@ohmward/budget'
import type { ReadDecoupling } from '../choice/choice.js'
import { limitId, limitWords, type RailLimit, railLimits, steadyDrop, steadyLimits } from '../rail/limits.js'
import { steadyRail } from '../rail/steady.js'
import { glanceAt } from '../search/glance.js'
import { lowestRail, marginInside } from '../search/inside.js'
import type { Plan } from '../search/plan.js'
import { over, overAll, type Value } from './row.js'

/** The limits on the rail: at its lowest point, and where it ends. */
export function limitRows(plan: Plan): OwnRow[] {
  const { read } = plan
  const limits = railLimits(read)
  const at = (place: RailLimit['place'], value: Value): OwnRow[] =>
    overAll(
      limits.filter((one) => one.place === place).map((one) => ({ limit: one.volts, text: limitText(read, one) })),
      ({ text, limit }, rule) => marginInside(plan, { ...text, value, limit }, rule),
      ({ text, limit }) => glanceAt(plan, text.sense, value, limit),
    )
  return [...at('rail', lowestRail), ...at('logic rail', ({ V_logic }) => V_logic), ...steadyRows(plan)]
}

function limitText({ logicRail }: ReadDecoupling, one: RailLimit): RowText {
  const isolated = logicRail?.behind === 'diode' ? ['J05', 'J08'] : ['J07', 'J08']
  return {
    id: limitId(one),
    name: `lowest ${one.place} against the ${limitWords[one.name]}`,
    unit: 'V',
    sense: 'at least',
    causes: one.place === 'rail' ? ['steady-sag'] : ['steady-sag', 'steady-sag-logic'],
    catches: one.place === 'rail' ? ['J01', 'J02', 'J03', 'J08', 'K01'] : isolated,
  }
}

/** Where the rail ends, which no capacitor changes. */
function steadyRows(plan: Plan): OwnRow[] {
  const { read } = plan
  return steadyLimits(read).map((steady) => {
    const drop = steadyDrop(read, steady)
    const text: RowText = {
      id: steady.place === 'rail' ? 'steady-sag' : 'steady-sag-logic',
      name: `steady ${steady.place} against the ${limitWords[steady.name]}`,
      unit: 'V',
      sense: 'at least',
      catches: ['J04', 'K01', 'K13'],
    }
    return over(plan, text, ({ board }) => steadyRail(board) - drop(board), steady.volts)
  })
}

/** Whether the brown-out comes before the clock fails: two limits against each other. */
export function clockRows({ read }: Plan): BlockRow[] {
  const { brownOut, clock } = read.limits
  if (!(brownOut && clock && read.brownOutEnabled)) return []
  return [
    {
      kind: 'plain',
      id: 'brown-out-clock',
      name: 'lowest brown-out threshold, against the minimum supply for the clock',
      unit: 'V',
      sense: 'at least',
      worst: brownOut.lower,
      limit: clock.upper,
      nominal: brownOut.nominal,
      catches: ['J08'],
    },
  ]
}
