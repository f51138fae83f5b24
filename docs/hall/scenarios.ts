import { exampleChoice, exampleConditions, exampleSensors } from '@ohmward/hall'

/** The sailmaker's hot knife on one cell, sensor and converter on the same sagging rail. */
export const knife = { choice: exampleChoice, conditions: exampleConditions } as const

/** The mat's load has a supply of its own, with no capacitors to wait for. */
const { wait: _, ...shared } = knife.choice

/** A seedling mat on 12 V: the sensor on a 5 V rail of its own, the converter on 3.3 V, a divider between them. */
const mat = {
  choice: {
    ...shared,
    sensor: exampleSensors.fiveVoltFixedOneWay,
    sensorSupply: '5 V ±3 %',
    current: { from: '0 A', to: '5 A' },
    errors: [
      { at: '1 A', allowed: '0.25 A' },
      { at: '5 A', allowed: '8 %' },
    ],
    pwm: { frequency: '100 Hz', duty: { from: '5 %', to: '95 %' } },
    filter: { resistance: '330 ohm ±1 %', capacitance: '220 pF ±10 %' },
    divider: { top: '1 kohm ±0.1 %', bottom: '1.8 kohm ±0.1 %' },
    trip: { current: '6.5 A', normal: '5.5 A', withstand: '8 A' },
    otherTasks: [
      {
        name: 'resistance',
        window: 'off',
        recovery: '20 us',
        settling: '40 us',
        acquisition: '2 us',
        conversion: '1 us',
      },
    ],
    surroundings: { neighbourCurrent: '5 A', neighbourDistance: '15 mm' },
  },
  conditions: { rail: { from: '3.27 V', to: '3.33 V' }, ambientCelsius: { from: '5 degC', to: '45 degC' } },
} as const

/** What the form offers as a whole. */
export const scenarios = { 'hot knife on one cell': knife, 'seedling mat on 12 V': mat } as const
