import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { exampleConverters, exampleInternalReferences, readConverter, readInternalReference } from '../src/index.js'

const ten = exampleConverters['10-bit controller converter']
const problem = (input: unknown): InputError => {
  try {
    readConverter(input, 'converter')
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
  throw new Error('it was taken')
}

describe('a converter that is read', () => {
  it('files every spread under its symbol', () => {
    const read = readConverter(ten)
    expect(read).toMatchObject({
      bits: 10,
      transitions: 'truncating',
      h_in: 0,
      h_code: 0.5,
      reference: { kind: 'rail' },
    })
    expect(Object.keys(read.spreads).sort()).toEqual(
      ['C_sh', 'I_leak', 'R_sw', 'e_INL', 'e_gain', 'e_offset', 'n_rms', 't_acq', 't_conv'].sort(),
    )
    expect(read.spreads.R_sw).toMatchObject({ nominal: 10e3, lower: 10e3, upper: 10e3 })
  })

  it('takes an offset, a gain error, a nonlinearity and a leakage as sizes about zero', () => {
    const { e_offset, e_gain, e_INL, I_leak } = readConverter(ten).spreads
    for (const [spread, half] of [
      [e_offset, 2],
      [e_gain, 0.002],
      [e_INL, 1],
      [I_leak, 50e-9],
    ] as const) {
      expect(spread).toMatchObject({ nominal: 0, lower: -half, upper: half, distribution: { kind: 'rectangular' } })
    }
  })

  it('tells an absolute reference from the rail', () => {
    const { reference } = readConverter(exampleConverters['12-bit converter with its own reference'])
    if (reference.kind !== 'absolute') throw new Error('not absolute')
    expect(reference.V_ref0.upper).toBeCloseTo(2.505, 12)
    expect(reference.TC_ref).toMatchObject({ nominal: 0, lower: -50e-6, upper: 50e-6 })
  })

  it('takes centred transitions', () => {
    expect(readConverter({ ...ten, transitions: 'centred' })).toMatchObject({ h_in: 0.5, h_code: 0 })
    expect(problem({ ...ten, transitions: 'middle' }).field).toBe('converter.transitions')
  })

  it.each([0, 3.5, 64, NaN, Infinity, -1, '10 V', '', null])('refuses %s bits', (bits) => {
    const error = problem({ ...ten, bits })
    expect(error.field).toBe('converter.bits')
    expect(error.allowed).toMatch(/whole number.*at least 1.*at most 32/)
  })

  it('reads bits from text', () => {
    expect(readConverter({ ...ten, bits: '12' }).bits).toBe(12)
  })

  it.each([0, -1, '0 V', NaN])('refuses a reference of %s', (voltage) => {
    const error = problem({ ...ten, reference: { kind: 'absolute', voltage } })
    expect(error.field).toBe('converter.reference.voltage')
    expect(error.allowed).toMatch(/at least 0\.001 V|at least 1 mV/)
  })

  it('refuses other kinds of reference, and a rail with a voltage', () => {
    expect(problem({ ...ten, reference: { kind: 'cell' } }).field).toBe('converter.reference.kind')
    expect(problem({ ...ten, reference: { kind: 'rail', voltage: 3 } }).message).toMatch(/Unknown: voltage/)
    expect(problem({ ...ten, reference: { kind: 'absolute' } }).message).toMatch(/Missing: voltage/)
    expect(readConverter({ ...ten, reference: 'rail' }).reference).toEqual({ kind: 'rail' })
  })

  it('names what is missing and what nobody asked for, all at once', () => {
    expect(problem({ bits: 10, reference: { kind: 'rail' }, ofset: 1 }).message).toMatch(
      /Missing: offset, gain, nonlinearity, noise.*Unknown: ofset/,
    )
    expect(problem(undefined).field).toBe('converter')
  })

  it.each([
    ['samplingCapacitance', 0],
    ['acquisitionTime', 0],
    ['conversionTime', -1],
    ['switchResistance', '-1 ohm'],
    ['noise', -0.1],
    ['gain', '90 %'],
  ])('refuses %s of %s', (field, value) => {
    expect(problem({ ...ten, [field]: value }).field).toBe(`converter.${field}`)
  })

  it.each(Object.entries(exampleConverters))('reads the example: %s', (_, example) => {
    expect(readConverter(example).bits).toBeGreaterThan(0)
  })
})

describe('an internal reference that is read', () => {
  it('files its spreads under their symbols', () => {
    const read = readInternalReference(exampleInternalReferences['untrimmed reference'])
    expect(read.V_bg.nominal).toBe(1.1)
    expect([read.V_bg.lower, read.V_bg.upper]).toEqual([expect.closeTo(1.001, 12), expect.closeTo(1.199, 12)])
    expect(read.TC_bg).toMatchObject({ nominal: 0, lower: -150e-6, upper: 150e-6 })
    expect([read.t_start.nominal, read.R_refint.nominal, read.C_refpin.nominal]).toEqual([70e-6, 0, 0])
  })

  it.each([
    [{ voltage: 0, startUp: 0 }, 'internalReference.voltage'],
    [{ voltage: '1.1 V', startUp: -1 }, 'internalReference.startUp'],
    [{ voltage: '1.1 V' }, 'internalReference'],
    [{ voltage: '1.1 V', startUp: 0, resistance: -1 }, 'internalReference.resistance'],
    [{ voltage: '1.1 V', startUp: 0, capacitance: -1 }, 'internalReference.capacitance'],
  ])('refuses %o', (input, field) => {
    expect(() => readInternalReference(input)).toThrow(expect.objectContaining({ field }))
  })

  it.each(Object.entries(exampleInternalReferences))('reads the example: %s', (_, example) => {
    expect(readInternalReference(example).V_bg.nominal).toBeGreaterThan(1)
  })
})
