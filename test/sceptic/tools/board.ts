import type { Random } from './random.js'

/** Where a value of a board may lie: least, as drawn, largest. */
export type Limits = readonly [lower: number, nominal: number, upper: number]

/** Every value of a board, by its name in the model. */
export type Board<K extends string> = Record<K, number>

/** Limits of every value. */
export type Box<K extends string> = Readonly<Record<K, Limits>>

/** A value with a tolerance in percent: as it is given, and its limits. */
export function within(nominal: number, percent: number, unit: string): { given: string; limits: Limits } {
  const limits = [nominal * (1 - percent / 100), nominal, nominal * (1 + percent / 100)] as const
  return { given: `${nominal} ${unit} ±${percent} %`, limits }
}

/** A size without a sign. */
export const eitherSign = (size: number): Limits => [-size, 0, size]

/** A value without a tolerance. */
export const fixed = (x: number): Limits => [x, x, x]

/** A board with every value at its nominal one. */
export const nominalOf = <K extends string>(box: Box<K>): Board<K> => boardOf(box, ([, nominal]) => nominal)

/** A board at random: half of its values at an end, the others anywhere. */
export const anyOf = <K extends string>(box: Box<K>, random: Random): Board<K> =>
  boardOf(box, ([lower, , upper]) =>
    random.now(0.5) ? (random.now(0.5) ? lower : upper) : lower + (upper - lower) * random.next(),
  )

function boardOf<K extends string>(box: Box<K>, take: (limits: Limits) => number): Board<K> {
  const board = {} as Board<K>
  for (const name in box) board[name] = take(box[name])
  return board
}

/**
 * Looks for the board on which a function is largest: from the nominal board and from others at random, one value
 * after another is moved to the end that makes it larger (or to a place inside, where `inside` says so), until none is.
 */
export function largest<K extends string>(
  box: Box<K>,
  f: (board: Board<K>) => number,
  random: Random,
  { starts = 3, inside = 0 }: { starts?: number; inside?: number } = {},
): { value: number; board: Board<K> } {
  const names = (Object.keys(box) as K[]).filter((name) => box[name][0] < box[name][2])
  let best = { value: -Infinity, board: nominalOf(box) }
  for (let start = 0; start < starts; start++) {
    const board = start === 0 ? nominalOf(box) : anyOf(box, random)
    let value = f(board)
    for (let moved = true, pass = 0; moved && pass < 5; pass++) {
      moved = false
      for (const name of names) {
        const [lower, , upper] = box[name]
        let at = board[name]
        const try_ = (x: number) => {
          board[name] = x
          const y = f(board)
          if (!(y > value)) return
          moved = true
          value = y
          at = x
        }
        try_(lower)
        try_(upper)
        for (let i = 0; i < inside; i++) try_(lower + (upper - lower) * random.next())
        board[name] = at
      }
    }
    if (value > best.value) best = { value, board: { ...board } }
  }
  return best
}
