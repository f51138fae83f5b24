import { type LinearBudget, propagate } from '@ohmward/budget'
import { conformity, globalRisks, moments, normalQuantile, studentQuantile } from '@ohmward/budget/statistics'
import type { Distribution, Spread } from '@ohmward/quantity'
import type { PublishedCheck } from '../check.js'
import { even, known, type Row, rowsOf } from '../quoted.js'

/** Checks that share a document; recalled, not read, but for the table of t and for what is `quoted`. */
const of = (prefix: string, document: string, rows: readonly Row[]): PublishedCheck[] =>
  rowsOf(prefix, document, rows).map((one) => ({ ...one, fromMemory: true }))

const library = 'an uncertainty library of a national laboratory'
/** Those of these places that were read where another document or its tests quote them. */
const quoted = (checks: readonly PublishedCheck[], where: string, ...places: readonly string[]): PublishedCheck[] =>
  checks.map(({ fromMemory, ...read }) =>
    places.length === 0 || places.some((place) => read.id.endsWith(`-${place}`))
      ? { ...read, source: `${read.source}, quoted in ${where}` }
      : { ...read, fromMemory: true },
  )

const spread = (nominal: number, half: number, distribution: Distribution, degreesOfFreedom?: number): Spread => ({
  nominal,
  lower: nominal - half,
  upper: nominal + half,
  distribution,
  ...(degreesOfFreedom !== undefined && { degreesOfFreedom }),
})
const contribution = (budget: LinearBudget, input: string) =>
  Math.abs(budget.contributions.find((line) => line.input === input)!.contribution)

// H.1: lengths in nm, temperatures in kelvin.
const comparison = { d: known(215, 5.8, 24), d_1: known(0, 3.9, 5), d_2: known(0, 6.7, 8) }
const temperature = { t_m: known(-0.1, 0.2), cycle: spread(0, 0.5, { kind: 'arcsine' }) }
const standard = {
  l_s: spread(50_000_623, 75, { kind: 'normal', coverage: 3 }, 18),
  a_s: even(11.5e-6, 2e-6),
  da: even(0, 1e-6, 50),
  dt: even(0, 0.05, 2),
}
const difference = () => propagate(comparison, (x) => x.d + x.d_1 + x.d_2)
const gauge = () =>
  propagate(
    { ...standard, ...comparison, ...temperature },
    (x) => x.l_s + x.d + x.d_1 + x.d_2 - x.l_s * (x.da * (x.t_m + x.cycle) + x.a_s * x.dt),
    { level: 0.99 },
  )
const expansion = (inputs: Partial<typeof standard & typeof temperature>) => {
  const fixed = { l_s: 50_000_623, a_s: 11.5e-6, da: 0, dt: 0, t_m: -0.1, cycle: 0 }
  return propagate({ ...fixed, ...inputs }, (x) => -x.l_s * (x.da * (x.t_m + x.cycle) + x.a_s * x.dt)).secondOrder
}
const gaugeBlock = of('GUM-H1', 'JCGM 100:2008, H.1', [
  ['u-d', 'uncertainty of the difference', 'nm', 9.7, 0.05, () => difference().u],
  [
    'dof-d',
    'degrees of freedom of the difference',
    '1',
    25.6,
    0.2,
    () => difference().degreesOfFreedom!,
    'Printed from 9.7, rounded.',
  ],
  ['u-t', 'uncertainty of the temperature', 'K', 0.41, 0.005, () => propagate(temperature, (x) => x.t_m + x.cycle).u],
  ['c-ls', 'contribution of the standard', 'nm', 25, 0.5, () => contribution(gauge(), 'l_s')],
  ['c-da', 'contribution of the difference in expansion', 'nm', 2.9, 0.05, () => contribution(gauge(), 'da')],
  ['c-dt', 'contribution of the difference in temperature', 'nm', 16.6, 0.05, () => contribution(gauge(), 'dt')],
  ['c-as', 'contribution of the expansion coefficient', 'nm', 0, 1e-6, () => contribution(gauge(), 'a_s')],
  ['c-t', 'contribution of the temperature', 'nm', 0, 1e-6, () => contribution(gauge(), 'cycle')],
  ['l', 'length', 'nm', 50_000_838, 0.5, () => gauge().estimate],
  ['u', 'combined standard uncertainty', 'nm', 32, 0.5, () => gauge().u],
  ['u2', 'variance', 'nm^2', 1002, 1, () => gauge().u ** 2, 'The printed sum is of rounded terms.'],
  [
    'dof',
    'effective degrees of freedom',
    '1',
    16.7,
    0.1,
    () => gauge().degreesOfFreedom!,
    'Printed from rounded terms.',
  ],
  ['t99', 'coverage factor for 16 degrees of freedom', '1', 2.92, 0.005, () => studentQuantile(0.995, 16)],
  [
    'U99',
    'expanded uncertainty',
    'nm',
    93,
    1,
    () => studentQuantile(0.995, Math.floor(gauge().degreesOfFreedom!)) * gauge().u,
    'Degrees of freedom cut to 16 as printed there; printed from 2.92 times 32, both rounded.',
  ],
  [
    'second-da',
    'second-order term of expansion and temperature',
    'nm',
    11.7,
    0.05,
    () => expansion({ da: standard.da, ...temperature }),
  ],
  [
    'second-as',
    'second-order term of coefficient and temperature difference',
    'nm',
    1.7,
    0.05,
    () => expansion({ a_s: standard.a_s, dt: standard.dt }),
  ],
  [
    'u-second',
    'standard uncertainty with second-order terms',
    'nm',
    34,
    0.5,
    () => Math.hypot(gauge().u, gauge().secondOrder),
  ],
])

// H.3: a straight line through eleven corrections, each with the printed standard deviation of the fit.
const readings = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511]
const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16]
const points = Object.fromEntries(corrections.map((b, k) => [`b_${k}`, known(b, 0.0035)]))
const line = (x: Readonly<Record<string, number>>): [intercept: number, slope: number] => {
  const from20 = readings.map((t) => t - 20)
  const mean = from20.reduce((sum, t) => sum + t, 0) / readings.length
  const squares = from20.reduce((sum, t) => sum + (t - mean) ** 2, 0)
  const slope = from20.reduce((sum, t, k) => sum + (t - mean) * x[`b_${k}`]!, 0) / squares
  const middle = from20.reduce((sum, _, k) => sum + x[`b_${k}`]!, 0) / readings.length
  return [middle - slope * mean, slope]
}
const at30 = () =>
  propagate({ y_1: known(-0.1712, 0.0029), y_2: known(0.00218, 0.00067) }, (x) => x.y_1 + x.y_2 * 10, {
    correlations: [{ between: ['y_1', 'y_2'], coefficient: -0.93 }],
  })
const thermometer = of('GUM-H3', 'JCGM 100:2008, H.3', [
  ['y1', 'intercept', 'degC', -0.1712, 0.00005, () => propagate(points, (x) => line(x)[0]).estimate],
  ['u-y1', 'uncertainty of the intercept', 'degC', 0.0029, 0.00005, () => propagate(points, (x) => line(x)[0]).u],
  ['y2', 'slope', '1', 0.00218, 0.000005, () => propagate(points, (x) => line(x)[1]).estimate],
  ['u-y2', 'uncertainty of the slope', '1', 0.00067, 0.000005, () => propagate(points, (x) => line(x)[1]).u],
  ['b30', 'correction at 30 degC', 'degC', -0.1494, 0.00005, () => at30().estimate],
  ['u-b30', 'uncertainty of it, with correlation', 'degC', 0.0041, 0.00005, () => at30().u],
])

// The same table as G.2 of the guide: degrees of freedom, then t by the fraction in percent.
const levels = [68.27, 90, 95, 95.45, 99, 99.73]
const student = `
1 1.84 6.31 12.71 13.97 63.66 235.80
2 1.32 2.92 4.30 4.53 9.92 19.21
3 1.20 2.35 3.18 3.31 5.84 9.22
4 1.14 2.13 2.78 2.87 4.60 6.62
5 1.11 2.02 2.57 2.65 4.03 5.51
6 1.09 1.94 2.45 2.52 3.71 4.90
7 1.08 1.89 2.36 2.43 3.50 4.53
8 1.07 1.86 2.31 2.37 3.36 4.28
9 1.06 1.83 2.26 2.32 3.25 4.09
10 1.05 1.81 2.23 2.28 3.17 3.96
11 1.05 1.80 2.20 2.25 3.11 3.85
12 1.04 1.78 2.18 2.23 3.05 3.76
13 1.04 1.77 2.16 2.21 3.01 3.69
14 1.04 1.76 2.14 2.20 2.98 3.64
15 1.03 1.75 2.13 2.18 2.95 3.59
16 1.03 1.75 2.12 2.17 2.92 3.54
17 1.03 1.74 2.11 2.16 2.90 3.51
18 1.03 1.73 2.10 2.15 2.88 3.48
19 1.03 1.73 2.09 2.14 2.86 3.45
20 1.03 1.72 2.09 2.13 2.85 3.42
25 1.02 1.71 2.06 2.11 2.79 3.33
30 1.02 1.70 2.04 2.09 2.75 3.27
35 1.01 1.70 2.03 2.07 2.72 3.23
40 1.01 1.68 2.02 2.06 2.70 3.20
45 1.01 1.68 2.01 2.06 2.69 3.18
50 1.01 1.68 2.01 2.05 2.68 3.16
100 1.005 1.660 1.984 2.025 2.626 3.077`
const odd: Readonly<Record<string, readonly [tolerance: number, remark: string]>> = {
  '1-99.73': [0.025, 'Printed for the probability of three standard deviations, 0.9973002.'],
  '35-90': [0.011, 'Printed 1.70; to four digits it is 1.690.'],
}
const tableB1 = of(
  'TN1297-B1',
  'NIST Technical Note 1297 (1994), table B.1',
  student
    .trim()
    .split('\n')
    .flatMap((text) => {
      const [dof, ...row] = text.split(' ')
      return row.map((printed, column): Row => {
        const level = levels[column]!
        const place = `${dof}-${level}`
        const [tolerance = dof === '100' ? 0.0005 : 0.005, remark] = odd[place] ?? []
        return [
          place,
          `t for ${dof} degrees of freedom, ${level} %`,
          '1',
          Number(printed),
          tolerance,
          () => studentQuantile(0.5 + level / 200, Number(dof)),
          remark,
        ]
      })
    }),
).map(({ fromMemory: _, ...read }) => read)

const product = () =>
  propagate(
    { X_1: known(1, 0.0025, 9), X_2: known(1, 0.0057, 4), X_3: known(1, 0.0082, 14) },
    (x) => x.X_1 * x.X_2 * x.X_3,
  )
const others = of('GUM-text', 'JCGM 100:2008', [
  ['G4-u', 'G.4.1: relative standard uncertainty of a product', '%', 1.03, 0.005, () => product().u * 100],
  ['G4-dof', 'G.4.1: effective degrees of freedom', '1', 19, 0.05, () => product().degreesOfFreedom!],
  ['G4-t', 'G.4.1: coverage factor', '1', 2.09, 0.005, () => product().k],
  ['G4-U', 'G.4.1: relative expanded uncertainty', '%', 2.2, 0.05, () => product().expanded * 100],
  ['434-u', '4.3.4: uncertainty of a certified resistor', 'uohm', 50, 0.5, () => certified().u * 1e6],
  ['434-r', '4.3.4: relative uncertainty', '1e-6', 5, 0.05, () => (certified().u / certified().mean) * 1e6],
  ['437-a', '4.3.7: expansion of copper', '1e-6/K', 0.23, 0.005, () => moments(even(16.52, 0.4)).u],
  ['437-a2', '4.3.7: variance', '1e-15/K^2', 53.3, 0.05, () => moments(even(16.52e-6, 0.4e-6)).u ** 2 * 1e15],
  ['437-v', '4.3.7: voltmeter by its specification', 'uV', 8.7, 0.05, () => moments(meter).u * 1e6],
  ['437-v2', '4.3.7: variance', '1e-12 V^2', 75, 0.5, () => moments(meter).u ** 2 * 1e12],
  ['515-u', '5.1.5: combined with the observations', 'uV', 15, 0.5, () => voltage().u * 1e6],
  ['515-u2', '5.1.5: variance', '1e-12 V^2', 219, 0.5, () => voltage().u ** 2 * 1e12],
  ['515-r', '5.1.5: relative uncertainty', '1e-6', 16, 0.5, () => (voltage().u / voltage().estimate) * 1e6],
  ['F221', 'F.2.2.1: resolution of a display, in steps', '1', 0.29, 0.005, () => moments(even(0, 0.5)).u],
])
const certified = () => moments(spread(10.000742, 129e-6, { kind: 'normal', coverage: normalQuantile(0.995) }))
const meter = even(0, 14e-6 * 0.928571 + 2e-6 * 1)
const voltage = () => propagate({ V: known(0.928571, 12e-6), dV: meter }, (x) => x.V + x.dV)

const mass = (level: number, dof?: number) => propagate({ m: known(100.02147, 0.35e-3, dof) }, (x) => x.m, { level })
const reporting = of('TN1297', 'NIST Technical Note 1297 (1994), section 7', [
  ['U', 'expanded uncertainty of a mass, k = 2', 'mg', 0.7, 0.005, () => mass(0.954499736).expanded * 1e3],
  ['k', 'coverage factor for 9 degrees of freedom', '1', 2.26, 0.005, () => mass(0.95, 9).k],
  ['U95', 'expanded uncertainty for 9 degrees of freedom', 'mg', 0.79, 0.005, () => mass(0.95, 9).expanded * 1e3],
])

const string = () =>
  propagate(
    {
      tape: spread(0, 5, { kind: 'normal', coverage: 2 }),
      resolution: even(0, 0.5),
      straight: even(0, 10),
      mean: known(10_000, 0.7),
    },
    (x) => x.tape + x.resolution + x.straight + x.mean,
    { level: 0.954499736 },
  )
const beginners = of('GPG11', 'NPL Good Practice Guide 11 (Bell), issue 2, 2001', [
  [
    'u',
    'length of a string: combined uncertainty',
    'mm',
    6.4,
    0.075,
    () => string().u,
    'Printed from rounded components.',
  ],
  ['U', 'expanded uncertainty, k = 2', 'mm', 12.8, 0.15, () => string().expanded, 'Printed from rounded components.'],
])

const oneSided: readonly (readonly [number, number])[] = [
  [0.8, 0.84],
  [0.9, 1.28],
  [0.95, 1.64],
  [0.99, 2.33],
  [0.999, 3.09],
]
const inspection = { process: { mean: 1500, u: 0.12 }, u: 0.04, tolerance: { lower: 1499.8, upper: 1500.2 } }
const conform = of('JCGM106', 'JCGM 106:2012', [
  [
    'zener',
    'conformance of a breakdown voltage',
    '1',
    0.92,
    0.005,
    () => conformity({ estimate: -5.47, u: 0.05 }, { upper: -5.4 }),
  ],
  [
    'burst',
    'conformance of a burst strength',
    '1',
    0.99,
    0.005,
    () => conformity({ estimate: 509.7, u: 8.6 }, { lower: 490 }),
  ],
  ...oneSided.map(
    ([p, z]): Row => [`z-${p}`, `table 1: one-sided quantile at ${p}`, '1', z, 0.005, () => normalQuantile(p)],
  ),
  ['resistors', 'resistors out of tolerance', '%', 10, 0.5, () => globalRisks(inspection).nonconforming * 100],
])

const weight = () =>
  propagate(
    {
      m_S: known(10_000.005, 22.5e-3),
      drift: known(0, 8.95e-3),
      dm: known(0.02, 14.4e-3),
      comparator: known(0, 5.77e-3),
      buoyancy: known(0, 5.77e-3),
    },
    (x) => x.m_S + x.drift + x.dm + x.comparator + x.buoyancy,
    { level: 0.954499736 },
  )
const calibration = of('EA402-S2', 'EA-4/02 (2013), example S2', [
  ['m', 'mass', 'g', 10_000.025, 0.0005, () => weight().estimate],
  ['u', 'standard uncertainty', 'mg', 29.3, 0.05, () => weight().u * 1e3],
  ['U', 'expanded uncertainty, k = 2', 'mg', 59, 0.5, () => weight().expanded * 1e3],
])

export const checks: PublishedCheck[] = [
  ...quoted(gaugeBlock, library, 'u-d', 'dof-d', 'c-ls', 'l', 'u', 'u-second'),
  ...quoted(thermometer, library),
  ...tableB1,
  ...others,
  ...reporting,
  ...beginners,
  ...conform,
  ...calibration,
]
