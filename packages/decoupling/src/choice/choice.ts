import type { Given, Read, Spread } from '@ohmward/quantity'
import type { ReadCell, ReadElement, Supply } from '@ohmward/supply'
import type {
  Capacitor,
  capacitorFields,
  insertionFields,
  LimitName,
  LogicRail,
  logicFields,
  PlainSource,
} from '../parts/index.js'
import type { Curve } from '../waveform/inside.js'
import type { loadRecord, OneSize, ReadLoad } from './load.js'
import type { choiceRecord, conditionsRecord } from './record.js'

type Written = Given<typeof choiceRecord>

/** What is switched on the rail, and when. */
export type SwitchedLoad = OneSize & Omit<Given<typeof loadRecord>, 'current' | 'resistance' | 'power'>

/** A rail as its designer chose it. */
export type DecouplingChoice = Omit<Written, 'source' | 'capacitors' | 'load' | 'logicRail'> & {
  /** A supply with its power path, or plain numbers. */
  readonly source: Supply | PlainSource
  /** One to six kinds: a list, or an object whose keys are their names. */
  readonly capacitors: readonly Capacitor[] | Readonly<Record<string, Capacitor>>
  readonly load: SwitchedLoad
  /** Without it everything lives on the rail itself. */
  readonly logicRail?: LogicRail | undefined
}

/** What must be covered: open-circuit voltage, temperature, age. */
export type DecouplingConditions = Given<typeof conditionsRecord>

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

/** What feeds the rail, as it was read. */
export type ReadSource = {
  /** The path up to the rail; nothing before plain numbers. */
  readonly path: readonly ReadElement[]
  /** Element of the path across which the protection watches, by its place; -1 where none does. */
  readonly protection: number
  /** Of the whole loop, H. */
  readonly inductance: Spread
  readonly currentLimit: Spread | undefined
  readonly attachable: Spread | undefined
} & (
  | {
      readonly kind: 'cell'
      readonly cell: ReadCell
      /** Charges to cover; where voltages are covered, all. */
      readonly charge: Ends
      /** Whether the charge counts for the resistance. */
      readonly isByCharge: boolean
    }
  | { readonly kind: 'port'; readonly leadResistance: Spread; readonly leadInductance: Spread }
  | { readonly kind: 'plain'; readonly resistance: Spread }
)

/** A choice that was read, in SI units. */
export interface ReadDecoupling {
  readonly source: ReadSource
  readonly capacitors: readonly ReadCapacitor[]
  readonly load: ReadLoad
  readonly idle: Read<typeof choiceRecord>['idle']
  readonly limits: Read<typeof choiceRecord>['limits']
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
  /** What was written, for what was taken by default beside it. */
  readonly given: { readonly choice: unknown; readonly conditions: unknown }
}
