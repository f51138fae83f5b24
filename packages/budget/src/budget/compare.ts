import { format, InputError } from '@ohmward/quantity'
import { knownOptions } from '../model/options.js'
import type { Comparison, LinearBudget, Simulation } from './budget.js'

/**
 * Compares linear propagation with simulation (JCGM 101:2008, clause 8): the linear interval is validated when neither
 * of its ends is further than the numerical tolerance δ from the simulated symmetric one. δ is half a unit of the last
 * significant digit of `u`.
 *
 * The simulation's own ends must be known to δ/4 for that (8.2); where they aren't and the difference isn't plain
 * either, the text says that it isn't decided, and `agrees` is false.
 *
 * @param options - `digits`: significant digits of `u` that count, 1 or 2, 2 by default; `unit`: that of the numbers in the text
 * @throws InputError for other digits, and for two different levels of confidence
 */
export function compare(
  linear: Pick<LinearBudget, 'u' | 'interval' | 'level'>,
  simulated: Pick<Simulation, 'interval' | 'level' | 'endError'>,
  options: { digits?: number; unit?: string } = {},
): Comparison {
  const { digits = 2, unit = '1' } = knownOptions(options, ['digits', 'unit'])
  if (typeof unit !== 'string') throw new InputError({ field: 'unit', value: unit, allowed: 'a text, such as V' })
  checkBudget('linear', linear, ['u', 'level'])
  checkBudget('simulation', simulated, ['level', 'endError'])
  if (digits !== 1 && digits !== 2) throw new InputError({ field: 'digits', value: digits, allowed: '1 or 2' })
  if (linear.level !== simulated.level) {
    throw new InputError({
      field: 'simulation.level',
      value: simulated.level,
      allowed: `that of linear: ${linear.level}`,
    })
  }
  const short = (value: number) => format(value, unit, { digits: 2 })
  const tolerance = numericalTolerance(linear.u, digits)
  const lowerDifference = Math.abs(linear.interval[0] - simulated.interval[0])
  const upperDifference = Math.abs(linear.interval[1] - simulated.interval[1])
  const answer = { lowerDifference, upperDifference, tolerance, digits }
  const apart = [
    ...(lowerDifference > tolerance ? [`the lower end by ${short(lowerDifference)}`] : []),
    ...(upperDifference > tolerance ? [`the upper end by ${short(upperDifference)}`] : []),
  ]
  const limit = `δ = ${short(tolerance)}`
  const error = simulated.endError
  const clear = Math.max(lowerDifference, upperDifference) > tolerance + 3 * error
  if (error > tolerance / 4 && !clear) {
    const text = `Not decided: the simulated ends are known to ${short(error)}, a comparison to ${limit} takes ${short(tolerance / 4)}. Simulate to a better accuracy.`
    return { agrees: false, decided: false, ...answer, text }
  }
  if (apart.length === 0) {
    return {
      agrees: true,
      decided: true,
      ...answer,
      text: `Linear propagation agrees with simulation: both ends within ${limit}.`,
    }
  }
  // Where linear propagation gives no width there is no digit of it to agree in.
  const beyond = tolerance > 0 ? `, more than ${limit}` : ''
  const text = `Linear propagation differs from simulation, ${apart.join(' and ')}${beyond}: use the simulated interval.`
  return { agrees: false, decided: true, ...answer, text }
}

/** Throws unless it is a budget with an interval and these numbers. */
function checkBudget(field: string, given: object, names: readonly string[]): void {
  const { interval, ...rest } = (given ?? {}) as Record<string, unknown>
  const isNumber = (value: unknown) => typeof value === 'number' && !Number.isNaN(value)
  if (!Array.isArray(interval) || interval.length !== 2 || !interval.every(isNumber)) {
    throw new InputError({ field: `${field}.interval`, value: interval, allowed: 'two numbers' })
  }
  for (const name of names) {
    if (!isNumber(rest[name]))
      throw new InputError({ field: `${field}.${name}`, value: rest[name], allowed: 'a number' })
  }
}

/** Half a unit of the last of `digits` significant digits of `u` (JCGM 101:2008, 7.9.2). */
function numericalTolerance(u: number, digits: number): number {
  if (!(u > 0)) return 0
  const exponent = Number(u.toExponential(digits - 1).split('e')[1])
  return 0.5 * 10 ** (exponent - digits + 1)
}
