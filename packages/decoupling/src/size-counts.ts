import type { Margin } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { DecouplingAssessment } from './assessment.js'
import { boardAt } from './chain/board.js'
import type { ReadDecoupling } from './choice/choice.js'
import { inputsOf } from './choice/inputs.js'
import { lifeOf, rippleOf } from './rail/life.js'
import { limitId, limitWords, railLimits } from './rail/limits.js'
import { railOf } from './rail/rail.js'
import { RailReading } from './rail/reading.js'
import { worstValues } from './remedies/trial.js'
import type { RejectedDecoupling } from './size.js'

/**
 * The next number of a part with which every margin that failed is kept on its own worst board; `null` where more of them make one
 * worse (inrush, delay, what a port bears), or don't help.
 */
export function countForMargins(
  { margins }: DecouplingAssessment,
  readWith: (count: number) => ReadDecoupling,
  count: number,
  most: number,
): number | null {
  const bad = margins.filter(({ verdict }) => verdict !== 'holds')
  const keeps = (read: ReadDecoupling, { id, at, limit, slack }: Margin): boolean => {
    // One that is not sure may become so with more.
    if (slack >= 0) return true
    const reading = new RailReading(read, boardAt(read, inputsOf(read), at))
    const [, which, number] = /^(ripple|life)-(\d)$/.exec(id) ?? []
    const k = Number(number) - 1
    if (which === 'ripple') return rippleOf(read.capacitors[k]!, reading, k) <= limit
    if (which === 'life') return lifeOf(read.capacitors[k]!, reading, k) >= limit
    if (id === 'rated-voltage' || id === 'rail-maximum') return reading.V_high <= limit
    if (railLimits(read).some((one) => limitId(one) === id))
      return (id.startsWith('rail') ? reading.V_min : reading.V_logic) >= limit
    return id === 'series-resistance' || id === 'pwm-start'
  }
  for (let n = count + 1; n <= most; n++) {
    const read = readWith(n)
    if (bad.every((margin) => keeps(read, margin))) return n
  }
  return null
}

/** The smallest count that keeps every limit on its worst board; with the largest allowed, what is lacking there. */
export function countFor(
  readWith: (count: number) => ReadDecoupling,
  most: number,
): { count: number; lack?: Pick<RejectedDecoupling, 'margin' | 'reason'> } {
  const worst = worstValues(readWith(1))
  const lackWith = (count: number) => {
    const read = readWith(count)
    const { lowest, logic } = railOf(read, boardAt(read, inputsOf(read), worst))
    const [lack] = railLimits(read)
      .map((limit) => ({ ...limit, short: limit.volts - (limit.place === 'rail' ? lowest : logic) }))
      .filter(({ short }) => short > 0)
    return lack
  }
  for (let count = 1; count < most; count++) if (!lackWith(count)) return { count }
  const lack = lackWith(most)
  if (!lack) return { count: most }
  const { name, place, short } = lack
  const reason = `${most} of them: ${place} short of the ${limitWords[name]} by ${format(short, 'V', { digits: 2 })}`
  return { count: most, lack: { margin: limitId(lack), reason } }
}
