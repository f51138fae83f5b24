import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import {
  checkDivider,
  dividerModel,
  dividerOverRail,
  platinumCelsius,
  platinumRatio,
  sizeDivider,
} from '../src/index.js'
import { cell, knife } from './design.js'

function refusal(run: () => unknown): InputError {
  try {
    run()
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
  throw new Error('nothing was refused')
}

/** The knife with one thing changed, at a path. */
function changed(path: string, value: unknown, base: object = knife): never {
  const copy = structuredClone(base) as Record<string, unknown>
  const steps = path.split('.')
  let at = copy
  for (const step of steps.slice(0, -1)) {
    at[step] ??= {}
    at = at[step] as Record<string, unknown>
  }
  at[steps.at(-1)!] = value
  return copy as never
}
const refused = (path: string, value: unknown) =>
  refusal(() => checkDivider(changed(path, value), cell, { simulation: false }))
const around = (path: string, value: unknown) =>
  refusal(() => checkDivider(knife, changed(path, value, cell), { simulation: false }))

const absolute = { kind: 'absolute', voltage: '2.5 V' }

describe('bad input is refused with field, value, unit and what is allowed', () => {
  const cases: [field: string, value: unknown, unit: string, allowed: RegExp][] = [
    ['reference', NaN, 'ohm', /more than 0 ohm/],
    ['reference', Infinity, 'ohm', /more than 0 ohm/],
    ['reference', -Infinity, 'ohm', /more than 0 ohm/],
    ['reference', -47, 'ohm', /more than 0 ohm/],
    ['reference', 0, 'ohm', /more than 0 ohm/],
    ['reference', -0, 'ohm', /more than 0 ohm/],
    ['reference', '47 ohm ±101 %', 'ohm', /more than 0/],
    ['reference', '47 ohm 50 ohm', 'ohm', /finite number in ohm/],
    ['reference', '47 furlong', 'ohm', /finite number in ohm/],
    ['reference', '47 ohm ±1 % gaussian', 'ohm', /finite number in ohm/],
    ['reference', '', 'ohm', /finite number in ohm/],
    ['reference', '2 Mohm', 'ohm', /at most 1 Mohm/],
    ['reference', { nominal: 47, lower: 50, upper: 40, distribution: { kind: 'rectangular' } }, 'ohm', /finite/],
    ['gainResistors.feedback', 0, 'ohm', /more than 0 ohm/],
    ['gainResistors.ground', -1000, 'ohm', /more than 0 ohm/],
    ['amplifier.offsetVoltage', NaN, 'V', /finite number in V/],
    ['amplifier.openLoopGainDb', 0, 'dB', /at least 40/],
    ['amplifier.commonModeRejectionDb', '1000 dB', 'dB', /at most 200/],
    ['amplifier.gainBandwidth', 0, 'Hz', /more than 0/],
    ['amplifier.noiseDensity', -1e-9, 'V/Hz^0.5', /at least 0/],
    ['amplifier.highOutputDrop', '11 V', 'V', /at most 10/],
    ['amplifierSupply', 0, 'V', /more than 0 V/],
    ['excitation', '-3 V', 'V', /more than 0 V/],
    ['excitationSwitch.resistance', -1, 'ohm', /at least 0/],
    ['excitationSwitch.currentLimit', 0, 'A', /more than 0/],
    ['pedestal', -0.1, '', /at least 0/],
    ['pedestal', 0.95, '', /at most 0.9/],
    ['timing.samples', 2.5, '', /whole number/],
    ['timing.samples', 0, '', /at least 1/],
    ['timing.measuringDuty', 1.5, '', /at most 1/],
    ['load.temperatureCoefficient', 0.5, '1/K', /at most 10000 ppm/],
    ['load.nominal', 2, 'ohm', /from 0\.5 to 1\.2 ohm/],
    ['load.from', -1, 'ohm', /at least 0/],
    ['load.from', '2 ohm', 'ohm', /at most the other end/],
    ['converter.bits', 0, 'bit', /at least 1 bit and at most 32 bit/],
    ['converter.bits', 3.5, 'bit', /at least 1 bit and at most 32 bit/],
    ['converter.bits', 64, 'bit', /at least 1 bit and at most 32 bit/],
    ['converter.bits', NaN, 'bit', /at least 1 bit and at most 32 bit/],
    ['converter.offset', Infinity, 'LSB', /finite/],
    ['error', 0, '', /a share of the reading/],
    ['error', '0 %', '', /more than 0/],
    ['error', '120 %', '', /at most 1/],
    ['error', '-2 mohm', 'ohm', /more than 0/],
    ['error', '3 V', 'ohm', /ohm/],
    ['load', { from: 0.5, to: 1, currentLimit: -1 }, 'A', /more than 0/],
    ['calibration', 'zero and span', '', /^\{ kind: "zero and span", resistor \}$/],
    ['error', {}, '', /smallest, nominal or largest/],
    ['error', { nominal: '120 %' }, '', /at most 1/],
    ['error', { middle: '2 %' }, '', /optional: smallest, nominal, largest/],
  ]
  it.each(cases)('%s = %o', (field, value, unit, allowed) => {
    const error = refused(field, value)
    expect(error.field === field || error.field.startsWith(`${field}.`)).toBe(true)
    if (typeof value !== 'object') expect(error.value).toBe(value)
    expect(error.unit === '1' ? '' : error.unit).toBe(unit)
    expect(error.allowed).toMatch(allowed)
    expect(error.message).toContain(`: allowed is ${error.allowed}`)
  })

  it('a reference of 0 V', () => {
    expect(refused('converter.reference', { ...absolute, voltage: 0 })).toMatchObject({
      field: 'converter.reference.voltage',
      value: 0,
      unit: 'V',
      allowed: expect.stringMatching(/at least 1 mV/),
    })
  })

  it('a load of nothing, and a share of a load that may be nothing', () => {
    expect(refused('load', { from: 0, to: 0 })).toMatchObject({ field: 'load.to', value: 0, unit: 'ohm' })
    expect(refused('load', { from: 0, to: 1 }).message).toMatch(/^error = "5 %": allowed is a resistance .*"20 mohm"/)
    const none = { ...knife, load: { from: 0, to: 1 } }
    expect(refusal(() => checkDivider({ ...none, error: '4.9 %' }, cell)).field).toBe('error')
    expect(checkDivider({ ...none, error: '20 mohm' }, cell, { simulation: false }).verdict).toBe('fails')
  })

  it('words that aren’t known', () => {
    expect(refused('topology', 'load in the air').message).toMatch(/"load at ground" or "load at rail"/)
    expect(refused('wires', 3).message).toMatch(/^wires = 3: allowed is 2 or 4/)
    expect(refused('calibration', 'full')).toMatchObject({ field: 'calibration', value: 'full' })
    expect(refused('calibration', 'zero and span').message).toMatch(/Missing: resistor/)
    expect(refused('calibration', { kind: 'full' })).toMatchObject({ field: 'calibration.kind', value: 'full' })
    expect(refused('calibration', null).field).toBe('calibration.kind')
    expect(refused('calibration', { kind: 'zero and span' }).message).toMatch(/Missing: resistor/)
    expect(refused('calibration', { kind: 'zero and span', resistor: 0 }).field).toBe('calibration.resistor')
    expect(refused('calibration', { kind: 'zero', atCelsius: 200 }).message).toMatch(
      /atCelsius = 200 degC.*at most 125/,
    )
    expect(refused('calibration', { kind: 'zero', atCelsius: -60 }).message).toMatch(/at least -55/)
    expect(refused('calibration', { kind: 'zero', rail: 0 }).field).toBe('calibration.rail')
    expect(refused('calibration', { kind: 'zero', rail: 61 }).message).toMatch(/at most 60/)
    expect(refused('calibration', { kind: 'zero', short: -1 }).message).toMatch(/at least 0/)
    expect(refused('calibration', { kind: 'zero', short: 2 }).message).toMatch(/at most 1/)
    expect(refused('calibration', { kind: 'zero and span', resistor: 101 }).message).toMatch(/at most 100/)
    expect(refused('calibration', { kind: 'zero', resistance: 1 }).message).toMatch(/Unknown: resistance/)
    expect(refused('excitation', 'battery').message).toMatch(
      /^excitation = "battery": allowed is "rail" or "reference" or a finite/,
    )
  })

  it('a pedestal in the difference amplifier, which has none', () => {
    const choice = changed('topology', 'load at rail', { ...knife, pedestal: 0.1 })
    expect(refusal(() => checkDivider(choice, cell)).message).toMatch(/^pedestal = 0\.1: .*at most 0/)
  })

  it('conditions', () => {
    expect(around('rail', { from: 4.2, to: 3 }).field).toBe('rail.from')
    expect(around('rail', { from: 0, to: 3 }).field).toBe('rail.from')
    expect(around('rail', 3.3).field).toBe('rail')
    expect(around('rail', { from: 3, to: 100 }).field).toBe('rail.to')
    expect(around('ambientCelsius', { from: -60, to: 20 }).field).toBe('ambientCelsius.from')
    expect(around('ambientCelsius', { from: 0, to: 200 }).field).toBe('ambientCelsius.to')
    expect(around('nominalRail', 0).field).toBe('nominalRail')
    expect(around('nominalRail', 100).field).toBe('nominalRail')
    expect(refusal(() => checkDivider(knife, {} as never)).message).toMatch(/Missing: rail, ambientCelsius/)
  })

  it('all missing and unknown fields at once', () => {
    const { message, field } = refusal(() => checkDivider({} as never, cell))
    expect(field).toBe('choice')
    expect(message).toMatch(/Missing: load, error, reference, gainResistors, amplifier, converter/)
    expect(refusal(() => checkDivider({ ...knife, wire: 2, Topology: 1 } as never, cell)).message).toMatch(
      /Unknown: wire \(did you mean wires\?\), Topology \(did you mean topology\?\)/,
    )
    const { offsetVoltage: _, slewRate: __, ...amplifier } = knife.amplifier
    expect(refused('amplifier', amplifier).message).toMatch(/^amplifier = .*Missing: offsetVoltage, slewRate/)
  })

  it('hostile objects: prototype keys, wrong types', () => {
    for (const value of [
      null,
      undefined,
      3,
      'x',
      [],
      () => 1,
      Symbol('s'),
      Object.create(knife),
      JSON.parse('{"__proto__": 1}'),
    ])
      expect(refusal(() => checkDivider(value as never, cell)).field).toBe('choice')
    const inherited = Object.assign(Object.create({ reference: '47 ohm' }), { ...knife, reference: undefined })
    expect(refusal(() => checkDivider(inherited, cell)).message).toMatch(/Missing: reference/)
    for (const key of ['__proto__', 'constructor', 'toString']) {
      const own = Object.defineProperty({ ...knife }, key, { value: 1, enumerable: true })
      expect(refusal(() => checkDivider(own, cell)).message).toContain(`Unknown: ${key}`)
    }
    for (const value of [[], {}, true, 10n, null]) expect(refused('reference', value).field).toMatch(/^reference/)
  })

  it('options', () => {
    for (const accept of [0, -1, 1.5, NaN, Infinity, '95 V'])
      expect(refusal(() => checkDivider(knife, cell, { accept: accept as number, simulation: false })).field).toBe(
        'accept',
      )
    for (const points of [1, 0, -1, 2.5, NaN, Infinity, 201, null])
      expect(refusal(() => dividerOverRail(knife, cell, points as number)).field).toBe('points')
  })

  it('in every verb', () => {
    expect(refusal(() => dividerModel({ ...knife, reference: 0 }, cell)).field).toBe('reference')
    expect(refusal(() => dividerOverRail({ ...knife, reference: 0 }, cell)).field).toBe('reference')
    for (const value of [null, 1, {}, []]) expect(refusal(() => sizeDivider(value as never)).field).toBe('requirement')
    for (const value of [NaN, -201, 851, '3 V', null])
      expect(refusal(() => platinumRatio(value as number)).field).toBe('celsius')
    for (const value of [NaN, 0, -1, 4, null])
      expect(refusal(() => platinumCelsius(value as number)).field).toBe('ratio')
  })
})

describe('a pulse of no length into a load of no heat capacity', () => {
  it('heats it in full', () => {
    const load = { ...knife.load, temperatureCoefficient: 0.004, thermalResistance: 10 }
    const at = (wait: number) =>
      checkDivider({ ...knife, load, timing: { wait } }, cell, { simulation: false }).margins.find(
        ({ id }) => id === 'warming',
      )!.worst
    expect(at(0)).toBeCloseTo(at(1e-3), 15)
    expect(at(0)).toBeGreaterThan(0)
  })
})
