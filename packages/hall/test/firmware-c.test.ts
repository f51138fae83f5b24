import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { exampleConverters } from '@ohmward/adc'
import { afterAll, describe, expect, it } from 'vitest'
import { exampleSensors, type FirmwareOptions, type HallChoice, hallFirmware } from '../src/index.js'
import { cell, knife } from './design.js'

const ten = exampleConverters['10-bit controller converter']
const twoWay = { sensor: exampleSensors.wideSupplyTwoWay, current: { from: '-6 A', to: '6 A' } } as const
const sixteen = { ...knife.converter, bits: 16 }

/** The page's example in both words, sums, both signs, 16 bits, centred codes. */
const wishes: [string, Partial<HallChoice>, FirmwareOptions][] = [
  ['current_ma', {}, {}],
  ['current_ma_16', {}, { word: 16 }],
  ['sum_of_16', { timing: { samples: 16 } }, {}],
  ['sum_of_4', { timing: { samples: 4 }, converter: ten }, { word: 16, unit: 'A' }],
  ['two_way', twoWay, {}],
  ['two_way_16', { ...twoWay, converter: ten }, { word: 16, unit: 'A' }],
  ['wide', { ...twoWay, converter: sixteen }, { unit: 'uA' }],
  ['long_sum', { ...twoWay, timing: { samples: 64 } }, {}],
  ['centred', { ...twoWay, converter: { ...knife.converter, transitions: 'centred' } }, {}],
]
const made = wishes.map(([name, more, options]) => {
  const firmware = hallFirmware({ ...knife, ...more } as HallChoice, cell, { ...options, name })
  if (firmware.kind === 'impossible') throw new Error(`${name}: ${firmware.reason}`)
  return { name, ...firmware }
})

/** The constants run in whole numbers without limit: a shift of what is never negative is a floor. */
const exactly = ({ integers: x }: (typeof made)[number], code: number): number =>
  Number(((BigInt(x.multiplier) * BigInt(code) + BigInt(x.add)) >> BigInt(x.shift)) - BigInt(x.base))

/** The current that a code stands for, from the parts' figures alone: V = (code + half)/2^bits · 3.6 V of the middle rail. */
const real = (index: number, code: number): number => {
  const { samples } = made[index]!
  const [, more, { unit = 'mA' }] = wishes[index]!
  const bits = Number(more.converter?.bits ?? 12)
  const half = more.converter?.transitions === 'centred' ? 0 : 0.5
  const volts = ((code / samples + half) / 2 ** bits) * 3.6
  const [zero, sensitivity] = more.sensor ? [1.65, 0.1] : [0.33, 0.2]
  return (volts * (3.3 / 3.6) - zero) / sensitivity / { A: 1, mA: 1e-3, uA: 1e-6 }[unit]
}

describe('the firmware of a current', () => {
  it.each(made.map(({ name }, index) => [name, index] as const))('%s stays as near as it says', (_, index) => {
    const one = made[index]!
    let worst = 0
    let peak = BigInt(one.integers.codes)
    for (let code = 0; code <= one.integers.codes; code++) {
      worst = Math.max(worst, Math.abs(exactly(one, code) - real(index, code)))
      const product = BigInt(one.integers.multiplier) * BigInt(code) + BigInt(one.integers.add)
      if (product > peak) peak = product
    }
    expect(one.proof.worstError).toBeCloseTo(worst, 5)
    expect(Number(peak)).toBeLessThan(2 ** one.integers.word)
    expect(one.proof.highest).toBe(Number(peak))
  })

  const compiler = ['cc', 'gcc', 'clang'].find((name) => spawnSync(name, ['--version']).status === 0)
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-current-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))

  it.skipIf(compiler === undefined)('in C99 compiles without a warning and gives the same for every code', () => {
    for (const { name, c } of made) writeFileSync(join(folder, `${name}.h`), c)
    const loops = made.map(
      ({ name, integers: { codes } }) =>
        `for (uint32_t c = 0; c <= ${codes}UL; c++) printf("%ld\\n", (long)${name}((uint${codes > 65535 ? 32 : 16}_t)c));`,
    )
    const includes = made.map(({ name }) => `#include "${name}.h"`)
    const main = [...includes, '#include <stdio.h>', 'int main(void) {', ...loops, 'return 0; }', ''].join('\n')
    writeFileSync(join(folder, 'main.c'), main)
    const flags = ['-Wall', '-Wextra', '-Werror', '-std=c99', '-O1']
    const built = spawnSync(compiler!, [...flags, '-o', join(folder, 'main'), join(folder, 'main.c')])
    expect(String(built.stderr)).toBe('')
    expect(built.status).toBe(0)
    const run = spawnSync(join(folder, 'main'), { maxBuffer: 2 ** 26 })
    const lines = String(run.stdout).trimEnd().split('\n').map(Number)
    let line = 0
    const wrong: string[] = []
    for (const one of made) {
      for (let code = 0; code <= one.integers.codes; code++) {
        if (lines[line++] !== exactly(one, code)) wrong.push(`${one.name}(${code})`)
      }
    }
    expect(wrong).toEqual([])
    expect(lines).toHaveLength(line)
  })

  it('in TypeScript gives the same for every code', () => {
    for (const one of made) {
      const { typescript } = one
      const body = typescript.slice(typescript.indexOf('{') + 1, typescript.lastIndexOf('}'))
      const run = new Function('code', body) as (code: number) => number
      const wrong: number[] = []
      for (let code = 0; code <= one.integers.codes; code++) if (run(code) !== exactly(one, code)) wrong.push(code)
      expect(wrong).toEqual([])
    }
  })
})
