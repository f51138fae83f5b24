import type { ReadDesign } from '../design/record.js'
import { settling } from './off-times.js'

/** From when the load's current has risen until it is sampled, at least, s: what is left of the wait, else what sensor and filter take to settle. */
export const sensedAfter = (design: ReadDesign, sampledAfter: number): number =>
  design.hall.wait === undefined ? settling(design) : sampledAfter
