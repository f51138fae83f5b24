import { propagate, propagateAll, simultaneous } from '@ohmward/budget'
import type { PublishedCheck } from '../check.js'
import { even, known, rowsOf, sandia, shaped, share, zealand } from '../quoted.js'

// The gauge block of JCGM 100, H.1, in nm, as that library has it: the standard exactly 50 mm long.
const comparison = { d_1: known(0, 5.8, 24), d_2: known(0, 3.9, 5), d_3: known(0, 6.7, 8) }
const temperature = { mean: known(-0.1, 0.2), cycle: shaped(0, 0.5, 'arcsine') }
const block = {
  ...comparison,
  ...temperature,
  l_s: known(5e7, 25, 18),
  a_s: even(11.5e-6, 2e-6),
  da: even(0, 1e-6, 50),
  dt: even(0, 0.05, 2),
}
const compared = () => propagate(comparison, (x) => x.d_1 + x.d_2 + x.d_3)
const length = () =>
  propagate(block, (x) => x.l_s + x.d_1 + x.d_2 + x.d_3 - x.l_s * (x.da * (x.mean + x.cycle) + x.a_s * x.dt))
const gauge = rowsOf('MSL-H1', `JCGM 100:2008, H.1, in the ${zealand}`, [
  ['u-d', 'uncertainty of the difference of two gauge blocks', 'nm', 9.68194195397, 1e-8, () => compared().u],
  ['dof-d', 'its degrees of freedom', '1', 25.4472507774, 1e-6, () => compared().degreesOfFreedom!],
  [
    'u-t',
    'uncertainty of the temperature',
    'K',
    0.406201920232,
    1e-9,
    () => propagate(temperature, (x) => x.mean + x.cycle).u,
  ],
  ['c-da', 'contribution of the difference in expansion', 'nm', 2.88675134595, 1e-8, () => share(length(), 'da')],
  ['c-dt', 'contribution of the difference in temperature', 'nm', 16.5988202392, 1e-8, () => share(length(), 'dt')],
  ['u', 'uncertainty of the length', 'nm', 31.6637674111, 1e-7, () => length().u],
  ['dof', 'its effective degrees of freedom', '1', 16.7521475092, 1e-6, () => length().degreesOfFreedom!],
])

// JCGM 100, H.2: five readings each of a voltage, a current and a phase.
const volts = [5.007, 4.994, 5.005, 4.99, 4.999]
const amperes = [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3]
const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433]
const mean = (list: readonly number[]) => list.reduce((sum, x) => sum + x, 0) / list.length
const together = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, x, k) => sum + (x - mean(a)) * (b[k]! - mean(b)), 0)
const correlated = (a: readonly number[], b: readonly number[]) =>
  together(a, b) / Math.sqrt(together(a, a) * together(b, b))
const read = (list: readonly number[]) =>
  known(mean(list), Math.sqrt(together(list, list) / (list.length - 1) / list.length))
const impedance = (model: (x: { V: number; I: number; phi: number }) => number) =>
  propagate({ V: read(volts), I: read(amperes), phi: read(radians) }, model, {
    correlations: [
      { between: ['V', 'I'], coefficient: correlated(volts, amperes) },
      { between: ['V', 'phi'], coefficient: correlated(volts, radians) },
      { between: ['I', 'phi'], coefficient: correlated(amperes, radians) },
    ],
  })
const R = () => impedance((x) => (x.V / x.I) * Math.cos(x.phi))
const X = () => impedance((x) => (x.V / x.I) * Math.sin(x.phi))
const Z = () => impedance((x) => x.V / x.I)
const reactance = rowsOf('GUM-H2', `JCGM 100:2008, H.2, table H.4, quoted in ${sandia}`, [
  ['R', 'resistance of a circuit', 'ohm', 127.732, 0.0005, () => R().estimate],
  ['u-R', 'its uncertainty, from three correlated readings', 'ohm', 0.071, 0.0005, () => R().u],
  ['X', 'reactance of the same circuit', 'ohm', 219.847, 0.0005, () => X().estimate],
  ['u-X', 'uncertainty of the reactance', 'ohm', 0.295, 0.0006, () => X().u, 'Printed from rounded correlations.'],
  ['Z', 'impedance of the same circuit', 'ohm', 254.26, 0.0005, () => Z().estimate],
  ['u-Z', 'uncertainty of the impedance', 'ohm', 0.236, 0.0005, () => Z().u],
])

// Several outputs of one model: what they have in common.
const inCommon = (i: number, j: number) => {
  const { inputs, correlations } = simultaneous({ V: volts, I: amperes, phi: radians })
  const models = {
    R: (x: { V: number; I: number; phi: number }) => (x.V / x.I) * Math.cos(x.phi),
    X: (x: { V: number; I: number; phi: number }) => (x.V / x.I) * Math.sin(x.phi),
    Z: (x: { V: number; I: number }) => x.V / x.I,
  }
  return propagateAll(inputs, models, { correlations }).correlation[i]![j]!
}
const multivariate = rowsOf('GUM-H2-several', 'JCGM 100:2008, H.2, table H.3; JCGM 102:2011, 6.2', [
  ['r-RX', 'correlation of resistance and reactance of that circuit', '1', -0.588, 0.0005, () => inCommon(0, 1)],
  ['r-RZ', 'correlation of its resistance and impedance', '1', -0.485, 0.0005, () => inCommon(0, 2)],
  ['r-XZ', 'correlation of its reactance and impedance', '1', 0.993, 0.0005, () => inCommon(1, 2)],
]).map((one): PublishedCheck => ({ ...one, fromMemory: true }))

// The same circuit from the rounded means, uncertainties and correlations of table H.2.
const rounded = (model: (x: { V: number; I: number; phi: number }) => number) =>
  propagate({ V: known(4.999, 0.0032), I: known(0.019661, 9.5e-6), phi: known(1.04446, 0.00075) }, model, {
    correlations: [
      { between: ['V', 'I'], coefficient: -0.36 },
      { between: ['V', 'phi'], coefficient: 0.86 },
      { between: ['I', 'phi'], coefficient: -0.65 },
    ],
  }).u
const correlatedThree = rowsOf('MSL-H2', `JCGM 100:2008, table H.2, in the ${zealand}`, [
  [
    'u-R',
    'uncertainty of the resistance, inputs as printed',
    'ohm',
    0.0699787279884,
    1e-9,
    () => rounded((x) => (x.V / x.I) * Math.cos(x.phi)),
  ],
  [
    'u-X',
    'uncertainty of the reactance, inputs as printed',
    'ohm',
    0.295716826846,
    1e-9,
    () => rounded((x) => (x.V / x.I) * Math.sin(x.phi)),
  ],
  [
    'u-Z',
    'uncertainty of the impedance, inputs as printed',
    'ohm',
    0.236602971835,
    1e-9,
    () => rounded((x) => x.V / x.I),
  ],
])

export const checks: PublishedCheck[] = [...gauge, ...reactance, ...multivariate, ...correlatedThree]
