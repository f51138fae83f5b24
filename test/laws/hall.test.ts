import { exampleConverters, execute, prove } from '@ohmward/adc'
import { extremes, simulate } from '@ohmward/budget'
import {
  checkHall,
  exampleSensors,
  type HallChoice,
  type HallConditions,
  hallFirmware,
  hallModel,
  hallPeriod,
  readingOf,
  type Topology,
} from '@ohmward/hall'
import { InputError, type Spread } from '@ohmward/quantity'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const choice: HallChoice = {
  sensor: exampleSensors.wideSupplyOneWay,
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: 6 },
  errors: [{ at: 6, allowed: '6 %' }],
  pwm: { frequency: 1e3, duty: { from: 0.1, to: 0.9 } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  trip: { current: 8, normal: 6.5, withstand: 10 },
}
const conditions: HallConditions = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

const topologies = fc.record<Topology>({
  output: fc.constantFrom('ratiometric', 'fixed'),
  supply: fc.constantFrom('rail', 'own'),
  reference: fc.constantFrom('rail', 'own'),
  reading: fc.constantFrom('on-window', 'averaged'),
  divided: fc.boolean(),
})
/** Sensors of any class: sensitivity over four decades, supplies of 3 to 24 V. */
const parts = fc.record({
  S_0: fc.double({ min: 1e-3, max: 1, noNaN: true }),
  V_s0: fc.double({ min: 3, max: 24, noNaN: true }),
  zero: fc.double({ min: 0.1, max: 0.5, noNaN: true }),
  use: fc.double({ min: 0, max: 0.95, noNaN: true }),
  R_t: fc.double({ min: 0, max: 1e5, noNaN: true }),
  D_x: fc.double({ min: 0.05, max: 1, noNaN: true }),
  N_bits: fc.integer({ min: 8, max: 16 }),
})

/** An ideal chain whose current stays inside the span. */
function ideal(
  { S_0, V_s0, zero, use, R_t, D_x, N_bits }: typeof parts extends fc.Arbitrary<infer P> ? P : never,
  topology: Topology,
  unit = 1,
) {
  const V_q0 = zero * V_s0
  const I_on = (use * (V_s0 - V_q0)) / S_0
  const duty = topology.reading === 'averaged' ? D_x : 1
  const k_dn = topology.divided ? 4700 / (R_t + 4700) : 1
  const none = Object.fromEntries(
    'T_d V_oe D_oe m_q e_S TC_S m_S V_L V_h V_B V_nb V_n V_ol V_oh R_o w_x V_lk e_gain e_offset e_INL e_q e_n'
      .split(' ')
      .map((name) => [name, 0]),
  )
  const I_x = (I_on * duty) / unit
  const x = {
    ...none,
    I_x,
    D_x: duty,
    V_rail: V_s0,
    V_s: V_s0,
    V_s0,
    V_above: 1,
    V_below: 1,
    V_ref0: V_s0,
    TC_ref: 0,
    V_q0,
    S_0: S_0 * unit,
    R_t,
    R_b: 4700,
    R_filt: 1e3,
    C_f: 1e-9,
    t_set: Number.POSITIVE_INFINITY,
    tau_s: 1e-7,
    N_bits,
    h_code: 0.5,
    V_qn: V_q0,
    S_n: S_0 * unit,
    k_dn,
    V_refn: V_s0,
  }
  return { I_x, reading: readingOf(x, topology) }
}

describe('chain', () => {
  it('indicates the true current with nominal parts, to 1 part in 10¹² of its full scale', () => {
    fc.assert(
      fc.property(parts, topologies, (part, topology) => {
        const { I_x, reading } = ideal(part, topology)
        // Codes end half a count short of the reference: the very top is clipped.
        fc.pre(reading.code_c < 2 ** part.N_bits - 1)
        const fullScale = part.V_s0 / part.S_0
        expect(Math.abs(reading.I_ind - I_x)).toBeLessThanOrEqual(1e-12 * fullScale * (1 + part.R_t / 4700))
      }),
    )
  })

  it('doesn’t know its unit: milliamperes with volts per milliampere give the same codes', () => {
    fc.assert(
      fc.property(parts, topologies, (part, topology) => {
        const ampere = ideal(part, topology)
        const milli = ideal(part, topology, 1e-3)
        expect(milli.reading.code_out).toBeCloseTo(ampere.reading.code_out, 6)
        expect(milli.reading.I_ind / 1e3).toBeCloseTo(ampere.reading.I_ind, 6)
      }),
    )
  })
})

describe('firmware', () => {
  it('counts → amperes → counts returns, and every code is within its stated error', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.4, noNaN: true }),
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        fc.constantFrom(8, 10, 12),
        (sensitivity, zero, bits) => {
          const sensor = { ...choice.sensor, sensitivity, zeroOutput: 3.3 * zero, lowOutput: 0.1 }
          const made = hallFirmware({ ...choice, sensor, converter: { ...choice.converter, bits } }, conditions, {
            unit: 'uA',
          })
          if (made.kind === 'impossible') throw new Error(made.reason)
          const { integers, target, proof } = made
          const [slope, constant] = target.line
          for (let code = 0; code < 2 ** bits; code++) {
            const result = execute(integers, code)
            expect(Math.abs(result - (slope * code + constant))).toBeLessThanOrEqual(proof.worstError + 1e-6)
            if (slope > 2 * proof.worstError) expect(Math.abs(Math.round((result - constant) / slope) - code)).toBe(0)
          }
          expect(prove(integers, target)).toEqual(proof)
        },
      ),
      { numRuns: 20 },
    )
  })
})

describe('trip', () => {
  const interval = (more: object, at = conditions) => {
    const { trip, margins } = checkHall({ ...choice, ...more } as HallChoice, at, { simulation: false })
    return { ...trip!, margins }
  }

  it('holds its level between its ends, and rises with it', () => {
    let before = interval({ trip: { current: 2, normal: 0.1, withstand: 100 } })
    for (let current = 2.5; current <= 12; current += 0.5) {
      const now = interval({ trip: { current, normal: 0.1, withstand: 100 } })
      expect(now.interval[0]).toBeLessThan(now.level)
      expect(now.interval[1]).toBeGreaterThan(now.level)
      expect(now.interval[0]).toBeGreaterThan(before.interval[0])
      expect(now.interval[1]).toBeGreaterThan(before.interval[1])
      expect(now.code).toBeGreaterThan(before.code)
      before = now
    }
  })

  it('never gets narrower where a tolerance, the temperature or the rail gets wider', () => {
    const base = interval({})
    const worse = [
      interval({ sensor: { ...choice.sensor, sensitivityError: '2 %' } }),
      interval({ sensor: { ...choice.sensor, zeroError: '12 mV' } }),
      interval({ surroundings: { steadyField: '200 uT' } }),
      interval({}, { ...conditions, ambientCelsius: { from: -20, to: 70 } }),
      interval({}, { ...conditions, rail: { from: 2.8, to: 4.4 } }),
    ]
    for (const { interval: ends } of worse) {
      expect(ends[0]).toBeLessThanOrEqual(base.interval[0])
      expect(ends[1]).toBeGreaterThanOrEqual(base.interval[1])
    }
  })
})

describe('budget', () => {
  it('no simulated sample leaves the extremes where every input is bounded', () => {
    for (const calibration of ['none', { kind: 'zero' }, { kind: 'zero each time' }] as const) {
      const { inputs, model, row, fill } = hallModel({ ...choice, calibration } as HallChoice, conditions, 3)
      const bounded = Object.fromEntries(
        Object.entries({ ...inputs, V_rail: 3, T_d: 25 }).map(([name, input]) => {
          const spread = input as unknown as Spread
          const normal = typeof input === 'object' && spread.distribution.kind === 'normal'
          return [name, normal ? { ...spread, distribution: { kind: 'rectangular' } as const } : input]
        }),
      )
      const { lower, upper } = extremes(bounded, model, { row })
      const { minimum, maximum } = simulate(bounded, model, { row, fill, trials: 20_000 })
      expect(minimum).toBeGreaterThanOrEqual(lower)
      expect(maximum).toBeLessThanOrEqual(upper)
    }
  })

  it('widening a tolerance never improves a worst case', () => {
    const errorOf = (more: object) =>
      checkHall({ ...choice, ...more } as HallChoice, conditions, { simulation: false }).margins.find(
        ({ id }) => id === 'error-1',
      )!.worst
    const base = errorOf({})
    const words = [
      'sensitivityError',
      'sensitivityDrift',
      'zeroError',
      'zeroDrift',
      'zeroSupplyError',
      'sensitivitySupplyError',
      'nonlinearity',
      'hysteresis',
    ] as const
    for (const word of words) {
      const value = choice.sensor[word]
      const wider = {
        ...choice.sensor,
        [word]: typeof value === 'string' ? `${2 * Number.parseFloat(value)}${value.replace(/^[\d.]+/, '')}` : value,
      }
      expect(errorOf({ sensor: wider }), word).toBeGreaterThan(base)
    }
  })

  it('the same call gives the same answer', () => {
    expect(checkHall(choice, conditions)).toEqual(checkHall(choice, conditions))
  })
})

describe('hostile input', () => {
  const odd = fc.oneof(
    fc.constantFrom<unknown>(
      Number.NaN,
      Number.POSITIVE_INFINITY,
      -0,
      1e308,
      -1e308,
      5e-324,
      '',
      ' ',
      '5 5 V',
      'NaN',
      null,
      true,
      [],
      {},
      { __proto__: { from: 1 } },
      () => 1,
      10n,
      Symbol('x'),
    ),
    fc.string({ maxLength: 8 }),
    fc.double(),
  )
  it('gives the library’s own error or a finite answer, never anything else', () => {
    const fields = [
      'sensor',
      'converter',
      'current',
      'errors',
      'pwm',
      'filter',
      'divider',
      'surroundings',
      'timing',
      'calibration',
      'trip',
      'sensorSupply',
      'resolution',
      'peakCurrent',
      'wait',
      'power',
      'divideFrom',
      'leastUse',
      'otherTasks',
      'reading',
    ] as const
    const paths = [
      ...fields.map((field) => [field]),
      ...Object.keys(choice.sensor).map((word) => ['sensor', word]),
      ['pwm', 'frequency'],
      ['filter', 'capacitance'],
      ['filter', 'resistance'],
      ['trip', 'current'],
      ['trip', 'withstand'],
    ]
    fc.assert(
      fc.property(fc.constantFrom(...paths), odd, (path, value) => {
        const [first = '', second] = path
        const own = (choice as unknown as Record<string, object>)[first]
        const changed = { ...choice, [first]: second === undefined ? value : { ...own, [second]: value } }
        try {
          const { margins } = checkHall(changed as HallChoice, conditions, { simulation: false })
          hallFirmware(changed as HallChoice, conditions)
          if ((changed as HallChoice).pwm !== undefined) {
            const { points, final } = hallPeriod(changed as HallChoice, conditions, undefined, 8)
            expect(Number.isFinite(final) && points.every(({ pin }) => Number.isFinite(pin))).toBe(true)
          }
          for (const { worst, slack } of margins) expect(Number.isFinite(worst) && Number.isFinite(slack)).toBe(true)
        } catch (error) {
          if (!(error instanceof InputError)) throw error
        }
      }),
      { numRuns: 300 },
    )
  })
})
