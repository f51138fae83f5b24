import {
  demandNumbers,
  demandShape,
  demandText,
  exactly,
  format,
  InputError,
  list,
  name,
  oneOf,
  own,
  part,
  plusMinus,
  readNumber,
  type Shape,
} from '@ohmward/quantity'
import { type AnyFormula, type Formula, formula, type InputRange } from '../formula/formula.js'
import type { Columns } from '../model/model.js'
import { demandList } from '../model/options.js'
import type { InputSet } from './rows.js'

/** A further error that was read: what its data sheet calls it, and its size either way in the unit of its kind. */
export interface FurtherError {
  readonly name: string
  readonly kind: 'voltage' | 'current' | 'share'
  readonly size: number
  /** What a kelvin away from 25 °C adds to it. */
  readonly perKelvin: number
}

const kinds = ['voltage', 'current', 'share'] as const
const units = { voltage: 'V', current: 'A', share: '1' } as const
const unitsPerKelvin = { voltage: 'V/K', current: 'A/K', share: '1/K' } as const

type GivenFurther = {
  readonly name: string
  readonly perKelvin?: unknown
} & { readonly [kind in FurtherError['kind']]?: number | undefined }

/** Exactly one size, and its drift in the same unit per kelvin. @throws InputError naming the field */
function readFurther(given: GivenFurther, field: string): FurtherError {
  const told = kinds.filter((kind) => given[kind] !== undefined)
  const [kind] = told
  if (kind === undefined || told.length > 1) {
    throw new InputError({ field, value: told.join(', ') || undefined, allowed: 'one of voltage, current and share' })
  }
  const { name, perKelvin = 0 } = given
  const drift = { field: `${field}.perKelvin`, unit: unitsPerKelvin[kind], min: 0, max: 1 }
  return { name, kind, size: given[kind]!, perKelvin: readNumber(perKelvin, drift) }
}

const size = (kind: FurtherError['kind'], max: number, meaning: string) =>
  exactly({ unit: units[kind], min: 0, max, optional: true, meaning })

/**
 * A list of errors that a data sheet states and that have no field of their own: common mode, an external reference,
 * a strain of the package. Each is a size either way: a voltage, a current or a share of the reading.
 *
 * @param meaning - to what the sizes are referred
 * @throws InputError unless it says that of each
 */
/*#__NO_SIDE_EFFECTS__*/
export const furtherErrors = (meaning: { voltage: string; current: string; share: string }) => {
  demandShape(meaning, 'meaning', { voltage: 'a text', current: 'a text', share: 'a text' })
  return list(
    part(
      {
        name: name({ meaning: 'what the data sheet calls it' }),
        voltage: size('voltage', 10, meaning.voltage),
        current: size('current', 1e3, meaning.current),
        share: size('share', 0.5, meaning.share),
        perKelvin: own<number | string>()((given) => given, {
          schema: { type: ['number', 'string'] },
          optional: true,
          meaning: 'what a kelvin away from 25 °C adds to it, in its own unit per kelvin; nothing by default',
        }),
      },
      { as: readFurther, meaning: 'an error, as large either way' },
    ),
    {
      least: 0,
      most: 12,
      optional: true,
      meaning: 'further errors that a data sheet states and that have no field here',
    },
  )
}

/** One term of a sum: the symbols of its size and, where it drifts, of what a kelvin adds. */
interface FurtherTerm {
  readonly symbol: string
  readonly drift?: string
}

/** Where further errors go: a voltage, and a share. */
interface Target {
  readonly T_d: number
  V_add: number
  e_add: number
}

/** Further errors made ready: their inputs, the formulas that add them, and what puts their sums into a place of work. */
export interface Further {
  readonly inputs: InputSet
  readonly formulas: readonly AnyFormula[]
  /** Leaves what has no terms as it is. */
  readonly put: (y: Target, c: Columns<string>, i: number) => void
}

/** What the further errors of a block are referred to. */
interface Referred {
  /** What the sum of voltages and currents is, in words; and that of the shares. */
  readonly shift: string
  readonly share: string
  /** A current as a voltage. */
  readonly ofCurrent: (amperes: number) => number
  /** Of a reading that has them by itself, beside the one of interest. */
  readonly tag?: string
}

const symbolOf = (kind: FurtherError['kind'], n: number) => `${kind === 'share' ? 'e' : 'V'}_add${n + 1}`

/** The errors that a choice names beside those of its parts, as inputs and the two sums `V_add` and `e_add`. @throws InputError */
export function furtherOf(further: readonly FurtherError[] = [], to: Referred): Further {
  demandFurther(further)
  demandShape(to, 'to', { shift: 'a text', share: 'a text', ofCurrent: 'a function', tag: '?a text' })
  const { shift, share, ofCurrent, tag = '' } = to
  const inputs: Record<string, InputSet[string]> = {}
  const terms = { V_add: [] as FurtherTerm[], e_add: [] as FurtherTerm[] }
  further.forEach(({ kind, size, perKelvin }, n) => {
    const isShare = kind === 'share'
    const referred = (value: number) => (kind === 'current' ? ofCurrent(value) : value)
    const symbol = symbolOf(kind, n) + tag
    const drift = `${isShare ? 'TC' : 'D'}_add${n + 1}${tag}`
    inputs[symbol] = plusMinus(0, referred(size))
    if (perKelvin > 0) inputs[drift] = plusMinus(0, referred(perKelvin))
    terms[isShare ? 'e_add' : 'V_add'].push(perKelvin > 0 ? { symbol, drift } : { symbol })
  })
  const sums = (['V_add', 'e_add'] as const)
    .filter((symbol) => terms[symbol].length > 0)
    .map((symbol) => {
      const [quantity, unit] = symbol === 'V_add' ? [shift, 'V'] : [share, '1']
      return { symbol, terms: terms[symbol], formula: furtherSum(symbol, quantity, unit, terms[symbol]) }
    })
  const given: Record<string, number> = {}
  const put: Further['put'] = (y, c, i) => {
    given['T_d'] = y.T_d
    for (const { symbol, terms, formula } of sums) {
      for (const term of terms) {
        given[term.symbol] = c[term.symbol]![i]!
        if (term.drift !== undefined) given[term.drift] = c[term.drift]![i]!
      }
      y[symbol] = formula(given)
    }
  }
  return {
    inputs,
    formulas: sums.map(({ formula }) => formula),
    // Where there is nothing to add, the least that can be called: it is, in every trial.
    put: sums.length === 0 ? () => undefined : put,
  }
}

/** The further errors in words, each with the symbol under which a budget has it; `left` says what doesn't take it away. @throws InputError */
export function furtherTexts(further: readonly FurtherError[] = [], left: string): string[] {
  demandFurther(further)
  demandText('left', left)
  return further.map(({ name, kind, size, perKelvin }, n) => {
    const drift = perKelvin > 0 ? `, and ±${format(perKelvin, unitsPerKelvin[kind])} away from 25 °C` : ''
    const amount = format(size, units[kind], kind === 'share' ? { as: '%' } : {})
    return `${name} (${symbolOf(kind, n)}): ±${amount}${drift}; ${left}.`
  })
}

const readError: Shape = { name: 'a text', kind: 'a text', size: 'a finite number', perKelvin: 'a finite number' }

/** Throws unless they are further errors as their reader leaves them. */
function demandFurther(further: readonly FurtherError[]): void {
  demandList('further', further)
  further.forEach((one, i) => {
    demandShape(one, `further[${i}]`, readError)
    oneOf(one.kind, kinds, `further[${i}].kind`)
    const size = { min: 0, max: 1e9 }
    demandNumbers(one, `further[${i}]`, {
      size: { unit: units[one.kind], ...size },
      perKelvin: { unit: unitsPerKelvin[one.kind], ...size },
    })
  })
}

/** The sum of further errors at `T_d` kelvin above 25 °C. It is made for a choice, of as many terms as that has. */
function furtherSum(symbol: string, quantity: string, unit: string, terms: readonly FurtherTerm[]): Formula<string> {
  const drifting = terms.filter(({ drift }) => drift !== undefined)
  const inputs: Record<string, InputRange> = {}
  for (const term of terms) inputs[term.symbol] = [unit, -1, 1]
  for (const { drift } of drifting) inputs[drift!] = [unit === '1' ? '1/K' : `${unit}/K`, -1e-2, 1e-2]
  if (drifting.length > 0) inputs['T_d'] = ['K', -80, 150]
  return formula({
    symbol,
    quantity,
    unit,
    inputs,
    expression: terms
      .map((term) => (term.drift === undefined ? term.symbol : `${term.symbol} + ${term.drift} * T_d`))
      .join(' + '),
    compute: (x) => {
      let sum = 0
      for (const term of terms) {
        sum += x[term.symbol]!
        if (term.drift !== undefined) sum += x[term.drift]! * x['T_d']!
      }
      return sum
    },
    source: 'data sheet, as the choice states it; independent errors add',
  })
}
