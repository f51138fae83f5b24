import { absoluteReference } from '@ohmward/adc/formulas'
import { chainFormulas, checkDivider, differenceFormulas, dividerChanges } from '@ohmward/divider'
import { readRange } from '@ohmward/quantity'
import type { Arguments, Block } from '../.vitepress/theme/block.ts'
import { statedBy } from '../.vitepress/theme/form/symbols.ts'
import { evenly, sweepOver } from '../.vitepress/theme/sweep.ts'
import { form } from './form.ts'
import { size } from './sizing.ts'

const assess = ({ choice, conditions }: Arguments, simulation: boolean) =>
  checkDivider(choice, conditions, simulation ? {} : { simulation: false })

const stated = statedBy(form)

/** The readings of a calibration have noise, rounding and a place on the converter's curve of their own. */
const own = [
  ['V_n', 'V', 'input noise of the amplifier'],
  ['e_q', 'LSB', 'rounding to a count'],
  ['e_n', 'LSB', 'noise of the converter'],
  ['e_INL', 'LSB', 'nonlinearity of the converter'],
] as const
const readings = [
  ['', ''],
  ['z', ', reading of the short'],
  ['s', ', reading of the known resistor'],
] as const
const tagged = readings.flatMap(([tag, words]) =>
  own.map(([symbol, unit, name]) => [symbol + tag, unit, name + words] as const),
)

/** The low-ohm measurement: what computes. */
export const block: Block = {
  ...form,
  check: assess,
  sweep: ({ choice, conditions }) => {
    const { from, to } = readRange(conditions.rail, { field: 'rail', unit: 'V', above: 0 })
    return sweepOver(
      {
        quantity: 'rail',
        symbol: 'V_rail',
        unit: 'V',
        points: evenly(to, 0.8 * from, 15),
        first: 'headroom',
        asked: [from, to],
      },
      (volts) => assess({ choice, conditions: { ...conditions, rail: { from: volts, to: volts } } }, false).margins,
    )
  },
  changes: ({ choice, conditions }) => dividerChanges(choice, conditions),
  size,
  formulas: () => [absoluteReference, ...chainFormulas(), ...differenceFormulas()],
  units: {
    ...stated.units,
    V_rail: 'V',
    T_d: 'K',
    alpha_P: '1/K',
    ...Object.fromEntries(tagged.map(([symbol, unit]) => [symbol, unit])),
  },
  names: {
    ...stated.names,
    ...Object.fromEntries(tagged.map(([symbol, , name]) => [symbol, name])),
    R_ref: 'reference resistor',
    R_sw: 'excitation switch: on-resistance',
    alpha_P: 'pair at the non-inverting input: drift of the ratio',
    I_leak: 'clamp at the sense input: leakage',
    m_ps: 'offset per volt of supply change',
    m_cm: 'offset per volt of common mode',
    a_ol: 'inverse of the open-loop gain',
    I_pin: 'converter: pin leakage',
    V_emf: 'thermoelectric voltage',
  },
}
