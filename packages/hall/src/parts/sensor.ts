import { type Given, InputError, list, type PartFields, part, type Read, word } from '@ohmward/quantity'

/**
 * What a current sensor's data sheet must say, over the temperatures at which the device is used: maximum or minimum
 * limits, never typical values.
 */
export const sensorFields = {
  sensitivity: { symbol: 'S_0', unit: 'V/A', min: 1e-6, max: 100, meaning: 'sensitivity at the rated supply' },
  zeroOutput: { symbol: 'V_q0', unit: 'V', above: 0, max: 30, meaning: 'output at zero current and rated supply' },
  ratedSupply: {
    symbol: 'V_s0',
    unit: 'V',
    min: 0.1,
    max: 30,
    meaning: 'supply at which zero and sensitivity are stated',
  },
  supplyMinimum: { symbol: 'V_smin', unit: 'V', min: 0.1, max: 30, meaning: 'lowest rated supply' },
  supplyMaximum: { symbol: 'V_smax', unit: 'V', min: 0.1, max: 30, meaning: 'highest rated supply' },
  supplyCurrent: { symbol: 'I_s', unit: 'A', min: 0, max: 1, meaning: 'largest supply current' },
  ratedCurrent: {
    symbol: 'I_fs',
    unit: 'A',
    min: 1e-3,
    max: 1e4,
    meaning: 'end of the linear range, in either direction',
  },
  sensitivityError: {
    symbol: 'e_S',
    unit: '1',
    magnitude: true,
    min: -0.5,
    max: 0.5,
    meaning: 'largest error of the sensitivity at 25 °C',
  },
  sensitivityDrift: {
    symbol: 'TC_S',
    unit: '1/K',
    magnitude: true,
    min: -0.01,
    max: 0.01,
    meaning: 'largest drift of the sensitivity',
  },
  zeroError: {
    symbol: 'V_oe',
    unit: 'V',
    magnitude: true,
    min: -1,
    max: 1,
    meaning: 'largest error of the zero output at 25 °C',
  },
  zeroDrift: {
    symbol: 'D_oe',
    unit: 'V/K',
    magnitude: true,
    min: -0.1,
    max: 0.1,
    meaning: 'largest drift of the zero output',
  },
  sensitivityAgeing: {
    symbol: 'e_Sa',
    unit: '1',
    magnitude: true,
    min: -0.2,
    max: 0.2,
    otherwise: 0,
    meaning: 'largest drift of the sensitivity over its life',
  },
  zeroAgeing: {
    symbol: 'V_oa',
    unit: 'V',
    magnitude: true,
    min: -1,
    max: 1,
    otherwise: 0,
    meaning: 'largest drift of the zero output over its life, which only a zero read each time removes',
  },
  zeroSupplyError: {
    symbol: 'm_q',
    unit: '1',
    magnitude: true,
    min: -0.2,
    max: 0.2,
    meaning: 'largest ratiometry error of the zero, as a share, at the ends of the rated supply',
  },
  sensitivitySupplyError: {
    symbol: 'm_S',
    unit: '1',
    magnitude: true,
    min: -0.2,
    max: 0.2,
    meaning: 'the same for the sensitivity',
  },
  nonlinearity: {
    symbol: 'e_lin',
    unit: '1',
    min: 0,
    max: 0.2,
    meaning: 'largest nonlinearity, as a share of the rated current',
  },
  hysteresis: {
    symbol: 'e_h',
    unit: '1',
    min: 0,
    max: 0.2,
    meaning: 'largest zero shift after a peak current, as a share of that current',
  },
  noiseDensity: { symbol: 'e_d', unit: 'V/Hz^0.5', min: 0, max: 1e-2, meaning: 'noise density at the output' },
  bandwidth: { symbol: 'BW_s', unit: 'Hz', min: 1, max: 1e9, meaning: 'least bandwidth' },
  lowOutput: { symbol: 'V_ol', unit: 'V', min: 0, max: 10, meaning: 'lowest output in the linear range' },
  highOutputDrop: {
    symbol: 'V_oh',
    unit: 'V',
    min: 0,
    max: 10,
    meaning: 'distance of the highest output in the linear range below the supply',
  },
  outputResistance: { symbol: 'R_o', unit: 'ohm', min: 0, max: 1e5, otherwise: 10, meaning: 'output resistance' },
  conductorResistance: {
    symbol: 'R_c',
    unit: 'ohm',
    min: 0,
    max: 1,
    meaning: 'largest resistance of the conductor that the current flows through, hot',
  },
  conductorThermalResistance: {
    symbol: 'R_thc',
    unit: 'K/W',
    min: 0,
    max: 1e4,
    otherwise: 50,
    meaning: 'thermal resistance of the conductor to the surroundings, on its board',
  },
  maximumCelsius: { symbol: 'T_max', unit: 'degC', above: 0, max: 250, otherwise: 150, meaning: 'highest temperature' },
  fieldCoupling: {
    symbol: 'C_B',
    unit: 'T/A',
    min: 1e-7,
    max: 1,
    meaning: 'field at the sensing element for each ampere in the conductor',
  },
  fieldRejectionDb: {
    symbol: 'CMFR_dB',
    unit: 'dB',
    min: 0,
    max: 120,
    otherwise: 0,
    meaning: 'least rejection of a uniform field; 0 for a single element',
  },
} as const satisfies PartFields

/** Words of a sensor's fields. */
export type SensorWord = keyof typeof sensorFields

/** Terms of a sensor that can stand in a group, by word, with the symbols that they have among the inputs. */
export const groupSymbols = {
  sensitivityError: 'e_S',
  sensitivityDrift: 'TC_S',
  zeroError: 'V_oe',
  zeroDrift: 'D_oe',
  zeroSupplyError: 'm_q',
  sensitivitySupplyError: 'm_S',
  nonlinearity: 'V_L',
  hysteresis: 'V_h',
} as const

/** Words of the terms that can stand in a group. */
export type GroupWord = keyof typeof groupSymbols

/** The table, and what stands beside it. A function, so that a bundler drops it where it isn't used. */
const sensorPart = () => {
  const term = word(Object.keys(groupSymbols) as GroupWord[], { meaning: 'a term of the error' })
  const settings = {
    output: /*#__PURE__*/ word(['ratiometric', 'fixed'], {
      meaning: 'zero and sensitivity follow the supply, or are fixed',
    }),
    correlated: /*#__PURE__*/ list(list(term, { least: 1, most: 8, meaning: 'terms that add linearly' }), {
      least: 0,
      most: 4,
      optional: true,
      check: noneTwice,
      meaning: 'terms that the data sheet states as adding linearly before the root sum of squares, in groups',
    }),
  } as const
  return part({ ...settings, ...sensorFields }, { check: validSpan, meaning: 'current sensor' })
}

/** A sensor as a part of a choice. */
export const sensorRecord = /*#__PURE__*/ sensorPart()

/** A current sensor as its user writes it. */
export type Sensor = Given<(typeof sensorRecord)['fields']>

/** A sensor that was read. */
export type ReadSensor = Read<(typeof sensorRecord)['fields']>

/** A term stands in one group at most. */
function noneTwice(groups: readonly (readonly GroupWord[])[], field: string): void {
  const words = groups.flat()
  const twice = words.find((one, i) => words.indexOf(one) < i)
  if (twice !== undefined) throw new InputError({ field, value: twice, allowed: 'each term at most once' })
}

/** A zero output between the lowest and the highest output, a rated supply inside its range: otherwise the span is empty. */
function validSpan(
  { zeroOutput, ratedSupply, lowOutput, highOutputDrop, ...s }: Read<typeof sensorFields>,
  field: string,
): void {
  const top = ratedSupply.nominal - highOutputDrop.upper
  const { nominal } = zeroOutput
  if (!(nominal > lowOutput.upper && nominal < top)) {
    throw new InputError({
      field: `${field}.zeroOutput`,
      value: nominal,
      unit: 'V',
      allowed: `between lowOutput, ${lowOutput.upper} V, and ratedSupply less highOutputDrop, ${Number(top.toPrecision(6))} V`,
      hint: 'Otherwise the span is empty',
    })
  }
  if (!(s.supplyMinimum.nominal <= ratedSupply.nominal && ratedSupply.nominal <= s.supplyMaximum.nominal)) {
    throw new InputError({
      field: `${field}.ratedSupply`,
      value: ratedSupply.nominal,
      unit: 'V',
      allowed: `from supplyMinimum, ${s.supplyMinimum.nominal} V, to supplyMaximum, ${s.supplyMaximum.nominal} V`,
    })
  }
}
