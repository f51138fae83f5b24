/** What is seen of a row at one column. */
export interface Seen {
  /** Less than 0 where it seems short. */
  readonly slack: number
  /** All else that is shown of it, in the unit of its slack. */
  readonly values: readonly number[]
  /** What a deviation from the line is measured by, in this unit too. */
  readonly scale: number
}

/** Rows by their names; a row of which nothing is seen is `null`. */
export type SeenRows = ReadonlyMap<string, Seen | null>

/** Which rows a look has to see: those named, and any that the columns on both sides don't have. */
export interface Wanted {
  readonly ids: ReadonlySet<string>
  readonly known: ReadonlySet<string>
}

/** Pieces of the discharge that are always looked at, at their ends and in their middle. */
const pieces = 3
/** A row runs straight where its middle lies this near to the line between the ends, as a share of its scale. */
const near = 0.01

/**
 * Rows over columns, looked at only where they don't run straight. Of each piece the ends and the middle are looked at; where the middle
 * lies on the line between the ends, the columns of each half on which no side of the limit is in doubt are put on the line; any other
 * half is a piece of its own. Yields the share of the columns that are known.
 *
 * @param look - sees the rows wanted at a column, all of them where `wanted` is missing
 * @returns the rows at every column
 */
export function* straightRows(
  length: number,
  look: (column: number, wanted?: Wanted) => SeenRows,
): Generator<number, readonly Map<string, Seen | null>[]> {
  const columns = Array.from({ length }, () => new Map<string, Seen | null>())
  const see = (column: number, wanted?: Wanted): void => {
    for (const [id, seen] of look(column, wanted)) columns[column]!.set(id, seen)
  }
  const ends = [...new Set(Array.from({ length: pieces + 1 }, (_, i) => Math.round((i * (length - 1)) / pieces)))]
  for (const [i, column] of ends.entries()) {
    see(column)
    yield (i + 1) / length
  }
  const open = ends.slice(1).map((to, i) => ({ from: ends[i]!, to, ids: namesOf(columns[ends[i]!]!, columns[to]!) }))
  let done = ends.length
  for (let piece = open.shift(); piece !== undefined; piece = open.shift()) {
    const { from, to, ids } = piece
    if (to - from < 2) continue
    const middle = (from + to) >> 1
    const [before, here, after] = [columns[from]!, columns[middle]!, columns[to]!]
    see(middle, { ids, known: namesOf(before, after) })
    const isNew = (id: string) => !before.has(id) && !after.has(id)
    const bent = new Set([...here.keys()].filter(isNew))
    const halves = [
      { from, to: middle, ids: new Set(bent) },
      { from: middle, to, ids: new Set(bent) },
    ]
    for (const id of ids) {
      const off = offLine([before.get(id), here.get(id), after.get(id)], (middle - from) / (to - from))
      for (const half of halves) {
        const [a, b] = [half.from, half.to].map((column) => columns[column]!.get(id))
        if (!a || !b || !isSettled(a, b, off)) half.ids.add(id)
        else
          for (let column = half.from + 1; column < half.to; column++)
            columns[column]!.set(id, onLine(a, b, (column - half.from) / (half.to - half.from)))
      }
    }
    done += 1
    for (const half of halves) {
      if (half.ids.size > 0) open.push(half)
      else done += half.to - half.from - 1
    }
    yield done / length
  }
  return columns
}

const namesOf = (...columns: readonly SeenRows[]): Set<string> => new Set(columns.flatMap((one) => [...one.keys()]))

/** How far the middle of three lies off the line between the others; without end where it doesn't lie near it, or one isn't seen. */
function offLine([a, b, c]: readonly (Seen | null | undefined)[], share: number): number {
  if (!a || !b || !c) return Number.POSITIVE_INFINITY
  const line = onLine(a, c, share)
  const scale = Math.max(a.scale, b.scale, c.scale)
  const off = Math.max(...[line.slack - b.slack, ...line.values.map((value, i) => value - b.values[i]!)].map(Math.abs))
  return off <= near * scale ? off : Number.POSITIVE_INFINITY
}

/** Whether all between two is on their side of the limit, where a row that runs straight is off the line by so much. */
const isSettled = (a: Seen, b: Seen, off: number): boolean =>
  a.slack < 0 === b.slack < 0 && off <= Math.min(Math.abs(a.slack), Math.abs(b.slack)) / 2

/** What lies on the line between two, at a share of the way. */
function onLine(a: Seen, b: Seen, share: number): Seen {
  const between = (from: number, to: number) => from + (to - from) * share
  return {
    slack: between(a.slack, b.slack),
    values: a.values.map((value, i) => between(value, b.values[i]!)),
    scale: between(a.scale, b.scale),
  }
}
