import type { Input, PartFields, PartInput } from '@ohmward/quantity'
import type { CelsiusPoint, VoltPoint } from '../choice/points.js'

const path = (symbol: string, meaning: string) =>
  ({ symbol, unit: 'ohm', min: 0, max: 10, otherwise: 0, meaning }) as const

/** A cell with its power path, each element once. */
export const cellFields = {
  cellResistance: {
    symbol: 'R_cell',
    unit: 'ohm',
    min: 0,
    max: 10,
    meaning: 'internal resistance of the cell by direct current at 25 °C, new (the 1 kHz value is lower)',
  },
  ageFactor: {
    symbol: 'k_old',
    unit: '1',
    min: 1,
    max: 10,
    otherwise: 1.5,
    meaning:
      'by how much the cell resistance has grown at the oldest of the ages to cover, in a straight line from new',
  },
  contacts: /*#__PURE__*/ path('R_cont', 'cell contacts'),
  protection: /*#__PURE__*/ path('R_prot', 'protection circuit, both its switches'),
  switchResistance: /*#__PURE__*/ path('R_sw', 'power switches in the path, hot'),
  sensor: /*#__PURE__*/ path('R_sens', 'conductor of a current sensor'),
  connector: /*#__PURE__*/ path('R_conn', 'connectors'),
  wiring: /*#__PURE__*/ path('R_wire', 'wires and copper, there and back'),
  polarityDrop: {
    symbol: 'V_pol',
    unit: 'V',
    min: 0,
    max: 2,
    otherwise: 0,
    meaning:
      'forward voltage of a polarity diode in the path, cold; 0 for a transistor, whose resistance goes into the path',
  },
  inductance: {
    symbol: 'L',
    unit: 'H',
    min: 0,
    max: 1e-3,
    otherwise: 0,
    meaning: 'inductance of the loop: about 1 µH for each metre of wire, there and back',
  },
} as const satisfies PartFields

/** A supply that holds its current at a limit: a weak port with its cable. */
export const supplyFields = {
  resistance: {
    symbol: 'R_cable',
    unit: 'ohm',
    above: 0,
    max: 100,
    meaning: 'resistance of port, cable and connectors, there and back',
  },
  currentLimit: { symbol: 'I_lim', unit: 'A', above: 0, max: 100, meaning: 'least current that the supply guarantees' },
  attachable: {
    symbol: 'C_att',
    unit: 'F',
    above: 0,
    max: 1,
    otherwise: 10e-6,
    meaning: 'capacitance that may be plugged onto the port without a soft start',
  },
} as const satisfies PartFields

/** One kind of capacitor, as its data sheet states one part of it. */
export const capacitorFields = {
  capacitance: { symbol: 'C_r', unit: 'F', above: 0, max: 100, meaning: 'rated capacitance with its tolerance' },
  ratedVoltage: { symbol: 'V_r', unit: 'V', above: 0, max: 1000, meaning: 'rated voltage' },
  seriesResistance: {
    symbol: 'ESR_r',
    unit: 'ohm',
    min: 0,
    max: 100,
    meaning:
      'equivalent series resistance at 20 °C: its largest value, of which insertion counts the least share; better a range',
  },
  seriesInductance: {
    symbol: 'ESL',
    unit: 'H',
    min: 0,
    max: 1e-5,
    otherwise: 0,
    meaning: 'equivalent series inductance, mounted',
  },
  ageing: {
    symbol: 'a_dec',
    unit: '1',
    min: 0,
    max: 0.1,
    otherwise: 0,
    meaning: 'share of the capacitance lost in each decade of hours (class II ceramics)',
  },
  wornCapacitance: {
    symbol: 'k_worn',
    unit: '1',
    above: 0,
    max: 1,
    otherwise: 1,
    meaning: 'share of the capacitance left at the oldest of the ages to cover (electrolytics)',
  },
  wornResistance: {
    symbol: 'k_dry',
    unit: '1',
    min: 1,
    max: 20,
    otherwise: 1,
    meaning: 'by how much the series resistance has grown at the oldest of the ages to cover (electrolytics)',
  },
  rippleCurrent: {
    symbol: 'I_rip',
    unit: 'A',
    min: 0,
    max: 1000,
    otherwise: 0,
    meaning: 'rated ripple current at your frequency and temperature; 0: not stated',
  },
  thermalResistance: {
    symbol: 'R_thC',
    unit: 'K/W',
    min: 0,
    max: 1000,
    otherwise: 60,
    meaning: 'thermal resistance of one part to the air',
  },
  lifeHours: {
    symbol: 't_rated',
    unit: '1',
    min: 0,
    max: 1e6,
    otherwise: 0,
    meaning: 'rated life in hours at the rated temperature; 0: none (ceramic)',
  },
  lifeCelsius: { symbol: 'T_rated', unit: 'degC', min: 40, max: 200, otherwise: 105, meaning: 'rated temperature' },
  volume: {
    symbol: 'vol',
    unit: '1',
    min: 0,
    max: 1e6,
    otherwise: 0,
    meaning: 'volume of one part with its place on the board, mm³; 0: not stated',
  },
} as const satisfies PartFields

/** A kind of capacitor as its user writes it. */
export type Capacitor = PartInput<typeof capacitorFields> & {
  /** What it is called: `polymer 470 µF`; its key where the kinds are an object, its place in a list, unless told. */
  readonly name?: string
  /** How many in parallel; 1 unless told. */
  readonly count?: number | string
  /**
   * What dc bias leaves of the capacitance, points or `0 V: 1, 4.2 V: 0.45`; none lost unless told. Small-signal factors, as data sheets
   * have them: dQ/dV at that voltage, of that at 0 V; a large change charges through all of them. Beyond the last point it stays. A
   * factor above 1 and a curve that rises are refused.
   */
  readonly bias?: readonly VoltPoint[] | string
  /** What temperature does to the capacitance, factors of at most 2; nothing unless told. */
  readonly temperature?: readonly CelsiusPoint[] | string
  /** What temperature does to the series resistance, factors of at most 1000: cold wet electrolytics; nothing unless told. */
  readonly cold?: readonly CelsiusPoint[] | string
}

/** A cell with its power path, as its user writes it. */
export type Cell = PartInput<typeof cellFields> & {
  readonly kind?: 'cell'
  /** What temperature does to the cell resistance; the usual figures of {@link usualCellTemperature} unless told. */
  readonly temperature?: readonly CelsiusPoint[] | string
}

/** A current-limited supply, as its user writes it. */
export type LimitedSupply = PartInput<typeof supplyFields> & { readonly kind: 'limited supply' }

/**
 * Resistance of a lithium-ion cell against its temperature, times that at 25 °C. Common practice, no source: two to three
 * times at 0 °C, four to six at -20 °C.
 */
export const usualCellTemperature: readonly CelsiusPoint[] = [
  { celsius: -20, factor: 5 },
  { celsius: 0, factor: 2.5 },
  { celsius: 25, factor: 1 },
  { celsius: 60, factor: 0.85 },
]

/** Minimum supplies on the rail; each one's largest value counts. */
export const limitFields = {
  brownOut: {
    symbol: 'V_bod',
    unit: 'V',
    above: 0,
    max: 60,
    meaning: "controller's brown-out threshold with its spread",
  },
  clock: { symbol: 'V_clk', unit: 'V', above: 0, max: 60, meaning: "controller's lowest supply at its clock" },
  sensor: { symbol: 'V_sens', unit: 'V', above: 0, max: 60, meaning: "current sensor's lowest rated supply" },
  amplifier: { symbol: 'V_ampmin', unit: 'V', above: 0, max: 60, meaning: "amplifier's lowest rated supply" },
  converter: { symbol: 'V_adc', unit: 'V', above: 0, max: 60, meaning: "converter's lowest rated supply" },
} as const satisfies PartFields

/** Names of the limits on the rail. */
export type LimitName = keyof typeof limitFields

/** Limits as their user writes them: at least one. */
export type Limits = { readonly [N in LimitName]?: Input }

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
  resistance: { symbol: 'R_iso', unit: 'ohm', above: 0, max: 1e4, otherwise: 10, meaning: 'isolating resistor' },
  capacitance: {
    symbol: 'C_h',
    unit: 'F',
    above: 0,
    max: 100,
    meaning: 'hold-up capacitor, everything lost that is lost',
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
export type LogicRail = PartInput<typeof logicFields> & { readonly behind: 'diode' | 'resistor' }

/** What insertion of the cell must not hurt. */
export const insertionFields = {
  contactSurge: {
    symbol: 'I_surge',
    unit: 'A',
    min: 0,
    max: 1e5,
    otherwise: 0,
    meaning: 'surge current that the contact stands; 0: not stated',
  },
  tripVoltage: {
    symbol: 'V_trip',
    unit: 'V',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'over-current detection voltage of the protection, with its spread; 0: no protection',
  },
  shortVoltage: {
    symbol: 'V_short',
    unit: 'V',
    min: 0,
    max: 10,
    otherwise: 0,
    meaning: 'short-circuit detection voltage of the protection; 0: not stated',
  },
  shortDelay: {
    symbol: 't_short',
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 0,
    meaning: 'delay of the short-circuit detection, least',
  },
  railMaximum: {
    symbol: 'V_abs',
    unit: 'V',
    min: 0,
    max: 1000,
    otherwise: 0,
    meaning: 'lowest absolute maximum of what hangs on the rail; 0: not stated',
  },
} as const satisfies PartFields
