import { type Check, exactly, InputError, type Read, type Spread, spread } from '@ohmward/quantity'
import { spreadOf } from '@ohmward/supply'
import { coldLoad, resistanceByCurrent, resistanceByPower } from '../formulas/load.js'

/** What the switch feeds. */
export const loadFields = {
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_L',
    unit: 'ohm',
    above: 0,
    max: 1e4,
    optional: true,
    meaning: 'resistance of the load at 20 °C; without it its rating',
  }),
  ratedVoltage: /*#__PURE__*/ exactly({
    symbol: 'V_rated',
    unit: 'V',
    above: 0,
    max: 1000,
    optional: true,
    meaning: 'voltage of its rating',
  }),
  ratedPower: /*#__PURE__*/ spread({
    symbol: 'P_rated',
    unit: 'W',
    above: 0,
    max: 1e5,
    optional: true,
    meaning:
      'power that it takes at its rated voltage, at work, with its tolerance; taken as a resistance, which draws less as the rail falls',
  }),
  ratedCurrent: /*#__PURE__*/ spread({
    symbol: 'I_rated',
    unit: 'A',
    above: 0,
    max: 1e4,
    optional: true,
    meaning:
      'current that it takes at its rated voltage, at work, with its tolerance; taken as a resistance, which draws less as the rail falls',
  }),
  temperatureCoefficient: /*#__PURE__*/ spread({
    symbol: 'alpha_L',
    unit: '1/K',
    min: -0.01,
    max: 0.02,
    otherwise: 0,
    meaning: 'temperature coefficient of its resistance',
  }),
  workingCelsius: /*#__PURE__*/ exactly({
    unit: 'degC',
    min: -55,
    max: 2000,
    otherwise: 20,
    meaning: 'temperature of the load at work; it is covered from the ambient to there',
  }),
  rise: /*#__PURE__*/ exactly({
    unit: 's',
    min: 0,
    max: 1,
    otherwise: 2e-5,
    meaning: 'time in which its current rises',
  }),
} as const

type Fields = Read<typeof loadFields>

/** A load that was read: its resistance as it is given, or as its rating makes it. */
export interface ReadLoad extends Fields {
  readonly resistance: Spread
}

/** A resistance, or a rating: one of the two, and a rating whole. */
export const oneRating: Check = (read: Fields, field) => {
  const { resistance, ratedVoltage, ratedPower, ratedCurrent } = read
  const given = { resistance, ratedPower, ratedCurrent }
  const names = Object.entries(given).flatMap(([name, value]) => (value === undefined ? [] : [name]))
  const allowed = 'one of resistance, ratedPower, ratedCurrent'
  if (names.length !== 1) throw new InputError({ field, value: names.join(' and ') || 'none of them', allowed })
  if ((resistance === undefined) === (ratedVoltage !== undefined)) return
  const beside = resistance === undefined ? `a voltage, with ${names[0]}` : 'nothing beside a resistance'
  throw new InputError({ field: `${field}.ratedVoltage`, value: ratedVoltage, unit: 'V', allowed: beside })
}

/** The resistance at 20 °C that a rating stands for: it is that of the load at work, and its coefficient leads back from there. */
export function loadOf(read: Fields): ReadLoad {
  const { resistance, ratedVoltage: V_rated, ratedPower: P_rated, ratedCurrent: I_rated } = read
  if (resistance !== undefined || V_rated === undefined) return { ...read, resistance: resistance! }
  const R_work =
    P_rated === undefined
      ? spreadOf(resistanceByCurrent, { V_rated, I_rated: I_rated! })
      : spreadOf(resistanceByPower, { V_rated, P_rated })
  const dT_work = read.workingCelsius - 20
  return { ...read, resistance: spreadOf(coldLoad, { R_work, alpha_L: read.temperatureCoefficient, dT_work }) }
}
