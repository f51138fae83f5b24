import { describe, expect, it } from 'vitest'
import { type LawText, lawOf } from '../src/junction/law.js'
import { type Balance, type Junction, lossAt, siliconEnd, solveJunction } from '../src/junction/solve.js'

const texts: LawText[] = [
  { kind: 'linear', perKelvin: 0.004 },
  { kind: 'power', exponent: 2.3 },
  {
    kind: 'points',
    points: [
      { celsius: -50, factor: 0.75 },
      { celsius: 25, factor: 1 },
      { celsius: 75, factor: 1.22 },
      { celsius: 125, factor: 1.5 },
      { celsius: 175, factor: 1.9 },
    ],
  },
]

/** A held current of `I` amperes into one device of 30 milliohm, 250 K/W, 40 °C. */
const held = (I: number): Balance => ({ T_a: 40, R_th: 250, P_0: 0, D: 1, R_on: 0.03, V: I, r: 1, k: 0 })

const temperature = (junction: Junction): number => {
  if (junction.kind === 'runaway') throw new Error(junction.reason)
  return junction.T_j
}

/**
 * An independent root finder: it walks up from the ambient in small steps until the heating is below the temperature,
 * then halves the step. It shares no line with the solver.
 */
function lowestRoot(x: Balance, factor: (celsius: number) => number): number | undefined {
  const excess = (T: number) => {
    const R = x.R_on * factor(T)
    return x.T_a + x.R_th * (x.P_0 + x.D * (x.V / (x.r + x.k * R)) ** 2 * R) - T
  }
  const step = 0.25
  for (let T = x.T_a; T < siliconEnd; T += step) {
    if (excess(T + step) > 0) continue
    let [a, b] = [T, T + step]
    for (let i = 0; i < 60; i++) {
      const middle = (a + b) / 2
      if (excess(middle) > 0) a = middle
      else b = middle
    }
    return (a + b) / 2
  }
  return undefined
}

/** The laws written a second time. */
const factors: Record<string, (celsius: number) => number> = {
  linear: (T) => 1 + 0.004 * (T - 25),
  power: (T) => Math.exp(2.3 * Math.log((T + 273.15) / 298.15)),
  points: (T) => {
    if (T < 25) return 1 + (0.25 / 75) * (T - 25)
    if (T < 75) return 1 + (0.22 / 50) * (T - 25)
    if (T < 125) return 1.22 + (0.28 / 50) * (T - 75)
    return 1.5 + (0.4 / 50) * (T - 125)
  },
}

describe('the junction in balance', () => {
  it('H05: is the closed form of a linear law at a held current', () => {
    const closed = (I: number) => {
      const p = 250 * I * I * 0.03
      return (40 + p * (1 - 25 * 0.004)) / (1 - p * 0.004)
    }
    for (const I of [0.1, 1, 3, 4, 4.5])
      expect(temperature(solveJunction(held(I), lawOf(texts[0]!)))).toBeCloseTo(closed(I), 9)
  })

  it('is what an independent root finder finds, for every law and for both kinds of load', () => {
    let seed = 12345
    const random = () => {
      seed = (seed * 1103515245 + 12345) % 2147483648
      return seed / 2147483648
    }
    const between = (a: number, b: number) => a * (b / a) ** random()
    const kinds = { balance: 0, runaway: 0 }
    for (let i = 0; i < 900; i++) {
      const text = texts[i % 3]!
      const x: Balance = {
        T_a: -40 + random() * 130,
        R_th: between(1, 1000),
        P_0: random() < 0.5 ? 0 : between(1e-3, 1),
        D: random(),
        R_on: between(1e-3, 3),
        V: between(1, 30),
        r: between(0.05, 50),
        k: random() < 0.5 ? 1 : 0,
      }
      const found = solveJunction(x, lawOf(text))
      const expected = lowestRoot(x, factors[text.kind]!)
      kinds[found.kind]++
      if (found.kind === 'runaway') expect(expected, JSON.stringify(x)).toBeUndefined()
      else {
        expect(Math.abs(found.T_j - expected!), JSON.stringify(x)).toBeLessThan(1e-6)
        const residual = x.T_a + x.R_th * lossAt(x, lawOf(text), found.T_j) - found.T_j
        expect(Math.abs(residual)).toBeLessThanOrEqual(1e-9 * (Math.abs(found.T_j) + 1))
      }
    }
    expect(Math.min(kinds.balance, kinds.runaway)).toBeGreaterThan(100)
  })

  it('takes the lower of two balances of a power law, where a cold start ends', () => {
    // Just below runaway the power law has two balances; the upper one is unstable.
    const x = held(2.75)
    const T = temperature(solveJunction(x, lawOf(texts[1]!)))
    const above = (celsius: number) => 40 + 250 * lossAt(x, lawOf(texts[1]!), celsius) - celsius
    expect(T).toBeLessThan(280)
    expect(above(T + 1)).toBeLessThan(0)
    expect(above(450)).toBeGreaterThan(0)
  })

  it('gives the loop gain: the slope of heating', () => {
    const junction = solveJunction(held(3), lawOf(texts[0]!))
    expect(junction.kind === 'balance' && junction.loopGain).toBeCloseTo(250 * 9 * 0.03 * 0.004, 12)
    const x: Balance = { ...held(3), V: 4.2, r: 0.8, k: 1, R_th: 60 }
    const law = lawOf(texts[1]!)
    const found = solveJunction(x, law)
    if (found.kind !== 'balance') throw new Error('no balance')
    const numeric = (60 * (lossAt(x, law, found.T_j + 0.01) - lossAt(x, law, found.T_j - 0.01))) / 0.02
    expect(found.loopGain).toBeCloseTo(numeric, 7)
  })

  it('stays at the ambient without loss', () => {
    expect(temperature(solveJunction({ ...held(3), D: 0 }, lawOf(texts[0]!)))).toBe(40)
  })

  it('H05: says runaway and why, never a huge number', () => {
    const linear = lawOf(texts[0]!)
    expect(solveJunction(held(6), linear)).toEqual({
      kind: 'runaway',
      reason: expect.stringMatching(/no balance at any/),
    })
    expect(solveJunction(held(5.5), linear)).toEqual({ kind: 'runaway', reason: expect.stringMatching(/above 500 °C/) })
    expect(solveJunction(held(2.78), lawOf(texts[1]!)).kind).toBe('runaway')
    expect(solveJunction(held(2.77), lawOf(texts[1]!)).kind).toBe('balance')
    expect(solveJunction(held(1000), linear).kind).toBe('runaway')
    // A resistive load limits the loss itself, so there is a balance, but none that silicon survives.
    expect(solveJunction({ ...held(1), V: 100, r: 1, k: 1 }, linear)).toEqual({
      kind: 'runaway',
      reason: expect.stringMatching(/above 500 °C/),
    })
  })
})
