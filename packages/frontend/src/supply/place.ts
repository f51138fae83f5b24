/** Where a design is held: a state of the supply. */
export interface Place {
  /** State of charge, 0 to 1; 1 for a port, which has none. */
  readonly charge: number
  readonly celsius: number
  /** From new (0) to the end of life (1). */
  readonly age: number
}

/** Both ends of what is covered. */
export interface Ends {
  readonly from: number
  readonly to: number
}

/** Many places at once: every charge, temperature and age between the ends. */
export type Span = { readonly [K in keyof Place]: Ends }

/**
 * `load off`: measuring the resistance. `load on`: at the step and while it stays on. `PWM`: steady, at every duty
 * that is to be covered.
 */
export type State = 'load off' | 'load on' | 'PWM'

/** A place as a span of its own. */
export const spanOf = ({ charge, celsius, age }: Place): Span => ({
  charge: { from: charge, to: charge },
  celsius: { from: celsius, to: celsius },
  age: { from: age, to: age },
})

/** Whether a span is a single place. */
export const isPlace = ({ charge, celsius, age }: Span): boolean =>
  charge.from === charge.to && celsius.from === celsius.to && age.from === age.to
