import {
  either,
  type Given,
  InputError,
  kinds,
  type PartFields,
  part,
  type Spread,
  spread,
  word,
} from '@ohmward/quantity'

/** The resistor that holds the gate off; in an inverting drive the pull-up that the transistor pulls against. */
const pullFields = {
  resistance: { symbol: 'R_p', unit: 'ohm', above: 0, max: 1e8, meaning: 'resistance of the pull-up or pull-down' },
  ratedPower: {
    symbol: 'P_prated',
    unit: 'W',
    above: 0,
    max: 100,
    otherwise: 0.1,
    meaning: 'its rated power at the ambient',
  },
} as const satisfies PartFields

const common = {
  gateResistor: { symbol: 'R_g', unit: 'ohm', min: 0, max: 1e6, otherwise: 0, meaning: 'resistor before the gate' },
  pinLeakage: {
    symbol: 'I_pinleak',
    unit: 'A',
    min: 0,
    max: 1e-3,
    otherwise: 1e-6,
    meaning: 'leakage of the pin while it is an input, hot',
  },
} as const satisfies PartFields

/** A drive that pulls both ways: a controller's pin or a driver circuit. */
const directFields = /*#__PURE__*/ (() =>
  ({
    ...common,
    resistance: { symbol: 'R_drv', unit: 'ohm', above: 0, max: 1e5, meaning: 'output resistance, switching on' },
    sinkResistance: { symbol: 'R_snk', unit: 'ohm', above: 0, max: 1e5, meaning: 'output resistance, switching off' },
    drop: {
      symbol: 'V_drop',
      unit: 'V',
      min: 0,
      max: 20,
      otherwise: 0,
      meaning: 'voltage lost beside the resistance, switched on',
    },
    offLevel: {
      symbol: 'V_off',
      unit: 'V',
      min: 0,
      max: 20,
      otherwise: 0,
      meaning: 'voltage left on the gate, switched off',
    },
    currentMaximum: { symbol: 'I_pinmax', unit: 'A', above: 0, max: 100, meaning: 'largest peak current allowed' },
    supplyMinimum: {
      symbol: 'V_supmin',
      unit: 'V',
      min: 0,
      max: 100,
      otherwise: 0,
      meaning: 'lowest supply at which it works',
    },
  }) as const satisfies PartFields)()

/** One emitter follower, or a complementary pair. */
const followerFields = /*#__PURE__*/ (() =>
  ({
    ...common,
    resistance: {
      symbol: 'R_drv',
      unit: 'ohm',
      above: 0,
      max: 1e5,
      otherwise: 10,
      meaning: 'output resistance of the follower',
    },
    baseEmitter: {
      symbol: 'V_BE',
      unit: 'V',
      min: 0.2,
      max: 2,
      otherwise: '0.7 V ±0.1 V',
      meaning: 'base-emitter voltage',
    },
    currentMaximum: {
      symbol: 'I_pinmax',
      unit: 'A',
      above: 0,
      max: 100,
      otherwise: 0.2,
      meaning: 'largest peak current allowed',
    },
  }) as const satisfies PartFields)()

/** One inverting bipolar transistor against a pull-up. */
const inverterFields = /*#__PURE__*/ (() =>
  ({
    ...common,
    saturation: { symbol: 'V_CE', unit: 'V', min: 0, max: 2, otherwise: '0.2 V ±0.1 V', meaning: 'saturation voltage' },
    baseEmitter: {
      symbol: 'V_BE',
      unit: 'V',
      min: 0.2,
      max: 2,
      otherwise: '0.7 V ±0.1 V',
      meaning: 'base-emitter voltage, conducting',
    },
    baseOff: {
      symbol: 'V_BEoff',
      unit: 'V',
      above: 0,
      max: 2,
      otherwise: 0.4,
      meaning: 'base voltage below which it surely blocks, hot',
    },
    baseResistor: { symbol: 'R_b', unit: 'ohm', above: 0, max: 1e7, meaning: 'resistor before the base' },
    highLevel: {
      symbol: 'V_high',
      unit: 'V',
      above: 0,
      max: 20,
      meaning: 'high level of the pin that drives the base, lowest',
    },
    currentGain: {
      symbol: 'h_FE',
      unit: '1',
      min: 5,
      max: 1e4,
      otherwise: 50,
      meaning: 'current gain in use, smallest',
    },
  }) as const satisfies PartFields)()

const volts = { unit: 'V', above: 0, max: 100 } as const
const ohms = { unit: 'ohm', above: 0, max: 1e8 } as const

/** What every drive may have. */
const shared = /*#__PURE__*/ (() =>
  ({
    pull: /*#__PURE__*/ part(
      {
        at: /*#__PURE__*/ word(['gate', 'drive'], {
          meaning: "where the pull resistor sits: at the gate, or on the drive's side of the gate resistor",
        }),
        ...pullFields,
      },
      { optional: true, meaning: 'resistor that holds the gate off, or the pull-up that a transistor pulls against' },
    ),
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
            meaning: 'drop of a diode that holds the supply of the drive',
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
        meaning: 'what the drive lives on: the sagged rail, the rail behind a diode, or a regulated voltage',
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
  meaning: "high level of the pin where it doesn't reach the rail: it leaves a P-channel gate partly driven",
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
        meaning: 'whether it is a pair that pulls both ways',
      }),
      basePullDown: /*#__PURE__*/ spread({
        ...basePullDown,
        meaning: 'resistor from the base to the level that switches off',
      }),
    },
    'inverting transistor': {
      ...shared,
      ...inverterFields,
      basePullDown: /*#__PURE__*/ spread({ ...basePullDown, meaning: 'resistor from base to emitter' }),
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

/** The published tables of drives: from the words of a drive's fields to symbols. */
export const driveFields = {
  direct: directFields,
  follower: followerFields,
  inverter: inverterFields,
  pull: pullFields,
} as const
