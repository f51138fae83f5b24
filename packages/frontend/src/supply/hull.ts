import { between, exact, type Spread } from '@ohmward/quantity'

/** All that several spreads cover. */
export function hull(spreads: readonly Spread[]): Spread {
  const [first] = spreads
  if (spreads.every((one) => one === first)) return first!
  const lower = Math.min(...spreads.map((one) => one.lower))
  const upper = Math.max(...spreads.map((one) => one.upper))
  const middle = spreads.reduce((sum, { nominal }) => sum + nominal, 0) / spreads.length
  return lower === upper ? exact(lower) : between(lower, upper, Math.min(Math.max(middle, lower), upper))
}
