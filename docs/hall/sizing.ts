import { type HallChoice, type HallConditions, type HallRequirement, sizeHall } from '@ohmward/hall'
import { format, readNumber, type Series } from '@ohmward/quantity'
import type { Arguments, Sizing, Texts } from '../.vitepress/theme/block.ts'
import { ask, partTexts, summed } from '../.vitepress/theme/sizing.ts'
import { parted } from '../.vitepress/theme/tolerance.ts'
import { form } from './form.ts'

/** Numbers of samples, each with the filter that suits it best. */
const counts = [1, 4, 16, 64]

/** Which filter and how many samples would do with the sensor that stands in the form. */
export function size({ choice, conditions }: Arguments, wanted: Texts = {}): Sizing {
  const series = ask('series', 'series of the capacitors', ['E3', 'E6', 'E12', 'E24'], wanted, 'E6')
  const { sensor, filter: _, timing = {}, ...rest } = choice
  const { samples: __, ...edges } = timing
  const requirement = { ...(rest as HallRequirement), timing: edges }
  const found = counts.map((count) =>
    sizeHall(requirement, conditions as HallConditions, {
      sensors: { sensor },
      samples: [count],
      series: series.chosen as Series,
    }),
  )
  const all = {
    choices: found.flatMap(({ choices }) => choices),
    rejected: found.flatMap(({ rejected }) => rejected),
    untried: found.reduce((sum, { untried }) => sum + untried, 0),
  }
  const value = (text: unknown, unit: 'ohm' | 'F') =>
    format(readNumber(parted(String(text))[0], { field: 'filter', unit, min: 0, max: Number.MAX_VALUE }), unit)
  return summed<HallChoice>(all, {
    sought: `Filter of preferred values, capacitors of ${series.chosen}, for 1, 4, 16 and 64 samples`,
    asks: [series],
    named: ({ filter, timing: times, reading }) =>
      `${value(filter?.resistance, 'ohm')} and ${value(filter?.capacitance, 'F')}, ${times?.samples === 1 ? '1 sample' : `${times?.samples} samples`}, ${reading}`,
    puts: ({ filter, timing: times, reading }) => ({
      ...partTexts(form, 'choice.filter', filter ?? {}),
      'choice.timing.samples': String(times?.samples),
      'choice.reading': String(reading),
    }),
  })
}
