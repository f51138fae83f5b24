import type { Rail } from './fields.js'

/** What stands between two rails, by class. Invented: typical of their class, no product's figures. */
export const exampleRails = {
  'linear regulator, 3.0 V': {
    kind: 'regulator',
    voltage: '3.0 V ±2 %',
    dropout: '0 A: 0.02 V, 10 mA: 0.06 V, 100 mA: 0.25 V, 200 mA: 0.5 V',
    currentLimit: '200 mA',
    quiescentCurrent: '4 uA ±50 %',
    lowestInput: '2 V',
    highestInput: '6 V',
    responseTime: '10 us ±50 %',
    outputCapacitance: '4.7 uF ±40 %',
  },
  'Schottky diode with hold-up': {
    kind: 'diode',
    forwardVoltage: '0.28 V ±0.05 V',
    forwardAt: '10 mA',
    capacitance: '470 uF ±20 %',
  },
  'resistor with hold-up': { kind: 'resistor', resistance: '10 ohm ±5 %', capacitance: '100 uF ±20 %' },
} as const satisfies Record<string, Rail['through']>
