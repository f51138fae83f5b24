/** Where a design is held: a state of the supply. */
export interface Place {
  /** State of charge, 0 to 1; 1 for a port, which has none. */
  readonly charge: number
  readonly celsius: number
  /** From new (0) to the end of life (1). */
  readonly age: number
}

/** `load off`: measuring the resistance. `load on`: at the step and while it stays on. `PWM`: steady, at the largest duty. */
export type State = 'load off' | 'load on' | 'PWM'
