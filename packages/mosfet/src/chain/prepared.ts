import { type AnyFormula, behind, chain } from '@ohmward/budget'
import { junctionTemperature } from '../formulas/thermal.js'
import { type Chosen, chosenFor, formulasOf } from './chosen.js'
import type { Place, PlaceSymbol } from './follow.js'
import { lookUps } from './look-ups.js'
import type { Topology } from './topology.js'

/** Stages of the calculation without the heat at the junction's own temperature. */
export type Stage = Exclude<keyof ReturnType<typeof formulasOf>, 'hot'>
export type Stages = Readonly<Record<Stage, readonly AnyFormula[]>>

/** What follows from a topology alone, whatever the parts are worth. */
export interface Prepared {
  readonly chosen: Chosen
  readonly stages: Stages
  /** Formulas in the order of calculation. */
  readonly formulas: readonly AnyFormula[]
  /** The same with the tables that are looked up: of one line of the on-resistance, or of several. */
  readonly read: (lines: number) => readonly AnyFormula[]
  /** The symbols behind those named, through these tables too. */
  readonly behind: (lines: number, symbols: readonly PlaceSymbol[]) => ReadonlySet<string>
  /** A new place of work. */
  readonly place: () => Place
  /** One that is used again: for who is done with it before the next one asks. */
  readonly used: () => Place
}

/** By topology: a walk over a discharge makes the same switch ready at every charge. */
const known = /*#__PURE__*/ new Map<string, Prepared>()
/** A sizing tries some ten. */
const most = 50

/** What follows from a topology, worked out once; `inputs` are the symbols of what is put into the place. */
export function prepared(topology: Topology, inputs: readonly PlaceSymbol[]): Prepared {
  const key = Object.values(topology).join()
  const found = known.get(key) ?? prepare(topology, inputs)
  if (known.size >= most && !known.has(key)) known.clear()
  known.set(key, found)
  return found
}

function prepare(topology: Topology, inputs: readonly PlaceSymbol[]): Prepared {
  const chosen = chosenFor(topology)
  const { hot, ...stages } = formulasOf(chosen)
  const { gate, drive, edges, losses, limit, surge, off } = stages
  const { place } = chain([...gate, ...drive, ...edges, ...losses, ...hot, ...limit, ...surge, ...off], inputs)
  // The balance closes the loop: it gives the temperature that the hot formulas read.
  const formulas = [...gate, ...drive, ...edges, ...losses, ...hot, junctionTemperature, ...limit, ...surge, ...off]
  const tables = [1, 2].map((lines) => [...formulas, ...lookUps(lines)])
  const read = (lines: number) => tables[lines > 1 ? 1 : 0]!
  const sets = new Map<string, ReadonlySet<string>>()
  let again: Place | undefined
  return {
    chosen,
    stages,
    formulas,
    read,
    behind: (lines, symbols) => {
      const key = `${lines > 1} ${symbols.join()}`
      const found = sets.get(key) ?? behind(read(lines), symbols)
      sets.set(key, found)
      return found
    },
    place,
    used: () => {
      again ??= place()
      return again
    },
  }
}
