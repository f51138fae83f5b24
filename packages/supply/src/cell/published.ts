import type { Curve } from '../curve/curve.js'

/** A curve of one cell that was measured and published. */
export interface PublishedCurve extends Curve {
  /** Document and conditions of the measurement. */
  readonly source: string
}

const source = (cell: string) =>
  `Piecewise-Battery-OCV, open data set beside a paper in IEEE Transactions on Instrumentation and Measurement, 2025: ${cell}, C/32, room temperature`

/** Open-circuit voltage in volts against the state of charge, 0 to 1, of one cell each: yours may be off by its spread. */
export const publishedCurves = /*#__PURE__*/ (() =>
  ({
    'NMC 21700': {
      x: [0, 0.0151, 0.0452, 0.0955, 0.1508, 0.2915, 0.4573, 0.8342, 0.9497, 1],
      y: [2.5061, 2.8981, 3.1461, 3.3231, 3.4218, 3.5737, 3.7017, 4.0637, 4.1009, 4.1932],
      source: source('cylindrical cell 21700 with a layered nickel-manganese-cobalt oxide'),
    },
    'LFP cylindrical': {
      x: [0, 0.0033, 0.0117, 0.0267, 0.0534, 0.0885, 0.2972, 0.9833, 0.995, 1],
      y: [2.0102, 2.4177, 2.7405, 2.9299, 3.0872, 3.1942, 3.2772, 3.3511, 3.418, 3.5981],
      source: source('cylindrical cell with lithium iron phosphate'),
    },
  }) as const satisfies Record<string, PublishedCurve>)()
