import type { Input } from '@ohmward/quantity'
import type { AnyFormula } from '../formula/formula.js'
import type { Margin } from '../margin/assessment.js'
import type { Station } from '../margin/conditions.js'
import type { DecisionRule } from '../margin/margin.js'
import type { Fill, Group, Row } from '../model/model.js'

/** Place by symbol: inputs and computed ones. */
export type Place = Readonly<Record<string, number>>

/** Inputs of a reading by symbol. */
export type InputSet = Readonly<Record<string, Input>>

/** A chain made ready for the engines. Its places of work are shared: it serves one engine at a time. */
export interface Reading {
  /** Every input as a spread or an exact number, conditions to cover among them. */
  readonly inputs: InputSet
  /** The inputs that are conditions to cover. */
  readonly conditions: readonly string[]
  /** Fills the places of work from row `i` of the inputs' columns. */
  readonly row: Row<string>
  /** Follows the chain at what `row` put there: every value by symbol. */
  readonly follow: (x: Place) => Place
  /** The chain's formulas, from which it follows what stands behind a symbol. */
  readonly formulas: readonly AnyFormula[]
  /** Inputs that add linearly, as their data sheet says. */
  readonly groups?: readonly Group<string>[]
}

/** What every row says of itself. */
export interface RowText {
  /** Stable word for code and links: `headroom`. */
  readonly id: string
  /** What is watched, in words. */
  readonly name: string
  readonly unit: string
  /** On which side of the limit the value must stay. */
  readonly sense: Margin['sense']
  /** Numbers of the pitfalls that it catches: `A01`. */
  readonly catches: readonly string[]
  /** Ids of rows whose failure brings this one's: where both fail, they are told first. */
  readonly causes?: readonly string[]
}

/** A number of a reading: the name of its symbol, or a function of all values where no symbol says it. */
export type Told = string | ((y: Place) => number)

/** A value of a reading held against a limit, over all parts and conditions. */
export interface LimitRow extends RowText {
  readonly kind: 'limit'
  readonly reading: Reading
  /** Inputs that are other than the reading's own, such as the load at one end of its range. */
  readonly at?: InputSet
  readonly value: Told
  readonly limit: number | Told
  /** Why the value says nothing here, such as an edge of a gate that doesn't get there; nothing where it does. A row that holds isn't sure then, and its value is told as not known. */
  readonly doubt?: () => string | undefined
}

/** How far an output may lie from its true value, over all parts and conditions; its budget comes with it. */
export interface ErrorRow extends RowText {
  readonly kind: 'error'
  readonly reading: Reading
  readonly at?: InputSet
  /** What the device shows, after `follow` or by itself. */
  readonly shown: (x: Place) => number
  /** The same over many rows, for simulation. */
  readonly fill?: Fill<string>
  readonly truth: number
  readonly allowed: number
  /** The conditions at which it can lie furthest, where another row asks for them too. */
  readonly station?: () => Station<string>
  /**
   * Why the parts' limits don't tell the worst case here, such as an output that may clip; nothing where they do. An
   * error that holds isn't sure then.
   */
  readonly doubt?: () => string | undefined
  /** The name under which the budget stands, and what it is of. */
  readonly budget: {
    readonly name: string
    readonly symbol: string
    readonly quantity: string
    /** Unit of the output where it isn't that of the error: degrees Celsius beside kelvin. */
    readonly unit?: string
  }
}

/** Two plain numbers, the worst case already in them. */
export interface PlainRow extends RowText {
  readonly kind: 'plain'
  readonly worst: number
  readonly limit: number
  readonly nominal?: number
  /** Why the worst case says nothing here, as in a {@link LimitRow}. */
  readonly doubt?: () => string | undefined
}

/**
 * What a row may come to, at a glance: parts moved one at a time, where nominal ones do worst. It says neither that the row holds nor
 * that it fails: what two parts do together beyond their sum, and what lies inside the ranges of the conditions, it doesn't see.
 */
export interface RowEstimate extends Pick<Margin, 'nominal' | 'worst' | 'limit' | 'slack'> {}

/** A row that physics holds in its own way: the hottest case of a junction, the waveform of a rail. */
export interface OwnRow extends RowText {
  readonly kind: 'own'
  readonly hold: (rule: DecisionRule) => Margin
  /** What it may come to, at a glance; where it knows none, it is held. */
  readonly estimate?: () => RowEstimate
  /** Whether it is the error of a reading, of which a change tells what it does to it. */
  readonly isError?: boolean
}

/** One line of an assessment: something watched, against a limit. */
export type BlockRow = LimitRow | ErrorRow | PlainRow | OwnRow
