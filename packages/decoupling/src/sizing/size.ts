import { choose } from '@ohmward/budget'
import { InputError, missingFields } from '@ohmward/quantity'
import { checkDecoupling, decoupling } from '../block.js'
import { readDecoupling } from '../choice/read.js'
import type { Capacitor } from '../parts/index.js'
import { exampleStock } from '../parts/stock.js'
import { countForRow, smallestCount } from './count.js'
import type {
  DecouplingRequirement,
  DecouplingSizing,
  ListedChoice,
  RejectedDecoupling,
  SizedDecoupling,
} from './sizing.js'

const own = ['conditions', 'stock', 'with', 'mostParts', 'most', 'cost'] as const
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
 * For each part of the stock the smallest count that keeps the rail on the worst board is sought; the cheapest of these are
 * then checked in full until enough hold. Where ripple, life, plug-in peak or rail fail there, it goes on with more of them, unless
 * more don't help. Every choice returned holds; every one rejected fails its check; the rest is counted.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeDecoupling(requirement: DecouplingRequirement): DecouplingSizing {
  const search = readRequirement(requirement)
  const { conditions, stock, most, mostParts, choiceOf } = search
  const first = checkDecoupling(choiceOf(stock[0]!, 1), conditions, { simulation: false })
  if (first.steady.isImpossible) {
    const { voltage, limit } = first.steady
    const impossible = { text: first.summary, voltage, limit }
    return { choices: [], rejected: [], beaten: 0, untried: 0, impossible }
  }
  const rejected: RejectedDecoupling[] = []
  let open: Candidate[] = []
  for (const part of stock) {
    const { count, lack } = smallestCount((n) => readDecoupling(choiceOf(part, n), conditions), mostParts)
    const choice = choiceOf(part, count)
    if (lack === undefined) open.push({ part, count, choice })
    else rejected.push({ choice, ...lack })
  }
  const cost = requirement.cost ?? usualCost(open)
  let choices: SizedDecoupling[] = []
  let [beaten, untried, checks] = [0, 0, mostChecks]
  while (open.length > 0) {
    const last = choices[most - 1]
    const able = open.filter(({ choice }) => last === undefined || cost(choice) < cost(last.choice))
    const round = able.map(({ choice }) => choice)
    const found = choose(decoupling, round, conditions, { most, cost, checks })
    const held = found.choices.map((one) => ({ ...one, volume: volumeOf(one.choice.capacitors) }))
    const all = [...choices, ...held].sort((a, b) => cost(a.choice) - cost(b.choice))
    choices = all.slice(0, most)
    beaten += found.beaten + open.length - able.length + all.length - choices.length
    untried += found.untried
    checks = Math.max(0, checks - found.choices.length - found.rejected.length)
    open = found.rejected.flatMap(({ choice, row, reason }) => {
      const { part, count } = able.find((one) => one.choice === choice)!
      const more = countForRow(row, (n) => readDecoupling(choiceOf(part, n), conditions), count, mostParts)
      if (more !== null) return [{ part, count: more, choice: choiceOf(part, more) }]
      rejected.push({ choice, margin: row, reason })
      return []
    })
  }
  return { choices, rejected, beaten, untried, impossible: null }
}

function readRequirement(requirement: DecouplingRequirement) {
  const given = missingFields(requirement, ['source', 'load', 'limits', 'conditions'], 'requirement', [
    ...passed,
    ...own,
  ]) as unknown as DecouplingRequirement
  const { conditions, stock = exampleStock(), with: beside = [], mostParts = 8, most = 3, cost: _, ...base } = given
  whole(mostParts, 'mostParts', 100)
  whole(most, 'most', 20)
  if (!Array.isArray(stock) || stock.length < 1 || stock.length > 100) {
    throw new InputError({ field: 'stock', value: stock, allowed: 'a list of 1 to 100 parts' })
  }
  const choiceOf = (part: Capacitor, count: number): ListedChoice => ({
    ...base,
    capacitors: [{ ...part, count }, ...beside],
  })
  return { conditions, stock: stock as readonly Capacitor[], most, mostParts, choiceOf }
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

function whole(value: unknown, field: string, largest: number): void {
  if (Number.isInteger(value) && (value as number) >= 1 && (value as number) <= largest) return
  throw new InputError({ field, value, allowed: `a whole number from 1 to ${largest}` })
}
