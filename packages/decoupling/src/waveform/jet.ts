import type { Signal } from './signal.js'

/** A signal made ready to be asked often for its value, slope and curvature together, and for bounds on them. */
export interface Jet {
  /** Sets {@link Jet.value}, {@link Jet.slope} and {@link Jet.bend} for a time. */
  readonly to: (t: number) => void
  value: number
  slope: number
  bend: number
  /** Sets the three bounds below, which hold from a time on. */
  readonly bound: (t: number) => void
  /** Largest size of the modes' sum. */
  most: number
  /** Largest size of the curvature, and of its rate of change. */
  mostBend: number
  mostTwist: number
}

/** Evaluates each exponential once for all derivatives. */
export function jetOf({ constant, slope, curve, roots, re, im }: Signal): Jet {
  const n = re.length
  const table = new Float64Array(n * 9)
  for (let j = 0; j < n; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    const weight = y === 0 ? 1 : 2
    let a = weight * re[j]!
    let b = weight * im[j]!
    const size = Math.sqrt(a * a + b * b)
    const square = x * x + y * y
    for (let k = 0; k < 3; k++) {
      table[9 * j + 2 * k] = a
      table[9 * j + 2 * k + 1] = b
      const next = a * x - b * y
      b = a * y + b * x
      a = next
    }
    table[9 * j + 6] = size
    table[9 * j + 7] = size * square
    table[9 * j + 8] = size * square * Math.sqrt(square)
  }
  const jet: Jet = {
    value: 0,
    slope: 0,
    bend: 0,
    most: 0,
    mostBend: 0,
    mostTwist: 0,
    to(t) {
      let [v, d, dd] = [constant + t * (slope + t * curve), slope + 2 * t * curve, 2 * curve]
      for (let j = 0; j < n; j++) {
        const decay = Math.exp(roots.re[j]! * t)
        const y = roots.im[j]!
        const c = y === 0 ? decay : decay * Math.cos(y * t)
        const s = y === 0 ? 0 : decay * Math.sin(y * t)
        const k = 9 * j
        v += table[k]! * c - table[k + 1]! * s
        d += table[k + 2]! * c - table[k + 3]! * s
        dd += table[k + 4]! * c - table[k + 5]! * s
      }
      jet.value = v
      jet.slope = d
      jet.bend = dd
    },
    bound(t) {
      let [zero, two, three] = [0, 2 * Math.abs(curve), 0]
      for (let j = 0; j < n; j++) {
        const decay = Math.exp(roots.re[j]! * t)
        zero += table[9 * j + 6]! * decay
        two += table[9 * j + 7]! * decay
        three += table[9 * j + 8]! * decay
      }
      jet.most = zero
      jet.mostBend = two
      jet.mostTwist = three
    },
  }
  return jet
}
