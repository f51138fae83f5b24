/** One input's line in a linear budget. */
export interface Contribution {
  /** The input's name. */
  readonly input: string
  readonly nominal: number
  /** Expectation of the input: the middle of its distribution. */
  readonly estimate: number
  readonly lower: number
  readonly upper: number
  readonly distribution: string
  /** Standard uncertainty of the input. */
  readonly u: number
  /** Partial derivative of the output at the estimate. */
  readonly sensitivity: number
  /** Signed contribution `sensitivity · u`, in the output's unit. */
  readonly contribution: number
  /** Share of the output's variance, 0 to 1; with correlation the shares may leave that range, their sum stays 1. */
  readonly share: number
  /** The group in which it adds by size before the rest is combined in quadrature. */
  readonly group?: string
}

/** Linear propagation of uncertainty (JCGM 100:2008, 5.1 and 5.2). */
export interface LinearBudget {
  /** The model at the inputs' expectations. */
  readonly estimate: number
  /** The model with every input at its nominal value. */
  readonly nominal: number
  /** Combined standard uncertainty. */
  readonly u: number
  /** Level of confidence of the interval, 0 to 1. */
  readonly level: number
  /** Coverage factor. */
  readonly k: number
  /** Expanded uncertainty `k · u`. */
  readonly expanded: number
  readonly interval: readonly [lower: number, upper: number]
  /** Effective degrees of freedom (Welch-Satterthwaite); `Infinity` is given as `null`, so that JSON keeps it. */
  readonly degreesOfFreedom: number | null
  /** In the order of the inputs. */
  readonly contributions: readonly Contribution[]
  /** Standard uncertainty that the second-order terms alone would give (JCGM 100, 5.1.2, note). */
  readonly secondOrder: number
  /** Why the linear answer should not be trusted; empty when nothing was noticed. */
  readonly doubts: readonly string[]
}

/** The largest and smallest value of the output over the inputs' limits. */
export interface Extremes {
  readonly lower: number
  readonly upper: number
  /** Inputs at the smallest output. */
  readonly atLower: Readonly<Record<string, number>>
  /** Inputs at the largest output. */
  readonly atUpper: Readonly<Record<string, number>>
  readonly verdict: 'sure' | 'not sure'
  /** Why not sure; empty otherwise. */
  readonly reasons: readonly string[]
  /**
   * What is assumed of a model that can only be called: that between the places where it was looked at it does
   * nothing else. Absent from the rows of a check, whose formulas are known.
   */
  readonly assumed?: string
  /**
   * How much further an extreme can lie where it isn't sure: the largest changes that the inputs whose direction isn't
   * settled were seen to make, added up. 0 when sure; `null` where nothing can be said.
   */
  readonly doubt: number | null
  /** How often the model was evaluated. */
  readonly evaluations: number
}

/** Counts of simulated values in equal bins. */
export interface Histogram {
  readonly from: number
  readonly to: number
  readonly counts: readonly number[]
}

/** Propagation of distributions by simulation (JCGM 101:2008). */
export interface Simulation {
  readonly mean: number
  /** Standard deviation of the simulated values. */
  readonly u: number
  readonly level: number
  /** Probabilistically symmetric coverage interval. */
  readonly interval: readonly [lower: number, upper: number]
  /** Shortest coverage interval. */
  readonly shortest: readonly [lower: number, upper: number]
  readonly minimum: number
  readonly maximum: number
  readonly trials: number
  readonly seed: number
  /** Estimated standard error of the interval's ends, in the output's unit. */
  readonly endError: number
  /** Estimated standard error of the ends of the shortest interval, in the output's unit: its place settles slowly. */
  readonly shortestError: number
  /** Whether the stated accuracy was reached before the largest number of trials. */
  readonly converged: boolean
  readonly histogram: Histogram
  /** Probability of lying within the limits asked about; absent when none were. */
  readonly within?: number
  /** Estimated standard error of that probability. */
  readonly withinError?: number
}

/** Linear propagation held against simulation (JCGM 101:2008, clause 8). */
export interface Comparison {
  /** Whether the linear result is validated. */
  readonly agrees: boolean
  /** Whether the simulation is accurate enough to tell. */
  readonly decided: boolean
  /** Significant digits of the standard uncertainty that count. */
  readonly digits: number
  readonly lowerDifference: number
  readonly upperDifference: number
  /** Numerical tolerance δ of the standard uncertainty, for the stated number of significant digits. */
  readonly tolerance: number
  /** The verdict in a sentence. */
  readonly text: string
}

/** What one output is worth, answered up to three ways. */
export interface Budget {
  readonly symbol: string
  readonly quantity: string
  readonly unit: string
  readonly linear: LinearBudget
  readonly extremes: Extremes
  readonly simulation?: Simulation
  readonly comparison?: Comparison
}
