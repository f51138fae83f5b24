import { type Assessment, relativeSlack } from '@ohmward/budget'
import {
  format,
  InputError,
  missingFields,
  preferredAtMost,
  preferredIn,
  type Range,
  readNumber,
  readRange,
  readSpread,
  type Series,
  scaled,
} from '@ohmward/quantity'
import { checkDivider, type DividerBudgets } from './block.js'
import { type DividerChoice, oneOf, type ReadChoice, readChoice } from './choice.js'
import { allowedAt } from './rows/allowed.js'
import { type Candidate, nominalFault } from './screen.js'

/** What a measurement must do; the reference resistor and the gain pair are looked for. */
export interface DividerRequirement extends Omit<DividerChoice, 'reference' | 'gainResistors'> {
  /** The rail while measuring. */
  readonly rail: Range
  /** Air around the board; 0 to 50 °C unless told. */
  readonly ambientCelsius?: Range
  /** Series of preferred values (IEC 60063); E24 unless told. */
  readonly series?: Series
  /** Tolerance of every resistor; `'1 %'` unless told. */
  readonly tolerance?: string
  /** Resistor from the inverting input to ground; 1 kohm unless told. */
  readonly ground?: number | string
  /** Drift of the ratio of the gain resistors; 100 ppm/K unless told. */
  readonly ratioDrift?: number | string
  /** How many choices are wanted; 3 unless told. */
  readonly most?: number
}

/** A choice of preferred values, already checked. */
export interface SizedDivider {
  readonly parts: DividerChoice
  readonly assessment: Assessment<DividerBudgets>
}

/** A candidate that was turned down. */
export interface RejectedDivider {
  readonly parts: DividerChoice
  /** The margin that fails, by its id, and why in words. */
  readonly margin: string
  readonly reason: string
  /** By how much of its limit it fails; absent where nominal parts fail already. */
  readonly lack?: number
}

/** What came out of sizing. */
export interface DividerSizing {
  /** The largest relative slack first. */
  readonly choices: readonly SizedDivider[]
  readonly rejected: readonly RejectedDivider[]
  /** What amplifier would be needed where none of the candidates works; absent otherwise. */
  readonly needed?: { readonly offsetVoltage?: number; readonly outputDrop?: number; readonly text: string }
}

const own = ['rail', 'ambientCelsius', 'series', 'tolerance', 'ground', 'ratioDrift', 'most'] as const
const seriesNames = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const
/** Full checks in one sizing, at most. */
const EXAMINED = 24

/**
 * Finds the reference resistor and the gain pair among preferred values.
 *
 * Candidates are screened with nominal parts at the worst conditions, which no tolerance can mend; the rest is checked
 * in full, the most signal first, until enough hold: one gain for each reference resistor. Every choice returned holds, and every one rejected fails its check.
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
  readonly ratioDrift: number | string
  readonly most: number
}

function readRequirement(requirement: DividerRequirement): Search {
  const given = missingFields(requirement, ['load', 'error', 'rail', 'amplifier', 'converter'], 'requirement', [
    ...own,
    'topology',
    'wires',
    'excitation',
    'excitationSwitch',
    'referencePart',
    'pedestal',
    'surroundings',
    'amplifierSupply',
    'timing',
    'calibration',
    'thermometry',
  ]) as unknown as DividerRequirement
  const {
    rail,
    ambientCelsius = { from: 0, to: 50 },
    series = 'E24',
    tolerance = '1 %',
    ground = 1000,
    ratioDrift = 1e-4,
    most = 3,
    ...base
  } = given
  if (!(Number.isInteger(most) && most >= 1 && most <= 20)) {
    throw new InputError({ field: 'most', value: most, allowed: 'a whole number from 1 to 20' })
  }
  const { topology, calibration = 'none' } = given
  if (topology === 'load at rail' && calibration !== 'none') {
    const hint = 'With a short the output of a difference amplifier stands at its lowest level: the zero cannot be read'
    throw new InputError({
      field: 'calibration',
      value: calibration,
      allowed: '"none" with the load at the rail',
      hint,
    })
  }
  readRange(rail, { field: 'rail', unit: 'V', above: 0, max: 60 })
  readNumber(tolerance, { field: 'tolerance', unit: '1', above: 0, max: 0.5 })
  return {
    base,
    conditions: { rail, ambientCelsius },
    series: oneOf(series, seriesNames, 'series'),
    tolerance,
    ground: readSpread(ground, { field: 'ground', unit: 'ohm', min: 10, max: 1e6 }).nominal,
    ratioDrift,
    most,
  }
}

/** Looks through the candidates. */
function look(search: Search): DividerSizing {
  const rejected: RejectedDivider[] = []
  const able: { candidate: Candidate; parts: DividerChoice }[] = []
  for (const candidate of candidates(search)) {
    const parts = partsOf(search, candidate)
    const fault = nominalFault(candidate.read)
    if (fault) rejected.push({ parts, ...fault })
    else able.push({ candidate, parts })
  }
  able.sort((a, b) => b.candidate.signal - a.candidate.signal)
  const choices: SizedDivider[] = []
  let examined = 0
  const settled = new Set<number>()
  for (const { candidate, parts } of able) {
    if (choices.length >= search.most || examined >= EXAMINED) break
    if (settled.has(candidate.R_ref)) continue
    examined++
    const assessment = checkDivider(parts, search.conditions, { simulation: false })
    if (assessment.verdict === 'holds') {
      choices.push({ parts, assessment })
      settled.add(candidate.R_ref)
    } else rejected.push({ parts, ...faultOf(assessment) })
  }
  const slack = ({ assessment }: SizedDivider) => relativeSlack(assessment.margins[0]!)
  choices.sort((a, b) => slack(b) - slack(a))
  return { choices, rejected }
}

/** The margin that decides against a choice, and why in words. */
function faultOf({ margins }: Assessment<DividerBudgets>): { margin: string; reason: string; lack: number } {
  const worst =
    margins.find(({ verdict }) => verdict === 'fails') ?? margins.find(({ verdict }) => verdict === 'not sure')!
  const { id, name, verdict, slack, unit, reason } = worst
  const why = verdict === 'fails' ? `short by ${format(-slack, unit, { digits: 2 })}` : `not sure, ${reason}`
  return { margin: id, reason: `${name}: ${why}`, lack: -relativeSlack(worst) }
}

/** Reference resistors from the smallest that the current limit allows, each with the largest gains that keep headroom. */
function candidates(search: Search): Candidate[] {
  const { series, ground } = search
  const probe = readParts(search, 100, ground)
  const { load, excitationSwitch, rail, amplifier } = probe
  const highest = probe.excitation?.upper ?? rail.to
  const smallest = Math.max(highest / excitationSwitch.currentLimit.lower / 2, load.to / 4, 1)
  const result: Candidate[] = []
  for (const R_ref of preferredIn({ from: smallest, to: smallest * 60 }, series)) {
    const largest = load.to + allowedAt(probe, load.to)
    const current = (probe.excitation?.lower ?? rail.from) / (R_ref + largest)
    const room = (probe.amplifierSupply?.lower ?? rail.from) - amplifier.highOutputDrop.upper
    const gain = (0.97 * room) / (current * largest)
    let R_f = Math.max((gain - 1) * ground, 10)
    for (let step = 0; step < 4; step++) {
      R_f = preferredAtMost(R_f, series)
      const read = {
        ...probe,
        reference: scaled(probe.reference, R_ref / 100),
        gainResistors: { ...probe.gainResistors, feedback: scaled(probe.gainResistors.feedback, R_f / ground) },
      }
      const signal = (load.from * highest) / (R_ref + load.from)
      result.push({ R_ref, R_f, R_g: ground, signal: signal * (1 - step * 0.01), read })
      R_f *= 0.999
    }
  }
  return result
}

function readParts(search: Search, R_ref: number, R_f: number): ReadChoice {
  return readChoice(partsOf(search, { R_ref, R_f, R_g: search.ground }), search.conditions)
}

function partsOf(
  { base, tolerance, ratioDrift }: Search,
  { R_ref, R_f, R_g }: Pick<Candidate, 'R_ref' | 'R_f' | 'R_g'>,
): DividerChoice {
  const resistor = (value: number) => `${format(value, 'ohm', { ascii: true })} ±${tolerance}`
  return {
    ...base,
    reference: resistor(R_ref),
    gainResistors: { feedback: resistor(R_f), ground: resistor(R_g), ratioDrift },
  }
}

/** The weakest amplifier of the given kind with which a choice holds: first the reach of its output, then its offset. */
function amplifierNeeded(search: Search): NonNullable<DividerSizing['needed']> {
  const { offsetVoltage, offsetDrift, highOutputDrop, lowOutput } = readParts(search, 100, 1e4).amplifier
  const amplifierOf = (offset: number, drop: number) => ({
    ...search.base.amplifier,
    offsetVoltage: offset * offsetVoltage.upper,
    offsetDrift: offset * offsetDrift.upper,
    highOutputDrop: drop * highOutputDrop.upper,
    lowOutput: drop * lowOutput.upper,
  })
  const best = look({ ...search, most: 1, base: { ...search.base, amplifier: amplifierOf(0, 0) } })
  const parts = best.choices[0]?.parts
  if (!parts) {
    const near = best.rejected.filter(({ lack }) => lack !== undefined).sort((a, b) => a.lack! - b.lack!)
    const reason = (near[0] ?? usual(best.rejected))?.reason ?? 'no candidate is left'
    return {
      text: `A better offset or swing alone would not do; nearest, without offset and to both rails: ${reason}.`,
    }
  }
  const works = (offset: number, drop: number) =>
    checkDivider({ ...parts, amplifier: amplifierOf(offset, drop) }, search.conditions, { simulation: false })
      .verdict === 'holds'
  const drop = largestShare((share) => works(0, share))
  const offset = largestShare((share) => works(share, drop))
  const needed = {
    ...(offset < 1 && { offsetVoltage: offset * offsetVoltage.upper }),
    ...(drop < 1 && { outputDrop: drop * highOutputDrop.upper }),
  }
  const volts = (value: number) => format(value, 'V', { digits: 2 })
  const words = [
    needed.offsetVoltage !== undefined ? `an offset of at most ${volts(needed.offsetVoltage)}` : '',
    needed.outputDrop !== undefined ? `an output within ${volts(needed.outputDrop)} of the supply` : '',
  ]
  return {
    ...needed,
    text: `With ${parts.reference} and ${parts.gainResistors.feedback}, an amplifier with ${words.filter(Boolean).join(' and ')} would do.`,
  }
}

/** The last of those that the margin turned down by which most were. */
function usual(rejected: readonly RejectedDivider[]): RejectedDivider | undefined {
  const count = (margin: string) => rejected.filter((one) => one.margin === margin).length
  return rejected.reduce<RejectedDivider | undefined>(
    (most, one) => (most && count(most.margin) > count(one.margin) ? most : one),
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
