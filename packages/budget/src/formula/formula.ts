/** Unit of an input (ASCII, as mathjs writes it: `ohm`, `V/Hz^0.5`, `'1'` for none) and the range in which the formula is proved. */
export type InputRange = readonly [unit: string, from: number, to: number]

/** What a formula is, beside the code that computes it. */
export interface FormulaText<K extends string, S extends string = string> {
  /** The trade's symbol: `V_x`. Letters, then at most one `_` and letters or digits. */
  readonly symbol: S
  /** What the symbol stands for, in words: `sense voltage`. */
  readonly quantity: string
  /** Unit of the result, ASCII, `'1'` for none. */
  readonly unit: string
  /** Inputs by symbol, each with its unit and the range inside which the formula is proved. */
  readonly inputs: Readonly<Record<K, InputRange>>
  /** The same formula as people read it; a test proves that it is the same. */
  readonly expression: string
  /** Where it comes from: a law, a standard, a document with its clause. */
  readonly source: string
  /** `false` where the value has a kink or a step (clipping, rounding): a derivative there is numeric. */
  readonly smooth?: false
}

/** A formula: the bare function, with its description attached. */
export type Formula<K extends string, S extends string = string> = ((x: Readonly<Record<K, number>>) => number) &
  FormulaText<K, S>

/** A formula of any inputs, for lists. */
export type AnyFormula = Formula<any, any>

/** Values by symbol. */
export type Values<K extends string> = Readonly<Record<K, number>>

/** Attaches its description to `compute` and returns that very function. What is given is taken as it stands: `looked-at.ts` looks first. */
/*#__NO_SIDE_EFFECTS__*/
export function formula<const K extends string, const S extends string>(
  text: FormulaText<K, S> & { readonly compute: (x: Values<NoInfer<K>>) => number },
): Formula<K, S> {
  const { compute, ...description } = text
  return Object.assign(compute as (x: Values<K>) => number, description)
}

/** The same formula with other symbols; `rename` is run once on an object that answers with property names. Taken as it stands, too. */
/*#__NO_SIDE_EFFECTS__*/
export function at<K extends string, L extends string, const S extends string>(
  original: Formula<K>,
  symbol: S,
  rename: (x: Values<L>) => Values<K>,
  more: Partial<Pick<FormulaText<K>, 'quantity' | 'source'>> = {},
): Formula<L, S> {
  const names = rename(new Proxy({}, { get: (_, name) => name }) as Values<L>) as unknown as Record<K, L>
  const inputs = {} as Record<L, InputRange>
  for (const key of Object.keys(original.inputs) as K[]) inputs[names[key]] = original.inputs[key]
  const expression = original.expression.replace(/[A-Za-z]+(_[A-Za-z0-9]+)?/g, (word) => names[word as K] ?? word)
  const { quantity, unit, source, smooth } = original
  const compute = (x: Values<L>) => original(rename(x))
  return Object.assign(compute, {
    symbol,
    quantity,
    unit,
    inputs,
    expression,
    source,
    ...(smooth === false && { smooth }),
    ...more,
  })
}
