import { format, InputError, missingFields } from '@ohmward/quantity'
import type { DecouplingAssessment } from './assessment.js'
import { checkDecoupling } from './block.js'
import type { DecouplingChoice, DecouplingConditions } from './choice/choice.js'
import { readDecoupling } from './choice/read.js'
import { exampleCapacitors } from './parts/examples.js'
import type { Capacitor } from './parts/parts.js'
import type { Remedy } from './remedies/remedy.js'
import { countFor, countForMargins } from './size-counts.js'
import { amount } from './texts/summary.js'

/** What a rail must stand; the capacitors are looked for. */
export interface DecouplingRequirement extends Omit<DecouplingChoice, 'capacitors'> {
  readonly conditions: DecouplingConditions
  /** Parts to choose from, one of each; invented examples of three classes unless told. Each is tried alone and beside `with`. */
  readonly stock?: readonly Capacitor[]
  /** Capacitors that are there in any case, such as a ceramic beside a controller. */
  readonly with?: readonly Capacitor[]
  /** Most parts of one kind; 8 unless told. */
  readonly mostParts?: number
  /** How many choices are wanted; 3 unless told. */
  readonly most?: number
}

/** A choice whose kinds of capacitor are a list: the one that was sized first. */
export type ListedChoice = DecouplingChoice & { readonly capacitors: readonly Capacitor[] }

/** A choice that holds. */
export interface SizedDecoupling {
  readonly choice: ListedChoice
  readonly assessment: DecouplingAssessment
  /** Volume of the chosen parts, mm³; `null` where one doesn't say its own. */
  readonly volume: number | null
}

/** A candidate that was turned down. */
export interface RejectedDecoupling {
  readonly choice: ListedChoice
  /** The margin that fails, by its id, and why in words. */
  readonly margin: string
  readonly reason: string
}

/** What came out of sizing. */
export interface DecouplingSizing {
  /** Smallest volume first where every part says its own, else fewest parts. */
  readonly choices: readonly SizedDecoupling[]
  readonly rejected: readonly RejectedDecoupling[]
  /** The proof that no capacitor can hold the rail; `null` where steady sag and rest allow one. */
  readonly impossible: { readonly text: string; readonly voltage: number; readonly limit: number } | null
  /** Ways out where nothing was found. */
  readonly remedies: readonly Remedy[]
}

const own = ['conditions', 'stock', 'with', 'mostParts', 'most'] as const
const passed = [
  'source',
  'load',
  'limits',
  'idle',
  'brownOutEnabled',
  'logicRail',
  'onLogicRail',
  'insertion',
  'wantedLifeHours',
] as const

/** Capacitors by class in preferred values, invented: the examples scaled, their series resistance with the square root of their size. */
export const exampleStock = (): readonly Capacitor[] => [
  ...family(exampleCapacitors.ceramic, [10e-6, 22e-6, 47e-6, 100e-6]),
  ...family(exampleCapacitors.polymer, [100e-6, 220e-6, 470e-6, 1000e-6]),
  ...family(exampleCapacitors.wetAluminium, [220e-6, 470e-6, 1000e-6, 2200e-6, 4700e-6]),
]

function family(part: Capacitor, values: readonly number[]): Capacitor[] {
  const [kind] = part.name!.split(/ [0-9]/)
  const rated = Number.parseFloat(String(part.capacitance)) * 1e-6
  return values.map((value) => {
    const ratio = value / rated
    const resistance = (Number.parseFloat(String(part.seriesResistance)) * 1e-3) / Math.sqrt(ratio)
    const text = format(value, 'F', { ascii: true })
    return {
      ...part,
      name: `${kind} ${text}`,
      capacitance: `${text} ±20 %`,
      seriesResistance: resistance,
      volume: Number(part.volume) * ratio ** 0.9,
    }
  })
}

/**
 * Finds kind, value and count of the capacitors.
 *
 * For each part of the stock the smallest count that keeps the rail on the worst board is sought; the smallest of these are
 * then checked in full until enough hold. Where ripple, life, plug-in peak or rail fail there, it goes on with more of them, unless
 * more make what fails worse. Every choice returned holds; every one rejected fails its check.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeDecoupling(requirement: DecouplingRequirement): DecouplingSizing {
  const given = missingFields(requirement, ['source', 'load', 'limits', 'conditions'], 'requirement', [
    ...passed,
    ...own,
  ])
  const {
    conditions,
    stock = exampleStock(),
    with: beside = [],
    mostParts = 8,
    most = 3,
    ...base
  } = given as unknown as DecouplingRequirement
  whole(mostParts, 'mostParts', 100)
  whole(most, 'most', 20)
  if (!Array.isArray(stock) || stock.length < 1 || stock.length > 100) {
    throw new InputError({ field: 'stock', value: stock, allowed: 'a list of 1 to 100 parts' })
  }
  const choiceOf = (part: Capacitor, count: number): ListedChoice => ({
    ...base,
    capacitors: [{ ...part, count }, ...beside],
  })
  const first = checkDecoupling(choiceOf(stock[0]!, 1), conditions, { simulation: false })
  if (first.steady.isImpossible) {
    const { voltage, limit } = first.steady
    return { choices: [], rejected: [], impossible: { text: first.summary, voltage, limit }, remedies: first.remedies }
  }
  const rejected: RejectedDecoupling[] = []
  const able: Candidate[] = []
  for (const part of stock) {
    const { count, lack } = countFor((n) => readDecoupling(choiceOf(part, n), conditions), mostParts)
    const choice = choiceOf(part, count)
    if (lack === undefined) able.push({ part, count, choice })
    else rejected.push({ choice, ...lack })
  }
  const isKnown = able.every(({ choice }) => volumeOf(choice.capacitors) !== null)
  const choices: SizedDecoupling[] = []
  while (able.length > 0 && choices.length < most) {
    const { part, count, choice } = smallestOf(able, isKnown)
    const assessment = checkDecoupling(choice, conditions, { simulation: false })
    if (assessment.verdict === 'holds') {
      choices.push({ choice, assessment, volume: volumeOf(choice.capacitors) })
      continue
    }
    const more = countForMargins(assessment, (n) => readDecoupling(choiceOf(part, n), conditions), count, mostParts)
    if (more === null) rejected.push({ choice, ...faultOf(assessment) })
    else able.push({ part, count: more, choice: choiceOf(part, more) })
  }
  return { choices, rejected, impossible: null, remedies: choices.length > 0 ? [] : first.remedies }
}

/** A part in a number that keeps the rail, to be checked in full. */
interface Candidate {
  readonly part: Capacitor
  readonly count: number
  readonly choice: ListedChoice
}

/** Takes the smallest volume out of a list where all say theirs, else the fewest parts. */
function smallestOf(able: Candidate[], isKnown: boolean): Candidate {
  const sizeOf = ({ choice: { capacitors } }: Candidate): number =>
    isKnown ? volumeOf(capacitors)! : capacitors.reduce((sum, { count = 1 }) => sum + Number(count), 0)
  let best = 0
  for (let i = 1; i < able.length; i++) if (sizeOf(able[i]!) < sizeOf(able[best]!)) best = i
  return able.splice(best, 1)[0]!
}

function faultOf({ margins, verdict }: DecouplingAssessment): Pick<RejectedDecoupling, 'margin' | 'reason'> {
  const worst = margins.find((one) => one.verdict === 'fails') ?? margins.find((one) => one.verdict !== 'holds')!
  const { id, name, slack, reason } = worst
  const why = verdict === 'fails' ? `short by ${amount(worst, -slack)}` : `not sure, ${reason}`
  return { margin: id, reason: `${name}: ${why}` }
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
