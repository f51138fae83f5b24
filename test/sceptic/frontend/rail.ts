import type { Design } from '@ohmward/frontend'
import { type Box, fixed, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'

/** Rails behind the main one: the first hangs on that, the second on the main one or on the first. */
export type RailNumber = 1 | 2

/** What stands between a rail and the one that feeds it, as far as no board varies it. */
export type Behind =
  | { readonly kind: 'none' }
  | {
      readonly kind: 'regulator'
      readonly most: number
      readonly thermal: number
      readonly highestInput: number
    }
  | { readonly kind: 'diode'; readonly at: number }
  | { readonly kind: 'resistor' }

/** What of a rail a board decides. */
export type RailValue = 'Set' | 'Ohms' | 'Own' | 'Drop' | 'Emission' | 'Drift'

/** The same of each of the rails. */
export type RailsValue = `rail${RailNumber}${RailValue}`

/** A rail behind the main one, as it is given and as the model has it, and what it comes to about. */
export interface DrawnRail {
  readonly given: NonNullable<Design['rails']>[number]['through'] | undefined
  readonly behind: Behind
  readonly box: Box<RailValue>
  readonly volts: { readonly from: number; readonly to: number }
}

const none = fixed(0)
const nothing: Box<RailValue> = {
  Set: none,
  Ohms: none,
  Own: none,
  Drop: none,
  Emission: none,
  Drift: none,
}

/** The box of one rail by its number. */
export const numbered = (box: Box<RailValue>, number: RailNumber): Box<RailsValue> =>
  Object.fromEntries(Object.entries(box).map(([name, limits]) => [`rail${number}${name}`, limits])) as Box<RailsValue>

/** No rail. */
export const noRail = (volts: DrawnRail['volts']): DrawnRail => ({
  given: undefined,
  behind: { kind: 'none' },
  box: nothing,
  volts,
})

/** Nothing, a regulator, a diode or a resistor; a regulator where the rail that feeds it is too high for the parts. */
export function drawRail(random: Random, main: { from: number; to: number }, isHigh: boolean): DrawnRail {
  const kind = isHigh ? 'regulator' : random.one(['none', 'none', 'regulator', 'diode', 'resistor'] as const)
  if (kind === 'none') return noRail(main)
  if (kind === 'regulator') {
    const volts = isHigh ? random.one([3.3, 5]) : main.to > 4.6 ? 3.3 : random.one([2.8, 3, 3.3])
    const set = within(volts, random.one([1, 2]), 'V')
    const dropout = random.decades(0.3, 5)
    const own = within(random.decades(1e-6, 2e-3), 30, 'A')
    const [most, thermal, highestInput] = [random.one([0.15, 0.3, 0.5]), random.one([60, 150, 250]), 16]
    return {
      given: {
        kind,
        voltage: set.given,
        dropoutResistance: dropout,
        currentLimit: most,
        quiescentCurrent: own.given,
        highestInput,
        thermalResistance: thermal,
      },
      behind: { kind, most, thermal, highestInput },
      box: { ...nothing, Set: set.limits, Ohms: [0, dropout, dropout], Own: own.limits },
      volts: { from: digits(Math.min(set.limits[0], main.from - 0.05)), to: set.limits[2] },
    }
  }
  if (kind === 'diode') {
    const drop = within(random.even(0.2, 0.4), 15, 'V')
    const at = random.one([0.01, 0.1])
    const drift = within(0.0015, 40, 'V/K')
    return {
      given: {
        kind,
        forwardVoltage: drop.given,
        forwardAt: at,
        drift: drift.given,
        capacitance: '100 uF ±20 %',
      },
      behind: { kind, at },
      // As the data sheet's emission coefficient is taken where it states no second point.
      box: { ...nothing, Drop: drop.limits, Emission: [1, 1.2, 2], Drift: drift.limits },
      volts: { from: main.from - 0.4, to: main.to - 0.15 },
    }
  }
  const ohms = within(random.decades(0.3, 3), 5, 'ohm')
  return {
    given: { kind, resistance: ohms.given, capacitance: '100 uF ±20 %' },
    behind: { kind },
    box: { ...nothing, Ohms: ohms.limits },
    volts: { from: main.from - 0.1, to: main.to },
  }
}
