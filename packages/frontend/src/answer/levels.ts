import type { Spread } from '@ohmward/quantity'
import { pathAt } from '@ohmward/supply'
import { readDesign } from '../design/read.js'
import type { Design } from '../design/record.js'
import type { Place } from '../supply/place.js'
import { behindOf, powerAt } from '../supply/power.js'
import type { Rails } from '../supply/rails.js'
import { solveAt } from '../supply/solve.js'

/** An element of the path while the load is on. */
export interface PathLevel {
  readonly name: string
  /** Voltage across it, V. */
  readonly drop: Spread
  /** Heat in it, W. */
  readonly loss: Spread
}

/** Levels of a design at a place: what a drawing of it shows. */
export interface Levels {
  readonly place: Place
  /** Open circuit of the source, V, and its resistance up to the board, ohm. */
  readonly openCircuit: Spread
  readonly sourceResistance: Spread
  /** The main rail with the load off and on, and every rail behind it, V. */
  readonly rails: Rails
  /** Load current while it is on, A, and power in the load itself, W. */
  readonly current: Spread
  readonly power: Spread
  /** The load alone, what is in series with it behind the board (connector, conductor of the sensor), and the switch, ohm. */
  readonly load: Spread
  readonly behindBoard: Spread
  readonly switch: Spread
  readonly path: readonly PathLevel[]
}

/** Voltages, currents and powers of a design at one place. @throws InputError naming the first field that isn't allowed */
export function levelsAt(given: Design, place: Place): Levels {
  const design = readDesign(given)
  const solved = solveAt(design, place)
  const { source, rails, current, own, switch: on } = solved
  const path = pathAt(design.supply.path ?? [], current, place.celsius)
  return {
    place,
    openCircuit: source.openCircuit,
    sourceResistance: source.resistance,
    rails,
    current,
    power: powerAt(solved),
    load: own,
    behindBoard: behindOf(solved),
    switch: on,
    path: path.map(({ name, drop, loss }) => ({ name, drop, loss })),
  }
}
