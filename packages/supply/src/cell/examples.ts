import type { Cell } from './fields.js'

/**
 * Cells by class. Invented: typical of their class, no product's figures; the open-circuit curves are published ones. Put
 * your data sheet's in their place.
 */
export const exampleCells = {
  'high-drain cylindrical cell': {
    openCircuit: 'NMC 21700',
    capacity: '4000 mAh ±4 %',
    resistance: '18 mohm ±25 %',
    continuousCurrent: '30 A',
    pulseCurrent: '45 A',
  },
  'small pouch cell': {
    openCircuit: 'NMC 21700',
    capacity: '2000 mAh ±5 %',
    resistance: '45 mohm ±33 %',
    continuousCurrent: '4 A',
    pulseCurrent: '8 A',
  },
  'iron phosphate cell': {
    openCircuit: 'LFP cylindrical',
    openCircuitSpread: 0.04,
    capacity: '1500 mAh ±5 %',
    resistance: '25 mohm ±30 %',
    continuousCurrent: '10 A',
    pulseCurrent: '20 A',
    lowestVoltage: 2.8,
    damageVoltage: 2,
    hazardVoltage: 1.5,
  },
} as const satisfies Record<string, Cell>
