import { type FieldSpec, fits, refusal, validSpec } from '../read/field.js'
import { missingFields } from '../read/missing-fields.js'
import { otherCase, readNumber } from '../read/read-number.js'
import { cutDistribution, distributionFrom, knownShapes } from './distribution.js'
import { exact, rectangular } from './make-spread.js'
import type { Distribution, Spread } from './spread.js'
import { parseLimits } from './tolerance.js'

/**
 * Reads what a field of a part accepts, in the field's unit:
 *
 * - a number, or a string that {@link readNumber} takes: exact;
 * - `47 ohm ±1 %`, `47 ±0.5`, `25 °C ±5 K`, `10 kohm ±50 ppm`, and `±10 µV` for an offset about 0;
 * - `1.1 V +5/-3 %`, `100 µF -20/+50 %`;
 * - two limits as a data sheet has them, `1 V to 2.2 V` or `1 to 2.2 V`: their middle is the value;
 * - `<= 3 mohm`, `3 mohm max`, `>= 100 dB`, where the field has a limit of its own on the other side;
 * - any of them with a distribution at the end: `rectangular` (by default), `triangular`, `arcsine`,
 *   `trapezoidal 0.5`, `normal k=2`, `t k=2 dof=9`;
 * - a spread, whose numbers are in the field's unit.
 *
 * Nominal value and both limits must lie within the field's limits.
 *
 * @throws InputError naming field, value, unit, what is allowed
 */
export function readSpread(input: unknown, spec: FieldSpec): Spread {
  validSpec(spec)
  if (typeof input === 'string') return fromText(input, spec)
  if (typeof input === 'object' && input !== null) return fromObject(input, spec)
  return exact(readNumber(input, spec))
}

function fromText(text: string, spec: FieldSpec): Spread {
  const { before, named, distribution, degreesOfFreedom } = cutDistribution(text)
  if (named && !distribution) throw refusal(spec, text, `A distribution is one of: ${knownShapes}`)
  const limits = parseLimits(before, spec)
  if (typeof limits === 'string') throw refusal(spec, text, limits)
  if (named && distribution?.kind !== 'exact' && limits.lower === limits.upper)
    throw refusal(spec, text, 'It has a distribution but no width')
  const candidate = { ...limits, distribution: distribution ?? rectangular, degreesOfFreedom }
  return checked(candidate, spec, text, otherCase(limits, spec))
}

const names = ['nominal', 'lower', 'upper', 'distribution', 'degreesOfFreedom']

function fromObject(input: object, spec: FieldSpec): Spread {
  const unknown = Object.keys(input).filter((name) => !names.includes(name))
  if (unknown.includes('from') || unknown.includes('to'))
    throw refusal(
      spec,
      input,
      'A value with limits is a text such as "47 ±1 %" or "1 to 2", or { nominal, lower, upper }',
    )
  if (unknown.length > 0) missingFields(input, [], spec.field, names)
  const own = (name: string) => (Object.hasOwn(input, name) ? (input as Record<string, unknown>)[name] : undefined)
  const [nominal, lower, upper] = ['nominal', 'lower', 'upper'].map(own) as [number, number, number]
  const degreesOfFreedom = own('degreesOfFreedom') as number | undefined
  for (const [name, value] of Object.entries({ nominal, lower, upper }))
    if (typeof value !== 'number') throw refusal({ ...spec, field: `${spec.field}.${name}` }, value)
  const distribution = distributionFrom(own('distribution'))
  if (!distribution)
    throw refusal({ ...spec, field: `${spec.field}.distribution` }, own('distribution'), '', knownShapes)
  return checked({ nominal, lower, upper, distribution, degreesOfFreedom }, spec, input)
}

interface Candidate {
  nominal: number
  lower: number
  upper: number
  distribution: Distribution
  degreesOfFreedom: number | undefined
}

/** A spread whose numbers are in order and within the field's limits. */
function checked(candidate: Candidate, spec: FieldSpec, input: unknown, hint = ''): Spread {
  const { nominal, lower, upper, distribution, degreesOfFreedom } = candidate
  for (const [name, value] of Object.entries({ nominal, lower, upper }))
    if (!fits(value, spec)) throw refusal(spec, input, hint || (lower === upper ? '' : `Its ${name} value is ${value}`))
  if (!(lower <= nominal && nominal <= upper)) throw refusal(spec, input, 'lower <= nominal <= upper must hold')
  if (!Number.isFinite(upper - lower)) throw refusal(spec, input, 'Its width is not a number')
  if (lower === upper) return exact(nominal + 0)
  if (distribution.kind === 'exact') throw refusal(spec, input, 'An exact value has no width')
  const spread = { nominal: nominal + 0, lower: lower + 0, upper: upper + 0, distribution }
  if (degreesOfFreedom === undefined) return spread
  if (!(Number.isFinite(degreesOfFreedom) && degreesOfFreedom > 0))
    throw refusal({ ...spec, field: `${spec.field}.degreesOfFreedom`, unit: '1' }, degreesOfFreedom, '', 'above 0')
  return { ...spread, degreesOfFreedom }
}
