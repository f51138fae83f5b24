import { format, readNumber } from '@ohmward/quantity'
import { apart } from '../model/apart.js'
import { demandFunction, demandList } from '../model/options.js'
import type { Margin, Verdict } from './assessment.js'
import { demandMargin, demandSlack, demandVerdict } from './given.js'
import type { DecisionRule } from './margin.js'

/** The verdict of several margins: one that fails decides, then one that isn't sure. @throws InputError for what is no margin */
export function verdictOf(margins: readonly Pick<Margin, 'verdict'>[]): Verdict {
  demandList('margins', margins)
  margins.forEach((one, i) => {
    demandVerdict(one?.verdict, `margins[${i}]`)
  })
  if (margins.some((margin) => margin.verdict === 'fails')) return 'fails'
  return margins.some((margin) => margin.verdict === 'not sure') ? 'not sure' : 'holds'
}

/** Slack as a share of the limit, or of the worst value where the limit is 0: what margins are ordered by. @throws InputError */
export function relativeSlack(margin: Pick<Margin, 'slack' | 'limit' | 'worst'>): number {
  demandSlack(margin)
  const { slack, limit, worst } = margin
  return slack / (Math.abs(limit) || Math.abs(worst) || 1)
}

/** What comes first: a margin that fails, the more boards fail it the sooner; then what isn't sure; then what holds. */
function rank({ verdict, probability, nominalSlack }: Margin): number {
  if (verdict === 'holds') return 5
  if (verdict === 'not sure') return 4
  const share = probability ?? (nominalSlack < 0 ? 0 : 1)
  return share < 0.01 ? 0 : share < 0.5 ? 1 : share < 0.99 ? 2 : 3
}

/**
 * Margins by urgency: what no board meets before what most boards meet, and an error that all boards may reach only at
 * the worst case behind both; among equals the least relative slack first. What brings another's failure about comes before
 * it.
 *
 * @param isCause - whether the failure of the first brings that of the second about
 */
export function ordered(
  margins: readonly Margin[],
  isCause: (cause: Margin, of: Margin) => boolean = () => false,
): Margin[] {
  const sorted = [...margins].sort((a, b) => rank(a) - rank(b) || relativeSlack(a) - relativeSlack(b))
  return causesFirst(sorted, ({ verdict }) => verdict, isCause)
}

/**
 * A sorted list, of what doesn't hold in it causes before their consequences, and that before what holds; its order is kept
 * otherwise.
 *
 * @param isCause - whether the failure of the first brings that of the second about
 * @throws InputError
 */
export function causesFirst<T>(
  sorted: readonly T[],
  verdictOf: (one: T) => Verdict,
  isCause: (cause: T, of: T) => boolean,
): T[] {
  demandList('sorted', sorted)
  demandFunction('verdictOf', verdictOf, 'a function that gives a verdict')
  demandFunction('isCause', isCause, 'a function of two of them')
  const open = sorted.filter((one) => verdictOf(one) !== 'holds')
  const seen = new Set<T>()
  const told: T[] = []
  const tell = (one: T): void => {
    if (seen.has(one)) return
    seen.add(one)
    for (const other of open) if (isCause(other, one)) tell(other)
    told.push(one)
  }
  for (const one of open) tell(one)
  return [...told, ...sorted.filter((one) => verdictOf(one) === 'holds')]
}

/** How margins are decided, read: a probability above 0 and at most 1, or nothing. @throws InputError naming `accept` */
export function readRule(accept: unknown): DecisionRule {
  return accept === undefined ? {} : { accept: readNumber(accept, { field: 'accept', unit: '1', above: 0, max: 1 }) }
}

/** A probability with the digits that its methods carry, rounded down: whole per cents, tenths beyond 99 %. */
function shareText(probability: number): string {
  const percent = probability * 100
  if (percent >= 99.9) return probability >= 1 ? '100 %' : 'more than 99.9 %'
  return percent >= 99 ? `${Math.floor(percent * 10) / 10} %` : `${Math.floor(percent)} %`
}

/** Size of a slack: no more to spare, and no less missing, than there is. */
export const slackText = ({ slack, unit }: Pick<Margin, 'slack' | 'unit'>): string =>
  format(Math.abs(slack), apart(unit), { digits: 3, towards: slack < 0 ? 'up' : 'down' })

/** A worst case, rounded to the side of its limit, three digits by default. */
export const worstText = ({ worst, sense, unit }: Pick<Margin, 'worst' | 'sense' | 'unit'>, digits = 3): string =>
  format(worst, unit, { digits, towards: sense === 'at most' ? 'up' : 'down' })

/** How far a worst case is beyond its limit: `120 mV over its limit`. */
const beyondText = (margin: Pick<Margin, 'slack' | 'unit' | 'sense'>): string =>
  `${slackText(margin)} ${margin.sense === 'at most' ? 'over' : 'below'} its limit`

/** Why a margin doesn't hold, in words. @throws InputError */
export function faultText(margin: Margin): string {
  demandMargin(margin)
  const { name, verdict, slack, reason = 'no reason is given' } = margin
  return `${name}: ${verdict !== 'fails' ? `not sure, ${reason}` : slack < 0 ? beyondText(margin) : 'met too seldom'}`
}

/** The tightest margin in words, with the size of its slack: a board that is accepted may still be beyond at worst. @throws InputError */
export function tightestText(margin: Margin): string {
  demandMargin(margin)
  const { name, verdict, slack, probability } = margin
  if (verdict === 'fails') return `the ${name} is ${slack < 0 ? beyondText(margin) : 'met too seldom'}`
  if (slack >= 0) return `tightest is the ${name}, with ${slackText(margin)} to spare`
  return `the ${name} is ${beyondText(margin)} at worst, and met by ${shareText(probability ?? 0)} of the boards`
}

/** What a verdict is called at the head of a sentence. */
export const verdictWords: Readonly<Record<Verdict, string>> = {
  holds: 'Holds',
  fails: 'Fails',
  'not sure': 'Not sure',
}
