import { converterField } from '@ohmward/adc'
import { furtherErrors } from '@ohmward/budget'
import {
  either,
  exactly,
  format,
  type Given,
  InputError,
  joined,
  part,
  type Read,
  range,
  readRecord,
  record,
  type Spread,
  spread,
  word,
} from '@ohmward/quantity'
import { amplifierFields } from './amplifier.js'
import { calibration } from './calibration.js'
import {
  excitationSwitchFields,
  gainFields,
  loadFields,
  loadRange,
  referenceFields,
  surroundingsFields,
  timingFields,
} from './parts.js'
import { thermometry } from './thermometry/fields.js'
import { wantedError } from './wanted.js'

const loadPart = /*#__PURE__*/ joined(loadRange, loadFields)

const fields = {
  load: /*#__PURE__*/ part(loadPart, {
    check: inOrder,
    meaning: 'resistances that must be read, and what the load is like',
  }),
  error: wantedError,
  topology: /*#__PURE__*/ word(['load at ground', 'load at rail'], {
    otherwise: 'load at ground',
    meaning: 'where the load is; at the rail it takes a difference amplifier',
  }),
  wires: /*#__PURE__*/ word([2, 4], {
    otherwise: 4,
    meaning: 'wires to the load: with 2 the leads count as load, with 4 it is sensed at its own terminals',
  }),
  excitation: /*#__PURE__*/ either(
    ['rail', 'reference'],
    /*#__PURE__*/ spread({
      symbol: 'V_exc',
      unit: 'V',
      above: 0,
      max: 60,
      meaning: 'voltage that drives the test current',
    }),
    {
      otherwise: 'rail',
      meaning: "what drives the test current: the rail, the node of the converter's reference, or a voltage of its own",
    },
  ),
  excitationSwitch: /*#__PURE__*/ part(excitationSwitchFields, { meaning: 'switch that connects the excitation' }),
  reference: /*#__PURE__*/ spread({
    symbol: 'R_ref',
    hasTolerance: true,
    unit: 'ohm',
    above: 0,
    max: 1e6,
    meaning: 'reference resistor in series with the load',
  }),
  referencePart: /*#__PURE__*/ part(referenceFields, { meaning: 'further data of the reference resistor' }),
  gainResistors: /*#__PURE__*/ part(gainFields, { meaning: 'two resistors that set the gain' }),
  pedestal: /*#__PURE__*/ spread({
    symbol: 'p_ped',
    unit: '1',
    min: 0,
    max: 0.9,
    otherwise: 0,
    meaning: 'share of the reference voltage added to the output, so that a negative offset still reads',
  }),
  surroundings: /*#__PURE__*/ part(surroundingsFields, { meaning: 'what surrounds the measurement' }),
  amplifier: /*#__PURE__*/ part(amplifierFields, { meaning: "limits of the amplifier's data sheet" }),
  amplifierSupply: /*#__PURE__*/ either(
    ['rail'],
    /*#__PURE__*/ spread({ symbol: 'V_amp', unit: 'V', above: 0, max: 60, meaning: 'supply of the amplifier' }),
    { otherwise: 'rail', meaning: 'what supplies the amplifier: the rail, or a supply of its own' },
  ),
  converter: converterField,
  timing: /*#__PURE__*/ part(timingFields, { meaning: 'when the reading is taken' }),
  calibration,
  thermometry,
  further: /*#__PURE__*/ furtherErrors({
    voltage: "largest error as a voltage at the amplifier's input",
    current: 'largest current into the sense input, which flows through its series resistor',
    share: "largest error as a share of the amplifier's output",
  }),
} as const

/** What a choice of a measurement is made of. */
export const dividerRecord = /*#__PURE__*/ record(fields, together)

/** What must be covered while the measurement works. */
export const dividerConditions = /*#__PURE__*/ record({
  rail: /*#__PURE__*/ range({
    unit: 'V',
    above: 0,
    max: 60,
    meaning: 'rail at the moment of the measurement, sagged by whatever is on then',
  }),
  ambientCelsius: /*#__PURE__*/ range({
    unit: 'degC',
    min: -55,
    max: 125,
    meaning: 'air around the board, inside the case',
  }),
  nominalRail: /*#__PURE__*/ exactly({
    unit: 'V',
    above: 0,
    max: 60,
    optional: true,
    meaning: "rail that the firmware's constants assume where they need one; the middle of the range by default",
  }),
})

/** A low-ohm measurement as its designer chose it. */
export interface DividerChoice extends Given<typeof dividerRecord> {}

/** What must be covered while the measurement works. */
export interface DividerConditions extends Given<typeof dividerConditions> {}

type ReadFields = Read<typeof fields>
type ReadConditions = Read<typeof dividerConditions>

/** A choice that was read: every part by its words, in SI; what is the rail is undefined. */
export interface ReadChoice extends Omit<ReadFields, 'load' | 'wires' | 'excitation' | 'amplifierSupply'> {
  readonly load: Omit<ReadFields['load'], 'nominal'> & { readonly nominal: number }
  readonly kappa: 0 | 1
  /** Undefined where it is the rail. */
  readonly excitation: Spread | undefined
  /** Whether the excitation is the node of the converter's reference. */
  readonly isOneNode: boolean
  readonly amplifierSupply: Spread | undefined
  readonly rail: ReadConditions['rail']
  readonly nominalRail: number
  readonly ambient: ReadConditions['ambientCelsius']
}

/** Reads a choice and its conditions. @throws InputError naming the first field that isn't allowed */
export function readChoice(choice: unknown, conditions: unknown): ReadChoice {
  const { wires, load, excitation, amplifierSupply, ...read } = readRecord(dividerRecord, choice, 'choice')
  const { rail, ambientCelsius, nominalRail = middle(rail) } = readRecord(dividerConditions, conditions, 'conditions')
  const { reference } = read.converter
  const isOneNode = excitation === 'reference' && reference.kind === 'absolute'
  const driven = typeof excitation === 'object' ? excitation : isOneNode ? reference.V_ref0 : undefined
  const least = driven?.lower ?? Math.min(rail.from, nominalRail)
  if (read.excitationSwitch.saturation.upper >= least) {
    const value = read.excitationSwitch.saturation.upper
    const allowed = `less than the excitation, ${format(least, 'V')}`
    throw new InputError({ field: 'excitationSwitch.saturation', value, unit: 'V', allowed })
  }
  const { gainBandwidth, fastestGainBandwidth } = read.amplifier
  if (fastestGainBandwidth !== undefined && fastestGainBandwidth.upper < gainBandwidth.upper) {
    const value = fastestGainBandwidth.upper
    const allowed = `at least amplifier.gainBandwidth, ${format(gainBandwidth.upper, 'Hz')}`
    throw new InputError({ field: 'amplifier.fastestGainBandwidth', value, unit: 'Hz', allowed })
  }
  return {
    ...read,
    load: { ...load, nominal: load.nominal ?? middle(load) },
    kappa: wires === 2 ? 1 : 0,
    excitation: driven,
    isOneNode,
    amplifierSupply: amplifierSupply === 'rail' ? undefined : amplifierSupply,
    rail,
    nominalRail,
    ambient: ambientCelsius,
  }
}

const middle = ({ from, to }: { readonly from: number; readonly to: number }) => (from + to) / 2

/** The nominal load lies between the ends. @throws InputError */
function inOrder(
  { from, to, nominal = to }: Read<typeof loadPart>,
  field: string,
  given: Given<typeof loadPart>,
): void {
  const refuse = (name: 'from' | 'nominal', allowed: string) =>
    new InputError({ field: `${field}.${name}`, value: given[name], unit: 'ohm', allowed })
  if (from > to) throw refuse('from', `at most the other end, to = ${to} ohm`)
  if (nominal < from || nominal > to) throw refuse('nominal', `from ${from} to ${to} ohm`)
}

/** What no field says by itself. @throws InputError */
function together(
  {
    load,
    error,
    topology,
    pedestal,
    reference,
    surroundings,
  }: Pick<ReadFields, 'load' | 'error' | 'topology' | 'pedestal' | 'reference' | 'surroundings'>,
  _: string,
  given: Pick<Given<typeof fields>, 'error' | 'pedestal'>,
): void {
  if (error.smallest?.kind === 'share' && load.from === 0) {
    const allowed = 'a resistance where the load may be 0 ohm, such as "20 mohm"'
    const { error: wanted } = given
    const [field, value] = typeof wanted === 'object' ? ['error.smallest', wanted.smallest] : ['error', wanted]
    throw new InputError({ field, value, allowed })
  }
  const most = (reference.lower + load.from) / 2
  if (surroundings.contactVariation.upper > most) {
    const value = surroundings.contactVariation.upper
    const allowed = `at most half of the loop, ${format(most, 'ohm')}`
    throw new InputError({ field: 'surroundings.contactVariation', value, unit: 'ohm', allowed })
  }
  if (topology === 'load at rail' && pedestal.upper > 0) {
    const allowed = 'at most 0: a difference amplifier has no pedestal'
    throw new InputError({ field: 'pedestal', value: given.pedestal, allowed })
  }
}
