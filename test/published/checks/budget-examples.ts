import { propagate, simulate } from '@ohmward/budget'
import { globalRisks, normalProbability, normalQuantile } from '@ohmward/budget/statistics'
import type { PublishedCheck } from '../check.js'
import { even, known, type Row, rowsOf, sandia, shaped, share, zealand } from '../quoted.js'

// The logarithm of a value that is anywhere from 0.1 to 1.1: what linear propagation can't follow.
const wide = { x: even(0.6, 0.5) }
const logarithm = ({ x }: { x: number }) => Math.log(x)
const simulated = () => simulate(wide, logarithm, { accuracy: 0.001 })
const step =
  'Slopes are taken over ± u (5.1.3, note 2); u is half of the value here, so that the slope is 1.4 % steeper.'
const nonlinear = rowsOf('NPL-log', `NPL Report DEM-ES-011, table 9.2, quoted in ${sandia}`, [
  ['linear', 'logarithm of 0.6 ± 0.5, linear', '1', -0.511, 0.0005, () => propagate(wide, logarithm).estimate],
  ['u-linear', 'its uncertainty, linear', '1', 0.481, 0.007, () => propagate(wide, logarithm).u, step],
  [
    'upper-linear',
    'upper end of its 95 % interval, linear',
    '1',
    0.432,
    0.0135,
    () => propagate(wide, logarithm).interval[1],
    step,
  ],
  ['mean', 'the same logarithm, simulated', '1', -0.665, 0.001, () => simulated().mean],
  ['u', 'its uncertainty, simulated', '1', 0.606, 0.001, () => simulated().u],
  ['lower', 'lower end of its shortest 95 % interval', '1', -1.895, 0.01, () => simulated().shortest[0]],
  ['upper', 'upper end of its shortest 95 % interval', '1', 0.095, 0.001, () => simulated().shortest[1]],
])

const expansion = () =>
  propagate(
    {
      L_0: known(1.4999, 1e-4, 3),
      T_0: known(288.15, 0.02, 3),
      L_1: known(1.5021, 2e-4, 3),
      T_1: known(373.1, 0.05, 3),
    },
    (x) => (x.L_1 - x.L_0) / (x.L_0 * (x.T_1 - x.T_0)),
  )
const constant = () =>
  propagate(
    {
      h: known(6.62606957e-34, 0.00000029e-34),
      R: known(8.3144621, 0.0000075),
      R_inf: known(10973731.568539, 0.000055),
      A_e: known(5.4857990946e-4, 0.0000000022e-4),
      alpha: known(7.2973525698e-3, 0.0000000024e-3),
    },
    (x) =>
      (32 * Math.PI ** 5 * x.h * x.R ** 4 * x.R_inf ** 4) /
      (15 * x.A_e ** 4 * 0.001 ** 4 * 299792458 ** 6 * x.alpha ** 8),
  )
const institute = rowsOf(
  'NIST',
  `examples of NIST Technical Note 1900 and of its uncertainty machine, quoted in ${sandia}`,
  [
    [
      'E13',
      'thermal expansion from two lengths and two temperatures',
      '1e-6/K',
      17.266,
      0.0005,
      () => expansion().estimate * 1e6,
    ],
    ['u-E13', 'its uncertainty', '1e-6/K', 1.76, 0.005, () => expansion().u * 1e6],
    [
      'SB',
      'constant of radiation from five others',
      '1e-8 W/(m^2*K^4)',
      5.67037,
      0.000005,
      () => constant().estimate * 1e8,
    ],
    ['u-SB', 'uncertainty of that constant', '1e-13 W/(m^2*K^4)', 2.05, 0.005, () => constant().u * 1e13],
  ],
)

// EURACHEM/CITAC guide, third edition: a calibration standard (A1) and a titration (A2).
const cadmium = () =>
  propagate(
    {
      P: even(0.9999, 0.0001),
      m: known(100.28, 0.05),
      flask: shaped(100, 0.1, 'triangular'),
      filled: known(0, 0.02),
      warmth: even(0, 0.084),
    },
    (x) => (1000 * x.m * x.P) / (x.flask + x.filled + x.warmth),
  )
const hydroxide = () =>
  propagate(
    {
      tare: even(0, 0.15e-3),
      gross: even(0, 0.15e-3),
      P: even(1, 0.0005),
      C: even(12.0107, 0.0008),
      H: even(1.00794, 0.00007),
      O: even(15.9994, 0.0003),
      K: even(39.0983, 0.0001),
      burette: shaped(0, 0.03, 'triangular'),
      warmth: known(0, 0.006),
      again: known(1, 0.0005),
    },
    (x) =>
      (x.again * 1000 * (0.3888 + x.gross - x.tare) * x.P) /
      ((8 * x.C + 5 * x.H + 4 * x.O + x.K) * (18.64 + x.burette + x.warmth)),
  )
const chemistry = rowsOf('QUAM', `EURACHEM/CITAC guide, third edition, in the ${zealand}`, [
  ['A1', 'concentration of a calibration standard', 'mg/L', 1002.7, 0.05, () => cadmium().estimate],
  ['A1-u', 'uncertainty of the standard', 'mg/L', 0.835199, 5e-7, () => cadmium().u],
  ['A1-m', 'contribution of the mass', 'mg/L', 0.49995, 5e-6, () => share(cadmium(), 'm')],
  ['A1-T', 'contribution of the temperature', 'mg/L', 0.486284, 5e-7, () => share(cadmium(), 'warmth')],
  ['A1-V', 'contribution of the flask, a triangle', 'mg/L', 0.40935, 5e-6, () => share(cadmium(), 'flask')],
  ['A1-rep', 'contribution of the filling', 'mg/L', 0.20054, 5e-6, () => share(cadmium(), 'filled')],
  ['A1-P', 'contribution of the purity', 'mg/L', 0.0578967, 5e-8, () => share(cadmium(), 'P')],
  ['A2', 'concentration of a titrated solution', 'mol/L', 0.102136159706, 1e-12, () => hydroxide().estimate],
  ['A2-u', 'uncertainty of the titration, from ten inputs', 'mol/L', 0.000100500722124, 1e-12, () => hydroxide().u],
  ['A2-R', 'contribution of the repetition', 'umol/L', 51.0681, 0.00005, () => share(hydroxide(), 'again') * 1e6],
  [
    'A2-V',
    'contribution of the burette, a triangle',
    'umol/L',
    67.1088,
    0.00005,
    () => share(hydroxide(), 'burette') * 1e6,
  ],
  ['A2-tare', 'contribution of the tare', 'umol/L', 22.7501, 0.00005, () => share(hydroxide(), 'tare') * 1e6],
  [
    'A2-C',
    'contribution of an atomic mass that counts eightfold',
    'umol/L',
    1.84798,
    5e-6,
    () => share(hydroxide(), 'C') * 1e6,
  ],
])

// Inspection of a process of which ±2 standard deviations are in tolerance, by a measurement so many times better.
const inspected = (better: number, limit: number) =>
  globalRisks({
    process: { mean: 0, u: 1 },
    u: 1 / better,
    tolerance: { lower: -2, upper: 2 },
    acceptance: { lower: -limit, upper: limit },
  })
const risks = rowsOf('RISK', `printed risks of an inspection, quoted in ${sandia}`, [
  ['4-accept', 'accepted though bad, four times better', '1', 0.008, 0.0005, () => inspected(4, 2).consumer],
  ['4-reject', 'rejected though good, four times better', '1', 0.015, 0.0005, () => inspected(4, 2).producer],
  [
    '2-accept',
    'accepted though bad, twice better, guarded to 0.91',
    '1',
    0.008,
    0.0005,
    () => inspected(2, 1.82).consumer,
  ],
  [
    '2-reject',
    'rejected though good, twice better, guarded to 0.91',
    '1',
    0.066,
    0.001,
    () => inspected(2, 1.82).producer,
  ],
])

// Fluorescence by X-rays: a ratio of two readings times a standard.
const fluorescence = () =>
  propagate(
    { X_1: known(0.182, 0.00093, 9), X_2: known(0.1823, 0.00058, 19), Y_u: known(0.6978, 0.0026, 19) },
    (x) => (x.X_1 / x.X_2) * x.Y_u,
  )
const course = rowsOf('XRF', `course notes on uncertainty, quoted in ${sandia}`, [
  ['y', 'share of a metal by fluorescence', '1', 0.6967, 0.0001, () => fluorescence().estimate],
  ['u', 'its uncertainty', '1', 0.00494, 0.00001, () => fluorescence().u],
  ['U', 'expanded by t at the effective degrees of freedom', '1', 0.0101, 0.0001, () => fluorescence().expanded],
])

const points = (
  [
    [0.1, 1.2816],
    [0.05, 1.6449],
    [0.025, 1.96],
    [0.01, 2.3263],
    [0.005, 2.5758],
    [0.001, 3.0902],
  ] as const
).map(
  ([tail, z]): Row => [
    `${tail}`,
    `normal quantile that leaves ${tail} above`,
    '1',
    z,
    0.00005,
    () => normalQuantile(1 - tail),
  ],
)
const areas = (
  [
    [-3.1, 0.001],
    [-2.05, 0.0202],
    [-1.28, 0.1003],
    [-0.9, 0.1841],
  ] as const
).map(([z, area]): Row => [`${z}`, `normal probability below ${z}`, '1', area, 0.00005, () => normalProbability(z)])
const normal = [
  ...rowsOf('NORMAL-z', 'table of the percentage points of the normal distribution, lesson on the web', points),
  ...rowsOf('NORMAL-p', 'table of the cumulative normal distribution, statistics tables on the web', areas),
]

export const checks: PublishedCheck[] = [...nonlinear, ...institute, ...chemistry, ...risks, ...course, ...normal]
