import { type HallChoice, type HallConditions, type HallRequirement, sizeHall } from '@ohmward/hall'
import type { Arguments, Sizing } from '../.vitepress/theme/block.ts'
import { partTexts, summed } from '../.vitepress/theme/sizing.ts'
import { parted } from '../.vitepress/theme/tolerance.ts'
import { form } from './form.ts'

/** Numbers of samples, each with the filter that suits it best. */
const counts = [1, 4, 16, 64]

/** Which filter and how many samples would do with the sensor that stands in the form. */
export function size({ choice, conditions }: Arguments): Sizing {
  const { sensor, filter: _, timing = {}, ...rest } = choice
  const { samples: __, ...edges } = timing
  const requirement = { ...(rest as HallRequirement), timing: edges }
  const found = counts.map((count) =>
    sizeHall(requirement, conditions as HallConditions, { sensors: { sensor }, samples: [count] }),
  )
  const all = {
    choices: found.flatMap(({ choices }) => choices),
    rejected: found.flatMap(({ rejected }) => rejected),
    untried: found.reduce((sum, { untried }) => sum + untried, 0),
  }
  const value = (text: unknown) => parted(String(text))[0]
  return summed<HallChoice>(all, {
    sought: 'Filter of preferred values, capacitors of E6, for 1, 4, 16 and 64 samples',
    named: ({ filter, timing: times, reading }) =>
      `${value(filter?.resistance)} and ${value(filter?.capacitance)}, ${times?.samples === 1 ? '1 sample' : `${times?.samples} samples`}, ${reading}`,
    puts: ({ filter, timing: times, reading }) => ({
      ...partTexts(form, 'choice.filter', filter ?? {}),
      'choice.timing.samples': String(times?.samples),
      'choice.reading': String(reading),
    }),
  })
}
