import { exampleConverters, execute, prove, toVolts } from '@ohmward/adc'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { exampleSensors, type FirmwareOptions, type HallChoice, hallFirmware } from '../src/index.js'
import { cell, knife } from './design.js'

const firmware = (more: Partial<HallChoice> = {}, options: FirmwareOptions = {}) => {
  const made = hallFirmware({ ...knife, ...more }, cell, options)
  if (made.kind === 'impossible') throw new Error(made.reason)
  return made
}
const fifty = exampleConverters['10-bit controller converter']
const marginOf = (made: ReturnType<typeof firmware>, id: string) => made.margins.find((margin) => margin.id === id)!

describe('integers of a current', () => {
  it('give milliamperes of every code: 0 at the zero, 6000 at the code of 6 A', () => {
    const { integers, proof, atZero } = firmware()
    expect(atZero).toBe(0)
    expect(proof).toMatchObject({ tried: 4096, fits: true })
    expect(proof.worstError).toBeLessThanOrEqual(0.5)
    // Middle of the rail 3.6 V: zero 0.36 V, 218.2 mV/A.
    const at = (ampere: number) => Math.floor(((0.36 + ((0.2 * 3.6) / 3.3) * ampere) / 3.6) * 4096)
    for (const ampere of [1, 3, 6]) expect(Math.abs(execute(integers, at(ampere)) - 1000 * ampere)).toBeLessThan(3)
    // The whole line again, from the volts that a code stands for.
    for (let code = 0; code < 4096; code += 37) {
      const volts = toVolts(code, { bits: 12, reference: 3.6 })
      expect(Math.abs(execute(integers, code) - ((volts - 0.36) / ((0.2 * 3.6) / 3.3)) * 1000)).toBeLessThan(0.51)
    }
  })

  it('sum samples instead of dividing them', () => {
    const { integers, samples, atZero } = firmware({ timing: { samples: 16 } })
    expect(samples).toBe(16)
    expect(integers.codes).toBe(16 * 4095)
    const one = firmware()
    for (const code of [300, 1000, 4000]) {
      expect(Math.abs(execute(integers, 16 * code) - execute(one.integers, code))).toBeLessThanOrEqual(1)
    }
    expect(Math.abs(atZero)).toBeLessThanOrEqual(1)
  })

  it('are the text in TypeScript too', () => {
    const { integers, typescript } = firmware({}, { name: 'blade_current' })
    const body = typescript.slice(typescript.indexOf('{') + 1, typescript.lastIndexOf('}'))
    const run = new Function('code', body) as (code: number) => number
    for (let code = 0; code < 4096; code++) expect(run(code)).toBe(execute(integers, code))
    expect(typescript).toContain('export function bladeCurrent(code: number): number')
  })

  it('are C of the name and unit asked for', () => {
    const { c } = firmware({}, { unit: 'A', word: 16 })
    expect(c).toContain('static inline int16_t current_a(uint16_t code)')
    expect(c).toContain(' A from a code of 0 to 4095.')
    expect(firmware({}, { unit: 'uA' }).c).toContain('current_ua')
  })

  it('are impossible, with the reason, where the word can’t hold the results', () => {
    const made = hallFirmware(knife, cell, { word: 16, unit: 'uA' })
    expect(made).toMatchObject({ kind: 'impossible' })
    expect(made.kind === 'impossible' && made.reason).toMatch(/do not fit a word of 16 bits/)
  })

  it('divide from ten counts on', () => {
    const { divideFrom, target } = firmware()
    expect(divideFrom).toBe(Math.ceil(10 * target.line[0]))
  })
})

describe('pitfalls of integers', () => {
  it('F01 overflow: every intermediate value stays in the word, with the headroom said', () => {
    const made = firmware({ sensor: exampleSensors.wideSupplyOneWay, converter: fifty }, { word: 16 })
    const margin = marginOf(made, 'firmware-word')
    expect(margin).toMatchObject({ limit: 65535, verdict: 'holds', catches: ['F01'] })
    expect(margin.slack).toBe(made.proof.headroom)
    const careless = { ...made.integers, multiplier: 2244 }
    expect(prove(careless, made.target).fits).toBe(false)
  })

  it('F02, F03 division last, half added first: never a unit off in 32 bits, and said where 16 bits are coarser', () => {
    expect(marginOf(firmware(), 'firmware-error')).toMatchObject({
      limit: 1,
      verdict: 'holds',
      catches: ['F02', 'F03'],
    })
    const coarse = marginOf(firmware({}, { word: 16 }), 'firmware-error')
    expect(coarse.verdict).toBe('fails')
    expect(coarse.worst).toBeGreaterThan(10)
    // Truncating instead of rounding costs half a unit in the mean.
    const { integers, target } = firmware()
    const bare = prove({ ...integers, add: integers.add - 2 ** (integers.shift - 1) }, target)
    expect(bare.meanError).toBeCloseTo(-0.5, 2)
  })

  it('F04 accumulator: 64 ten-bit samples fit 16 bits, 65 don’t', () => {
    const sum = (samples: number) =>
      marginOf(firmware({ converter: fifty, timing: { samples } }, { word: 16, unit: 'A' }), 'firmware-sum')
    expect(sum(64)).toMatchObject({ slack: 63, verdict: 'holds', catches: ['F04'] })
    const over = hallFirmware({ ...knife, converter: fifty, timing: { samples: 65 } }, cell, { word: 16, unit: 'A' })
    expect(over.kind).toBe('impossible')
  })
})

describe('bad options', () => {
  it.each<[string, object]>([
    ['options.unit', { unit: 'kA' }],
    ['word', { word: 24 }],
    ['name', { name: 'Bad name' }],
    ['options', { shift: 40 }],
  ])('%s is refused', (field, options) => {
    expect(refusalOf(() => hallFirmware(knife, cell, options as FirmwareOptions)).field).toBe(field)
  })

  it('a shift beyond the word is refused by the proof', () => {
    const { integers, target } = firmware()
    expect(refusalOf(() => prove({ ...integers, shift: 32 }, target)).field).toBe('shift')
  })

  it('too many samples for an exhaustive proof are said to be', () => {
    const made = hallFirmware({ ...knife, timing: { samples: 1024 } }, cell)
    expect(made).toEqual({
      kind: 'impossible',
      reason: 'a sum of 1024 samples has 4193281 values, more than the 1048576 of which each is tried',
    })
    expect(hallFirmware({ ...knife, timing: { samples: 256 } }, cell).kind).toBe('possible')
  })
})

describe('integers in the firmware', () => {
  it('fail their margin: 16 bits hold a sum of 16 samples and nothing beside it', () => {
    const { margins, proof } = firmware({ timing: { edge: '1 us', samples: 16 } }, { word: 16 })
    expect(proof.worstError).toBeGreaterThan(1000)
    expect(margins.find(({ id }) => id === 'firmware-error')!.verdict).toBe('fails')
  })

  it('say what they are given and what they leave out', () => {
    const wide = hallFirmware({ ...knife, timing: { edge: '1 us', samples: 16 }, calibration: { kind: 'zero' } }, cell)
    if (wide.kind !== 'possible') throw new Error(wide.reason)
    for (const text of [wide.c, wide.typescript]) {
      expect(text).toContain('mA from the sum of 16 codes of 0 to 65520.')
      expect(text).toContain('rounding error at most')
      expect(text).toContain('subtract the result of the reading with the load off')
    }
  })

  it.each(['int32_t', 'uint16_t', 'bool'])('take no name that C knows: %s', (name) => {
    expect(() => hallFirmware(knife, cell, { name })).toThrow(/^name = /)
  })
})
