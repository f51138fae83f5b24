import { type ChangeSpec, preferred, solved } from '@ohmward/budget'
import { regulatorsOnMain } from '../blocks/rail-limits.js'
import type { ReadWhole } from './whole.js'

/** More at the output of a regulator, which carries a step of its current until it answers. */
export const largerOutput = ({ design }: ReadWhole): ChangeSpec[] =>
  (design.rails ?? []).flatMap(({ name, through }, i) =>
    through.kind !== 'regulator'
      ? []
      : preferred({
          id: `output-${i + 1}`,
          name: `a larger capacitor at the output of the regulator of ${name}`,
          path: `rails.${i}.through.outputCapacitance`,
          unit: 'F',
          from: () => through.outputCapacitance,
          towards: 'up',
          series: 'E6',
          steps: 18,
        }),
  )

/** Regulators that take more input. */
export const higherInput = ({ design }: ReadWhole): ChangeSpec[] =>
  regulatorsOnMain(design).flatMap(({ name, place, through: { highestInput } }) =>
    highestInput === undefined
      ? []
      : solved({
          id: `input-${place + 1}`,
          name: `a regulator of ${name} for a higher input`,
          path: `rails.${place}.through.highestInput`,
          unit: 'V',
          from: () => highestInput,
          to: 4 * highestInput,
        }),
  )

/** Whether a row is of what the rail rises to before a regulator. */
export const isOfInput = (id: string): boolean => id.endsWith('/rail-maximum') || id.startsWith('rails/regulator-input')
