/** 2^n, by a shift where n is whole and small: an order of magnitude faster than the general power. Bare arithmetic, and so among the formulas: what is no number is NaN. */
export const twoTo = (n: number): number => (n === (n | 0) && n >= 0 && n < 31 ? 1 << n : 2 ** n)
