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
const pieces = 4
/** A row runs straight where its middle lies this near to the line between the ends, as a share of its scale. */
const near = 0.01

/**
 * Rows over columns, looked at only where they don't run straight. Of each piece the ends and the middle are looked at; where the middle
 * lies on the line between the ends, and no side of the limit is in doubt, the columns between are put on the line, else both
 * halves are pieces of their own. Yields the share of the columns that are known.
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
    const bent = new Set([...here.keys()].filter((id) => !before.has(id) && !after.has(id)))
    for (const id of ids) {
      const [a, b, c] = [before.get(id), here.get(id), after.get(id)]
      if (a && b && c && isStraight([a, b, c], (middle - from) / (to - from))) {
        for (let column = from + 1; column < to; column++) {
          if (column < middle) columns[column]!.set(id, onLine(a, b, (column - from) / (middle - from)))
          if (column > middle) columns[column]!.set(id, onLine(b, c, (column - middle) / (to - middle)))
        }
      } else bent.add(id)
    }
    done += bent.size === 0 ? to - from - 1 : 1
    if (bent.size > 0) open.push({ from, to: middle, ids: bent }, { from: middle, to, ids: bent })
    yield done / length
  }
  return columns
}

const namesOf = (...columns: readonly SeenRows[]): Set<string> => new Set(columns.flatMap((one) => [...one.keys()]))

/** Whether the middle lies on the line between the ends, and near enough that none of the three may be on the other side of the limit. */
function isStraight(three: readonly [Seen, Seen, Seen], share: number): boolean {
  const [a, b, c] = three
  const line = onLine(a, c, share)
  const scale = Math.max(...three.map((one) => one.scale))
  const off = Math.max(...[line.slack - b.slack, ...line.values.map((value, i) => value - b.values[i]!)].map(Math.abs))
  const isOneSide = three.every(({ slack }) => slack < 0) || three.every(({ slack }) => slack >= 0)
  const least = Math.min(...three.map(({ slack }) => Math.abs(slack)))
  return isOneSide && off <= near * scale && off <= least / 2
}

/** What lies on the line between two, at a share of the way. */
function onLine(a: Seen, b: Seen, share: number): Seen {
  const between = (from: number, to: number) => from + (to - from) * share
  return {
    slack: between(a.slack, b.slack),
    values: a.values.map((value, i) => between(value, b.values[i]!)),
    scale: between(a.scale, b.scale),
  }
}
