import {
  type Capacitor,
  type DecouplingConditions,
  type DecouplingRequirement,
  sizeDecoupling,
} from '@ohmward/decoupling'
import type { Arguments, Sizing } from '../.vitepress/theme/block.ts'
import { plain } from '../.vitepress/theme/numbers.ts'
import { partTexts, summed } from '../.vitepress/theme/sizing.ts'
import { form } from './form.ts'

/** Which kind and number of capacitors would do in the first place, beside those that stand in the others. */
export function size({ choice, conditions }: Arguments): Sizing {
  const { capacitors, ...rest } = choice
  const others = [capacitors.second, capacitors.third].filter(Boolean) as Capacitor[]
  const found = sizeDecoupling({
    ...(rest as Omit<DecouplingRequirement, 'conditions'>),
    conditions: conditions as DecouplingConditions,
    ...(others.length > 0 && { with: others }),
    most: 4,
  })
  const named = ({ capacitors: [first] }: { readonly capacitors: readonly Capacitor[] }) =>
    `${first?.count ?? 1} × ${first?.name}`
  const volumes = new Map(found.choices.map(({ choice: one, volume }) => [one, volume]))
  const volume = (one: (typeof found.choices)[number]['choice']) => volumes.get(one)
  const rejected = found.rejected.map(({ margin, ...one }) => ({ ...one, row: margin }))
  return summed(
    { ...found, rejected },
    {
      sought: `Kind and number of capacitors, up to 8 of an invented stock${others.length > 0 ? ', beside the other kinds' : ''}, the smallest volume first`,
      named: (one) => `${named(one)}${volume(one) ? `, ${plain(volume(one)!, 3)} mm³` : ''}`,
      puts: (one) => partTexts(form, 'choice.capacitors.bulk', one.capacitors[0]!),
      more: found.impossible?.text,
    },
  )
}
