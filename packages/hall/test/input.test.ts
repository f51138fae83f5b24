import { fieldsOf, InputError, schemaOf } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { checkHall, exampleSensors, type HallChoice, hallOverCurrent, hallPeriod, hallRecord } from '../src/index.js'
import { cell, checked, knife } from './design.js'

const refused = (more: object, conditions: object = cell) =>
  refusalOf(() =>
    checkHall({ ...knife, ...more } as unknown as HallChoice, conditions as typeof cell, { simulation: false }),
  )
const sensor = (more: object) => ({ sensor: { ...exampleSensors.wideSupplyOneWay, ...more } })
const pwm = (more: object) => ({ pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 }, ...more } })

const task = { name: 'x', window: 'off', recovery: 0, settling: '50 us', acquisition: 2e-6, conversion: 1e-6 }

describe('bad input', () => {
  it.each<[string, object, string?]>([
    ['choice', { unknown: 1 }, 'Unknown: unknown'],
    ['sensor', { sensor: {} }, 'Missing: output'],
    ['sensor', sensor({ sensitivity: undefined }), 'Missing: sensitivity'],
    ['sensor.output', sensor({ output: 'digital' })],
    ['sensor.sensitivity', sensor({ sensitivity: 0 })],
    ['sensor.sensitivity', sensor({ sensitivity: Number.NaN })],
    ['sensor.zeroError', sensor({ zeroError: Number.POSITIVE_INFINITY })],
    ['sensor.bandwidth', sensor({ bandwidth: '-1 kHz' })],
    ['sensor.correlated[0][0]', sensor({ correlated: [['bandwidth']] })],
    ['sensor.correlated', sensor({ correlated: [['zeroError', 'zeroError']] })],
    ['sensor.correlated', sensor({ correlated: 'zeroError' })],
    ['sensorSupply', { sensorSupply: '5 A' }],
    ['sensorSupply', { sensorSupply: 0 }],
    ['converter.bits', { converter: { ...knife.converter, bits: 64 } }],
    ['current.from', { current: { from: 6, to: 1 } }],
    ['current.to', { current: { from: 0, to: 0 } }],
    ['errors', { errors: [] }],
    ['errors', { errors: '5 %' }],
    ['errors[0].at', { errors: [{ at: '7 A', allowed: '5 %' }] }],
    ['errors[0].allowed', { errors: [{ at: '1 A', allowed: '120 %' }] }],
    ['errors[0].allowed', { errors: [{ at: 0, allowed: '5 %' }] }],
    ['errors[0].allowed', { errors: [{ at: 1, allowed: '0.2' }] }],
    ['errors[0].allowed', { errors: [{ at: 1, allowed: 0.27 }] }],
    ['errors[1]', { errors: [{ at: 1, allowed: '5 %' }, { at: 2 }] }],
    ['errors[0]', { errors: Object.assign([], { 1: { at: 1, allowed: 1 } }) }],
    ['resolution', { resolution: 0 }],
    ['peakCurrent', { peakCurrent: '-1 A' }],
    ['reading', { reading: 'peak' }],
    ['pwm.duty.from', pwm({ duty: { from: 0, to: 0.5 } })],
    ['pwm.duty.to', pwm({ duty: { from: 0.1, to: 1.1 } })],
    ['pwm.frequency', pwm({ frequency: 0 })],
    ['wait', { wait: 0 }],
    ['filter.capacitance', { filter: { capacitance: 0 } }],
    ['divider', { divider: { top: '1 kohm' } }, 'Missing: bottom'],
    ['timing.samples', { timing: { samples: 2.5 } }],
    ['timing.samplesPerWindow', { timing: { samples: 4, samplesPerWindow: 3 } }],
    ['calibration.kind', { calibration: { kind: 'span' } }],
    ['calibration', { calibration: 'span' }],
    ['filter', { filter: { capacitence: '1 nF' } }, 'did you mean capacitance'],
    ['otherTasks[0].name', { otherTasks: [{ ...task, name: 5 }] }],
    ['calibration', { calibration: { kind: 'zero each time', atCelsius: 25 } }],
    ['calibration.samples', { calibration: { kind: 'zero', samples: 0 } }],
    ['calibration.rail', { calibration: { kind: 'zero', rail: '3 A' } }],
    ['calibration.supply', { calibration: { kind: 'zero', supply: '3 A' } }],
    ['calibration.supply', { calibration: { kind: 'zero', supply: '3 V' } }, 'sensorSupply'],
    ['calibration.atCelsius', { calibration: { kind: 'zero', atCelsius: 400 } }],
    ['calibration.residual', { calibration: { kind: 'zero', residual: '1 V' } }],
    ['power', { power: 'yes' }],
    ['divideFrom', { divideFrom: 0 }],
    ['otherTasks', { otherTasks: {} }],
    ['otherTasks[0]', { otherTasks: [{ name: 'x', window: 'off' }] }, 'Missing: recovery'],
    ['otherTasks[0].window', { otherTasks: [{ ...task, window: 'both' }] }],
    ['otherTasks[0].settling', { otherTasks: [{ ...task, settling: '1 V' }] }],
    ['otherTasks[0].samples', { otherTasks: [{ ...task, samples: 0 }] }],
    ['otherTasks[0].starts', { otherTasks: [{ ...task, starts: 'later' }] }],
    ['leastUse', { leastUse: 2 }],
    ['trip', { trip: { normal: 1, withstand: 2 } }],
    ['trip', { trip: { current: 1, code: 5, normal: 1, withstand: 2 } }],
    ['trip.withstand', { trip: { current: 8, normal: 6, withstand: 6 } }],
    ['trip.code', { trip: { code: 5000, normal: 1, withstand: 2 } }],
    ['trip.code', { trip: { code: 5, normal: 1, withstand: 2 } }],
  ])('%s', (field, more, hint) => {
    const error = refused(more)
    expect(error).toBeInstanceOf(InputError)
    expect(error.field).toBe(field)
    expect(error.allowed).not.toBe('')
    if (hint) expect(error.message).toContain(hint)
  })

  it('a sensor whose span is empty: a zero beyond the highest output, or a rated supply outside the rated range', () => {
    const high = refused(sensor({ zeroOutput: '3.2 V' }))
    expect(high.field).toBe('sensor.zeroOutput')
    expect(high.message).toContain('span is empty')
    expect(high.message).toContain('3.15 V')
    expect(refused(sensor({ lowOutput: '0.5 V' })).field).toBe('sensor.zeroOutput')
    expect(refused(sensor({ supplyMinimum: '3.5 V' })).field).toBe('sensor.ratedSupply')
    expect(refused(sensor({ supplyMaximum: '3.2 V' })).field).toBe('sensor.ratedSupply')
  })

  it('a window shorter than one acquisition', () => {
    const error = refused(pwm({ frequency: '100 kHz', duty: { from: 0.01, to: 0.9 } }))
    expect(error.field).toBe('pwm.duty.from')
    expect(error.allowed).toBe('at least 0.2: a shorter window does not hold one acquisition')
    // An averaging filter needs no window.
    const averaged = { ...pwm({ frequency: '100 kHz', duty: { from: 0.01, to: 0.9 } }), reading: 'averaged' }
    expect(checked(averaged as Partial<HallChoice>).block).toBe('hall')
  })

  it('conditions', () => {
    expect(refused({}, { rail: { from: 4, to: 3 }, ambientCelsius: { from: 0, to: 1 } }).field).toBe('rail.from')
    expect(refused({}, { rail: { from: 0, to: 3 }, ambientCelsius: { from: 0, to: 1 } }).field).toBe('rail.from')
    expect(refused({}, { rail: { from: 3, to: 4 } }).field).toBe('conditions')
  })

  it('the pictures', () => {
    expect(refusalOf(() => hallPeriod({ ...knife, pwm: undefined } as never, cell)).field).toBe('pwm')
    expect(refusalOf(() => hallPeriod(knife, cell, 0)).field).toBe('duty')
    expect(refusalOf(() => hallPeriod(knife, cell, 0.5, 1)).field).toBe('points')
    expect(refusalOf(() => hallOverCurrent(knife, cell, ['1 V'])).field).toBe('currents[0]')
  })
})

describe('a kind of calibration without fields', () => {
  it('may be given as its word', () => {
    expect(checked({ calibration: 'zero' }).margins).toEqual(checked({ calibration: { kind: 'zero' } }).margins)
  })
})

describe('the rail that the firmware assumes', () => {
  it('is the middle of the range, or what is told', () => {
    const zero = (conditions: object) => checked({}, conditions as typeof cell).values['V_qn']
    // 0.33 V at 3.3 V follow the rail.
    expect(zero(cell)).toBeCloseTo(0.36, 12)
    expect(zero({ ...cell, nominalRail: '3.3 V' })).toBeCloseTo(0.33, 12)
    expect(refused({}, { ...cell, nominalRail: 0 }).field).toBe('nominalRail')
  })
})

describe('the record', () => {
  it('makes a schema that names every field with its unit, and leaves no other in', () => {
    const { properties, required, additionalProperties } = schemaOf(hallRecord, { title: 'current' }) as Record<
      string,
      any
    >
    expect(Object.keys(properties)).toEqual(expect.arrayContaining(Object.keys(knife)))
    expect(required).toEqual(['sensor', 'converter', 'current', 'errors'])
    expect(additionalProperties).toBe(false)
    expect(properties.filter.properties.capacitance.description).toContain('in F')
  })

  it('has a meaning for every field, and a unit for every number', () => {
    for (const { path, meaning } of fieldsOf(hallRecord)) expect(meaning, path).not.toBe('')
    const at = fieldsOf(hallRecord).find(({ path }) => path === 'errors[].at')!
    expect([at.unit, at.required]).toEqual(['A', true])
  })
})

describe('numbers in strings and in SI', () => {
  it('are the same', () => {
    const words = checked({ errors: [{ at: '6000 mA', allowed: '360 mA' }], peakCurrent: '6 A', resolution: '360 mA' })
    const bare = checked({ errors: [{ at: 6, allowed: '0.36 A' }], peakCurrent: 6, resolution: 0.36 })
    expect(words.margins).toEqual(bare.margins)
  })
})

it('takes a probability to accept by, and no other number', () => {
  for (const accept of [0, 95, 2, Number.NaN] as const) {
    expect(() => checkHall(knife, cell, { accept, simulation: false })).toThrow(/^accept = /)
  }
})

it('takes a list of currents for the error over the current', () => {
  expect(() => hallOverCurrent(knife, cell, 1 as never)).toThrow(/^currents = 1 A: allowed is a list/)
})
