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

/** Three other cells than the one of the curve: of the same size, smaller, and of more capacity than current. */
const [second, smaller, larger] = [
  dataSet('second cell 21700, of another maker, C/20'),
  dataSet('cell 18650, C/20'),
  dataSet('cell 21700 of large capacity, C/32'),
]
const others: readonly (readonly [
  cell: string,
  source: string,
  points: readonly (readonly [q: number, volts: number])[],
])[] = [
  [
    'second',
    second,
    [
      [0.0352, 3.1179],
      [0.0854, 3.3182],
      [0.1357, 3.4193],
      [0.2915, 3.5826],
      [0.4523, 3.6941],
      [0.8392, 4.0664],
      [0.9548, 4.1121],
      [1, 4.2],
    ],
  ],
  [
    'smaller',
    smaller,
    [
      [0.0201, 3.0068],
      [0.0452, 3.1736],
      [0.0905, 3.3275],
      [0.1457, 3.4287],
      [0.2814, 3.57],
      [0.4573, 3.6972],
      [0.8442, 4.0595],
      [0.9548, 4.1108],
      [1, 4.1881],
    ],
  ],
  [
    'larger',
    larger,
    [
      [0, 2.5199],
      [0.0151, 2.9068],
      [0.0452, 3.1409],
      [0.1106, 3.3301],
      [0.1809, 3.4544],
      [0.3116, 3.586],
      [0.4824, 3.7012],
      [0.8492, 4.0666],
      [0.9598, 4.1238],
      [1, 4.1943],
    ],
  ],
]

/** How far a cell may be off the curve unless more is stated, V: stated here too, so that a wider one would have to be told. */
const spreadTaken = (q: number) => 0.03 + 0.05 * Math.min(1, Math.max(0, (0.25 - q) / 0.15))
const cell = readCell({
  ...exampleCells['high-drain cylindrical cell'],
  openCircuitSpread: exact(0),
  openCircuitSpreadEmpty: exact(0),
})

/** What feeds a rail. */
export const checks: PublishedCheck[] = [
  point('OCV-NMC-05', 'NMC 21700', 0.0452, 3.1461),
  point('OCV-NMC-29', 'NMC 21700', 0.2915, 3.5737),
  point('OCV-NMC-83', 'NMC 21700', 0.8342, 4.0637),
  point('OCV-LFP-05', 'LFP cylindrical', 0.0534, 3.0872),
  point('OCV-LFP-98', 'LFP cylindrical', 0.9833, 3.3511),
  ...others.flatMap(([id, source, points]) =>
    points.map(
      ([q, printed]): PublishedCheck => ({
        id: `OCV-${id}-${Math.round(100 * q)}`,
        package: 'supply',
        source,
        quantity: `open-circuit voltage of another cell at ${q * 100} % of the charge, by the curve for such cells`,
        unit: 'V',
        printed,
        // Another cell than the one of the curve.
        tolerance: spreadTaken(q),
        compute: () => valueAt(publishedCurves['NMC 21700'], q),
        remark: `held to the ${Math.round(1000 * spreadTaken(q))} mV that a cell is taken to be off its curve at most; in the last 2 % of the charge one cell lies 0.2 V above it`,
      }),
    ),
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
