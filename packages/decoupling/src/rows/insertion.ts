import type { OwnRow } from '@ohmward/budget'
import { shortTripCurrent } from '../formulas/index.js'
import { followed, usualOf } from '../search/climb.js'
import { glanceAt } from '../search/glance.js'
import { marginInside } from '../search/inside.js'
import type { Plan } from '../search/plan.js'
import type { Value } from './row.js'

const text = { kind: 'own', sense: 'at most', catches: ['J11'] } as const

/** Inrush at insertion against contact and protection. */
export function insertionRows(plan: Plan): OwnRow[] {
  const { contactSurge, shortVoltage, shortDelay } = plan.read.insertion
  return [
    ...(contactSurge.upper > 0 ? [surgeRow(plan, contactSurge.lower)] : []),
    ...(shortVoltage.upper > 0 && shortDelay.upper > 0 ? [delayRow(plan, shortDelay.lower)] : []),
  ]
}

function surgeRow(plan: Plan, limit: number): OwnRow {
  const words = {
    ...text,
    id: 'contact-surge',
    name: 'inrush at insertion',
    unit: 'A',
  }
  const near: Value = ({ inrushNearly }) => inrushNearly
  const isBiased = plan.read.capacitors.some(({ bias }) => bias !== undefined)
  return {
    ...words,
    hold: (rule) => {
      const margin = marginInside(plan, { ...words, value: near, limit }, rule)
      return isBiased ? followed(plan, margin, near, ({ I_in }) => I_in) : margin
    },
    estimate: () => glanceAt(plan, 'at most', near, limit),
  }
}

function delayRow(plan: Plan, scale: number): OwnRow {
  const { shortVoltage } = plan.read.insertion
  const name = 'duration of the inrush'
  const words = { ...text, id: 'short-delay', name, unit: 's' }
  const level: Value = ({ board }) => shortTripCurrent({ V_short: shortVoltage.lower, R_prot: board.protection })
  const near: Value = (reading) => reading.timeAboveNearly(level(reading), scale)
  const exact: Value = (reading) => reading.timeAbove(level(reading), scale)
  return {
    ...words,
    hold: (rule) => {
      // What makes the formula of the first order right on a usual board, where it is about right.
      const usual = usualOf(plan)
      const { resistance } = usual.board.source
      const ratio = exact(usual) / usual.timeAboveWithout(level(usual), resistance)
      const fit = resistance * (ratio > 0.2 && ratio < 5 ? ratio : 1)
      const first: Value = (reading) => reading.timeAboveWithout(level(reading), fit)
      const margin = marginInside(plan, { ...words, value: first, limit: scale }, rule)
      const found = followed(plan, margin, near, exact)
      const [worst, nominal] = [Math.max(0, found.worst), Math.max(0, found.nominal)]
      return { ...found, worst, nominal, slack: scale - worst, nominalSlack: scale - nominal }
    },
    estimate: () => {
      const { nominal, worst } = glanceAt(plan, 'at most', near, scale)
      const most = Math.max(0, worst)
      return { nominal: Math.max(0, nominal), worst: most, limit: scale, slack: scale - most }
    },
  }
}
