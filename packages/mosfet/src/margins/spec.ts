import type { MarginSpec } from '@ohmward/budget'
import type { Switch } from '../chain/index.js'
import type { ReadMosfet } from '../choice.js'
import type { MosfetSymbol } from '../inputs.js'

/** A margin, and what its value and limit are made of. */
export interface MosfetMargin extends MarginSpec<MosfetSymbol> {
  /** Symbols of the chain and of the inputs; what isn't behind them stays at its nominal value. */
  readonly reads: readonly string[]
}

/** What a group of margins is made from. */
export interface MarginContext {
  readonly read: ReadMosfet
  readonly circuit: Switch
}
