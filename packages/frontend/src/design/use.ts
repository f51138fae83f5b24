import { exactly, InputError, part, type Read, spread, word } from '@ohmward/quantity'

/** A pause of the load up to which a user notices nothing of it, s: the firmware reads the cells in it while a burst goes on. */
export const unnoticed = 0.1

const threshold = { unit: 'V', above: 0, max: 1000 } as const

const dividerFields = /*#__PURE__*/ (() =>
  ({
    upper: /*#__PURE__*/ spread({
      symbol: 'R_up',
      unit: 'ohm',
      above: 0,
      max: 1e9,
      optional: true,
      meaning: 'resistor from the main rail to the pin, with its tolerance',
    }),
    lower: /*#__PURE__*/ spread({
      symbol: 'R_low',
      unit: 'ohm',
      above: 0,
      max: 1e9,
      optional: true,
      meaning: 'resistor from the pin to ground, with its tolerance',
    }),
    ratio: /*#__PURE__*/ spread({
      symbol: 'k_div',
      unit: '1',
      above: 0,
      max: 1,
      optional: true,
      meaning:
        'in place of the two: share of the rail at the pin, with all its errors; list its standby current in standby',
    }),
    capacitance: /*#__PURE__*/ spread({
      symbol: 'C_pin',
      unit: 'F',
      above: 0,
      max: 1e-3,
      optional: true,
      meaning:
        'capacitor at the pin, from which the converter charges its own; without it the two resistors must do so while it samples',
    }),
    interval: /*#__PURE__*/ exactly({
      unit: 's',
      above: 0,
      max: 1e6,
      optional: true,
      meaning:
        'least time from one reading of the cells to the next, in which that capacitor recharges; a PWM period by default',
    }),
    inDrawer: /*#__PURE__*/ word(['on', 'off above', 'off below'], {
      otherwise: 'on',
      meaning:
        'the two in the drawer: left on, or switched off between the cells and the upper one, or between the lower one and ground',
    }),
  }) as const)()

/** Two resistors, or their ratio. @throws InputError */
function oneDivider({ upper, lower, ratio, capacitance }: Read<typeof dividerFields>, field: string): void {
  if (ratio !== undefined && capacitance !== undefined) {
    const allowed = 'nothing with a ratio, which gives no resistor to charge it'
    throw new InputError({ field: `${field}.capacitance`, value: capacitance.nominal, unit: 'F', allowed })
  }
  if (ratio === undefined) {
    if (upper !== undefined && lower !== undefined) return
    const [missing, given] = upper === undefined ? ['upper', 'lower'] : ['lower', 'upper']
    const allowed =
      upper === lower
        ? 'two resistors, upper and lower, or a ratio'
        : `a resistor to go with ${given}, or a ratio instead of both`
    throw new InputError({ field: `${field}.${missing}`, value: undefined, allowed })
  }
  if (upper === undefined && lower === undefined) return
  const allowed = `nothing with ${upper === undefined ? 'lower' : 'upper'}: either two resistors or a ratio`
  throw new InputError({ field: `${field}.ratio`, value: ratio.nominal, allowed })
}

const monitorFields = /*#__PURE__*/ (() =>
  ({
    reads: /*#__PURE__*/ word(['under load', 'at rest'], {
      otherwise: 'under load',
      meaning: 'the rail compared with the thresholds: with the load on or off',
    }),
    pause: /*#__PURE__*/ exactly({
      symbol: 't_p',
      unit: 's',
      min: 0,
      max: 3600,
      optional: true,
      meaning:
        'how long the load has been off before a reading at rest: the shortest off-time of the PWM, unless it is given. Up to 0.1 s the cells are read while a burst goes on, after a longer one before each burst',
    }),
    lacking: /*#__PURE__*/ exactly({
      symbol: 'k_lack',
      unit: '1',
      min: 0,
      max: 1,
      optional: true,
      meaning:
        'largest share of the sag of the cells that is still to recover when they are read at rest: on the bench, the voltage after half an hour less that after the pause, over that after half an hour less that at the end of a burst. The thresholds act early by it. 0.2 by default, and 0 after half an hour (common practice, no source)',
    }),
    divider: /*#__PURE__*/ part(dividerFields, {
      optional: true,
      check: oneDivider,
      meaning:
        'divider from the main rail to a pin of the converter, to read the cells from behind a regulator, or with a converter that has its own reference',
    }),
    warning: /*#__PURE__*/ exactly({ ...threshold, meaning: 'rail at which it warns', optional: true }),
    reduction: /*#__PURE__*/ exactly({ ...threshold, meaning: 'rail at which it reduces the load', optional: true }),
    stop: /*#__PURE__*/ exactly({ ...threshold, meaning: 'rail at which it stops' }),
    latch: /*#__PURE__*/ exactly({
      ...threshold,
      meaning:
        'rail below which it stays off until it is charged, read with the load off once the stop has acted: below a stop at rest; above one under load by more than the rail recovers, if it is to keep that one from switching on again',
      optional: true,
    }),
    hysteresis: /*#__PURE__*/ exactly({
      symbol: 'V_hys',
      unit: 'V',
      min: 0,
      max: 100,
      otherwise: 0,
      meaning:
        'how far above the stop it would switch on again; this, or how far the latch is above the stop, must exceed the rebound',
    }),
    noise: /*#__PURE__*/ exactly({
      symbol: 'V_noise',
      unit: 'V',
      min: 0,
      max: 1,
      otherwise: 0.01,
      meaning: 'noise of the reading (common practice, no source)',
    }),
    calibration: /*#__PURE__*/ spread({
      symbol: 'e_cal',
      unit: '1',
      min: -0.2,
      max: 0.2,
      magnitude: true,
      optional: true,
      meaning:
        'relative error left after a one-point calibration of each board, over temperature and with pin leakage, without rounding; if absent, uncalibrated',
    }),
  }) as const)()

const falling: (readonly ['warning' | 'reduction' | 'stop', string])[] = [
  ['warning', 'the warning'],
  ['reduction', 'the reduction'],
  ['stop', 'the stop'],
]

function inOrder(read: Read<typeof monitorFields>, field: string): void {
  if (read.pause !== undefined && read.reads !== 'at rest') {
    const allowed = 'nothing, unless the cells are read at rest'
    throw new InputError({ field: `${field}.pause`, value: read.pause, unit: 's', allowed })
  }
  if (read.lacking !== undefined && read.reads !== 'at rest') {
    const allowed = 'nothing, unless the cells are read at rest'
    throw new InputError({ field: `${field}.lacking`, value: read.lacking, allowed })
  }
  let above = { value: Infinity, words: '' }
  for (const [name, words] of falling) {
    const value = read[name]
    if (value === undefined) continue
    if (value > above.value) {
      const allowed = `at most ${above.words}, ${above.value} V`
      throw new InputError({ field: `${field}.${name}`, value, unit: 'V', allowed })
    }
    above = { value, words }
  }
}

/** How the firmware watches the cell. */
export const monitorField = /*#__PURE__*/ part(monitorFields, {
  optional: true,
  check: inOrder,
  meaning: 'how the firmware monitors the cell, by its rail against the internal reference',
})

/** A reference inside the controller. */
export const internalReferenceField = /*#__PURE__*/ part(
  {
    voltage: /*#__PURE__*/ spread({
      symbol: 'V_bg',
      unit: 'V',
      above: 0,
      max: 10,
      meaning: 'voltage with its limits, uncalibrated',
    }),
    drift: /*#__PURE__*/ spread({
      symbol: 'de_bg',
      unit: '1',
      min: -0.2,
      max: 0.2,
      magnitude: true,
      otherwise: 0.01,
      meaning:
        'relative drift between the reading of a zero and its use, over temperature and supply (common practice, no source)',
    }),
  },
  {
    optional: true,
    meaning:
      'reference inside the controller, against which its rail is read; where the firmware relies on the regulator or the reference of its converter instead, that one, over temperature',
  },
)

/** Heating in bursts. */
export const burstsField = /*#__PURE__*/ part(
  {
    time: /*#__PURE__*/ exactly({ symbol: 't_burst', unit: 's', above: 0, max: 1e6, meaning: 'length of one burst' }),
    watchdog: /*#__PURE__*/ exactly({
      symbol: 't_wd',
      unit: 's',
      above: 0,
      max: 1e6,
      optional: true,
      meaning: 'time after which hardware ends a burst if the controller hangs; without it the cells do',
    }),
    stuckEnergy: /*#__PURE__*/ exactly({
      unit: 'J',
      above: 0,
      max: 1e9,
      optional: true,
      meaning: 'energy of such a burst that is harmless',
    }),
  },
  { optional: true, meaning: 'heating in bursts' },
)
