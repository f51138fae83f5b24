import { type Budget, type Margin, tightestText, verdictOf, verdictWords } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { ReadDecoupling } from '../choice/choice.js'
import { railRowIds } from '../rail/limits.js'
import type { SteadySag } from '../rail/sag.js'

const elsewhere = ' Whether a boost converter would keep the logic up is not checked here.'

/** The verdict in a sentence or two, the steady sag first where it decides. */
export function summaryOf(
  read: ReadDecoupling,
  margins: readonly Margin[],
  steady: SteadySag,
  { extremes, linear }: Budget,
): string {
  const [least] = margins
  const volts = (value: number, towards?: 'up' | 'down') =>
    format(Math.max(0, value), 'V', { digits: 3, ...(towards && { towards }) })
  const current = (value: number) => format(value, 'A', { digits: 3 })
  if (steady.isImpossible) {
    const path = format(steady.sourceResistance, 'ohm', { digits: 3 })
    if (steady.rest <= steady.limit) {
      return `Fails: no capacitor can help. On the worst board the ${current(steady.idle)} that are drawn all the time leave ${volts(steady.rest, 'down')} at rest, load off, ${volts(steady.limit - steady.rest, 'up')} short of the limit of ${volts(steady.limit)}.${elsewhere}`
    }
    return `Fails: no capacitor can help. On the worst board ${current(steady.current)} through ${path} leave ${volts(steady.voltage, 'down')} in the end, ${volts(steady.limit - steady.voltage, 'up')} short of the limit of ${volts(steady.limit)}.${elsewhere}`
  }
  const rail = railRowIds(read)
  const need = !margins.some((one) => one.verdict === 'fails' && rail.includes(one.id))
    ? ''
    : steady.capacitance === null
      ? ' No capacitance is enough with this series resistance: take a kind with less of it, or more in parallel.'
      : steady.capacitance > 0
        ? ` It takes about ${format(steady.capacitance, 'F', { digits: 2 })} of capacitance.`
        : ''
  return `${verdictWords[verdictOf(margins)]}: ${tightestText(least!)}. The rail falls to ${volts(linear.nominal)} with nominal parts, at worst to ${volts(extremes.lower, 'down')}.${need}`
}
