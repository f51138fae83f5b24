import { propagate, simulate } from '@ohmward/budget'
import type { Distribution, Spread } from '@ohmward/quantity'
import type { PublishedCheck } from '../check.js'

const spread = (lower: number, upper: number, distribution: Distribution): Spread => ({
  nominal: (lower + upper) / 2,
  lower,
  upper,
  distribution,
})
const normal = (mean: number, u: number) => spread(mean - u, mean + u, { kind: 'normal', coverage: 1 })
const rectangular = (lower: number, upper: number) => spread(lower, upper, { kind: 'rectangular' })
const student = (mean: number, scale: number, degreesOfFreedom: number) =>
  spread(mean - scale, mean + scale, { kind: 't', coverage: 1, degreesOfFreedom })

/** Enough points for the digits that are printed. */
const fine = { accuracy: 0.001 }

const four = <T>(input: T) => ({ a: input, b: input, c: input, d: input })
const sum = (x: { a: number; b: number; c: number; d: number }) => x.a + x.b + x.c + x.d

const mass = {
  m_Rc: normal(100_000, 0.05),
  dm_Rc: normal(1.234, 0.02),
  rho_a: rectangular(1.1, 1.3),
  rho_W: rectangular(7000, 9000),
  rho_R: rectangular(7950, 8050),
}
const massDeviation = (x: Record<keyof typeof mass, number>) =>
  (x.m_Rc + x.dm_Rc) * (1 + (x.rho_a - 1.2) * (1 / x.rho_W - 1 / x.rho_R)) - 100_000

/** Curvilinear trapezoids are drawn as what they are: a rectangle whose limits are themselves rectangular. */
const gauge = {
  l_s: student(50_000_623, 25, 18),
  D: student(215, 6, 24),
  d_1: student(0, 4, 5),
  d_2: student(0, 7, 8),
  alpha_s: rectangular(9.5e-6, 13.5e-6),
  theta_0: normal(-0.1, 0.2),
  Delta: spread(-0.5, 0.5, { kind: 'arcsine' }),
  dalpha: rectangular(-1, 1),
  dalpha_limit: rectangular(0.9e-6, 1.1e-6),
  dtheta: rectangular(-1, 1),
  dtheta_limit: rectangular(0.025, 0.075),
}
const gaugeLength = (x: Record<keyof typeof gauge, number>) => {
  const theta = x.theta_0 + x.Delta
  const dalpha = x.dalpha * x.dalpha_limit
  const dtheta = x.dtheta * x.dtheta_limit
  const d = x.D + x.d_1 + x.d_2
  return x.l_s + d - x.l_s * (dalpha * theta + x.alpha_s * dtheta) - 50_000_000
}

const memory = { package: 'budget', fromMemory: true } as const
/** Tables 2 and 3 of the supplement, as the tests of an uncertainty library of a national laboratory quote them. */
const quoted = { package: 'budget' } as const
const where = 'quoted in an uncertainty library of a national laboratory'
const root3 = Math.sqrt(3)

const additive: PublishedCheck[] = [
  {
    ...quoted,
    id: 'S1-9.2.2-u',
    source: `JCGM 101:2008, 9.2.2, ${where}`,
    quantity: 'u of a sum of four N(0, 1)',
    unit: '1',
    printed: 2,
    tolerance: 0.05,
    compute: () => simulate(four(normal(0, 1)), sum, fine).u,
  },
  ...([0, 1] as const).map(
    (end): PublishedCheck => ({
      ...quoted,
      id: `S1-9.2.2-${end ? 'upper' : 'lower'}`,
      source: `JCGM 101:2008, 9.2.2, ${where}`,
      quantity: `${end ? 'upper' : 'lower'} end of the 95 % interval, sum of four N(0, 1)`,
      unit: '1',
      printed: end ? 3.92 : -3.92,
      tolerance: 0.005,
      compute: () => simulate(four(normal(0, 1)), sum, fine).interval[end],
    }),
  ),
  ...([0, 1] as const).map(
    (end): PublishedCheck => ({
      ...quoted,
      id: `S1-9.2.3-${end ? 'upper' : 'lower'}`,
      source: `JCGM 101:2008, 9.2.3, ${where}`,
      quantity: `${end ? 'upper' : 'lower'} end of the 95 % interval, sum of four rectangular inputs`,
      unit: '1',
      printed: end ? 3.88 : -3.88,
      tolerance: 0.005,
      compute: () => simulate(four(rectangular(-root3, root3)), sum, fine).interval[end],
      remark: 'Exactly 2·√3·(2 - (3/5)^(1/4)) = 3.8794',
    }),
  ),
  {
    ...memory,
    id: 'S1-9.2.3-linear',
    source: 'JCGM 101:2008, 9.2.3',
    quantity: 'upper end that linear propagation gives the same sum',
    unit: '1',
    printed: 3.92,
    tolerance: 0.005,
    compute: () => propagate(four(rectangular(-root3, root3)), sum).interval[1],
  },
]

const calibration: PublishedCheck[] = [
  {
    ...memory,
    id: 'S1-9.3-estimate',
    source: 'JCGM 101:2008, 9.3',
    quantity: 'mean deviation of a mass',
    unit: 'mg',
    printed: 1.234,
    tolerance: 0.0005,
    compute: () => simulate(mass, massDeviation, fine).mean,
  },
  {
    ...memory,
    id: 'S1-9.3-u',
    source: 'JCGM 101:2008, 9.3',
    quantity: 'u of the deviation of a mass, second order and all',
    unit: 'mg',
    printed: 0.0754,
    tolerance: 0.00015,
    compute: () => simulate(mass, massDeviation, fine).u,
    remark: 'Printed from half a million trials: their own standard error, 0.0001, is added to half a digit',
  },
  {
    ...memory,
    id: 'S1-9.3-linear-u',
    source: 'JCGM 101:2008, 9.3',
    quantity: 'u that linear propagation gives the same',
    unit: 'mg',
    printed: 0.0539,
    tolerance: 0.00005,
    compute: () => propagate(mass, massDeviation).u,
  },
  ...([0, 1] as const).map(
    (end): PublishedCheck => ({
      ...memory,
      id: `S1-9.3-shortest-${end ? 'upper' : 'lower'}`,
      source: 'JCGM 101:2008, 9.3',
      quantity: `${end ? 'upper' : 'lower'} end of the shortest 95 % interval of the deviation of a mass`,
      unit: 'mg',
      printed: end ? 1.3825 : 1.0834,
      tolerance: 0.003,
      compute: () => simulate(mass, massDeviation, fine).shortest[end],
      remark: 'The place of a shortest interval of a symmetric density is hardly determined; its width is',
    }),
  ),
  {
    ...memory,
    id: 'S1-9.3-shortest-width',
    source: 'JCGM 101:2008, 9.3',
    quantity: 'width of the shortest 95 % interval of the deviation of a mass',
    unit: 'mg',
    printed: 0.2991,
    tolerance: 0.001,
    compute: () => {
      const [lower, upper] = simulate(mass, massDeviation, fine).shortest
      return upper - lower
    },
    remark: 'Difference of the printed ends 1.3825 and 1.0834; simulated there too, to about 0.0005 each',
  },
]

const gaugeBlock: PublishedCheck[] = [
  {
    ...memory,
    id: 'S1-9.5-estimate',
    source: 'JCGM 101:2008, 9.5',
    quantity: 'length of a gauge block beyond 50 mm',
    unit: 'nm',
    printed: 838,
    tolerance: 0.5,
    compute: () => simulate(gauge, gaugeLength, { accuracy: 0.004 }).mean,
  },
  {
    ...memory,
    id: 'S1-9.5-u',
    source: 'JCGM 101:2008, 9.5',
    quantity: 'u of the length of a gauge block',
    unit: 'nm',
    printed: 36,
    tolerance: 0.5,
    compute: () => simulate(gauge, gaugeLength, { accuracy: 0.004 }).u,
  },
]

/** Standard deviations that JCGM 101 gives in closed form, from one simulated input each. */
const shapes: [id: string, clause: string, Spread, u: number][] = [
  ['rectangular', '6.4.2.3', rectangular(1, 3), Math.sqrt(4 / 12)],
  ['trapezoidal', '6.4.4.3', spread(1, 3, { kind: 'trapezoidal', top: 0.4 }), Math.sqrt((4 / 24) * (1 + 0.4 ** 2))],
  ['triangular', '6.4.5.3', spread(1, 3, { kind: 'triangular' }), Math.sqrt(4 / 24)],
  ['arcsine', '6.4.6.2', spread(1, 3, { kind: 'arcsine' }), Math.sqrt(4 / 8)],
  ['normal', '6.4.7.3', normal(2, 0.3), 0.3],
  ['t', '6.4.9.3', student(2, 0.3, 10), 0.3 * Math.sqrt(10 / 8)],
]
const moments = shapes.flatMap(([id, clause, input, u]): PublishedCheck[] => [
  {
    ...memory,
    id: `S1-${clause}-mean`,
    source: `JCGM 101:2008, ${clause}`,
    quantity: `expectation of a ${id} input`,
    unit: '1',
    printed: 2,
    tolerance: 0.001,
    compute: () => simulate({ x: input }, ({ x }) => x, { trials: 60_000, method: 'quasi' }).mean,
    remark: 'Simulated: the tolerance is a few standard errors',
  },
  {
    ...memory,
    id: `S1-${clause}-u`,
    source: `JCGM 101:2008, ${clause}`,
    quantity: `standard deviation of a ${id} input`,
    unit: '1',
    printed: u,
    tolerance: 0.001,
    compute: () => simulate({ x: input }, ({ x }) => x, { trials: 60_000, method: 'quasi' }).u,
    remark: 'Formula of the clause; simulated: the tolerance is a few standard errors',
  },
])

export const checks: PublishedCheck[] = [...additive, ...calibration, ...gaugeBlock, ...moments]
