import { type Assessment, type Choosing, choose } from '@ohmward/budget'
import {
  exactly,
  format,
  type Given,
  InputError,
  joined,
  preferredAtMost,
  preferredIn,
  type Range,
  range,
  readRecord,
  record,
  type Series,
  word,
} from '@ohmward/quantity'
import { type DividerBudgets, divider, dividerChanges } from './block.js'
import { type DividerChoice, dividerConditions, dividerRecord, type ReadChoice, readChoice } from './choice.js'
import { gainFields } from './parts.js'
import { allowedAt } from './rows/allowed.js'

const search = {
  ambientCelsius: /*#__PURE__*/ range({
    unit: 'degC',
    min: -55,
    max: 125,
    otherwise: { from: 0, to: 50 },
    meaning: 'air around the board, inside the case',
  }),
  series: /*#__PURE__*/ word(['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'], {
    otherwise: 'E24',
    meaning: 'series of preferred values (IEC 60063)',
  }),
  tolerance: /*#__PURE__*/ exactly({
    unit: '1',
    above: 0,
    max: 0.5,
    otherwise: '1 %',
    meaning: 'tolerance of every resistor',
  }),
  ground: /*#__PURE__*/ exactly({
    unit: 'ohm',
    min: 10,
    max: 1e6,
    otherwise: 1000,
    meaning: 'resistor from the inverting input to ground',
  }),
  most: /*#__PURE__*/ exactly({
    unit: '1',
    min: 1,
    max: 20,
    integer: true,
    otherwise: 3,
    meaning: 'how many choices are wanted',
  }),
} as const

const requirementRecord = /*#__PURE__*/ (() => {
  const { reference, gainResistors, ...others } = dividerRecord.fields
  const taken = { rail: dividerConditions.fields.rail, ratioDrift: gainFields.ratioDrift }
  return record(joined(joined(others, taken), search))
})()

/** What a measurement must do; the reference resistor and the gain pair are looked for. */
export interface DividerRequirement extends Given<typeof requirementRecord> {}

/** What came out of sizing. */
export interface DividerSizing extends Choosing<DividerChoice, Assessment<DividerBudgets>> {
  /** What amplifier would be needed where none of the candidates works; absent otherwise. */
  readonly needed?: { readonly offsetVoltage?: number; readonly outputDrop?: number; readonly text: string }
}

/** What a small switch carries: taken where no limit is given, or the smallest resistors would win with pulses of watts. */
const PIN = '100 mA'

/** Full checks in one sizing, at most. */
const CHECKS = 24

/** Gains that are tried with each reference resistor, from the largest that leaves headroom downwards. */
const GAINS = 10

/**
 * Finds the reference resistor and the gain pair among preferred values: the largest least slack first, one gain for each
 * reference resistor. Where no current limit of the excitation switch is given, 100 mA are taken. Every choice returned holds; what was turned down is there with its reason, and what wasn't looked
 * at in full any more is counted.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeDivider(requirement: DividerRequirement): DividerSizing {
  const search = readRequirement(requirement)
  const found = look(search)
  return found.choices.length > 0 ? found : { ...found, needed: amplifierNeeded(search) }
}

interface Search {
  readonly base: Omit<DividerChoice, 'reference' | 'gainResistors'>
  readonly conditions: { readonly rail: Range; readonly ambientCelsius: Range }
  readonly series: Series
  readonly tolerance: string
  readonly ground: number
  readonly ratioDrift: NonNullable<DividerRequirement['ratioDrift']>
  readonly most: number
}

function readRequirement(requirement: DividerRequirement): Search {
  const { rail, ambientCelsius, series, tolerance, ground, most, topology, calibration } = readRecord(
    requirementRecord,
    requirement,
    'requirement',
  )
  if (topology === 'load at rail' && calibration.kind !== 'none') {
    throw new InputError({
      field: 'calibration',
      value: requirement.calibration,
      allowed: '"none" with the load at the rail',
      hint: 'With a short the output of a difference amplifier stands at its lowest level: the zero cannot be read',
    })
  }
  return {
    base: baseOf(requirement),
    conditions: { rail, ambientCelsius },
    series,
    tolerance: format(tolerance, '1', { as: '%', digits: 15, ascii: true }),
    ground,
    ratioDrift: requirement.ratioDrift ?? gainFields.ratioDrift.otherwise,
    most,
  }
}

/** The choice as far as it is given. */
function baseOf(requirement: DividerRequirement): Search['base'] {
  const { rail, ambientCelsius, series, tolerance, ground, ratioDrift, most, ...base } = requirement
  return { ...base, excitationSwitch: { currentLimit: PIN, ...base.excitationSwitch } }
}

const look = (search: Search): Choosing<DividerChoice, Assessment<DividerBudgets>> =>
  choose(divider, candidates(search), search.conditions, {
    most: search.most,
    checks: CHECKS,
    kind: ({ reference }) => String(reference),
  })

/** Reference resistors from the smallest that the current limit allows, each with the largest gains that keep headroom. */
function* candidates(search: Search): Generator<DividerChoice> {
  const { series, ground } = search
  const probe = readParts(search, 100, ground)
  const { load, excitationSwitch, rail, amplifier, converter } = probe
  const highest = probe.excitation?.upper ?? rail.to
  const smallest = Math.max(highest / excitationSwitch.currentLimit.lower / 2, load.to / 4, 1)
  const largest = load.to + allowedAt(probe, load.to)
  const top = (probe.amplifierSupply?.lower ?? rail.from) - amplifier.highOutputDrop.upper
  const { reference } = converter
  const room = reference.kind === 'absolute' ? Math.min(top, reference.V_ref0.lower) : top
  for (const R_ref of preferredIn({ from: smallest, to: smallest * 60 }, series)) {
    const current = (probe.excitation?.lower ?? rail.from) / (R_ref + largest)
    const gain = room / (current * largest)
    let R_f = Math.max((gain - 1) * ground, 10)
    for (let step = 0; step < GAINS && R_f >= 10; step++) {
      R_f = preferredAtMost(R_f, series)
      yield partsOf(search, R_ref, R_f)
      R_f *= 0.999
    }
  }
}

const readParts = (search: Search, R_ref: number, R_f: number): ReadChoice =>
  readChoice(partsOf(search, R_ref, R_f), search.conditions)

function partsOf({ base, tolerance, ratioDrift, ground }: Search, R_ref: number, R_f: number): DividerChoice {
  const resistor = (value: number) => `${format(value, 'ohm', { ascii: true })} ±${tolerance}`
  return {
    ...base,
    reference: resistor(R_ref),
    gainResistors: { feedback: resistor(R_f), ground: resistor(ground), ratioDrift },
  }
}

/** The weakest amplifier of the given kind with which a choice holds: first the reach of its output, then its offset. */
function amplifierNeeded(search: Search): NonNullable<DividerSizing['needed']> {
  const { amplifier, topology } = readParts(search, 100, 1e4)
  const { offsetVoltage, offsetDrift, highOutputDrop, lowOutput } = amplifier
  // The offset that matters is that at the load's own common mode.
  const isGrounded = topology === 'load at ground'
  const amplifierOf = (offset: number, drop: number) => ({
    ...search.base.amplifier,
    ...(isGrounded && { offsetCommonMode: 0 }),
    offsetVoltage: offset * offsetVoltage.upper,
    offsetDrift: offset * offsetDrift.upper,
    highOutputDrop: drop * highOutputDrop.upper,
    lowOutput: drop * lowOutput.upper,
  })
  const withAmplifier = (offset: number, drop: number): Search => ({
    ...search,
    most: 1,
    base: { ...search.base, amplifier: amplifierOf(offset, drop) },
  })
  const best = look(withAmplifier(0, 0))
  const choice = best.choices[0]?.choice
  if (!choice) {
    const near = best.rejected.filter(({ lack }) => lack !== undefined).sort((a, b) => a.lack! - b.lack!)
    const nearest = near[0] ?? usual(best.rejected)
    const reason = nearest?.reason ?? 'no candidate is left'
    const change = nearest ? ` ${dividerChanges(nearest.choice, search.conditions, { checks: 30 }).text}` : ''
    return {
      text: `A better offset or swing alone would not do; nearest, without offset and to both rails: ${reason}.${change}`,
    }
  }
  const works = (offset: number, drop: number) =>
    choose(divider, [{ ...choice, amplifier: amplifierOf(offset, drop) }], search.conditions).choices.length > 0
  const drop = largestShare((share) => works(0, share))
  const offset = largestShare((share) => works(share, drop))
  const needed = {
    ...(offset < 1 && { offsetVoltage: offset * offsetVoltage.upper }),
    ...(drop < 1 && { outputDrop: drop * highOutputDrop.upper }),
  }
  const volts = (value: number) => format(value, 'V', { digits: 2 })
  const words = [
    needed.offsetVoltage !== undefined
      ? `an offset of at most ${volts(needed.offsetVoltage)}${isGrounded ? ' with its inputs at 0 V' : ''}`
      : '',
    needed.outputDrop !== undefined ? `an output within ${volts(needed.outputDrop)} of the supply` : '',
  ]
  return {
    ...needed,
    text: `With ${choice.reference} and ${choice.gainResistors.feedback}, an amplifier with ${words.filter(Boolean).join(' and ')} would do.`,
  }
}

/** The last of those that the row turned down by which most were. */
function usual<R extends { readonly row: string }>(rejected: readonly R[]): R | undefined {
  const count = (row: string) => rejected.filter((one) => one.row === row).length
  return rejected.reduce<R | undefined>(
    (most, one) => (most && count(most.row) > count(one.row) ? most : one),
    undefined,
  )
}

/** The largest share from 0 to 1 that works, where smaller ones do. */
function largestShare(works: (share: number) => boolean): number {
  if (works(1)) return 1
  let [good, bad] = [0, 1]
  for (let i = 0; i < 7; i++) {
    const middle = (good + bad) / 2
    if (works(middle)) good = middle
    else bad = middle
  }
  return good
}
