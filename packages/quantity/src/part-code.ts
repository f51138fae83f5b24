import { type Coded, type CodeLetters, readCode, writeCode } from './code.js'

const resistor: CodeLetters = { multipliers: 'LRKMG', power: -3, tenths: 'R' }
const capacitor: CodeLetters = { multipliers: 'pnumF', power: -12 }

/**
 * A resistance as it stands on a part (IEC 60062): `resistorCode(4700)` is `4K7`, `resistorCode(0.47)` is `R47`,
 * `resistorCode(0.0047, 0.01)` is `4L7F`.
 *
 * @param ohms - above 0, at most four significant digits
 * @param tolerance - as a ratio, one that has a letter: 0.001, 0.0025, 0.005, 0.01, 0.02, 0.03, 0.05, 0.1, 0.2, 0.3
 * @throws InputError for what a code can't hold
 */
export const resistorCode = (ohms: number, tolerance?: number): string => writeCode(ohms, tolerance, resistor)

/** A capacitance as it stands on a part (IEC 60062): `capacitorCode(4.7e-9)` is `4n7`. Errors as {@link resistorCode}. */
export const capacitorCode = (farads: number, tolerance?: number): string => writeCode(farads, tolerance, capacitor)

/**
 * Reads a resistor's code, strictly: `4K7`, `R47`, `470R`, `4L7`, with a tolerance letter `4K7J`. The first letter is
 * the multiplier, so `10M` is ten megohms and `10MM` the same with 20 %.
 *
 * @throws InputError for what is no code
 */
export const readResistorCode = (code: string): Coded => readCode(code, resistor, '4K7, R47 or 4K7J')

/** Reads a capacitor's code, strictly: `4n7`, `10p`, `1u0`, `4n7K`. `10pF` is ten picofarads with 1 %. */
export const readCapacitorCode = (code: string): Coded => readCode(code, capacitor, '4n7, 10p or 4n7K')
