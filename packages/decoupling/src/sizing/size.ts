import { choose } from '@ohmward/budget'
import { demandFinite, InputError, missingFields } from '@ohmward/quantity'
import { checkDecoupling, decoupling } from '../block.js'
import { readDecoupling } from '../choice/read.js'
import type { Capacitor } from '../parts/index.js'
import { exampleStock } from '../parts/stock.js'
import { countForRow, isImpossible, lackAtAGlance, smallestCount } from './count.js'
import type {
  DecouplingRequirement,
  DecouplingSizing,
  ListedChoice,
  RejectedDecoupling,
  SizedDecoupling,
} from './sizing.js'

const own = ['conditions', 'stock', 'with', 'mostParts', 'most', 'cost', 'progress'] as const
const passed = [
  'source',
  'tap',
  'load',
  'limits',
  'idle',
  'brownOutEnabled',
  'logicRail',
  'onLogicRail',
  'insertion',
  'wantedLifeHours',
] as const
/** Full checks in one sizing, at most. */
const mostChecks = 60

/** A part in a number that keeps the rail, to be checked in full. */
interface Candidate {
  readonly part: Capacitor
  readonly count: number
  readonly choice: ListedChoice
}

/**
 * Finds kind, value and count of the capacitors.
 *
 * For each part of the stock the smallest count that keeps the rail on the worst board is sought; the cheapest of these is then checked
 * in full, and so on until enough hold. Where ripple, life, plug-in peak or rail fail, it goes on with more of that part, unless more
 * don't help. Every choice returned holds; every one rejected fails its check; the rest is counted.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeDecoupling(requirement: DecouplingRequirement): DecouplingSizing {
  const { conditions, stock, most, mostParts, progress, choiceOf } = readRequirement(requirement)
  const readWith = (part: Capacitor) => (count: number) => readDecoupling(choiceOf(part, count), conditions)
  if (isImpossible(readWith(stock[0]!)(1))) return impossibleWith(choiceOf(stock[0]!, 1), conditions)
  const rejected: RejectedDecoupling[] = []
  const open: Candidate[] = []
  for (const part of stock) {
    const { count, lack } = smallestCount(readWith(part), mostParts)
    const choice = choiceOf(part, count)
    if (lack === undefined) open.push({ part, count, choice })
    else rejected.push({ choice, ...lack })
  }
  const price = requirement.cost ?? usualCost(open)
  const cost = (choice: ListedChoice) => demandFinite('cost', price(choice))
  const choices: SizedDecoupling[] = []
  let [beaten, untried, checks] = [0, 0, mostChecks]
  while (open.length > 0) {
    progress(stock.length - open.length, stock.length)
    open.sort((a, b) => cost(b.choice) - cost(a.choice))
    const { part, count, choice } = open.pop()!
    const goOn = (row: string): boolean => {
      const more = countForRow(row, readWith(part), count, mostParts)
      if (more !== null) open.push({ part, count: more, choice: choiceOf(part, more) })
      return more !== null
    }
    const last = choices[most - 1]
    if (last && cost(choice) >= cost(last.choice)) {
      beaten++
      continue
    }
    const lack = lackAtAGlance(readWith(part)(count))
    if (lack !== undefined && goOn(lack)) continue
    const found = choose(decoupling, [choice], conditions, { most: 1, checks: Math.max(0, checks--) })
    untried += found.untried
    for (const one of found.choices) choices.push({ ...one, volume: volumeOf(one.choice.capacitors) })
    for (const { row, reason } of found.rejected) {
      if (!goOn(row)) rejected.push({ choice, margin: row, reason })
    }
  }
  progress(stock.length, stock.length)
  return { choices, rejected, beaten, untried, impossible: null }
}

/** No capacitor can hold the rail: what a check says of it. */
function impossibleWith(choice: ListedChoice, conditions: DecouplingRequirement['conditions']): DecouplingSizing {
  const { summary: text, steady } = checkDecoupling(choice, conditions, { simulation: false })
  const impossible = { text, voltage: steady.voltage, limit: steady.limit }
  return { choices: [], rejected: [], beaten: 0, untried: 0, impossible }
}

function readRequirement(requirement: DecouplingRequirement) {
  const given = missingFields(requirement, ['source', 'load', 'limits', 'conditions'], 'requirement', [
    ...passed,
    ...own,
  ]) as unknown as DecouplingRequirement
  const {
    conditions,
    stock = exampleStock(),
    with: beside = [],
    mostParts = 8,
    most = 3,
    cost: _,
    progress,
    ...base
  } = given
  whole(mostParts, 'mostParts', 100)
  whole(most, 'most', 20)
  if (!Array.isArray(stock) || stock.length < 1 || stock.length > 100) {
    throw new InputError({ field: 'stock', value: stock, allowed: 'a list of 1 to 100 parts' })
  }
  callable(given.cost, 'cost', 'a function of a choice')
  callable(progress, 'progress', 'a function of two counts')
  const choiceOf = (part: Capacitor, count: number): ListedChoice => ({
    ...base,
    capacitors: [{ ...part, count }, ...beside],
  })
  return {
    conditions,
    stock: stock as readonly Capacitor[],
    most,
    mostParts,
    progress: progress ?? (() => {}),
    choiceOf,
  }
}

/** The volume where every part says its own, else the number of parts. */
function usualCost(candidates: readonly Candidate[]): (choice: ListedChoice) => number {
  const isKnown = candidates.every(({ choice }) => volumeOf(choice.capacitors) !== null)
  return ({ capacitors }) =>
    isKnown ? (volumeOf(capacitors) ?? 0) : capacitors.reduce((sum, { count = 1 }) => sum + Number(count), 0)
}

function volumeOf(parts: readonly Capacitor[]): number | null {
  let total = 0
  for (const { volume, count = 1 } of parts) {
    if (typeof volume !== 'number' || volume === 0) return null
    total += volume * Number(count)
  }
  return total
}

function callable(value: unknown, field: string, allowed: string): void {
  if (value !== undefined && typeof value !== 'function') throw new InputError({ field, value, allowed })
}

function whole(value: unknown, field: string, largest: number): void {
  if (Number.isInteger(value) && (value as number) >= 1 && (value as number) <= largest) return
  throw new InputError({ field, value, allowed: `a whole number from 1 to ${largest}` })
}
