import { type DividerChoice, type DividerRequirement, sizeDivider } from '@ohmward/divider'
import type { Arguments, Sizing } from '../.vitepress/theme/block.ts'
import { partTexts, summed } from '../.vitepress/theme/sizing.ts'
import { parted } from '../.vitepress/theme/tolerance.ts'
import { form } from './form.ts'

/** Which reference resistor and gain pair would do, of the tolerance that the reference has. */
export function size({ choice, conditions }: Arguments): Sizing {
  const { reference, gainResistors, ...rest } = choice
  const tolerance = /^ ?±(\d[\d.]* ?%)$/.exec(parted(String(reference))[1])?.[1] ?? '1 %'
  const { ground, ratioDrift } = gainResistors
  const drift = ratioDrift === undefined ? {} : { ratioDrift }
  const found = sizeDivider({
    ...(rest as Omit<DividerChoice, 'reference' | 'gainResistors'>),
    ...(conditions as Pick<DividerRequirement, 'rail' | 'ambientCelsius'>),
    ground: parted(String(ground))[0],
    ...drift,
    tolerance,
    most: 4,
  })
  return summed(found, {
    sought: `Reference resistor and feedback resistor of E24, ±${tolerance}`,
    named: (one) =>
      `Reference ${parted(String(one.reference))[0]}, feedback ${parted(String(one.gainResistors.feedback))[0]}`,
    puts: (one) => ({
      'choice.reference': String(one.reference),
      ...partTexts(form, 'choice.gainResistors', { ...gainResistors, ...one.gainResistors, ...drift }),
    }),
    more: found.needed?.text,
  })
}
