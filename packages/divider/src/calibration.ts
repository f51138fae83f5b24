import { type Given, InputError, joined, kinds, type Read, spread } from '@ohmward/quantity'

/** When and on what the reading was calibrated. */
const moment = {
  atCelsius: /*#__PURE__*/ spread({
    symbol: 'T_cal',
    unit: 'degC',
    min: -55,
    max: 125,
    otherwise: 25,
    meaning: 'temperature of the board when it was calibrated',
  }),
  rail: /*#__PURE__*/ spread({
    symbol: 'V_railc',
    unit: 'V',
    above: 0,
    max: 60,
    optional: true,
    meaning: 'rail when it was calibrated; the nominal rail by default',
  }),
  short: /*#__PURE__*/ spread({
    symbol: 'R_short',
    unit: 'ohm',
    min: 0,
    max: 1,
    otherwise: 0,
    meaning: 'true resistance of the short',
  }),
} as const

const resistor = /*#__PURE__*/ spread({
  symbol: 'R_cal',
  hasTolerance: true,
  unit: 'ohm',
  above: 0,
  max: 100,
  meaning: 'known resistor that was measured',
})

const ways = { none: {}, zero: moment, 'zero and span': /*#__PURE__*/ joined(moment, { resistor }) } as const

/**
 * How the reading is calibrated: not at all, by reading a short, or by reading a short and one known resistor.
 * A calibration is run through the chain with the same parts: what cancels, cancels; drift, noise and resolution stay.
 */
export const calibration = /*#__PURE__*/ kinds(ways, {
  otherwise: 'none',
  check: apart,
  meaning: 'how the reading is calibrated',
})

/** A calibration as its user writes it. */
export type Calibration = NonNullable<Given<{ of: typeof calibration }>['of']>

/** A calibration that was read. */
export type ReadCalibration = Read<{ of: { kind: 'kinds'; kinds: typeof ways; meaning: string } }>['of']

/** Two readings make a span where the resistor is more than the short. @throws InputError */
function apart(read: ReadCalibration, field: string): void {
  if (read.kind !== 'zero and span' || read.resistor.lower > read.short.upper) return
  const allowed = `more than the short, ${read.short.upper} ohm, over its whole tolerance`
  throw new InputError({ field: `${field}.resistor`, value: read.resistor.lower, unit: 'ohm', allowed })
}
