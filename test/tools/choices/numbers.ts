import fc from 'fast-check'

/** A number between two, evenly over its logarithm, with four digits. */
export const log = (from: number, to: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(from), max: Math.log(to), noNaN: true }).map((x) => Number(Math.exp(x).toPrecision(4)))

/** A number between two with four digits behind the point. */
export const share = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true }).map((x) => Number(x.toFixed(4)))

/** A range that begins between two numbers and is at most so long. */
export const range = (min: number, max: number, longest: number): fc.Arbitrary<{ from: number; to: number }> =>
  fc.tuple(share(min, max), share(0, longest)).map(([from, more]) => ({ from, to: Number((from + more).toFixed(4)) }))

/** A value with a tolerance, as people write it: `47 ohm ±1 %`. */
export const toleranced = (
  values: fc.Arbitrary<number>,
  unit: string,
  percents: readonly number[] = [0.1, 0.5, 1, 5],
): fc.Arbitrary<string> =>
  fc.tuple(values, fc.constantFrom(...percents)).map(([x, percent]) => `${x} ${unit} ±${percent} %`)
