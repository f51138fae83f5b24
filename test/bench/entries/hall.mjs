import { currentTarget, exampleConverters, scaleLinear } from '../../../packages/adc/dist/index.js'
import { propagate } from '../../../packages/budget/dist/index.js'
import { checkHall, exampleSensors, hallModel, hallPeriod, sizeHall } from '../../../packages/hall/dist/index.js'
import { interleaved, repeated } from '../measure.mjs'

const converter = exampleConverters['12-bit controller converter']
const choice = {
  sensor: exampleSensors.wideSupplyOneWay,
  converter,
  current: { from: 0, to: '6 A' },
  errors: [
    { at: '1 A', allowed: '0.25 A' },
    { at: '6 A', allowed: '6 %' },
  ],
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  calibration: { kind: 'zero' },
  trip: { current: '8 A', normal: '6.5 A', withstand: '10 A' },
}
const conditions = { rail: { from: '3 V', to: '4.2 V' }, ambientCelsius: { from: 0, to: 50 } }

/** The reading with ten inputs that vary: those of the sensor and the converter that weigh most. */
const random = ['e_S', 'TC_S', 'V_oe', 'D_oe', 'V_L', 'V_h', 'V_n', 'e_offset', 'e_INL', 'e_n']
const own = hallModel({ ...choice, calibration: 'none' }, conditions, 3)
const inputs = Object.fromEntries(
  Object.entries({ ...own.inputs, V_rail: 3, T_d: 25 }).map(([name, input]) => [
    name,
    random.includes(name) || typeof input === 'number' ? input : input.nominal,
  ]),
)

const milliseconds = (calls, call) => {
  const [ms] = interleaved([repeated(calls, call)])
  return { value: ms / calls }
}

export const entries = [
  // First, as the divider's runs: an engine that other models have run through takes longer.
  {
    name: 'linear budget of a current',
    measures: `the Hall chain, ${Object.keys(inputs).length} inputs, ${random.length} random, 1 output; 1 thread`,
    limit: { atMost: 15 },
    unit: 'µs',
    run: () => {
      const { value } = milliseconds(2000, () => propagate(inputs, own.model, { row: own.row }))
      return { value: value * 1000 }
    },
  },
  {
    name: 'proof over 16 bits',
    measures: 'the best integers of a current for 2^16 codes, every code tried; 1 thread',
    limit: { atMost: 50 },
    unit: 'ms',
    run: () => {
      const target = currentTarget({ amperesPerCount: 0.00025, zeroCode: 6553.6, half: 0.5, unit: 1e-3 })
      return milliseconds(5, () => scaleLinear(target, { codes: 65535, word: 32 }))
    },
  },
  {
    name: 'check of a current',
    measures:
      'every margin over rail and temperature, two readings with zero, a trip, extremes, no simulation; 1 thread',
    limit: { atMost: 16 },
    unit: 'ms',
    run: () => milliseconds(10, () => checkHall(choice, conditions, { simulation: false })),
  },
  {
    name: 'picture of a period',
    measures: '240 points of two poles in steady state, twice, with the schedule; 1 thread',
    limit: { atMost: 2 },
    unit: 'ms',
    run: () => milliseconds(50, () => hallPeriod(choice, conditions)),
  },
  {
    name: 'sizing of a current measurement',
    measures: 'four classes of sensor, both kinds of reading, filters and averaging; 1 thread',
    limit: { atMost: 1000 },
    unit: 'ms',
    run: () => {
      const { calibration, sensor: _, filter: __, ...rest } = choice
      return milliseconds(1, () => sizeHall({ ...rest, calibration, rail: conditions.rail }))
    },
  },
]
