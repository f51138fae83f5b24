import { describe, expect, it } from 'vitest'
import { rootsOf } from '../src/waveform/modes/roots.js'
import { uniform } from './reference.js'

/** A root, or a conjugate pair by its upper half. */
type Root = readonly [re: number, im: number]

/** Coefficients from the constant upwards of the polynomial that has given roots: multiplied out, the only other road there is. */
function polynomial(roots: readonly Root[]): number[] {
  let p = [1]
  const times = (factor: readonly number[]) => {
    const product = new Array<number>(p.length + factor.length - 1).fill(0)
    p.forEach((a, i) => {
      factor.forEach((b, k) => {
        product[i + k]! += a * b
      })
    })
    p = product
  }
  for (const [x, y] of roots) times(y === 0 ? [-x, 1] : [x * x + y * y, -2 * x, 1])
  return p
}

/** The same at a point, from its factors. */
function exactly(roots: readonly Root[]) {
  return (x: number, y: number): readonly [number, number] => {
    let [re, im] = [1, 0]
    const times = (a: number, b: number) => {
      ;[re, im] = [re * a - im * b, re * b + im * a]
    }
    for (const [r, i] of roots) {
      times(x - r, y - i)
      if (i !== 0) times(x - r, y + i)
    }
    return [re, im]
  }
}

const farthest = (wanted: readonly Root[], { re, im }: { re: readonly number[]; im: readonly number[] }): number =>
  Math.max(...wanted.map(([x, y]) => Math.min(...re.map((r, j) => Math.hypot(r - x, im[j]! - y) / Math.hypot(x, y)))))

describe('natural modes', () => {
  const random = uniform(17)
  const log = (from: number, to: number): number => from * (to / from) ** random()
  /** Roots of a passive circuit, real ones and pairs, seven decades apart at most, none within a third of another. */
  const draw = (degree: number): Root[] => {
    const roots: Root[] = []
    while (roots.length < degree) {
      const size = log(1e2, 1e9)
      const isPair = random() < 0.4 && roots.length + 2 <= degree
      const angle = isPair ? 0.2 + 1.3 * random() : 0
      const root: Root = [-size * Math.cos(angle), isPair ? size * Math.sin(angle) : 0]
      if (roots.some(([x, y]) => Math.hypot(x - root[0], y - root[1]) < 0.3 * Math.hypot(x, y))) continue
      roots.push(root)
      if (isPair) degree--
    }
    return roots
  }

  it.each([2, 3, 4, 5, 7])('of a polynomial of degree %d that was multiplied out from them', (degree) => {
    for (let n = 0; n < 300; n++) {
      const wanted = draw(degree)
      const found = rootsOf(polynomial(wanted), exactly(wanted), true)
      expect(found.re.length, JSON.stringify(wanted)).toBe(wanted.length)
      expect(farthest(wanted, found), JSON.stringify(wanted)).toBeLessThan(1e-11)
      expect([...found.re]).toEqual([...found.re].sort((a, b) => a - b))
      expect(found.im.every((y) => y >= 0)).toBe(true)
    }
  })

  it('three that crowd together are told apart from the factors', () => {
    for (const near of [1e-2, 1e-3, 1e-4]) {
      const wanted: Root[] = [
        [-1e5, 0],
        [-1e5 * (1 + near), 0],
        [-1e5 * (1 - near), 0],
      ]
      expect(farthest(wanted, rootsOf(polynomial(wanted), exactly(wanted), false))).toBeLessThan(1e-11)
    }
  })
})
