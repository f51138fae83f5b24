import type { Margin } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { type Board, boardAt } from '../chain/board.js'
import type { ReadDecoupling } from '../choice/choice.js'
import type { InputSet } from '../choice/inputs.js'
import { limitWords, railLimits } from '../rail/limits.js'
import { lowestFromStart, railOf } from '../rail/rail.js'
import { restOf } from '../rail/steady.js'
import type { Plan } from '../search/plan.js'
import { capacitorRows, partRows } from './capacitor.js'
import { isolationRows } from './isolation.js'
import { loadRows, sourceRow, timeRows } from './load.js'
import { type Remedy, type Sized, shownOf } from './remedy.js'
import { type Change, type Solve, solved, solvedAnew } from './solve.js'
import { type Failing, failing, restSlack } from './trial.js'

/**
 * The remedies side by side. Each is sized by itself on the exact waveform, so that the worst board of every margin of the rail or
 * the load that fails just keeps it; those that can't do it are left out, or say why.
 */
export const remediesFor = (plan: Plan, margins: readonly Margin[]): Remedy[] =>
  sizedFor(plan, margins).map((one) => ({ ...one, shown: shownOf(one) }))

function sizedFor(plan: Plan, margins: readonly Margin[]): Sized[] {
  const { read, inputs } = plan
  const cases = failing(read, inputs, margins)
  const rows = [...wantedRow(margins), ...partRows(read, margins)]
  const [first] = cases
  if (first === undefined) return rows
  const solve = (change: Change, bad: number, good: number): number | null => solved(cases, change, bad, good)
  const anew: Solve = (change, bad, good) => solvedAnew(plan, cases, change, bad, good)
  const { board } = first.trial
  if (first.kind === 'rail' && restSlack(first.trial) <= 0) {
    return [stopRow(read, inputs, solve, board, true), ...lowerRows(cases), boost, ...rows]
  }
  const onLoad = [
    ...loadRows(read, board, solve),
    ...timeRows(read, anew),
    ...sourceRow(board, solve),
    ...[stopRow(read, inputs, solve, board, false)].filter(({ value }) => value !== null),
  ]
  // Where the load's power, its protection or its port fails too, nothing on the rail mends it.
  if (cases.some(({ kind }) => kind !== 'rail')) return [...onLoad, ...rows]
  return [
    ...onLoad,
    ...capacitorRows(read, board, anew),
    ...isolationRows(read, inputs, cases),
    ...lowerRows(cases),
    boost,
    ...rows,
  ]
}

/** The voltage at which to stop. */
function stopRow(read: ReadDecoupling, inputs: InputSet, solve: Solve, board: Board, isRest: boolean): Sized {
  const given = board.source.voltage
  const value = solve(
    (_, volts, at) => ({ read, board: boardAt(read, inputs, { ...at, V_oc: volts }) }),
    read.openCircuit.from,
    read.openCircuit.to,
  )
  const rests = isRest
    ? `The worst source rests at ${format(Math.max(0, restOf(board)), 'V')}, not above what the limits need. `
    : ''
  const text =
    value === null ? `${rests}Even a full source is not enough.` : `${rests}The charge below it is left in the cell.`
  return {
    id: 'stop-earlier',
    name: 'source voltage at rest to stop at',
    value,
    unit: 'V',
    sense: 'at least',
    present: given,
    text,
  }
}

/** Where the limits would have to be. */
function lowerRows(cases: readonly Failing[]): Sized[] {
  const rail = cases.filter(({ kind }) => kind === 'rail')
  const { read } = rail[0]!.trial
  const found = rail.map(({ trial: { board } }) => {
    const answer = railOf(read, board)
    return { rail: lowestFromStart(board, answer), 'logic rail': answer.logic }
  })
  return (['rail', 'logic rail'] as const).flatMap((place) => {
    const end = Math.min(...found.map((one) => one[place]))
    const broken = railLimits(read).filter((one) => one.place === place && one.volts > end)
    if (broken.length === 0) return []
    const text =
      end > 0
        ? 'A lower brown-out level or a part for a lower supply; the clock must allow it.'
        : 'No limit helps: the rail collapses.'
    const name = `${broken.map((one) => limitWords[one.name]).join(' and ')}, largest`
    const id = place === 'rail' ? 'lower-limit' : 'lower-logic-limit'
    return [
      { id, name, value: end > 0 ? end : null, unit: 'V', sense: 'at most' as const, present: broken[0]!.volts, text },
    ]
  })
}

const boost: Sized = {
  id: 'boost',
  name: 'boost converter for the logic',
  value: null,
  unit: '1',
  sense: 'at least',
  present: null,
  text: 'Holds the logic through any sag that it starts from; noise, parts, and current drawn at rest.',
}

/** A resistor that gets too little with the load fully on. */
function wantedRow(margins: readonly Margin[]): Sized[] {
  const wanted = margins.find(({ id, verdict }) => id === 'power-reaches' && verdict === 'fails')
  if (!wanted) return []
  const { limit: value, worst: present } = wanted
  const text = 'Longer heating; a smaller load resistance only helps while it is above that of the source.'
  return [{ id: 'less-wanted', name: 'wanted power', value, unit: 'W', sense: 'at most', present, text }]
}
