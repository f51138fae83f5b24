import { exampleConverters } from '@ohmward/adc'
import { type DividerChoice, type DividerConditions, exampleAmplifiers } from '@ohmward/divider'
import fc from 'fast-check'
import { log, range, share, toleranced } from './numbers.js'

const always = fc.record({
  load: fc
    .tuple(log(0.05, 3), share(1.2, 4))
    .map(([from, factor]) => ({ from, to: Number((from * factor).toPrecision(4)) })),
  error: fc.constantFrom('1 %', '3 %', '5 %', '20 mohm'),
  reference: toleranced(log(10, 500), 'ohm'),
  gainResistors: fc.record({ feedback: toleranced(log(3e3, 1e5), 'ohm'), ground: toleranced(log(470, 4700), 'ohm') }),
  amplifier: fc.constantFrom(...Object.values(exampleAmplifiers)),
  converter: fc.constantFrom(...Object.values(exampleConverters)),
})

const maybe: fc.Arbitrary<Partial<DividerChoice>> = fc.record(
  {
    topology: fc.constantFrom('load at ground', 'load at rail'),
    wires: fc.constantFrom(2, 4),
    excitation: toleranced(share(1.8, 3.3), 'V'),
    excitationSwitch: fc.record({
      resistance: toleranced(log(0.1, 30), 'ohm', [20, 50]),
      saturation: share(0, 0.1),
      currentLimit: log(0.02, 0.5),
    }),
    amplifierSupply: toleranced(share(3, 5), 'V'),
    surroundings: fc.record({
      leadResistance: toleranced(log(1e-3, 0.2), 'ohm', [20, 50]),
      contactVariation: log(1e-5, 5e-3),
      groundCurrent: log(1e-3, 0.5),
    }),
    timing: fc.record({ samples: fc.constantFrom(1, 4, 16), wait: log(1e-5, 1e-2) }),
    calibration: fc.constantFrom<NonNullable<DividerChoice['calibration']>[]>(
      'none',
      { kind: 'zero' },
      { kind: 'zero', atCelsius: '20 degC ±5 K', short: '1 mohm ±1 mohm' },
      { kind: 'zero and span', resistor: '1 ohm ±0.1 %' },
    ),
  },
  { requiredKeys: [] },
)

const thermometries = fc.constantFrom<NonNullable<DividerChoice['thermometry']>[]>(
  { element: { coefficient: '0.004 1/K ±5 %' }, hotCelsius: 150, error: 15 },
  { element: 'platinum', hotCelsius: 300, error: 20, limitCelsius: 400 },
)
/** One in six reads a temperature too, which takes ten times as long. */
const thermometry = fc.oneof(
  { weight: 5, arbitrary: fc.constant({}) },
  { weight: 1, arbitrary: thermometries.map((one) => ({ thermometry: one })) },
)

/** Low-ohm measurements with parts of any class and preferred or other values. */
export const dividerChoices: fc.Arbitrary<DividerChoice> = fc
  .tuple(always, maybe, thermometry)
  .map(([needed, more, temperature]) => ({ ...needed, ...more, ...temperature }))

/** Rails of one or two cells, and air. */
export const dividerConditions: fc.Arbitrary<DividerConditions> = fc.record({
  rail: range(2.5, 4, 1.5),
  ambientCelsius: range(-20, 40, 50),
})
