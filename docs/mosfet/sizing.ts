import { type MosfetChoice, type MosfetConditions, sizeMosfet } from '@ohmward/mosfet'
import type { Series } from '@ohmward/quantity'
import type { Arguments, Sizing, Texts } from '../.vitepress/theme/block.ts'
import { text } from '../.vitepress/theme/numbers.ts'
import { ask, partTexts, seriesWords, summed } from '../.vitepress/theme/sizing.ts'
import { parted } from '../.vitepress/theme/tolerance.ts'
import { form } from './form.ts'

/** Which gate resistor and pull resistor would do with the transistor and the drive that stand in the form. */
export function size({ choice, conditions }: Arguments, wanted: Texts = {}): Sizing {
  const series = ask('series', 'series', seriesWords, wanted, 'E12')
  const tolerance = ask('tolerance', 'tolerance, ±', ['0.1 %', '1 %', '5 %', '10 %'], wanted, '1 %')
  const { transistor, drive, ...rest } = choice
  const found = sizeMosfet(
    {
      ...(rest as Omit<MosfetChoice, 'transistor' | 'drive'>),
      transistors: { transistor },
      drive,
      series: series.chosen as Series,
      tolerance: tolerance.chosen,
    },
    conditions as MosfetConditions,
  )
  const { largestOnResistance: most } = found
  const pull = (one: MosfetChoice) => ('pull' in one.drive && one.drive.pull ? one.drive.pull : undefined)
  const value = (given: unknown) => parted(String(given))[0]
  return summed(found, {
    sought: `Gate resistor${drive.pull ? ' and pull resistor' : ''} of ${series.chosen}, ±${tolerance.chosen}`,
    asks: [series, tolerance],
    named: (one) => {
      const { gateResistor } = one.drive as { gateResistor?: unknown }
      const at = pull(one)
      return `${value(gateResistor)} at the gate${at ? `, pull ${value(at.resistance)}` : ''}`
    },
    puts: (one) => partTexts(form, 'choice.drive', one.drive),
    more:
      most === null
        ? 'With no on-resistance would this transistor stay cool enough.'
        : `The junction allows an on-resistance of up to ${text(most, 'ohm', 3)}, as guaranteed at its reference temperature.`,
  })
}
