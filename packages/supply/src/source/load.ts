import { type Given, kinds, type Read, readRecord, record, spread } from '@ohmward/quantity'

const resistance = /*#__PURE__*/ spread({
  symbol: 'R_L',
  unit: 'ohm',
  above: 0,
  max: 1e6,
  meaning: 'resistance of the load, with whatever is in series with it behind the node',
})

/** What a load is: a resistance, the same in PWM, one that holds its power, or one that holds its current. */
export const loadFields = {
  load: /*#__PURE__*/ kinds(
    {
      resistance: { resistance },
      pwm: {
        resistance,
        duty: /*#__PURE__*/ spread({
          symbol: 'd_on',
          unit: '1',
          min: 0,
          max: 1,
          meaning: 'share of the time in which it is on',
        }),
      },
      power: {
        power: /*#__PURE__*/ spread({
          symbol: 'P_L',
          unit: 'W',
          min: 0,
          max: 1e6,
          meaning: 'constant power of the load',
        }),
      },
      current: {
        current: /*#__PURE__*/ spread({
          symbol: 'I_set',
          unit: 'A',
          min: 0,
          max: 1e5,
          meaning: 'constant current of the load',
        }),
      },
    },
    { meaning: 'kind of load' },
  ),
} as const

const loadRecord = /*#__PURE__*/ record(loadFields)

/** A load as its user writes it. */
export type Load = Given<typeof loadRecord>['load']

/** A load that was read, in SI units. */
export type ReadLoad = Read<typeof loadRecord>['load']

/** Reads a load. @throws InputError naming the field */
export const readLoad = (given: unknown): ReadLoad => readRecord(loadRecord, { load: given }, 'load').load
