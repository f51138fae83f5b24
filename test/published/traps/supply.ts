import { exact } from '@ohmward/quantity'
import { type Diode, dutyFor, holdUpFor, readRail, solveLoad } from '@ohmward/supply'
import {
  batteryResistance,
  clampCurrent,
  dividerDrain,
  elementDrop,
  estimatedOpenCircuit,
  filteredRail,
  heldRail,
  largestPower,
  loadedRail,
  pinOverdrive,
  protectionTrip,
  rebound,
  resistorRail,
  restAtCutOff,
  shelfTime,
  tripSlack,
} from '@ohmward/supply/formulas'
import type { TrapRow } from '../check.js'

const diode = readRail({
  name: 'logic',
  source: 'main',
  through: {
    kind: 'diode',
    forwardVoltage: 0.3,
    forwardAt: 5e-3,
    emission: 1,
    drift: 0,
    reverseLeakage: 0,
    capacitance: 1e-3,
  },
}).through as Diode

const day = 86400
const days = (charge: number, share: number, current: number) =>
  shelfTime({ Q_age: charge * 3.6, x_q: share, I_sb: current, I_self: 0 }) / day

const standby = (
  [
    ['a Hall sensor of 13 mA', 13e-3, 6.4, 0.05],
    ['a lamp of 2 mA', 2e-3, 42, 0.5],
    ['an amplifier of 0.7 mA', 0.7e-3, 119, 0.5],
    ['a controller of 55 µA', 55e-6, 1515, 0.5],
    ['a divider of 42 µA', 42e-6, 1984, 0.5],
  ] as const
).map(
  ([part, current, printed, tolerance]): TrapRow => ({
    trap: 'K07',
    statement: `days until ${part} has emptied 2000 mAh`,
    printed,
    tolerance,
    unit: 'd',
    independent: () => 2 / current / 24,
    library: () => days(2000, 1, current),
  }),
)

const reserve = (
  [
    ['13 mA, in hours', 13e-3, 4.6, 0.05, 'h'],
    ['1 mA, in days', 1e-3, 2.5, 0.05, 'd'],
    ['50 µA, in days', 50e-6, 50, 0.5, 'd'],
  ] as const
).map(
  ([what, current, printed, tolerance, unit]): TrapRow => ({
    trap: 'K09',
    statement: `3 % of 2000 mAh after the cut-off at ${what}`,
    printed,
    tolerance,
    unit,
    independent: () => (0.03 * 2) / current / (unit === 'h' ? 1 : 24),
    library: () => days(2000, 0.03, current) * (unit === 'h' ? 24 : 1),
  }),
)

/** What feeds a rail: the arithmetic of pitfalls J05 to J07 and K. */
export const rows: TrapRow[] = [
  {
    trap: 'J05',
    statement: 'hold-up of 5 mA for a burst of 2 s with 0.1 V of room',
    printed: 0.1,
    tolerance: 0.001,
    unit: 'F',
    independent: () => (5e-3 * 2) / 0.1,
    library: () =>
      holdUpFor(diode, { rest: exact(3.4), time: exact(2), current: exact(5e-3), celsius: 25 }, 3.0) ?? Number.NaN,
  },
  {
    trap: 'J05',
    statement: 'voltage that 470 µF lose to 5 mA in 10 ms',
    printed: 0.106,
    tolerance: 0.0005,
    unit: 'V',
    independent: () => (5e-3 * 10e-3) / 470e-6,
    library: () => 3.4 - heldRail({ V_log: 3.4, I_log: 5e-3, t_sag: 10e-3, C_h: 470e-6 }),
  },
  {
    trap: 'J06',
    statement: 'a pin on the raw rail of 4.2 V above a logic rail behind 0.4 V and its clamp of 0.3 V',
    printed: 0.1,
    tolerance: 0.0005,
    unit: 'V',
    independent: () => 4.2 - (4.2 - 0.4) - 0.3,
    library: () => pinOverdrive({ V_pin: 4.2, V_log: 4.2 - 0.4, V_clamp: 0.3 }),
  },
  {
    trap: 'J07',
    statement: 'drop of 10 ohm at 5 mA, as the rail behind it loses it',
    printed: 0.05,
    tolerance: 0.0005,
    unit: 'V',
    independent: () => 5e-3 * 10,
    library: () => 3.7 - resistorRail({ V_raw: 3.7, I_log: 5e-3, R_iso: 10 }),
  },
  {
    trap: 'J07',
    statement: 'share of a sag that 10 ohm and 100 µF let through in 1 ms',
    printed: 0.632,
    tolerance: 0.0005,
    unit: '1',
    independent: () => 1 - Math.exp(-1),
    library: () => 3.7 - filteredRail({ V_sag: 2.7, I_log: 0, R_iso: 10, V_rest: 3.7, t_sag: 1e-3, C_h: 100e-6 }),
  },
  {
    trap: 'K01',
    statement: 'sag of 8 A in 20 mohm at 0 °C (times 2.5), a fifth charged (1.2) and old (2)',
    printed: 0.96,
    tolerance: 0.005,
    unit: 'V',
    independent: () => 8 * 0.02 * 2.5 * 1.2 * 2,
    library: () => 8 * batteryResistance({ n_s: 1, R_cell: 0.02, k_T: 2.5, k_q: 1.2, k_age: 2 }),
  },
  {
    trap: 'K02',
    statement: 'current of 30 W held behind 3.7 V and 0.1 ohm',
    printed: 12,
    tolerance: 0.5,
    unit: 'A',
    independent: () => (3.7 - Math.sqrt(3.7 ** 2 - 4 * 0.1 * 30)) / 0.2,
    library: () => {
      const found = solveLoad({ V_oc: 3.7, R_s: 0.1 }, { kind: 'power', P_L: 30 })
      return found.kind === 'possible' ? found.current : Number.NaN
    },
  },
  {
    trap: 'K02',
    statement: 'largest power behind 3.4 V and 0.1 ohm',
    printed: 28.9,
    tolerance: 0.05,
    unit: 'W',
    independent: () => 3.4 ** 2 / 0.4,
    library: () => largestPower({ V_oc: 3.4, R_s: 0.1 }),
  },
  {
    trap: 'K02',
    statement: 'what is left of 30 W asked of PWM into 0.5 ohm behind 3.7 V and 0.1 ohm',
    printed: 19.0,
    tolerance: 0.05,
    unit: 'W',
    independent: () => (3.7 ** 2 * 0.5) / 0.6 ** 2,
    library: () => {
      const found = dutyFor({ V_oc: 3.7, R_s: 0.1 }, 0.5, 30)
      return found.kind === 'impossible' ? found.largestPower : Number.NaN
    },
  },
  {
    trap: 'K03',
    statement: 'burst that a trip voltage of 0.15 V across 50 mohm allows, 70 % of it used',
    printed: 2.1,
    tolerance: 0.05,
    unit: 'A',
    independent: () => (0.7 * 0.15) / 50e-3,
    library: () => tripSlack({ k_trip: 0.7, I_trip: protectionTrip({ V_trip: 0.15, R_el: 50e-3 }), I_el: 0 }),
  },
  {
    trap: 'K04',
    statement: 'rebound of 8 A in 0.1 ohm',
    printed: 0.8,
    tolerance: 0.05,
    unit: 'V',
    independent: () => 8 * 0.1,
    library: () => rebound({ I_L: 8, R_s: 0.1 }),
  },
  {
    trap: 'K05',
    statement: 'how far a cut-off lands too low that makes up for 0.15 ohm where 0.1 ohm are, at 8 A',
    printed: 0.4,
    tolerance: 0.005,
    unit: 'V',
    independent: () => 8 * (0.15 - 0.1),
    library: () => 3.2 - restAtCutOff({ V_thr: 3.2, I_use: 8, R_use: 0.15, I_L: 8, R_s: 0.1 }),
  },
  {
    trap: 'K05',
    statement: 'open-circuit voltage estimated from 2.8 V at 8 A with 0.1 ohm',
    printed: 3.6,
    tolerance: 0.05,
    unit: 'V',
    independent: () => 2.8 + 8 * 0.1,
    library: () => estimatedOpenCircuit({ V_rail: 2.8, I_use: 8, R_use: 0.1 }),
  },
  {
    trap: 'K06',
    statement: 'loaded rail at a cut-off of 3.3 V at rest, 8 A and 0.1 ohm, against a board that needs 3.3 V',
    printed: -0.8,
    tolerance: 0.005,
    unit: 'V',
    independent: () => 3.3 - 8 * 0.1 - 3.3,
    library: () => loadedRail({ V_oc: 3.3, I_L: 8, R_s: 0.1 }) - 3.3,
  },
  ...standby,
  {
    trap: 'K07',
    statement: 'current of 12 V across 1.1 Mohm',
    printed: 11e-6,
    tolerance: 0.5e-6,
    unit: 'A',
    independent: () => 12 / 1.1e6,
    library: () => dividerDrain({ V_bat: 12, R_div: 1.1e6 }),
  },
  {
    trap: 'K08',
    statement: 'leak of a divider with 100 kohm on top, its lower end open, from 4.2 V into a rail of 3.0 V',
    printed: 9e-6,
    tolerance: 0.05e-6,
    unit: 'A',
    independent: () => (4.2 - 3.0 - 0.3) / 100e3,
    library: () => clampCurrent({ V_over: pinOverdrive({ V_pin: 4.2, V_log: 3.0, V_clamp: 0.3 }), R_ser: 100e3 }),
  },
  ...reserve,
  {
    trap: 'K13',
    statement: 'share of one cell at 3.7 V that a polarity diode of 0.4 V takes',
    printed: 0.108,
    tolerance: 0.0005,
    unit: '1',
    independent: () => 0.4 / 3.7,
    library: () => elementDrop({ I_el: 5, R_el: 0, V_el: 0.4 }) / 3.7,
  },
]
