import type { ReadDesign } from '../design/record.js'
import { settling } from './off-times.js'
import { sampledAfter } from './pulse.js'

/** From when the load's current has risen until it is sampled, at least, s: the wait, else what sensor and filter take to settle. */
export const sensedAfter = (design: ReadDesign): number =>
  design.hall.wait === undefined ? settling(design) : sampledAfter(design)
