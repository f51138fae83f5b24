import { either, type Given, InputError, kinds, part, type Spread, spread, word } from '@ohmward/quantity'
import { directFields, followerFields, inverterFields, pullFields } from './drive-fields.js'

const volts = { unit: 'V', above: 0, max: 100 } as const
const ohms = { unit: 'ohm', above: 0, max: 1e8 } as const

const pullPart = /*#__PURE__*/ (() =>
  ({
    at: /*#__PURE__*/ word(['gate', 'drive'], {
      meaning: "where the pull resistor sits: at the gate, or on the drive's side of the gate resistor",
    }),
    ...pullFields,
  }) as const)()

/** What every drive may have. */
const shared = /*#__PURE__*/ (() =>
  ({
    pull: /*#__PURE__*/ part(pullPart, {
      optional: true,
      meaning: 'resistor that holds the gate off, or against which a follower pulls',
    }),
    supply: /*#__PURE__*/ either(
      ['rail'],
      /*#__PURE__*/ part(
        {
          diode: /*#__PURE__*/ spread({
            symbol: 'V_hold',
            unit: 'V',
            min: 0,
            max: 5,
            optional: true,
            meaning: 'drop of a diode that holds up the supply of the drive',
          }),
          regulated: /*#__PURE__*/ spread({
            ...volts,
            symbol: 'V_reg',
            optional: true,
            meaning: 'regulated supply of the drive',
          }),
        },
        { check: oneSupply, meaning: 'a supply behind a diode, or a regulated one' },
      ),
      {
        otherwise: 'rail',
        meaning: 'what supplies the drive: the sagged rail, the rail behind a diode, or a regulated voltage',
      },
    ),
    resetPull: /*#__PURE__*/ spread({
      ...ohms,
      symbol: 'R_weak',
      optional: true,
      meaning:
        'weak pull of the controller, during reset, towards the level that switches on; without it the pin floats',
    }),
  }) as const)()

const highLevel = /*#__PURE__*/ spread({
  unit: 'V',
  above: 0,
  max: 100,
  symbol: 'V_high',
  optional: true,
  meaning: "high level of the pin where it doesn't reach the rail: a P-channel gate then stays partly driven",
})
const basePullDown = { unit: 'ohm', above: 0, max: 1e8, symbol: 'R_be', optional: true } as const

const directRecord = /*#__PURE__*/ (() => ({ ...shared, ...directFields, highLevel }) as const)()

/** What a gate drive is made of, by its kind. */
export const driveRecord = /*#__PURE__*/ (() =>
  ({
    pin: directRecord,
    driver: directRecord,
    follower: {
      ...shared,
      ...followerFields,
      complementary: /*#__PURE__*/ word([false, true], {
        otherwise: false,
        meaning: 'whether it is a complementary pair, which drives both ways',
      }),
      basePullDown: /*#__PURE__*/ spread({
        ...basePullDown,
        meaning: 'resistor from the base to the level that switches off',
      }),
    },
    'inverting transistor': {
      ...shared,
      ...inverterFields,
      pull: /*#__PURE__*/ part(pullPart, { meaning: 'resistor that the transistor pulls against' }),
      basePullDown: /*#__PURE__*/ spread({ ...basePullDown, meaning: 'resistor from base to emitter' }),
      resetLevel: /*#__PURE__*/ spread({
        ...volts,
        symbol: 'V_weak',
        optional: true,
        meaning: "supply of the controller, to which its weak pull goes during reset; the drive's own by default",
      }),
      basePullUp: /*#__PURE__*/ spread({
        ...ohms,
        symbol: 'R_bp',
        optional: true,
        meaning: 'resistor from the rail to the base that holds the transistor on, and an N-channel load off, in reset',
      }),
    },
  }) as const)()

/** The drive of a choice. */
export const driveField = /*#__PURE__*/ kinds(driveRecord, { meaning: 'what drives the gate' })

/** A gate drive as its user writes it. */
export type Drive = Exclude<Given<{ of: typeof driveField }>['of'], string>

/** A supply is one of two. @throws InputError */
function oneSupply(read: { readonly diode?: Spread; readonly regulated?: Spread }, field: string): void {
  if ((read.diode === undefined) !== (read.regulated === undefined)) return
  const value = read.diode === undefined ? {} : 'both'
  throw new InputError({ field, value, allowed: '{ diode } or { regulated }' })
}
