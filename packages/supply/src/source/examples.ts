import { exampleCells } from '../cell/examples.js'
import type { Supply } from './fields.js'

/**
 * The sailmaker's hot knife: one high-drain cell and its path, each element once. The board hangs at the tap `board`; switch
 * and current sensor bring their own resistance, and the blade's connector is behind them. Invented: typical of the class.
 */
export const exampleSupply = /*#__PURE__*/ (() =>
  ({
    source: { kind: 'cell', ...exampleCells['high-drain cylindrical cell'] },
    path: [
      { name: 'cell contacts', resistance: '4 mohm ±50 %', currentLimit: '20 A' },
      {
        name: 'protection',
        resistance: '10 mohm ±20 %',
        tripVoltage: '0.15 V ±15 %',
        thermalResistance: 60,
        highestCelsius: 125,
      },
      {
        name: 'wiring and copper',
        resistance: '6 mohm ±20 %',
        thermalResistance: 30,
        highestCelsius: 90,
        tap: 'board',
      },
      {
        name: 'connector of the blade',
        resistance: '5 mohm ±50 %',
        currentLimit: '15 A',
        thermalResistance: 40,
        highestCelsius: 105,
      },
    ],
    inductance: '0.3 uH ±30 %',
  }) as const satisfies Supply)()

/** Supplies by class. Invented: typical of their class, no product's figures. */
export const exampleSupplies = /*#__PURE__*/ (() =>
  ({
    'hot knife, one cell': exampleSupply,
    /** The seedling mat on a mains adapter. */
    'seedling mat, 12 V adapter': {
      source: {
        kind: 'port',
        voltage: '12 V ±5 %',
        currentLimit: '2 A +20/-0 %',
        leadResistance: '150 mohm ±20 %',
        attachable: '1 mF',
      },
    },
    /** A charging port without a cell. */
    'weak port on a cable': {
      source: { kind: 'port', voltage: '5 V ±5 %', currentLimit: '0.5 A +20/-0 %', leadResistance: '250 mohm ±20 %' },
    },
  }) as const satisfies Record<string, Supply>)()
