import { between, demand, demandFinite, InputError, type Spread } from '@ohmward/quantity'
import type { ReadCell } from '../cell/fields.js'
import { spreadKnees, voltageAt, within } from '../cell/state.js'
import { least, most } from '../least-most.js'
import { demandNames } from '../names.js'
import { demandCell, demandSupply } from '../taken.js'
import { type SourceAt, sourceAt } from './at.js'
import type { ReadSupply } from './fields.js'

type Ends = { readonly from: number; readonly to: number }

/** What of a supply's states is covered. */
export interface SupplyRange {
  /** State of charge, 0 to 1; cells need it. */
  readonly charge?: Ends | undefined
  /** Temperature of cells and path, degC. */
  readonly celsius: Ends
  /** From new (0) to the end of life (1); all of it by default. */
  readonly age?: Ends | undefined
  /** The node that is looked at: a tap of the path; its end, at the load, by default. */
  readonly tap?: string | undefined
}

/** A source over a range of its states, as a block takes it. */
export interface SourceOver {
  /** Open-circuit voltage, empty to full, V. */
  readonly openCircuit: Ends
  /** Over all states and parts, ohm; nominal is that of nominal parts in the middle of the range. */
  readonly resistance: Spread
  /** H */
  readonly inductance: Spread
  /** A; cells have none. */
  readonly currentLimit: Spread | undefined
}

/**
 * Open-circuit voltage of cells over a range of charge, how far a cell may be off its curve included, V.
 *
 * @throws InputError where the cell is none, the charge isn't from 0 to 1, or its range is turned round
 */
export function voltageOver(cell: ReadCell, charge: Ends): Ends {
  demandCell(cell)
  inOrder(charge)
  const all = places(charge, whereSpreadGrows(cell)).map((q) => voltageAt(cell, q))
  return { from: least(all.map(({ lower }) => lower)), to: most(all.map(({ upper }) => upper)) }
}

/**
 * The source that a load sees over a range of charge, temperature and age, for a block that takes an open-circuit voltage and
 * a resistance. Both are taken for independent of each other, which is on the safe side: a full cell that is cold and old
 * counts too. Resistances are looked at in every corner and at the points of the curves between.
 *
 * @throws InputError as {@link sourceAt} does; where a cell is asked for without its charge
 */
export function sourceOver(supply: ReadSupply, range: SupplyRange): SourceOver {
  demandSupply(supply)
  demandNames(range, 'range', ['celsius'], ['charge', 'age', 'tap'])
  const { charge, celsius, age = { from: 0, to: 1 }, tap } = range
  const { source } = supply
  isRange('celsius', celsius)
  isRange('age', age)
  if (source.kind === 'cell' && charge === undefined) {
    throw new InputError({ field: 'charge', value: charge, allowed: 'a range from 0 to 1' })
  }
  const cell = source.kind === 'cell' ? source : undefined
  if (charge !== undefined) inOrder(charge)
  const points = cell && [...cell.chargeFactor.x, ...whereSpreadGrows(cell)]
  const charges = charge === undefined ? [0] : places(charge, points)
  const at = (q: number, degrees: number, old: number): SourceAt =>
    sourceAt(supply, {
      ...(cell && { charge: q, age: old }),
      celsius: degrees,
      ...(tap !== undefined && { tap }),
    })
  const all = charges.flatMap((q) =>
    places(celsius, cell?.temperatureFactor.x).flatMap((degrees) => [at(q, degrees, age.from), at(q, degrees, age.to)]),
  )
  const middle = at(charge ? middleOf(charge) : 0, middleOf(celsius), middleOf(age))
  return {
    openCircuit: {
      from: least(all.map(({ openCircuit }) => openCircuit.lower)),
      to: most(all.map(({ openCircuit }) => openCircuit.upper)),
    },
    resistance: between(
      least(all.map(({ resistance }) => resistance.lower)),
      most(all.map(({ resistance }) => resistance.upper)),
      middle.resistance.nominal,
    ),
    inductance: middle.inductance,
    currentLimit: middle.currentLimit,
  }
}

const middleOf = ({ from, to }: Ends): number => (from + to) / 2

/** The ends of a range, and the points of a curve between them. */
const places = ({ from, to }: Ends, points: readonly number[] = []): number[] => [
  ...new Set([from, ...points.filter((x) => x > from && x < to), to]),
]

/** Where the highest voltage of a cell need not rise with its charge: a flat curve loses there what its spread gains. */
const whereSpreadGrows = ({ openCircuit }: ReadCell): number[] => {
  const [from, to] = spreadKnees
  return [from, ...openCircuit.x.filter((q) => q > from && q < to), to]
}

function inOrder(charge: Ends): void {
  isRange('charge', charge)
  within('charge.from', charge.from, 0, 1)
  within('charge.to', charge.to, charge.from, 1)
}

function isRange(field: string, value: Ends): void {
  demand(typeof value === 'object' && value !== null, { field, value, allowed: 'from and to' })
  demandFinite(`${field}.from`, value.from)
  demandFinite(`${field}.to`, value.to)
}
