import { converterField, type ReadConverter } from '@ohmward/adc'
import {
  either,
  exact,
  exactly,
  type Given,
  InputError,
  own,
  type PartFields,
  part,
  type Read,
  range,
  readNumber,
  readRange,
  readRecord,
  record,
  type Spread,
  spread,
  word,
} from '@ohmward/quantity'
import type { amplifierFields } from './amplifier.js'
import { amplifierField } from './amplifier.js'
import { calibrationField, type ReadCalibration } from './calibration.js'
import {
  excitationSwitchFields,
  gainFields,
  loadFields,
  referenceFields,
  surroundingsFields,
  timingFields,
} from './parts.js'
import { type ReadThermometry, thermometryField } from './thermometry.js'

const supply = (symbol: string, meaning: string) =>
  either(['rail'], spread({ symbol, unit: 'V', above: 0, max: 60, meaning }), { otherwise: 'rail', meaning })

const end = { unit: 'ohm', min: 0, max: 100 } as const

const loadRecord = {
  from: exactly({ ...end, meaning: 'smallest resistance that must be read' }),
  to: exactly({ ...end, meaning: 'largest resistance that must be read' }),
  nominal: exactly({ ...end, optional: true, meaning: 'resistance of the design; the middle of the range by default' }),
  ...loadFields,
} as const

/** A low-ohm measurement as its designer chooses it. */
export const dividerRecord = record({
  load: part(loadRecord, {
    meaning: 'resistances that must be read, and what the load is like',
    as: ({ from, to, nominal, ...load }: Read<typeof loadRecord>, field: string) => ({
      ...readRange({ from, to }, { ...end, field }),
      ...load,
      nominal: exact(nominal ?? (from + to) / 2),
    }),
  }),
  error: own<number | string>()(readError, {
    schema: { anyOf: [{ type: 'number', exclusiveMinimum: 0, maximum: 1 }, { type: 'string' }] },
    meaning: "largest error wanted: a share of the reading ('3 %') or a resistance ('20 mohm')",
  }),
  topology: word(['load at ground', 'load at rail'], {
    otherwise: 'load at ground',
    meaning: 'where the load is; at the rail it takes a difference amplifier',
  }),
  wires: word([2, 4], {
    otherwise: 4,
    meaning: "2: leads count as load; 4: sensed at the load's own terminals",
  }),
  excitation: supply('V_exc', 'what drives the test current: the rail, or a voltage of its own'),
  excitationSwitch: part(excitationSwitchFields, { meaning: 'switch of the excitation' }),
  reference: spread({
    symbol: 'R_ref',
    unit: 'ohm',
    above: 0,
    max: 1e6,
    meaning: 'reference resistor in series with the load',
  }),
  referencePart: part(referenceFields, { meaning: 'reference resistor, beside its resistance' }),
  gainResistors: part(gainFields, { meaning: 'the resistors that set the gain' }),
  pedestal: spread({
    symbol: 'p_ped',
    unit: '1',
    min: 0,
    max: 0.9,
    otherwise: 0,
    meaning: 'share of the reference voltage added to the output, so that a negative offset still reads',
  }),
  surroundings: part(surroundingsFields, { meaning: 'what stands around the measurement' }),
  amplifier: amplifierField,
  amplifierSupply: supply('V_amp', 'supply of the amplifier: the rail, or one of its own'),
  converter: converterField,
  timing: part(timingFields, { meaning: 'when the reading is taken' }),
  calibration: calibrationField,
  thermometry: thermometryField,
})

/** What must be covered while the measurement works. */
export const dividerConditions = record({
  rail: range({
    unit: 'V',
    above: 0,
    max: 60,
    meaning: 'the rail at the moment of the measurement, sagged by whatever is on then',
  }),
  ambientCelsius: range({ unit: 'degC', min: -55, max: 125, meaning: 'air around the board, inside the case' }),
  nominalRail: exactly({
    unit: 'V',
    above: 0,
    max: 60,
    optional: true,
    meaning: "rail that the firmware's constants assume where one needs it; the middle of the range by default",
  }),
})

/** A low-ohm measurement as its designer chose it. */
export type DividerChoice = Given<typeof dividerRecord>

/** What must be covered while the measurement works. */
export type DividerConditions = Given<typeof dividerConditions>

type Spreads<F extends PartFields> = { readonly [W in keyof F]: Spread }

/** A choice that was read: every part by its words, in SI. */
export interface ReadChoice {
  readonly load: Spreads<typeof loadFields> & { readonly from: number; readonly to: number; readonly nominal: Spread }
  readonly error: { readonly kind: 'share' | 'ohm'; readonly value: number }
  readonly topology: 'load at ground' | 'load at rail'
  readonly kappa: 0 | 1
  readonly excitation: Spread | undefined
  readonly excitationSwitch: Spreads<typeof excitationSwitchFields>
  readonly reference: Spread
  readonly referencePart: Spreads<typeof referenceFields>
  readonly gainResistors: Spreads<typeof gainFields>
  readonly pedestal: Spread
  readonly surroundings: Spreads<typeof surroundingsFields>
  readonly amplifier: Spreads<typeof amplifierFields>
  readonly amplifierSupply: Spread | undefined
  readonly converter: ReadConverter
  readonly timing: Spreads<typeof timingFields>
  readonly calibration: ReadCalibration
  readonly thermometry: ReadThermometry | undefined
  readonly rail: { readonly from: number; readonly to: number }
  readonly nominalRail: number
  readonly ambient: { readonly from: number; readonly to: number }
}

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readChoice(choice: unknown, conditions: unknown): ReadChoice {
  const { wires, excitation, amplifierSupply, calibration, ...read } = readRecord(dividerRecord, choice, 'choice')
  const { rail, ambientCelsius, nominalRail } = readRecord(dividerConditions, conditions, 'conditions')
  checkTogether(read, choice as DividerChoice)
  return {
    ...read,
    kappa: wires === 2 ? 1 : 0,
    excitation: excitation === 'rail' ? undefined : excitation,
    amplifierSupply: amplifierSupply === 'rail' ? undefined : amplifierSupply,
    calibration: {
      kind: calibration.kind,
      atCelsius: calibration.kind === 'none' ? undefined : calibration.atCelsius,
      rail: calibration.kind === 'none' ? undefined : calibration.rail,
      short: calibration.kind === 'none' ? exact(0) : calibration.short,
      resistor: calibration.kind === 'zero and span' ? calibration.resistor : exact(1),
    },
    rail,
    nominalRail: nominalRail ?? (rail.from + rail.to) / 2,
    ambient: ambientCelsius,
  }
}

/** What no field can say alone. */
function checkTogether(
  { load, error, topology, pedestal }: Pick<ReadChoice, 'load' | 'error' | 'topology' | 'pedestal'>,
  given: DividerChoice,
): void {
  const { from, to, nominal } = load
  if (to === 0) throw new InputError({ field: 'load.to', value: to, unit: 'ohm', allowed: 'more than 0 ohm' })
  if (!(nominal.nominal >= from && nominal.nominal <= to)) {
    const allowed = `from ${from} to ${to} ohm`
    throw new InputError({ field: 'load.nominal', value: nominal.nominal, unit: 'ohm', allowed })
  }
  if (error.kind === 'share' && from === 0) {
    const allowed = 'a resistance where the load may be 0 ohm, such as "20 mohm"'
    throw new InputError({ field: 'error', value: given.error, allowed })
  }
  if (topology === 'load at rail' && pedestal.upper > 0) {
    throw new InputError({ field: 'pedestal', value: pedestal.upper, allowed: 'at most 0 with the load at the rail' })
  }
}

/** The error wanted: `'3 %'` and bare shares below, `'20 mohm'` as resistance. */
function readError(given: unknown, field: string): ReadChoice['error'] {
  const isShare = typeof given === 'number' || (typeof given === 'string' && given.trim().endsWith('%'))
  return isShare
    ? { kind: 'share', value: readNumber(given, { field, unit: '1', above: 0, max: 1 }) }
    : { kind: 'ohm', value: readNumber(given, { field, unit: 'ohm', above: 0, max: 100 }) }
}
