/** How far a simulation has come. */
export interface Progress {
  readonly trials: number
  /** Standard error of the interval's ends so far, in the output's unit; infinite until it is known. */
  readonly endError: number
  /** Trials over the most that are allowed; a run that meets its accuracy ends before 1. */
  readonly share: number
}
