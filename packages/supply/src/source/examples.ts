import { exampleCells } from '../cell/examples.js'
import type { Supply } from './fields.js'

/** Supplies by class. Invented: typical of their class, no product's figures. */
export const exampleSupplies = {
  /** The sailmaker's hot knife: one high-drain cell and its path, each element once. */
  'hot knife, one cell': {
    source: /*#__PURE__*/ (() => ({ kind: 'cell', ...exampleCells['high-drain cylindrical cell'] }) as const)(),
    path: [
      { name: 'cell contacts', resistance: '4 mohm ±50 %', currentLimit: 20 },
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
      { name: 'power switch', resistance: '6 mohm ±30 %', currentLimit: 30 },
      { name: 'sensor conductor', resistance: '1.2 mohm ±10 %', currentLimit: 30 },
      { name: 'connector', resistance: '5 mohm ±50 %', currentLimit: 15, thermalResistance: 40, highestCelsius: 105 },
    ],
  },
  /** The seedling mat on a mains adapter. */
  'seedling mat, 12 V adapter': {
    source: { kind: 'port', voltage: '12 V ±5 %', currentLimit: '2 A +20/-0 %', leadResistance: '150 mohm ±20 %' },
  },
  /** A charging port without a cell. */
  'weak port on a cable': {
    source: { kind: 'port', voltage: '5 V ±5 %', currentLimit: '0.5 A +20/-0 %', leadResistance: '250 mohm ±20 %' },
  },
} as const satisfies Record<string, Supply>
