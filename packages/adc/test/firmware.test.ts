import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import {
  currentTarget,
  execute,
  type Integers,
  type LinearTarget,
  ofSum,
  type Proof,
  prove,
  type RationalTarget,
  railTarget,
  resistanceTarget,
  type Scaling,
  scaleLinear,
  scaleRational,
  type Target,
  targetAt,
  toC,
  toTypeScript,
} from '../src/index.js'

const possible = <I>(scaling: Scaling<I>): { integers: I; proof: Proof } => {
  if (scaling.kind === 'impossible') throw new Error(scaling.reason)
  return scaling
}

const largest = (...values: bigint[]): bigint => values.sort((a, b) => (a < b ? -1 : 1)).at(-1)!

/** 5 V over 10 bits in millivolts; a bidirectional sensor of 10 bits; a 12-bit sum of 16; 16 bits; rails; resistances. */
const millivolts: LinearTarget = { kind: 'linear', line: [5000 / 1024, 2500 / 1024] }
const current = currentTarget({ amperesPerCount: 0.0488, zeroCode: 512.3, half: 0.5, unit: 1e-3 })
const tens = currentTarget({ amperesPerCount: 0.0488, zeroCode: 512.3, half: 0.5, unit: 10e-3 })
const falling: LinearTarget = { kind: 'linear', line: [-3.7, 3000] }
const summed = ofSum(currentTarget({ amperesPerCount: 0.0061, zeroCode: 410, half: 0.5, unit: 1e-3 }), 16)
const rail = railTarget({ reference: 1.1, bits: 10, half: 0.5, unit: 1e-3 })
const tenths = railTarget({ reference: 1.1, bits: 10, half: 0.5, unit: 0.1 })
const resistance = resistanceTarget({ span: 47, lead: 0.05, fullScale: 1024 * 40.16, half: 0.5, unit: 1e-3 })
const unity = resistanceTarget({ span: 1000, lead: 0, fullScale: 65536, half: 0.5, unit: 1 })

const cases: [string, Target, { integers: Integers; proof: Proof }][] = [
  ['millivolts', millivolts, possible(scaleLinear(millivolts, { codes: 1023, word: 32 }))],
  ['milliamperes', current, possible(scaleLinear(current, { codes: 1023, word: 32 }))],
  ['tens_16', tens, possible(scaleLinear(tens, { codes: 1023, word: 16 }))],
  ['falling', falling, possible(scaleLinear(falling, { codes: 1023, word: 32 }))],
  ['falling_16', falling, possible(scaleLinear(falling, { codes: 1023, word: 16 }))],
  ['sum_of_16', summed, possible(scaleLinear(summed, { codes: 16 * 4095, word: 32 }))],
  [
    'flat',
    { kind: 'linear', line: [0, 7] },
    possible(scaleLinear({ kind: 'linear', line: [0, 7] }, { codes: 9, word: 32 })),
  ],
  ['rail_mv', rail, possible(scaleRational(rail, { codes: 1023, word: 32, largest: 6000, beyond: 65535 }))],
  ['tenths_16', tenths, possible(scaleRational(tenths, { codes: 1023, word: 16, largest: 60 }))],
  ['milliohms', resistance, possible(scaleRational(resistance, { codes: 1023, word: 32, largest: 2000 }))],
  ['ohms', unity, possible(scaleRational(unity, { codes: 65535, word: 32, largest: 60000, beyond: 65535 }))],
]

/** The constants run in whole numbers without limit: the result, the highest and the lowest intermediate value. */
function inWholeNumbers(x: Integers, c: bigint): { exact: number; peak?: bigint; low: bigint } {
  const line = ([perCode, constant]: readonly [number, number]) => BigInt(perCode) * c + BigInt(constant)
  const base = BigInt(x.base)
  if (x.kind === 'linear') {
    const acc = line([x.multiplier, x.add])
    const peak = largest(acc, BigInt(Math.abs(x.multiplier)) * c, BigInt(x.add))
    return { exact: Number((acc >> BigInt(x.shift)) - base), peak, low: acc }
  }
  if (c < BigInt(x.from) || c > BigInt(x.to)) return { exact: x.beyond, low: 0n }
  const [n, d] = [line(x.numerator), line(x.denominator)]
  const half = n + d / 2n
  return { exact: Number(half / d - base), peak: largest(half, d), low: n < d - 1n ? n : d - 1n }
}

describe('integers of every case', () => {
  it.each(cases)('%s: proved over every code, against exact arithmetic', (_, target, { integers, proof }) => {
    expect(proof.fits).toBe(true)
    expect(proof.tried).toBe(integers.codes + 1)
    let worst = 0
    let highest = 0n
    const wrong: number[] = []
    for (let code = 0; code <= integers.codes; code++) {
      const { exact, peak, low } = inWholeNumbers(integers, BigInt(code))
      if (execute(integers, code) !== exact || low < 0n) wrong.push(code)
      if (peak === undefined) continue
      highest = largest(peak, highest)
      worst = Math.max(worst, Math.abs(exact - targetAt(target, code)))
    }
    expect(wrong).toEqual([])
    expect(proof.worstError).toBe(worst)
    expect(proof.highest).toBeGreaterThanOrEqual(Number(highest))
    expect(Number(highest)).toBeLessThan(2 ** integers.word)
    expect(proof.headroom).toBe(2 ** integers.word - 1 - proof.highest)
  })

  it.each(cases.filter(([name]) => !name.endsWith('_16')))(
    '%s: within 0.51 of a unit in 32 bits',
    (_, __, { proof }) => {
      expect(proof.worstError).toBeLessThanOrEqual(0.51)
      expect(Math.abs(proof.meanError)).toBeLessThan(0.06)
    },
  )

  it('leaves codes without a value out, and they alone', () => {
    const [, , { integers, proof }] = cases.find(([name]) => name === 'rail_mv')!
    // 1.1 V · 1024 / (code + ½) is at most 6 V from code 188 on.
    expect(integers).toMatchObject({ from: 188, to: 1023, beyond: 65535 })
    expect(proof.beyond).toBe(188)
    expect(execute(integers, 0)).toBe(65535)
    expect(execute(integers, 1023)).toBe(Math.round((1100 * 1024) / 1023.5))
  })

  it('reads a shorted input as less than nothing where a lead is taken off, and an open one as beyond', () => {
    const [, , { integers }] = cases.find(([name]) => name === 'milliohms')!
    expect(execute(integers, 0)).toBe(Math.round(targetAt(resistance, 0)))
    expect(execute(integers, 0)).toBeLessThan(0)
    expect(execute(integers, 1023)).toBe(Math.round(targetAt(resistance, 1023)))
  })

  it('proves each of 2^16 codes by asking for it once', () => {
    const [, target, { integers }] = cases.find(([name]) => name === 'ohms')!
    if (target.kind !== 'rational') throw new Error('no quotient')
    let asked = 0
    const counted = {
      ...target,
      get numerator() {
        asked++
        return target.numerator
      },
    }
    prove(integers, counted)
    // A few more look whether it is a target at all.
    expect(asked).toBeLessThan(65536 + 10)
  })
})

describe('the text', () => {
  it.each(cases)('%s: TypeScript computes the same for every code', (name, _, { integers, proof }) => {
    const text = toTypeScript(integers, proof, { name, unit: 'mA' })
    const script = text.replace('export function', 'return function').replaceAll(': number', '')
    const run = new Function(script)() as (code: number) => number
    for (let code = 0; code <= integers.codes; code++) {
      if (run(code) !== execute(integers, code)) throw new Error(`${name} at code ${code}: ${run(code)}`)
    }
  })

  const compiler = ['cc', 'gcc', 'clang'].find((name) => spawnSync(name, ['--version']).status === 0)

  it.skipIf(compiler === undefined)(
    'C99 compiles without a warning and computes the same for every code',
    () => {
      const folder = mkdtempSync(join(tmpdir(), 'ohmward-firmware-'))
      try {
        for (const [name, , { integers, proof }] of cases) {
          writeFileSync(join(folder, `${name}.h`), toC(integers, proof, { name, unit: 'mA' }))
        }
        const loops = cases.map(
          ([name, , { integers }]) =>
            `for (uint32_t c = 0; c <= ${integers.codes}UL; c++) printf("%lld\\n", (long long)${name}((uint16_t)c));`,
        )
        const main = [
          ...cases.map(([name]) => `#include "${name}.h"`),
          '#include <stdio.h>',
          'int main(void) {',
          ...loops,
          'return 0; }',
          '',
        ].join('\n')
        writeFileSync(join(folder, 'main.c'), main)
        const strict = ['-std=c99', '-Wall', '-Wextra', '-Werror', '-Wconversion', '-Wno-sign-conversion', '-pedantic']
        execFileSync(compiler!, [...strict, '-O1', '-o', 'run', 'main.c'], { cwd: folder, stdio: 'pipe' })
        const lines = execFileSync(join(folder, 'run'), { maxBuffer: 2 ** 26 })
          .toString()
          .trim()
          .split('\n')
          .map(Number)
        const expected = cases.flatMap(([, , { integers }]) =>
          Array.from({ length: integers.codes + 1 }, (_, code) => execute(integers, code)),
        )
        expect(lines.length).toBe(expected.length)
        expect(lines.findIndex((value, i) => value !== expected[i])).toBe(-1)
      } finally {
        rmSync(folder, { recursive: true })
      }
    },
    300_000,
  )

  it('says what was proved, and lets nothing out of its comment', () => {
    const [name, , { integers, proof }] = cases[0]!
    const text = toC(integers, proof, { name, unit: 'mV */ #error' })
    expect(text).toMatch(/All 1024 codes tried: rounding error at most 0\.4961/)
    expect(text.match(/\*\//g)).toHaveLength(2)
    expect(toC(integers, proof, { name: 'a', unit: 'mΩ' })).toMatch(/mΩ from a code of 0 to 1023/)
  })

  it.each(['', 'Name', '1a', 'a-b', 'int', 'code', 'a b', 'x'.repeat(64)])('refuses the name "%s"', (name) => {
    const { integers, proof } = cases[0]![2]
    expect(() => toC(integers, proof, { name, unit: 'mA' })).toThrow(InputError)
    expect(() => toTypeScript(integers, proof, { name, unit: 'mA' })).toThrow(InputError)
  })

  it('is not written for constants that wrap', () => {
    const { integers, proof } = cases[0]![2]
    expect(() => toC(integers, { ...proof, fits: false }, { name: 'a', unit: 'mA' })).toThrow(/never wrap/)
  })
})

describe('a target', () => {
  it('is at a code what arithmetic says', () => {
    // 100.5 counts of 20 mA above zero; 1.2 V are 0.4 of the rail; a third of 47 ohm, less a lead of 50 mohm.
    const amperes = { amperesPerCount: 0.02, zeroCode: 2048, half: 0.5, unit: 1e-3 }
    expect(targetAt(currentTarget(amperes), 2148)).toBeCloseTo(2010, 9)
    expect(targetAt(railTarget({ reference: 1.2, bits: 10, half: 0.6, unit: 1e-3 }), 409)).toBeCloseTo(3000, 9)
    const ohms = { span: 47, lead: 0.05, fullScale: 1024, half: 1, unit: 1e-3 }
    expect(targetAt(resistanceTarget(ohms), 255)).toBeCloseTo(1000 * (47 / 3 - 0.05), 9)
  })
})

describe('bad input and impossible wishes', () => {
  const bad = (act: () => unknown) => {
    try {
      act()
    } catch (error) {
      if (error instanceof InputError) return error.field
      throw error
    }
    return 'taken'
  }
  const { integers } = cases[0]![2]
  const quotient = { codes: 1023, word: 32, largest: 6000 } as const

  it.each([
    [() => prove({ ...integers, shift: 32 } as Integers, millivolts), 'shift'],
    [() => prove({ ...integers, shift: -1 } as Integers, millivolts), 'shift'],
    [() => prove({ ...integers, word: 16, shift: 16 } as Integers, millivolts), 'shift'],
    [() => prove({ ...integers, multiplier: 1.5 } as Integers, millivolts), 'multiplier'],
    [() => prove({ ...integers, add: NaN } as Integers, millivolts), 'add'],
    [() => prove({ ...integers, base: -1 } as Integers, millivolts), 'base'],
    [() => prove({ ...integers, codes: 2 ** 20 }, millivolts), 'codes'],
    [() => prove({ ...integers, word: 8 as 16 }, millivolts), 'word'],
    [() => prove(integers, { kind: 'linear', line: [NaN, 0] }), 'target.line[0]'],
    [() => scaleLinear({ kind: 'linear', line: [1, Infinity] }, { codes: 1023, word: 32 }), 'target.line[1]'],
    [() => scaleLinear(millivolts, { codes: 0, word: 32 }), 'codes'],
    [() => scaleLinear(millivolts, { codes: 1023, word: 64 as 32 }), 'word'],
    [() => scaleRational({ ...rail, denominator: [NaN, 1] }, quotient), 'target.denominator[0]'],
    [() => scaleRational(rail, { ...quotient, largest: -1 }), 'largest'],
    [() => scaleRational(rail, { ...quotient, largest: 1.5 }), 'largest'],
    [() => scaleRational(rail, { ...quotient, beyond: 2 ** 32 }), 'beyond'],
    [() => scaleRational(rail, { ...quotient, smallestCode: -1 }), 'smallestCode'],
    [() => ofSum(millivolts, 0), 'samples'],
  ] as const)('refuses bad input, case %#', (act, field) => {
    expect(bad(act)).toBe(field)
  })

  it('comes as near as the best of all multipliers and shifts', () => {
    const close: [LinearTarget, number, 16 | 32][] = [
      // A line that begins just below a whole unit: its rounded multiplier pulls the first code below 0.
      [{ kind: 'linear', line: [0.16247, -24994.8] }, 262080, 32],
      [{ kind: 'linear', line: [650.6, -24994800] }, 65520, 32],
      [{ kind: 'linear', line: [0.4888, 0] }, 1023, 16],
      [{ kind: 'linear', line: [0.0612, -3.99] }, 4095, 16],
      [{ kind: 'linear', line: [-0.0612, 200] }, 4080, 16],
    ]
    for (const [target, codes, word] of close) {
      const [slope, constant] = target.line
      const { proof } = possible(scaleLinear(target, { codes, word }))
      let best = Infinity
      for (let shift = 0; shift < word; shift++) {
        for (const multiplier of [Math.floor(slope * 2 ** shift), Math.ceil(slope * 2 ** shift)]) {
          // Results span at most half a signed word; the product never wraps, whatever the offset's two units to spare.
          const span = Math.abs(multiplier) * codes + 2 * 2 ** shift
          if (span >= 2 ** word || (constant < 0 && span / 2 ** shift >= 2 ** (word - 1))) continue
          // Drift shared by both ends, and half a unit of rounding.
          const drift = Math.abs(multiplier / 2 ** shift - slope) * codes
          best = Math.min(best, 0.5 + drift / 2)
        }
      }
      expect(proof.worstError).toBeLessThanOrEqual(best + 0.5)
    }
  })

  it('says why a word is too small', () => {
    const wide: LinearTarget = { kind: 'linear', line: [100, 0] }
    expect(scaleLinear(wide, { codes: 1023, word: 16 })).toMatchObject({
      reason: expect.stringMatching(/102300.*16 bits/),
    })
    // The sum of codes is what doesn't fit, not the sixteen amperes that it stands for.
    expect(scaleLinear({ kind: 'linear', line: [1e-4, -16] }, { codes: 262080, word: 16 })).toEqual({
      kind: 'impossible',
      reason: 'codes or sums of codes up to 262080 do not fit a word of 16 bits',
    })
    expect(scaleLinear({ kind: 'linear', line: [8.1, -16496] }, { codes: 4095, word: 16 })).toEqual({
      kind: 'impossible',
      reason:
        'results from -16496 to 16674 do not fit a word of 16 bits: lifted above 0 they reach 33170, a signed word holds 32767',
    })
    expect(scaleRational(rail, { codes: 100, word: 32, largest: 6000 })).toMatchObject({
      reason: expect.stringMatching(/no code gives a result up to 6000/),
    })
    const far: RationalTarget = { kind: 'rational', numerator: [0, 65000 * 60000], denominator: [0, 65000] }
    expect(scaleRational(far, { codes: 10, word: 16, largest: 60000 }).kind).toBe('possible')
  })
})
