import type { Input, PartFields, PartInput, Range, Spread } from '@ohmward/quantity'
import type {
  Capacitor,
  Cell,
  capacitorFields,
  cellFields,
  insertionFields,
  LimitedSupply,
  LimitName,
  Limits,
  LogicRail,
  logicFields,
  supplyFields,
} from '../parts/parts.js'
import type { Curve } from '../waveform/index.js'

/** What is switched on the rail, and when. */
export type SwitchedLoad = (
  | { readonly current: Input }
  | { readonly resistance: Input }
  | { readonly power: Input }
) & {
  /** Time in which the load's current rises in a straight line to what it then draws; 0 unless told. */
  readonly rise?: number | string
  /** The same when it is switched off; the rise time unless told. */
  readonly fall?: number | string
  /** How long it stays on, from the beginning of the rise; for ever unless told. Not with `pwm`. */
  readonly duration?: number | string
  readonly pwm?: { readonly frequency: number | string; readonly duty: number | string }
  /** Power that the load must get, where a resistor is controlled by its duty. */
  readonly wantedPower?: Input
}

/** A rail as its designer chose it. */
export interface DecouplingChoice {
  readonly source: Cell | LimitedSupply
  /** One to six kinds: a list, or an object whose keys are their names. */
  readonly capacitors: readonly Capacitor[] | Readonly<Record<string, Capacitor>>
  readonly load: SwitchedLoad
  /** Current that is drawn all the time, the logic rail's included; 0 unless told. */
  readonly idle?: Input
  /** Minimum supplies; at least one. */
  readonly limits: Limits
  /** Whether the controller's brown-out reset is on; true unless told. */
  readonly brownOutEnabled?: boolean
  /** Without it everything lives on the rail itself. */
  readonly logicRail?: LogicRail
  /** Which limits count on the logic rail, where there is one: brown-out, clock and converter unless told. */
  readonly onLogicRail?: readonly LimitName[]
  readonly insertion?: PartInput<typeof insertionFields>
  /** Life that the capacitors must have, in hours; not asked unless told. */
  readonly wantedLifeHours?: number
}

/** What must be covered. */
export interface DecouplingConditions {
  /** Open-circuit voltage of the source, empty to full. */
  readonly openCircuit: Range
  /** Air around the parts, inside the case. */
  readonly ambientCelsius: Range
  /**
   * Age of cell and capacitors; new to 5 years unless told. What they have lost at the end of life (`ageFactor`, `wornCapacitance`,
   * `wornResistance`) is lost in full at the oldest, be that half a year or twenty.
   */
  readonly ageYears?: Range
}

type Read<F extends PartFields> = { readonly [W in keyof F]: Spread }
type Ends = { readonly from: number; readonly to: number }

/** A kind of capacitor that was read. */
export interface ReadCapacitor {
  readonly name: string
  readonly count: number
  readonly fields: Read<typeof capacitorFields>
  readonly bias: Curve | undefined
  readonly temperature: Curve | undefined
  readonly cold: Curve | undefined
}

/** A choice that was read, in SI units. */
export interface ReadDecoupling {
  readonly source:
    | { readonly kind: 'cell'; readonly fields: Read<typeof cellFields>; readonly temperature: Curve }
    | { readonly kind: 'limited supply'; readonly fields: Read<typeof supplyFields> }
  readonly capacitors: readonly ReadCapacitor[]
  readonly load: {
    readonly kind: 'current' | 'resistor' | 'power'
    readonly value: Spread
    readonly rise: number
    readonly fall: number
    readonly duration: number
    readonly pwm: { readonly frequency: number; readonly duty: number } | undefined
    readonly wantedPower: Spread | undefined
  }
  readonly idle: Spread
  readonly limits: { readonly [N in LimitName]?: Spread }
  readonly brownOutEnabled: boolean
  readonly logicRail: { readonly behind: 'diode' | 'resistor'; readonly fields: Read<typeof logicFields> } | undefined
  readonly onLogicRail: readonly LimitName[]
  readonly insertion: Read<typeof insertionFields>
  readonly wantedLifeHours: number | undefined
  readonly openCircuit: Ends
  readonly ambient: Ends
  readonly age: Ends
  /** At which an end of life has taken all that it takes. */
  readonly oldest: number
}
