import { between, exact, type Spread } from '@ohmward/quantity'
import { type CutOff, cutOffAt } from '@ohmward/supply'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { sumOf } from '../walk/path.js'
import type { Ends, Span } from '../walk/place.js'
import { drawOf } from '../walk/rails.js'
import type { SolvedSpan } from '../walk/solve.js'

/** What of a walk a threshold is looked for on. */
export interface Range {
  readonly design: ReadDesign
  readonly charge: Ends
  readonly around: Omit<Span, 'charge'>
  readonly solve: (span: Span) => SolvedSpan
}

/** A threshold of the rail with its error, and how far it is off by a single reading's noise. */
export interface Threshold {
  readonly acts: Spread
  readonly reads: 'at rest' | 'under load'
  /** Hysteresis on the same board at its least, less a count, V. */
  readonly hysteresis: number
}

const times = (a: Spread, b: Spread): Spread =>
  a.lower * b.lower === a.upper * b.upper
    ? exact(a.nominal * b.nominal)
    : between(a.lower * b.lower, a.upper * b.upper, a.nominal * b.nominal)

/**
 * Where a threshold lands, and supply and load there. The load is a resistance, so its current goes with the rail. The cells
 * stand above the rail by the forward voltages of the path and by what is always on. At first the source may be as weak as
 * anywhere; where that lets it act is looked at again, which can only make it narrower.
 */
export function landingOf({ design, charge, around, solve }: Range, { acts, reads, hysteresis }: Threshold) {
  const { supply, monitor, controller } = design
  const { from: full, to: empty } = charge
  let solved = solve({ charge: { from: full, to: empty }, ...around })
  if (supply.source.kind !== 'cell' || monitor === undefined) return { cut: null, solved }
  const { source } = supply
  const { noise } = monitor
  const idle = drawOf(design, mainRail)
  const noisy = between(acts.lower - noise, acts.upper + noise, acts.nominal)
  const at = ({ source: { resistance, path }, load, switch: on }: SolvedSpan): CutOff => {
    const [least, most] = [load.lower + on.lower, load.upper + on.upper]
    const own = reads === 'at rest' ? resistance : exact(0)
    const current = between(noisy.lower / (most + own.upper), noisy.upper / (least + own.lower))
    return cutOffAt(source, {
      threshold: sumOf([noisy, path.drop, times(idle, resistance)]),
      reads,
      current,
      resistance,
      hysteresis: exact(hysteresis),
      // Of the reading that stops, and of the one that would let it on again.
      noise: 2 * noise,
      brownOut: controller.brownOut,
    })
  }
  let cut = at(solved)
  for (let round = 0; round < 2; round++) {
    const inside = (one: number) => Math.min(full, Math.max(empty, one))
    solved = solve({ charge: { from: inside(cut.charge.upper), to: inside(cut.charge.lower) }, ...around })
    cut = at(solved)
  }
  return { cut, solved }
}
