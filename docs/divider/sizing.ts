import { type DividerChoice, type DividerRequirement, sizeDivider } from '@ohmward/divider'
import type { Arguments, Sizing, Texts } from '../.vitepress/theme/block.ts'
import { ask, partTexts, seriesWords, summed } from '../.vitepress/theme/sizing.ts'
import { parted } from '../.vitepress/theme/tolerance.ts'
import { form } from './form.ts'

/** Which reference resistor and gain pair would do, by default of E24 and of the tolerance that the reference has. */
export function size({ choice, conditions }: Arguments, wanted: Texts = {}): Sizing {
  const { reference, gainResistors, ...rest } = choice
  const usual = /^ ?±(\d[\d.]* ?%)$/.exec(parted(String(reference))[1])?.[1] ?? '1 %'
  const series = ask('series', 'series', seriesWords, wanted, 'E24')
  const tolerance = ask('tolerance', 'tolerance, ±', ['0.1 %', '0.5 %', '1 %', '5 %'], wanted, usual)
  const { ground, ratioDrift } = gainResistors
  const drift = ratioDrift === undefined ? {} : { ratioDrift }
  const found = sizeDivider({
    ...(rest as Omit<DividerChoice, 'reference' | 'gainResistors'>),
    ...(conditions as Pick<DividerRequirement, 'rail' | 'ambientCelsius'>),
    ground: parted(String(ground))[0],
    ...drift,
    series: series.chosen as DividerRequirement['series'],
    tolerance: tolerance.chosen,
    most: 4,
  })
  return summed(found, {
    sought: `Reference resistor and feedback resistor of ${series.chosen}, ±${tolerance.chosen}`,
    asks: [series, tolerance],
    named: (one) =>
      `Reference ${parted(String(one.reference))[0]}, feedback ${parted(String(one.gainResistors.feedback))[0]}`,
    puts: (one) => ({
      'choice.reference': String(one.reference),
      ...partTexts(form, 'choice.gainResistors', { ...gainResistors, ...one.gainResistors, ...drift }),
    }),
    more: found.needed?.text,
  })
}
