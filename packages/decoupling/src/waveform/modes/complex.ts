/** Complex numbers side by side: `re[j] + i·im[j]`. Of a conjugate pair only the one with a positive imaginary part is kept. */
export interface Roots {
  readonly re: readonly number[]
  readonly im: readonly number[]
}

/** Value of a polynomial at `x + iy`. */
export type Evaluate = (x: number, y: number) => readonly [re: number, im: number]
