import { InputError } from '@ohmward/quantity'

/** Ratio of two polynomials of degree 7, lowest power first; the denominator's first coefficient is 1. */
function rational(x: number, [a, b]: readonly [readonly number[], readonly number[]]): number {
  let above = a[7]!
  let below = b[7]!
  for (let i = 6; i >= 0; i--) {
    above = above * x + a[i]!
    below = below * x + b[i]!
  }
  return above / below
}

const middle = [
  [
    3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
    33430.57558358813, 2509.0809287301227,
  ],
  [
    1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271,
    28729.085735721943, 5226.495278852854,
  ],
] as const
const side = [
  [
    1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684,
    0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
  ],
  [
    1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
    0.0005475938084995345, 1.0507500716444169e-9,
  ],
] as const
const tail = [
  [
    6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
    0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
  ],
  [
    1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 1.8463183175100548e-5,
    1.421511758316446e-7, 2.0442631033899397e-15,
  ],
] as const

/**
 * Quantile of the standard normal distribution, to about 1 part in 10¹⁶ (M. J. Wichura, Algorithm AS 241, Applied
 * Statistics 37, 1988).
 *
 * @param p - probability, 0 and 1 excluded
 * @throws InputError for any other p
 */
export function normalQuantile(p: number): number {
  if (!(typeof p === 'number' && p > 0 && p < 1))
    throw new InputError({ field: 'p', value: p, allowed: 'more than 0 and less than 1' })
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) return q * rational(0.180625 - q * q, middle)
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p))
  const z = r <= 5 ? rational(r - 1.6, side) : rational(r - 5, tail)
  return q < 0 ? -z : z
}

/** Density of the standard normal distribution. */
export function normalDensity(z: number): number {
  if (typeof z !== 'number' || Number.isNaN(z)) throw new InputError({ field: 'z', value: z, allowed: 'a number' })
  return Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)
}

/**
 * Probability that a standard normal variable is at most `z`, to double precision in both tails.
 *
 * Up to 1.5 the series of Φ(z) - ½ in positive terms, beyond it Laplace's continued fraction of the tail (Abramowitz
 * and Stegun, 26.2.11 and 26.2.14), which needs the fewer terms the further out it is.
 *
 * @throws InputError for what is no number
 */
export function normalProbability(z: number): number {
  if (typeof z !== 'number' || Number.isNaN(z)) throw new InputError({ field: 'z', value: z, allowed: 'a number' })
  const x = Math.abs(z)
  if (x < 1.5) {
    let term = x
    let sum = x
    for (let n = 3; term > sum * 1e-17; n += 2) {
      term *= (x * x) / n
      sum += term
    }
    const half = normalDensity(x) * sum
    return z < 0 ? 0.5 - half : 0.5 + half
  }
  let below = x
  for (let n = Math.ceil(450 / (x * x)) + 14; n > 0; n--) below = x + n / below
  const upper = normalDensity(x) / below
  return z < 0 ? upper : 1 - upper
}
