import { exampleConverters } from '@ohmward/adc'
import { extremes, simulate } from '@ohmward/budget'
import {
  type ChainInputs,
  chainFormulas,
  checkDivider,
  type DifferenceInputs,
  differenceFormulas,
  dividerChanges,
  dividerModel,
  dividerOverRail,
  exampleAmplifiers,
  platinumCelsius,
  platinumRatio,
  readingAtRail,
  readingOf,
  sizeDivider,
  sweepDivider,
} from '@ohmward/divider'
import { nominalOf } from '@ohmward/quantity'

const blade = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '3 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
}
const conditions = { rail: { from: '2.8 V', to: '4.2 V' }, ambientCelsius: { from: 0, to: 50 } }
const at25 = { R_x: 0.7, V_rail: 3.3, V_exc: 3.3, V_amp: 3.3, V_ref: 3.3, T_d: 0, V_add: 0, e_add: 0 }

export const examples = [
  () => checkDivider(blade, conditions, { simulation: false }).summary,
  () => dividerChanges(blade, conditions, { checks: 20 }).text,
  () =>
    sweepDivider(blade, conditions, [{ rail: 2.8 }, { rail: 4.2 }], ['headroom']).map(({ at, margins }) => [
      at,
      margins[0]?.slack,
    ]),
  () => {
    const { choices, rejected } = sizeDivider({
      load: { from: '0.3 ohm', to: '2 ohm' },
      error: '5 %',
      rail: { from: 3, to: 4.2 },
      series: 'E24',
      tolerance: '0.5 %',
      amplifier: exampleAmplifiers.zeroDrift,
      converter: blade.converter,
    })
    return [choices[0]?.choice.reference, choices[0]?.choice.gainResistors, `${rejected.length} turned down`]
  },
  () => dividerOverRail(blade, conditions, 2).points,
  () => {
    const { inputs, model, row } = dividerModel(blade, conditions)
    const whole = { ...inputs, R_x: 0.7, V_rail: 3.3, T_d: 0 }
    return [extremes(whole, model, { row }).lower, simulate(whole, model, { row }).u]
  },
  () => chainFormulas().map(({ symbol }) => symbol),
  () => differenceFormulas().map(({ symbol }) => symbol),
  () => [platinumRatio(100), platinumCelsius(1.3851)],
  () => {
    const { inputs } = dividerModel(blade, conditions)
    const board = Object.entries({ ...inputs, ...at25 }).map(([symbol, input]) => [symbol, nominalOf(input)])
    return readingOf(Object.fromEntries(board) as ChainInputs).R_ind
  },
  () => {
    const { inputs } = dividerModel({ ...blade, topology: 'load at rail' }, conditions)
    const board = Object.entries({ ...inputs, ...at25 }).map(([symbol, input]) => [symbol, nominalOf(input)])
    return readingAtRail(Object.fromEntries(board) as DifferenceInputs).R_ind
  },
]
