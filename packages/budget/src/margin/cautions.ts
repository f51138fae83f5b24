import { demandText } from '@ohmward/quantity'
import { demandList } from '../model/options.js'
import type { Caution } from './assessment.js'

/** What holds of any calculation. */
export const designAid: Caution = {
  id: 'verify',
  text: 'A calculation is a design aid: verify it on the bench. Local codes and licensed practice decide.',
}

/** What holds wherever a lithium-ion cell feeds the circuit. */
export const lithiumIon: Caution = {
  id: 'lithium-ion',
  text: 'Lithium-ion cells burn when shorted, over-charged, over-discharged or hot. Protection is the job of a part made for it.',
  danger: true,
}

/** What holds of a load that heats. */
export const hotLoad: Caution = {
  id: 'hot-load',
  text: 'The load may be hot enough to burn, and stay so after switching off.',
  danger: true,
}

/** Cautions in the order in which they are given: what can hurt someone, then the rest; each once. @throws InputError */
export function dangerFirst<C extends Caution>(cautions: readonly C[]): C[] {
  demandList('cautions', cautions)
  cautions.forEach((one, i) => {
    demandText(`cautions[${i}].text`, one?.text)
  })
  const each = [...new Map(cautions.map((one) => [one.text, one])).values()]
  return [...each.filter(({ danger }) => danger), ...each.filter(({ danger }) => !danger)]
}
