import type { Given, Read } from '@ohmward/quantity'
import type {
  Capacitor,
  Cell,
  capacitorFields,
  cellFields,
  insertionFields,
  LimitedSupply,
  LimitName,
  LogicRail,
  logicFields,
  supplyFields,
} from '../parts/index.js'
import type { Curve } from '../waveform/index.js'
import type { loadRecord, OneSize, ReadLoad } from './load.js'
import type { choiceRecord, conditionsRecord } from './record.js'

type Written = Given<typeof choiceRecord>

/** What is switched on the rail, and when. */
export type SwitchedLoad = OneSize & Omit<Given<typeof loadRecord>, 'current' | 'resistance' | 'power'>

/** A rail as its designer chose it. */
export type DecouplingChoice = Omit<Written, 'source' | 'capacitors' | 'load' | 'logicRail'> & {
  readonly source: Cell | LimitedSupply
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

/** A choice that was read, in SI units. */
export interface ReadDecoupling {
  readonly source:
    | { readonly kind: 'cell'; readonly fields: Read<typeof cellFields>; readonly temperature: Curve }
    | { readonly kind: 'limited supply'; readonly fields: Read<typeof supplyFields> }
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
  /** What was written, for what was taken for granted beside it. */
  readonly given: { readonly choice: unknown; readonly conditions: unknown }
}
