import { blockOf, type Choosing, type Chosen, choose, type Rejected, relativeSlack } from '@ohmward/budget'
import { type MosfetAssessment, mosfet } from '../block.js'
import type { MosfetChoice, MosfetConditions, ReadMosfet } from '../choice.js'
import { shareFrequency } from '../formulas/limits.js'
import { type Candidate, candidatesOf } from './candidates.js'
import { largestOnResistance } from './largest-resistance.js'
import { type MosfetRequirement, readOptions, readRequirement, type SizeOptions } from './requirement.js'

/** The names that transistor and drive have in the requirement; a single drive is called `drive`. */
interface Named {
  readonly transistor: string
  readonly drive: string
}

/** A choice of preferred values, already checked. */
export interface SizedMosfet extends Named, Chosen<MosfetChoice, MosfetAssessment> {
  /** Highest PWM frequency at which switching keeps to the share of the loss that was allowed (a fifth by default), Hz; `null` without edges. */
  readonly highestFrequency: number | null
}

/** A candidate that was turned down. */
export type RejectedMosfet = Named & Rejected<MosfetChoice>

/** What came out of sizing. */
export interface MosfetSizing extends Pick<Choosing<MosfetChoice, MosfetAssessment>, 'beaten' | 'untried'> {
  /** The largest least slack first, or the cheapest. */
  readonly choices: readonly SizedMosfet[]
  readonly rejected: readonly RejectedMosfet[]
  /** Combinations of resistors that weren't looked at at all, between those that were or beyond them. */
  readonly skipped: number
  /**
   * Largest guaranteed on-resistance at the reference temperature that keeps the junction below its limit, with the first
   * transistor's and drive's other figures; `null` where even none of it would help.
   */
  readonly largestOnResistance: number | null
}

/** Candidates under their names, for the engine that chooses. */
const named = () =>
  blockOf<Candidate, MosfetConditions, ReadMosfet, MosfetAssessment>({
    ...mosfet,
    read: ({ choice }, conditions) => mosfet.read(choice, conditions),
  })

/**
 * Finds, for each candidate transistor and drive, the pull resistor and the gate resistor among preferred values: of
 * those that may hold, the pair with the largest least slack, or the cheapest. Every choice returned holds, every one
 * rejected fails its check, and what wasn't looked at is counted.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeMosfet(
  requirement: MosfetRequirement,
  conditions: MosfetConditions,
  options: SizeOptions = {},
): MosfetSizing {
  const wanted = readRequirement(requirement)
  const { cost, most, ...rest } = readOptions(options)
  const lists = candidatesOf(wanted, conditions)
  const found = lists.map(({ able }) => bestOf(able, conditions, { ...rest, ...(cost && { cost }) }))
  const order = ({ choice, assessment: { margins } }: Chosen<Candidate, MosfetAssessment>) =>
    cost ? cost(choice.choice) : -Math.min(...margins.map(relativeSlack))
  const chosen = found.flatMap(({ choices }) => choices).sort((a, b) => order(a) - order(b))
  const rejected = [...lists, ...found].flatMap((one) => one.rejected)
  const [first, drive] = [wanted.transistors[0]!, wanted.drives[0]!]
  const share = mosfet.read({ ...wanted.base, transistor: first[1], drive: drive[1] }, conditions).switchingShare ?? 0.2
  return {
    choices: chosen.slice(0, most).map(({ choice: candidate, assessment }) => ({
      ...candidate,
      assessment,
      highestFrequency: highestFrequency(share, assessment),
    })),
    rejected: rejected.map(({ choice: candidate, ...why }) => ({ ...candidate, ...why })),
    beaten: sumOf(found.map((one) => one.beaten)) + Math.max(0, chosen.length - most),
    untried: sumOf(found.map((one) => one.untried)),
    skipped: sumOf(lists.map((one) => one.skipped)),
    largestOnResistance: largestOnResistance({ ...wanted.base, transistor: first[1], drive: drive[1] }, conditions),
  }
}

/** The best pair of resistors for one transistor and drive. Where none of the promising ones holds, the rest is checked too. */
function bestOf(
  able: readonly Candidate[],
  conditions: MosfetConditions,
  { checks, cost, accept }: Pick<SizeOptions, 'cost' | 'accept'> & { readonly checks: number },
): Choosing<Candidate, MosfetAssessment> {
  const options = {
    most: 1,
    ...(accept !== undefined && { accept }),
    ...(cost && { cost: ({ choice }: Candidate) => cost(choice) }),
  }
  const found = choose(named(), able, conditions, { ...options, checks })
  if (found.choices.length > 0 || found.untried === 0) return found
  return choose(named(), able, conditions, { ...options, checks: able.length })
}

const sumOf = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0)

/** Conduction and energy of the edges of a typical board where it is hottest give the frequency of a share. */
function highestFrequency(a_sw: number, { values }: MosfetAssessment): number | null {
  const { P_sw = 0, f_edge = 0, P_ctop = 0, P_cond = P_ctop } = values
  return P_sw > 0 && f_edge > 0 ? shareFrequency({ a_sw, P_cond, f_edge, P_sw }) : null
}
