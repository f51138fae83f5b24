/**
 * The bare central difference of a chain: what somebody writes who wants the standard uncertainty and nothing else. Two
 * evaluations for each input that varies, the squares of the slopes times the standard uncertainties added.
 *
 * @param {Record<string, number | { lower: number, nominal: number, upper: number, distribution: { kind: string, coverage?: number } }>} inputs
 * @param {(x: any) => number} model
 * @param {(columns: any, i: number) => any} row - the model's place of work from a row of columns
 */
export function centralDifference(inputs, model, row) {
  const middles = {}
  const varying = []
  for (const [name, input] of Object.entries(inputs)) {
    if (typeof input === 'number') {
      middles[name] = input
      continue
    }
    const { lower, upper, distribution } = input
    middles[name] = (lower + upper) / 2
    if (upper > lower) {
      const cover = distribution.kind === 'normal' ? (distribution.coverage ?? 3) : Math.sqrt(3)
      varying.push([name, (upper - lower) / 2 / cover])
    }
  }
  const columns = Object.fromEntries(Object.entries(middles).map(([name, middle]) => [name, Float64Array.of(middle)]))
  return () => {
    // The place of work may be shared with whoever ran in between.
    const x = row(columns, 0)
    let squares = 0
    for (const [name, u] of varying) {
      const middle = x[name]
      x[name] = middle + u
      const up = model(x)
      x[name] = middle - u
      const down = model(x)
      x[name] = middle
      squares += ((up - down) / 2) ** 2
    }
    return Math.sqrt(squares)
  }
}
