import type { Given, PartFields } from '@ohmward/quantity'

/** A logic rail of its own, behind a diode or a resistor. */
export const logicFields = {
  forwardVoltage: {
    symbol: 'V_f',
    unit: 'V',
    min: 0,
    max: 2,
    otherwise: 0,
    meaning: "diode's forward voltage at the logic current and 25 °C, with its spread",
  },
  forwardDrift: {
    symbol: 'k_f',
    unit: 'V/K',
    min: 0,
    max: 0.01,
    otherwise: 1.5e-3,
    meaning: 'fall of the forward voltage with temperature: a cold diode drops more',
  },
  emission: {
    symbol: 'n_d',
    unit: '1',
    min: 1,
    max: 3,
    otherwise: 1.5,
    meaning: "emission coefficient of the diode, by which its drop grows with the current of PWM's pulses",
  },
  slopeResistance: {
    symbol: 'r_d',
    unit: 'ohm',
    min: 0,
    max: 10,
    otherwise: 0.1,
    meaning: 'resistance in series in the diode, which adds to that drop',
  },
  resistance: {
    symbol: 'R_iso',
    hasTolerance: true,
    unit: 'ohm',
    above: 0,
    max: 1e4,
    otherwise: 10,
    meaning: 'isolating resistor',
  },
  capacitance: {
    symbol: 'C_h',
    unit: 'F',
    above: 0,
    max: 100,
    meaning: 'hold-up capacitor with its tolerance, after all losses',
  },
  current: {
    symbol: 'I_mcu',
    unit: 'A',
    min: 0,
    max: 10,
    meaning: 'current of the logic rail, largest mean, with what leaks back through its diode when hot',
  },
  peakCurrent: {
    symbol: 'I_peak',
    unit: 'A',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning:
      'largest current of the logic rail, as of a radio or a display, for as long as a diode blocks; 0: the mean',
  },
} as const satisfies PartFields

/** A logic rail as its user writes it. */
export type LogicRail = Given<typeof logicFields> & { readonly behind: 'diode' | 'resistor' }
