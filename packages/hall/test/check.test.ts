import { describe, expect, it } from 'vitest'
import { checkHall, exampleSensors, type HallChoice, sensorFields } from '../src/index.js'
import { at, cell, checked, knife, marginNamed, perfect } from './design.js'

const room = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }

describe('an assessment', () => {
  it('holds for the knife, in a sentence', () => {
    const a = checkHall(knife, cell)
    expect(a).toMatchObject({ block: 'hall', verdict: 'holds' })
    expect(a.summary).toMatch(/^Holds: tightest is .*, with .* to spare\. At 6 A expect ±.* \(95 %\), at worst ±.*\.$/)
    expect(Object.keys(a.budgets)).toEqual(['I_1', 'I_2'])
    expect(a.budgets['I_1']!.quantity).toBe('indicated current at 1 A')
    expect(a.budgets['I_1']!.simulation!.within).toBeGreaterThan(0.999)
    expect(a.trip).toBeUndefined()
    expect(JSON.parse(JSON.stringify(a)).verdict).toBe('holds')
    const slack = a.margins.map(({ slack, limit, worst }) => slack / (Math.abs(limit) || Math.abs(worst)))
    expect(slack).toEqual([...slack].sort((x, y) => x - y))
  })

  it('fails in words, too', () => {
    expect(checked({ sensor: exampleSensors.fiveVoltTwoWay }).summary).toMatch(/^Fails: the .* is .* over its limit\. /)
  })

  it('derives every value again, in order', () => {
    const { derivation, values } = checked()
    expect(derivation.map(({ symbol }) => symbol)).toEqual([
      'V_s',
      'V_ref',
      'x_s',
      'r_s',
      'V_q',
      'S',
      'V_e',
      'V_es',
      'I_on',
      'V_want',
      'V_rest',
      'V_hi',
      'V_on',
      'V_off',
      'R_src',
      'tau_f',
      's_f',
      'V_f',
      'V_sm',
      'V_pin',
      'V_top',
      'code_ideal',
      'code_c',
      'code_out',
      'code_zero',
      'A_count',
      'I_ind',
    ])
    expect(values['V_rail']).toBeCloseTo(3.6, 12)
    // 0.36 V + 6 A · 218.2 mV/A
    expect(values['V_on']).toBeCloseTo(0.36 + 6 * ((0.2 * 3.6) / 3.3), 9)
    expect(derivation.at(-1)!.value).toBeCloseTo(6, 2)
    const own = { ...knife.converter, reference: { kind: 'absolute', voltage: '2.5 V ±0.2 %' } } as const
    const ofReference = checked({ converter: own }).derivation.find(({ symbol }) => symbol === 'V_ref')!
    expect(Object.keys(ofReference.inputs)).toEqual(['V_ref0', 'TC_ref', 'T_d'])
    expect(ofReference.value).toBeCloseTo(2.5, 9)
    const zeroed = checked({ calibration: { kind: 'zero' } }).derivation.at(-1)!
    expect([zeroed.symbol, Object.keys(zeroed.inputs)]).toEqual(['I_cor', ['I_ind', 'I_z']])
  })

  it('adds every limit up at the worst case: 1 A by hand', () => {
    // 25 °C, 3.3 V: no drift, no ratiometry; 200 mV/A; one sample.
    const quiet = { ...knife.sensor, noiseDensity: 0, conductorThermalResistance: 0 }
    const converter = { ...knife.converter, noise: 0, leakage: 0 }
    const { extremes, linear } = checked(
      { sensor: quiet, converter, filter: { resistance: 330, capacitance: 1e-9 } },
      room,
    ).budgets['I_1']!
    const count = 3.3 / 4096 / 0.2
    const field = 50e-6 / 1.1e-3 / 100
    const terms = [
      0.01, // sensitivity
      0.006 / 0.2, // zero
      0.002 * 12.5, // nonlinearity
      0.0005 * 6, // hysteresis
      field,
      3 * count, // converter: offset, nonlinearity, rounding
      2 * count,
      0.5 * count,
      // What 8 pF take from 1 nF, given back through 340 ohm for 2 µs.
      ((4096 * 8e-12) / 1.008e-9) * Math.exp(-2e-6 / (340 * 1.008e-9)) * count,
      0.001 * (1 + 0.33 / 0.2), // gain on everything
    ]
    const sum = terms.reduce((a, b) => a + b)
    const half = (extremes.upper - extremes.lower) / 2
    expect(half / sum).toBeCloseTo(1, 3)
    const u = Math.hypot(...terms) / Math.sqrt(3)
    expect(linear.u / u).toBeCloseTo(1, 3)
    expect(linear.contributions.reduce((total, { share }) => total + share, 0)).toBeCloseTo(1, 9)
  })

  it('an averaged reading ripples about its mean: 1/(8·f·tau) of the on-current at half duty', () => {
    const averaged = (capacitance: string) =>
      checked(
        { reading: 'averaged', filter: { resistance: 9990, capacitance }, errors: [{ at: '3 A', allowed: '1 A' }] },
        room,
      ).budgets['I_1']!
    const [some, none] = [averaged('1 uF'), averaged('1 mF')]
    const width = ({ extremes: { lower, upper } }: typeof some) => (upper - lower) / 2
    // 10 kohm · 1 µF = 10 ms at 1 kHz: 1.25 % of 6 A; the filter's noise and the last thousandth of it are small beside.
    expect(width(some) - width(none)).toBeCloseTo(0.075, 2)
    const share = some.linear.contributions.find(({ input }) => input === 'w_x')!
    expect(share.upper).toBeCloseTo(0.0125, 4)
    expect(share.sensitivity).toBeCloseTo(6, 2)
  })

  it('adds terms that the sheet states together linearly, before the root sum of squares', () => {
    const apart = checked({}, room).budgets['I_2']!
    const sensor = { ...knife.sensor, correlated: [['sensitivityError', 'nonlinearity']] } as const
    const together = checked({ sensor }, room).budgets['I_2']!
    const share = (name: string) =>
      Math.abs(apart.linear.contributions.find(({ input }) => input === name)!.contribution)
    const [a, b] = [share('e_S'), share('V_L')]
    expect(together.linear.u ** 2 - apart.linear.u ** 2).toBeCloseTo(2 * a * b, 9)
    expect(together.extremes).toEqual(apart.extremes)
    expect(together.linear.contributions.find(({ input }) => input === 'e_S')!.group).toBe('stated together 1')
  })

  it('judges by probability where that is asked', () => {
    const tight = { errors: [{ at: '6 A', allowed: '0.2 A' }] }
    expect(checked(tight).verdict).toBe('fails')
    expect(checkHall({ ...knife, ...tight }, cell, { simulation: false, accept: 0.99 }).verdict).toBe('holds')
  })

  it('says what it took for granted', () => {
    const words = (more: object) => checked(more).assumptions.join(' ')
    expect(words({})).toContain('one variable at one instant')
    expect(words({})).toContain('surroundings.steadyField = 50 µT (')
    expect(words({})).toContain('sensor.outputResistance = 10 Ω (')
    expect(words({ surroundings: { steadyField: '60 uT' } })).not.toContain('surroundings.steadyField')
    expect(words({ calibration: 'zero' })).toContain('calibration.atCelsius = 25 °C (')
    expect(words({ sensor: exampleSensors.fiveVoltFixedOneWay })).toContain('the rail enters the reading in full')
    expect(words({ sensorSupply: '5 V' })).toContain('different nodes')
    expect(words({ reading: 'averaged' })).toContain('mean current')
    expect(words({ calibration: { kind: 'zero' } })).toContain('read once')
    expect(words({ calibration: { kind: 'zero each time' } })).toContain('just before each use')
    expect(words({ trip: { current: 8, normal: 6.5, withstand: 10 } })).toContain('one comparison')
  })

  it('shows the usual cautions always, others where they apply', () => {
    const ids = (more: object) => checked(more).cautions.map(({ id }) => id)
    for (const id of ['verify', 'lithium-ion', 'hot-load', 'insulation', 'stray', 'open-pin'])
      expect(ids({})).toContain(id)
    expect(ids({})).not.toContain('averaged')
    expect(ids({ reading: 'averaged', trip: { current: 8, normal: 6.5, withstand: 10 } })).toEqual(
      expect.arrayContaining(['averaged', 'slow-trip']),
    )
    expect(ids({ calibration: { kind: 'zero' } })).toContain('zero-once')
    const still = { ...knife.converter, noise: '0.1 LSB' }
    expect(ids({ converter: still, timing: { samples: 4 } })).toContain('averaging')
    expect(ids({ timing: { samples: 4 } })).not.toContain('averaging')
    expect(ids({ current: { from: '-6 A', to: '6 A' }, sensor: exampleSensors.wideSupplyTwoWay })).not.toContain('sign')
  })
})

describe('margins', () => {
  it('supply, span and conductor by hand', () => {
    const a = checked({}, room)
    // 0.33 V + 6 A · 200 mV/A, the end at 3.3 - 0.15 V.
    expect(marginNamed(a, 'span-high')).toMatchObject({ sense: 'at most', limit: 3.15 })
    expect(marginNamed(a, 'span-high').nominal).toBeCloseTo(1.53, 9)
    expect(marginNamed(a, 'span-low').limit).toBe(0.15)
    expect(marginNamed(a, 'span-low').nominal).toBeCloseTo(0.33, 9)
    expect(marginNamed(a, 'rated-current')).toMatchObject({ worst: 6, limit: 12.5 })
    // 36 A² · 0.9 · 1 mohm · 40 K/W over the air.
    expect(marginNamed(a, 'conductor').worst).toBeCloseTo(25 + 36 * 0.9 * 0.001 * 40, 9)
    expect(marginNamed(checked({ pwm: undefined } as never, room), 'conductor').worst).toBeCloseTo(
      25 + 36 * 0.001 * 40,
      9,
    )
    expect(marginNamed(a, 'converter-high').limit).toBeCloseTo(3.3 * (1 - 1 / 4096), 9)
  })

  it('behind an averaging filter the pin sees the mean, and the sensor the peak', () => {
    const a = checked({ reading: 'averaged', filter: { resistance: 1e4, capacitance: '10 uF' } }, room)
    expect(marginNamed(a, 'converter-high').nominal).toBeCloseTo(0.33 + 0.9 * 6 * 0.2, 9)
    expect(marginNamed(a, 'span-high').nominal).toBeCloseTo(0.33 + 6 * 0.2, 9)
  })

  it('a two-way sensor reads both ways, a one-way sensor not far below zero', () => {
    const both = { current: { from: '-6 A', to: '6 A' } } as const
    expect(marginNamed(checked(both, room), 'span-low')).toMatchObject({ verdict: 'fails', limit: 0.15 })
    expect(marginNamed(checked({ ...both, sensor: exampleSensors.wideSupplyTwoWay }, room), 'span-low').verdict).toBe(
      'holds',
    )
  })

  it('a zero reading must be inside the span', () => {
    const low = { ...knife.sensor, lowOutput: '0.329 V' }
    expect(marginNamed(checked({ sensor: low, calibration: { kind: 'zero', rail: '3 V' } }), 'zero-span').verdict).toBe(
      'fails',
    )
    expect(marginNamed(checked({ calibration: { kind: 'zero' } }), 'zero-span').verdict).toBe('holds')
    expect(checked().margins.map(({ id }) => id)).not.toContain('zero-span')
  })

  it('settling is watched where a wait is given; the window where there is PWM; nothing else', () => {
    expect(checked().margins.map(({ id }) => id)).not.toContain('settling')
    expect(marginNamed(checked({ wait: '50 us' }), 'settling').limit).toBe(50e-6)
    const ids = checked({ pwm: undefined } as never).margins.map(({ id }) => id)
    expect(ids).not.toContain('on-window')
    expect(ids).not.toContain('ripple')
    const full = checked({ pwm: { frequency: '1 kHz', duty: { from: 1, to: 1 } } }).margins.map(({ id }) => id)
    expect(full).not.toContain('on-window')
  })

  it('several samples in one window take longer, and are correlated by the filter', () => {
    const one = checked({ timing: { edge: '1 us', samples: 8 } })
    const eight = checked({ timing: { edge: '1 us', samples: 8, samplesPerWindow: 8 } })
    expect(marginNamed(eight, 'on-window').worst - marginNamed(one, 'on-window').worst).toBeCloseTo(7 * 3e-6, 12)
    const slow = { resistance: '330 ohm', capacitance: '10 nF' }
    const noise = (samplesPerWindow: number) =>
      marginNamed(checked({ filter: slow, timing: { samples: 8, samplesPerWindow } }), 'noise').worst
    expect(noise(8)).toBeGreaterThan(1.2 * noise(1))
  })

  it('sampling loses counts through a filter that is large and not large enough', () => {
    const loss = (capacitance: string) => marginNamed(checked({ filter: { resistance: 330, capacitance } }), 'sampling')
    expect(loss('1 nF').verdict).toBe('holds')
    expect(loss('4.7 nF').verdict).toBe('fails')
    // 2^13 times the sampling capacitor holds half a count by itself.
    expect(loss('68 nF').verdict).toBe('holds')
  })
})

describe('a trip', () => {
  const trip = { current: '8 A', normal: '6.5 A', withstand: '10 A' }
  it('from a current to the nearest code, and from a code to the same interval', () => {
    const a = checked({ trip }).trip!
    // 8 A are 0.36 V + 8 · 218.2 mV of 3.6 V: 2395.6 counts, so code 2396 begins at 8.0018 A.
    expect(a.code).toBe(2396)
    expect(a.level).toBeCloseTo((2396 / 4096) * (3.6 / 0.2 / (3.6 / 3.3)) - 0.33 / 0.2, 9)
    expect(a.countsOverZero).toBe(2396 - 409)
    const { current: _, ...rest } = trip
    const byCode = checked({ trip: { ...rest, code: 2396 } }).trip!
    expect(byCode).toEqual(a)
  })

  it('acts between the currents that the sensitivity and the zero allow, by hand at room', () => {
    const none = { noiseDensity: 0, nonlinearity: 0, hysteresis: 0, conductorThermalResistance: 0 }
    const sensor = { ...knife.sensor, ...none, fieldRejectionDb: 120 }
    const still = { noise: 0, leakage: 0, offset: 0, gain: 0, nonlinearity: 0, samplingCapacitance: '1 fF' }
    const converter = { ...knife.converter, ...still }
    const { level, interval } = checked({ sensor, converter, trip }, room).trip!
    // The comparison of one code has no rounding: (I + offset)/(1 ± 1 %).
    expect(interval[0]).toBeCloseTo((level - 0.006 / 0.2) / 1.01, 3)
    expect(interval[1]).toBeCloseTo((level + 0.006 / 0.2) / 0.99, 2)
  })

  it('is narrower after a zero, and has a budget', () => {
    const width = (more: object) => {
      const [low, high] = checked({ ...more, trip }, room).trip!.interval
      return high - low
    }
    const worse = { sensor: { ...knife.sensor, zeroError: '60 mV' } }
    expect(width({ ...worse, calibration: { kind: 'zero' } })).toBeLessThan(width(worse) - 0.4)
    const { budgets } = checked({ trip })
    expect(budgets['I_trip']!.linear.nominal).toBeCloseTo(8, 1)
    expect(budgets['I_trip']!.linear.interval[0]).toBeGreaterThan(checked({ trip }).trip!.interval[0])
  })

  it('has the probability of each side', () => {
    const near = marginNamed(checked({ trip: { ...trip, normal: '7.95 A' } }), 'trip-false')
    expect(near.probability).toBeGreaterThan(0.5)
    expect(near.probability).toBeLessThan(0.95)
  })
})

describe('the fields of a sensor', () => {
  it('have a meaning and a symbol each, none twice', () => {
    const fields = Object.values(sensorFields)
    expect(fields.length).toBeGreaterThan(20)
    expect(new Set(fields.map(({ symbol }) => symbol)).size).toBe(fields.length)
    for (const { meaning } of fields) expect(meaning.length).toBeGreaterThan(10)
  })
})

describe('the summary', () => {
  it('counts what every board is off with the spread about it', () => {
    // 50 µs after the edge a filter of 10 kohm · 10 nF misses exp(-0.5) of 6 A.
    const slow = {
      ...perfect,
      filter: { resistance: 9990, capacitance: '10 nF' },
      wait: '51 us',
      timing: { edge: '1 us' },
    }
    const [, expected] = /expect ±([\d.]+) A/.exec(checked(slow, at(3.3)).summary)!
    expect(Math.abs(Number(expected) - 6 * Math.exp(-0.5))).toBeLessThan(0.1)
  })

  it('takes the simulated interval where half of the boards clip and the middle one has no slope', () => {
    // 3.3 V less 0.15 V hold 0.33 V and 14.1 A; a sensitivity that may be low by 1 % reads 14.15 A as 14 A, and one of
    // forty boards as less than 14.15 A · (1 - 0.95 %).
    const sensor = { ...perfect.sensor, sensitivityError: '±1 %', ratedCurrent: '20 A', highOutputDrop: 0.15 }
    const wide = { ...perfect, sensor, current: { from: 0, to: '15 A' }, errors: [{ at: '14.15 A', allowed: '1 A' }] }
    const { summary, budgets } = checkHall({ ...knife, ...wide } as HallChoice, at(3.3))
    expect(budgets['I_1']!.comparison!.agrees).toBe(false)
    const [, expected] = /expect ±([\d.]+) mA/.exec(summary)!
    expect(Math.abs(Number(expected) - 14150 * 0.0095)).toBeLessThan(10)
    expect(14.15 - budgets['I_1']!.linear.interval[0]).toBeLessThan(0.1)
  })
})
