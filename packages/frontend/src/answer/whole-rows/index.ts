import { holdRow } from '@ohmward/budget'
import { chargeRow, protectionRow } from '../../rows/supply-rows.js'
import type { Walk } from '../../walk/walk.js'
import type { RowOver, WholeBlock } from '../assessment.js'
import type { Standby } from '../standby.js'
import type { WholeAnswers } from '../whole.js'
import { monitorRows } from './monitor.js'
import { powerRows } from './power.js'
import { toldRows, wholeRow } from './told.js'

type Answers = Omit<WholeAnswers, 'surelyUsed'>

/** The parts of the whole, in the order of their rows. */
export const wholeParts = ['supply', 'power', 'monitor', 'standby'] as const satisfies readonly (
  | 'supply'
  | WholeBlock
)[]

/** The rows of a part of the design as a whole, at no single place: only what it is of is asked for. */
export function wholeRowsOf(part: (typeof wholeParts)[number], walk: Walk, answers: Answers): RowOver[] {
  switch (part) {
    case 'supply':
      return cellRows(walk)
    case 'power':
      return powerRows(walk, answers.power)
    case 'monitor':
      return answers.monitor === null ? [] : monitorRows(walk, answers.monitor)
    case 'standby':
      return answers.standby === null ? [] : standbyRows(answers.standby)
  }
}

/** All of them: power, bursts, monitor, drawer. */
export const wholeRows = (walk: Walk, answers: Answers): RowOver[] =>
  wholeParts.flatMap((part) => wholeRowsOf(part, walk, answers))

function cellRows({ design }: Walk): RowOver[] {
  const rows = [
    ...chargeRow(design).map((ready) => ({ ...ready, where: 'full to the cut-off' })),
    ...protectionRow(design).map((ready) => ({ ...ready, where: 'where nothing else stops the cells' })),
  ]
  return rows.map(({ id, row, where }) => ({ ...wholeRow('supply', id, holdRow(row).margin, where), id }))
}

const standbyRows = ({ daysToCutOff, daysToDamage, wantedDays, wantedAfter }: Standby): RowOver[] =>
  toldRows('standby', [
    {
      ...{
        id: 'days',
        name: 'days in the drawer to the cut-off',
        unit: '1',
        sense: 'at least',
        where: 'in the drawer',
      },
      ...{ catches: ['K07', 'K08'], worst: daysToCutOff.lower, limit: wantedDays, nominal: daysToCutOff.nominal },
    },
    {
      ...{
        id: 'reserve',
        name: 'days from the cut-off to damage',
        unit: '1',
        sense: 'at least',
        where: 'in the drawer',
      },
      ...{ catches: ['K09'], worst: daysToDamage.lower, limit: wantedAfter, nominal: daysToDamage.nominal },
    },
  ])
