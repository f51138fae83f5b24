import { exactly, InputError, list, nearestName, part, spread, word } from '@ohmward/quantity'
import { orderRails, type ReadRail, railFields } from '@ohmward/supply'
import { label } from './label.js'

/** The name of the rail that the supply feeds: where board, capacitors and switch hang. */
export const mainRail = 'main'

const lives = (what: string) => /*#__PURE__*/ label(`rail that supplies the ${what}; the main rail by default`)

/** Rails behind the main one. */
export const railsField = /*#__PURE__*/ list(/*#__PURE__*/ part(railFields, { meaning: 'a rail behind another' }), {
  least: 0,
  most: 8,
  optional: true,
  meaning: 'rails behind the main one, each with the part that feeds it',
})

/** What lives on which rail. */
export const livesField = /*#__PURE__*/ part(
  {
    controller: /*#__PURE__*/ lives('controller'),
    sensor: /*#__PURE__*/ lives('current sensor'),
    amplifier: /*#__PURE__*/ lives('amplifier'),
    converter: /*#__PURE__*/ lives('converter with its reference and the excitation'),
    drive: /*#__PURE__*/ label(
      'rail that supplies the gate drive, where it is a driver or an inverting transistor; by default what mosfet.drive.supply says',
    ),
    driveCurrent: /*#__PURE__*/ spread({
      symbol: 'I_gd',
      unit: 'A',
      min: 0,
      max: 10,
      optional: true,
      meaning:
        "current of the gate drive, where it isn't in that of the controller: of a pin, or of what follows one, from the controller's rail. By default, where that is another than the main one, up to the charge of the gate in every period, and what its resistors take",
    }),
    sensorCurrent: /*#__PURE__*/ spread({
      symbol: 'I_sens',
      unit: 'A',
      min: 0,
      max: 10,
      otherwise: 0,
      meaning: "current of the sensor, where it isn't in that of the controller",
    }),
    amplifierCurrent: /*#__PURE__*/ spread({
      symbol: 'I_amp',
      unit: 'A',
      min: 0,
      max: 10,
      otherwise: 0,
      meaning: "current of the amplifier, where it isn't in that of the controller",
    }),
    pinSeries: /*#__PURE__*/ spread({
      symbol: 'R_ser',
      unit: 'ohm',
      above: 0,
      max: 1e6,
      otherwise: 1,
      meaning: "resistance between the amplifier's output and its converter pin",
    }),
    excitationBackward: /*#__PURE__*/ word(['conducts', 'blocks'], {
      otherwise: 'conducts',
      meaning:
        'what the open excitation switch does when the load is above its rail: a body diode or the clamp of a pin conducts, a diode or two transistors back to back block, and so does a single transistor to ground with the load at the rail',
    }),
    pinCurrent: /*#__PURE__*/ exactly({
      unit: 'A',
      above: 0,
      max: 0.1,
      otherwise: 1e-3,
      meaning: 'largest current into the clamp of a pin (common practice, no source)',
    }),
    pinClamp: /*#__PURE__*/ exactly({
      symbol: 'V_clamp',
      unit: 'V',
      min: 0,
      max: 2,
      otherwise: 0.3,
      meaning: 'voltage above its rail at which a pin clamp or a body diode conducts (common practice, no source)',
    }),
  },
  { meaning: 'which parts run from which rail' },
)

/** Where something lives. */
export type Part = 'controller' | 'sensor' | 'amplifier' | 'converter' | 'drive'

/** What of a design says which rails there are and what lives on them. */
export interface WithRails {
  readonly rails: readonly ReadRail[] | undefined
  readonly lives: { readonly [P in Part]: string | undefined }
}

/** The rail on which a part lives, by its name. */
export const railOf = ({ lives }: WithRails, part: Part): string => lives[part] ?? mainRail

/**
 * The rails in the order in which they are computed.
 *
 * @throws InputError where one hangs on itself or on none, or something lives on a rail that isn't there
 */
export function orderedRails(design: WithRails): ReadRail[] {
  const rails = orderRails(design.rails ?? [], mainRail)
  const names = [mainRail, ...rails.map(({ name }) => name)]
  for (const part of ['controller', 'sensor', 'amplifier', 'converter', 'drive'] as const) {
    const value = railOf(design, part)
    if (names.includes(value)) continue
    const near = nearestName(value, names)
    const hint = near === undefined ? '' : `Did you mean ${near}?`
    throw new InputError({ field: `lives.${part}`, value, allowed: names.join(' or '), hint })
  }
  return rails
}

/** The rails from one up to the main one, that itself left out. */
export function wayTo({ rails = [] }: { readonly rails?: readonly ReadRail[] | undefined }, name: string): ReadRail[] {
  const rail = rails.find((one) => one.name === name)
  return rail === undefined ? [] : [rail, ...wayTo({ rails }, rail.source)]
}
