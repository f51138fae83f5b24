import type { Spread } from '@ohmward/quantity'
import type { Edges } from '../pulse/conducting.js'
import type { Rings } from '../pulse/rung.js'
import type { Tasks } from '../pulse/tasks.js'

/** What the firmware takes for granted, whatever the place. */
export interface Firmware {
  /** Rail while the resistance is read, load off, and with the load on, V. */
  readonly measuring: number
  readonly rail: number
  /** What drives the test current, load off, V: the rail of the converter, or the main one where the load hangs on that. */
  readonly excitation: number
  /** Rails at rest over the whole walk, V: in one of them a zero was read. */
  readonly rests: Spread
  /** The same of the current sensor: its supply with the load on, and at rest over the whole walk, V. */
  readonly sensor: number
  readonly sensorRests: Spread
  /** What the converter does beside the current in a PWM period. */
  readonly tasks: Tasks
  /** What the switch takes to be on and off, at most, wherever it is; undefined where its block refuses the supply somewhere. */
  readonly edges: () => Edges | undefined
  /** From when the load's current has risen until it is sampled, at least, s: at once without a wait. */
  readonly sampledAfter: () => number
  /** From the load's edge until a zero of the current is read in a pause, at least, s. */
  readonly zeroAfter: () => number
  /** What a ring adds to the main rail as it is read, by the resistance of the source. */
  readonly ring: (resistance: Spread) => Rings
}
