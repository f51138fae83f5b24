import { budgetOf, formula, type Margin, marginOf, type Values } from '@ohmward/budget'
import { percent, plusMinus, readSpread, relative } from '@ohmward/quantity'

/** Heat in the blade of the cordless knife: the small model of this page. */
export const heat = /*#__PURE__*/ formula({
  symbol: 'P',
  quantity: 'heat in the blade',
  unit: 'W',
  inputs: { V_b: ['V', 0, 10], R_b: ['ohm', 0.01, 100] },
  expression: 'V_b^2 / R_b',
  compute: ({ V_b, R_b }) => (V_b * V_b) / R_b,
  source: 'Joule; Ohm',
})

export const heatInputs = { V_b: '3.6 V ±5 %', R_b: '0.7 ohm ±5 %' } as const

/** What an amplifier gives for an input voltage: a gain that is a little off, an offset, and its drift since. */
export const amplified = /*#__PURE__*/ formula({
  symbol: 'V_o',
  quantity: 'output, divided by the nominal gain',
  unit: 'V',
  inputs: { e_G: ['1', -0.5, 0.5], V_i: ['V', 0, 1], V_os: ['V', -0.1, 0.1], V_d: ['V', -0.1, 0.1] },
  expression: '(1 + e_G) * V_i + V_os + V_d',
  compute: ({ e_G, V_i, V_os, V_d }) => (1 + e_G) * V_i + V_os + V_d,
  source: 'the amplifier of a measurement, without its other errors',
})

type Amplified = Values<'e_G' | 'V_i' | 'V_os' | 'V_d'>

const shared = { e_G: plusMinus(0, percent(2)), V_i: 0.05, V_os: plusMinus(0, 3e-3), V_d: plusMinus(0, 2e-4) }
const spec = { symbol: 'V_o', quantity: 'reading', unit: 'V', inputs: shared, simulation: false } as const

/** The reading of one chain at the calibration: the same parts, before they drifted. */
const atCalibration = (x: Amplified, V_i: number) => amplified({ e_G: x.e_G, V_i, V_os: x.V_os, V_d: 0 })

/** The same reading under three calibrations; what is common to reading and calibration cancels by itself. */
export const calibrations = () => [
  { name: 'none', budget: budgetOf({ ...spec, model: amplified }) },
  { name: 'zero', budget: budgetOf({ ...spec, model: (x) => amplified(x) - atCalibration(x, 0) }) },
  {
    name: 'zero and span',
    budget: budgetOf({
      ...spec,
      model: (x) => {
        const zero = atCalibration(x, 0)
        const known = 0.1
        return ((amplified(x) - zero) * known) / (atCalibration(x, known) - zero)
      },
    }),
  },
]

/** A model whose slope is zero where it stands: linear propagation sees nothing. */
export const blind = () =>
  budgetOf({
    symbol: 'P',
    quantity: 'heat of an offset current',
    unit: 'W',
    inputs: { I_o: plusMinus(0, 10e-3), R_o: relative(50, percent(1)) },
    model: ({ I_o, R_o }) => I_o * I_o * R_o,
  })

export const heatMargin = (limit: number, { V_b, R_b }: Readonly<Record<'V_b' | 'R_b', string>>): Margin =>
  marginOf(
    {
      id: 'heat',
      name: 'heat in the blade',
      unit: 'W',
      sense: 'at most',
      value: heat,
      limit,
      catches: [],
    },
    {
      inputs: {
        V_b: readSpread(V_b, { field: 'V_b', unit: 'V' }),
        R_b: readSpread(R_b, { field: 'R_b', unit: 'ohm' }),
      },
      conditions: [],
    },
  )
