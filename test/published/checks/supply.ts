import { exact } from '@ohmward/quantity'
import { chargeAt, exampleCells, publishedCurves, readCell, valueAt } from '@ohmward/supply'
import { thermalVoltage, warmResistance } from '@ohmward/supply/formulas'
import type { PublishedCheck } from '../check.js'

const dataSet = (more: string) =>
  `Piecewise-Battery-OCV, open data set beside a paper in IEEE Transactions on Instrumentation and Measurement, 2025: ${more}`

const point = (id: string, name: keyof typeof publishedCurves, q: number, printed: number): PublishedCheck => ({
  id,
  package: 'supply',
  source: dataSet(`${name === 'NMC 21700' ? 'nickel-manganese-cobalt cell 21700' : 'iron phosphate cell'}, C/32`),
  quantity: `open-circuit voltage at ${q * 100} % of the charge`,
  unit: 'V',
  printed,
  tolerance: 0.00005,
  compute: () => valueAt(publishedCurves[name], q),
  remark: 'a point of the table: holds its copy to the printed one',
})

const second = dataSet('second cell 21700, of another maker, C/20')
const measured = 'measured cell 18650: mean of charge and discharge at C/20, after a day of rest'

/** How far a cell may be off the curve unless more is stated, V. */
const spreadTaken = 0.03

/** Other cells than the one of the curve, in the range in which the spread that is taken for a cell covers them. */
const others: readonly (readonly [source: string, q: number, printed: number])[] = [
  [second, 0.1357, 3.4193],
  [second, 0.2915, 3.5826],
  [second, 0.4523, 3.6941],
  [second, 0.8392, 4.0664],
  [second, 0.9548, 4.1121],
  [second, 1, 4.2],
  [measured, 0.292, 3.552],
  [measured, 0.401, 3.662],
  [measured, 0.503, 3.756],
  [measured, 0.601, 3.84],
  [measured, 0.703, 3.926],
  [measured, 0.8, 4.037],
  [measured, 0.902, 4.091],
  [measured, 1, 4.175],
]

const cell = readCell({ ...exampleCells['high-drain cylindrical cell'], openCircuitSpread: exact(0) })

/** What feeds a rail. */
export const checks: PublishedCheck[] = [
  point('OCV-NMC-05', 'NMC 21700', 0.0452, 3.1461),
  point('OCV-NMC-29', 'NMC 21700', 0.2915, 3.5737),
  point('OCV-NMC-83', 'NMC 21700', 0.8342, 4.0637),
  point('OCV-LFP-05', 'LFP cylindrical', 0.0534, 3.0872),
  point('OCV-LFP-98', 'LFP cylindrical', 0.9833, 3.3511),
  ...others.map(
    ([source, q, printed]): PublishedCheck => ({
      id: `OCV-${source === second ? 'second' : 'measured'}-${Math.round(100 * q)}`,
      package: 'supply',
      source,
      // It was read in an open table whose place was not kept, so no reader can find it again.
      ...(source === measured && ({ fromMemory: true } as const)),
      quantity: `open-circuit voltage of another cell at ${q * 100} % of the charge, by the curve for such cells`,
      unit: 'V',
      printed,
      tolerance: spreadTaken,
      compute: () => valueAt(publishedCurves['NMC 21700'], q),
      remark:
        source === second
          ? 'held to the 30 mV that are taken for how far a cell may be off its curve; below a tenth of the charge it lies further above it'
          : 'from a table whose place was not kept; held to the 30 mV that are taken for how far a cell may be off its curve; below a quarter of the charge it is up to 71 mV under it',
    }),
  ),
  {
    id: 'CELL-reserve',
    package: 'supply',
    source: 'notes of the trade on lithium-ion cells, several',
    quantity: 'charge left from 3.0 V to the end of the discharge, about',
    unit: '1',
    printed: 0.03,
    tolerance: 0.005,
    compute: () => chargeAt(cell, 3.0).nominal - chargeAt(cell, 2.5).nominal,
    remark: 'the notes say 3.0 V to 2.4 V; the measured curve of a cell ends at 2.51 V and gives 2.7 %',
  },
  {
    id: 'DIODE-VT-300',
    package: 'supply',
    source: 'textbooks of semiconductor devices; constants as the SI defines them since 2019',
    fromMemory: true,
    quantity: 'thermal voltage at 300 K',
    unit: 'mV',
    printed: 25.85,
    tolerance: 0.005,
    compute: () => thermalVoltage({ k_B: 1.380649e-23, T_abs: 300, q_e: 1.602176634e-19 }) * 1e3,
  },
  ...(
    [
      [40, 1.058],
      [50, 1.096],
      [75, 1.193],
      [100, 1.289],
      [150, 1.482],
      [200, 1.674],
    ] as const
  ).map(
    ([t, printed]): PublishedCheck => ({
      id: `COPPER-PATH-25-${t}`,
      package: 'supply',
      source: 'table of correction factors of copper conductors, 25 to 200 °C, of an electrical handbook on the web',
      quantity: `resistance of copper at ${t} °C over that at 25 °C`,
      unit: '1',
      printed,
      tolerance: 0.0006,
      compute: () => {
        const at = (celsius: number) => warmResistance({ R_20: 1, alpha_el: 0.00393, dT_el: celsius - 20 })
        return at(t) / at(25)
      },
    }),
  ),
  {
    id: 'DIODE-VT-300-read',
    package: 'supply',
    source: 'answer of the trade: kT at 300 K is 0.0259 eV',
    quantity: 'thermal voltage at 300 K, to a tenth',
    unit: 'mV',
    printed: 25.9,
    tolerance: 0.05,
    compute: () => thermalVoltage({ k_B: 1.380649e-23, T_abs: 300, q_e: 1.602176634e-19 }) * 1e3,
  },
  {
    id: 'COPPER-PATH-20-120',
    package: 'supply',
    source: 'IEC 60028:1925: temperature coefficient of annealed copper at 20 °C, 0.00393 1/K',
    quantity: 'resistance of 1 ohm of copper at 20 °C, at 120 °C',
    unit: 'ohm',
    printed: 1.393,
    tolerance: 0.0005,
    compute: () => warmResistance({ R_20: 1, alpha_el: 0.00393, dT_el: 100 }),
  },
]
