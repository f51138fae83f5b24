import {
  type Capacitor,
  type DecouplingConditions,
  type DecouplingRequirement,
  sizeDecoupling,
} from '@ohmward/decoupling'
import type { Arguments, Progress, Sizing, Texts } from '../.vitepress/theme/block.ts'
import { plain } from '../.vitepress/theme/numbers.ts'
import { ask, partTexts, summed } from '../.vitepress/theme/sizing.ts'
import { form } from './form.ts'

/** Which kind and number of capacitors would do in the first place, beside those that stand in the others. */
export function size({ choice, conditions }: Arguments, wanted: Texts = {}, progress?: Progress): Sizing {
  const parts = ask('parts', 'parts of one kind, at most', ['1', '2', '4', '8', '16'], wanted, '8')
  const { capacitors, ...rest } = choice
  const others = [capacitors.second, capacitors.third].filter(Boolean) as Capacitor[]
  const found = sizeDecoupling({
    ...(rest as Omit<DecouplingRequirement, 'conditions'>),
    conditions: conditions as DecouplingConditions,
    ...(others.length > 0 && { with: others }),
    mostParts: Number(parts.chosen),
    most: 4,
    ...(progress && { progress }),
  })
  const named = ({ capacitors: [first] }: { readonly capacitors: readonly Capacitor[] }) =>
    `${first?.count ?? 1} × ${first?.name}`
  const volumes = new Map(found.choices.map(({ choice: one, volume }) => [one, volume]))
  const volume = (one: (typeof found.choices)[number]['choice']) => volumes.get(one)
  const rejected = found.rejected.map(({ margin, ...one }) => ({ ...one, row: margin }))
  return summed(
    { ...found, rejected },
    {
      sought: `Kind and number of capacitors, up to ${parts.chosen} of an invented stock${others.length > 0 ? ', beside the other kinds' : ''}, the smallest volume first`,
      asks: [parts],
      named: (one) => `${named(one)}${volume(one) ? `, ${plain(volume(one)!, 3)} mm³` : ''}`,
      puts: (one) => partTexts(form, 'choice.capacitors.bulk', one.capacitors[0]!),
      more: found.impossible?.text,
    },
  )
}
