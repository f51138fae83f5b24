import { type Coded, type CodeLetters, type CodeTolerance, readCode, writeCode } from './code.js'

const resistor: CodeLetters = { multipliers: 'LRKMG', power: -3, tenths: 'R' }
const capacitor: CodeLetters = { multipliers: 'pnumF', power: -12, capacitor: true }

/**
 * A resistance as printed on a part (IEC 60062): `resistorCode(4700)` is `4K7`, `resistorCode(0.47)` is `R47`,
 * `resistorCode(0.0047, 0.01)` is `4L7F`.
 *
 * @param ohms - above 0, at most four significant digits
 * @param tolerance - as a ratio, one that has a letter: 0.00005, 0.0001, 0.0002, 0.0005, 0.001, 0.0025, 0.005, 0.01, 0.02, 0.03, 0.05,
 *   0.1, 0.2, 0.3
 * @throws InputError for what a code can't hold
 */
export const resistorCode = (ohms: number, tolerance?: number): string => writeCode(ohms, tolerance, resistor)

/**
 * A capacitance as printed on a part (IEC 60062): `capacitorCode(4.7e-9)` is `4n7`. Limits that aren't symmetrical are
 * given for each side, `{ below: 0.2, above: 0.8 }`; below 10 pF a tolerance of 0.1, 0.25, 0.5, 1 or 2 pF has a letter.
 * Errors as {@link resistorCode}.
 */
export const capacitorCode = (farads: number, tolerance?: CodeTolerance): string =>
  writeCode(farads, tolerance, capacitor)

/**
 * Reads a resistor's code, strictly: `4K7`, `R47`, `470R`, `4L7`, with a tolerance letter `4K7J`. The first letter is
 * the multiplier, so `10M` is ten megohms and `10MM` the same with 20 %.
 *
 * @throws InputError for what is no code
 */
export const readResistorCode = (code: string): Coded => readCode(code, resistor, '4K7, R47 or 4K7J')

/** Reads a capacitor's code, strictly: `4n7`, `10p`, `1u0`, `4n7K`. `10pF` is ten picofarads with 1 %, `4p7C` 4.7 pF with 0.25 pF. */
export const readCapacitorCode = (code: string): Coded => readCode(code, capacitor, '4n7, 10p or 4n7K')
