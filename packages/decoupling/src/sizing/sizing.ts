import type { DecouplingAssessment } from '../assessment.js'
import type { DecouplingChoice, DecouplingConditions } from '../choice/choice.js'
import type { Capacitor } from '../parts/index.js'

/** What a rail must stand; the capacitors are looked for. */
export interface DecouplingRequirement extends Omit<DecouplingChoice, 'capacitors'> {
  readonly conditions: DecouplingConditions
  /** Parts to choose from, one of each; invented examples of three classes by default. Each is tried alone and beside `with`. */
  readonly stock?: readonly Capacitor[]
  /** Capacitors that are there in any case, such as a ceramic beside a controller. */
  readonly with?: readonly Capacitor[]
  /** Most parts of one kind; 8 by default. */
  readonly mostParts?: number
  /** How many choices are wanted; 3 by default. */
  readonly most?: number
  /** What a choice costs, the cheapest first; its volume where every part says its own, else its number of parts, by default. */
  readonly cost?: (choice: ListedChoice) => number
  /** Told how many parts of the stock are settled, before each further check and at the end: a search may take seconds. */
  readonly progress?: (settled: number, of: number) => void
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
  /** The cheapest first. */
  readonly choices: readonly SizedDecoupling[]
  readonly rejected: readonly RejectedDecoupling[]
  /** How many can't be better than those that were chosen: they weren't looked at in full. */
  readonly beaten: number
  /** How many weren't looked at in full any more, though they might be better. */
  readonly untried: number
  /** The proof that no capacitor can hold the rail; `null` where steady sag and rest allow one. */
  readonly impossible: { readonly text: string; readonly voltage: number; readonly limit: number } | null
}
