import { exampleConverters } from '@ohmward/adc'
import { exampleSensors, type HallChoice, type HallConditions } from '@ohmward/hall'
import fc from 'fast-check'
import { log, range, share, toleranced } from './numbers.js'

const always = fc
  .record({
    sensor: fc.constantFrom(...Object.values(exampleSensors)),
    converter: fc.constantFrom(...Object.values(exampleConverters)),
    largest: log(1, 25),
    shares: fc.uniqueArray(fc.constantFrom(0.1, 0.25, 0.5, 1), { minLength: 1, maxLength: 2 }),
    allowed: fc.constantFrom('2 %', '5 %', '0.2 A'),
  })
  .map(({ sensor, converter, largest, shares, allowed }) => ({
    sensor,
    converter,
    current: { from: 0, to: largest },
    errors: shares.map((part) => ({ at: Number((part * largest).toPrecision(4)), allowed })),
  }))

const maybe: fc.Arbitrary<Partial<HallChoice>> = fc.record(
  {
    sensorSupply: toleranced(share(4.7, 5.2), 'V', [1, 3]),
    reading: fc.constantFrom('on-window', 'averaged'),
    pwm: fc.record({
      frequency: log(50, 2e4),
      duty: fc.tuple(share(0.1, 0.4), share(0.5, 1)).map(([from, to]) => ({ from, to })),
    }),
    filter: fc.record({
      resistance: toleranced(log(100, 1e4), 'ohm'),
      capacitance: toleranced(log(1e-10, 1e-6), 'F', [5, 10]),
    }),
    divider: fc.record({ top: toleranced(log(1e3, 1e4), 'ohm'), bottom: toleranced(log(2e3, 2e4), 'ohm') }),
    surroundings: fc.record({ neighbourCurrent: log(0.1, 10), neighbourDistance: log(5e-3, 0.1) }),
    timing: fc.record({ edge: log(1e-7, 1e-5), samples: fc.constantFrom(1, 4, 16) }),
    calibration: fc.constantFrom<NonNullable<HallChoice['calibration']>[]>(
      'none',
      { kind: 'zero' },
      { kind: 'zero', atCelsius: '25 degC ±5 K', residual: '5 mA ±5 mA', samples: 4 },
      { kind: 'zero each time' },
    ),
    power: fc.constantFrom('squared reading', 'voltage times reading'),
    leastUse: share(0.1, 0.8),
  },
  { requiredKeys: [] },
)
const trips = fc.option(fc.tuple(share(1.05, 1.2), share(1.05, 1.2), share(1.05, 1.3)), { nil: undefined })

/** Current measurements with sensors of any class. */
export const hallChoices: fc.Arbitrary<HallChoice> = fc.tuple(always, maybe, trips).map(([needed, more, trip]) => {
  const choice: HallChoice = { ...needed, ...more }
  if (trip === undefined) return choice
  const times = (...factors: number[]) =>
    Number(factors.reduce((x, factor) => x * factor, needed.current.to).toFixed(3))
  const [normal, current, withstand] = trip
  return {
    ...choice,
    trip: { normal: times(normal), current: times(normal, current), withstand: times(normal, current, withstand) },
  }
})

/** Rails of a cell or of a 5 V supply, and air. */
export const hallConditions: fc.Arbitrary<HallConditions> = fc.record({
  rail: fc.oneof(range(2.8, 3.6, 1), range(4.6, 5, 0.4)),
  ambientCelsius: range(-20, 40, 40),
})
