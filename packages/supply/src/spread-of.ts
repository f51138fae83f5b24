import type { Formula } from '@ohmward/budget'
import { between, demand, demandFinite, demandSpread, exact, type Spread } from '@ohmward/quantity'

/**
 * What a formula is worth over the spreads of its inputs. Its limits are the true extremes where it goes one way in each
 * input, as resistances in series and their currents do: every corner is tried. One input alone keeps its distribution;
 * of several the result is rectangular between its extremes, which is on the safe side.
 *
 * @param inputs - by symbol; a number is exact
 * @throws InputError where it is no formula, or an input no number and no spread
 */
export function spreadOf<K extends string>(
  f: Formula<K>,
  inputs: Readonly<Record<NoInfer<K>, Spread | number>>,
): Spread {
  demand(typeof f === 'function' && 'inputs' in f, { field: 'f', value: f, allowed: 'a formula' })
  const isRecord = typeof inputs === 'object' && inputs !== null
  demand(isRecord, { field: 'inputs', value: inputs, allowed: 'spreads and numbers by symbol' })
  const names = Object.keys(f.inputs) as K[]
  const at = {} as Record<K, number>
  const wide: { name: K; spread: Spread }[] = []
  for (const name of names) {
    const input: Spread | number = inputs[name]
    if (typeof input === 'number') demandFinite(name, input)
    else demandSpread(input, name)
    at[name] = typeof input === 'number' ? input : input.nominal
    if (typeof input === 'object' && input.lower < input.upper) wide.push({ name, spread: input })
  }
  const nominal = f(at)
  if (wide.length === 0) return exact(nominal)
  let [lower, upper] = [nominal, nominal]
  for (let corner = 0; corner < 2 ** wide.length; corner++) {
    wide.forEach(({ name, spread }, i) => {
      at[name] = corner & (1 << i) ? spread.upper : spread.lower
    })
    const value = f(at)
    lower = Math.min(lower, value)
    upper = Math.max(upper, value)
  }
  const alone = wide.length === 1 ? wide[0]!.spread.distribution : undefined
  return between(lower, upper, nominal, alone)
}

/** Sum of independent spreads: limits add up. Rectangular between them unless one alone has a width, which is on the safe side. @throws InputError where one is no spread */
export function sumOf(spreads: readonly Spread[]): Spread {
  demand(Array.isArray(spreads), { field: 'spreads', value: spreads, allowed: 'a list of spreads' })
  for (let i = 0; i < spreads.length; i++) demandSpread(spreads[i], `spreads[${i}]`)
  const sum = (end: 'nominal' | 'lower' | 'upper') => spreads.reduce((total, one) => total + one[end], 0)
  const wide = spreads.filter(({ lower, upper }) => lower < upper)
  if (wide.length === 0) return exact(sum('nominal'))
  return between(sum('lower'), sum('upper'), sum('nominal'), wide.length === 1 ? wide[0]!.distribution : undefined)
}
