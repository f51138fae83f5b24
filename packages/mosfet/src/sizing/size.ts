import type { Margin } from '@ohmward/budget'
import { exact, format, InputError, missingFields, preferredIn, readSpread, type Series } from '@ohmward/quantity'
import { checkMosfet, type MosfetAssessment } from '../block.js'
import { type MosfetChoice, type MosfetConditions, type ReadMosfet, readMosfet } from '../choice.js'
import { shareFrequency } from '../formulas/limits.js'
import type { Drive } from '../parts/drive.js'
import type { Transistor } from '../parts/transistor.js'
import { largestOnResistance } from './largest-resistance.js'
import { screen, withResistors } from './screen.js'

/** What a switch must do; transistor, gate resistor and pulling resistor are looked for. */
export interface MosfetRequirement extends Omit<MosfetChoice, 'transistor'> {
  /** Candidates by name. */
  readonly transistors: Readonly<Record<string, Transistor>>
  /** The drive; its gate resistor, and its pulling resistor where it has one, are replaced by preferred values. */
  readonly drive: Drive
  /** Series of preferred values (IEC 60063); E6 unless told. */
  readonly series?: Series
  /** Tolerance of the resistors; `'1 %'` unless told. */
  readonly tolerance?: string
}

/** A choice of preferred values, already checked. */
export interface SizedMosfet {
  readonly name: string
  readonly parts: MosfetChoice
  readonly assessment: MosfetAssessment
  /** Highest PWM frequency at which switching keeps to the share of the loss that was allowed (a fifth unless told), Hz; `null` without edges. */
  readonly highestFrequency: number | null
}

/** A candidate that was turned down. */
export interface RejectedMosfet {
  readonly name: string
  readonly parts: MosfetChoice
  /** The margin that fails, by its id, and why in words. */
  readonly margin: string
  readonly reason: string
}

/** What came out of sizing. */
export interface MosfetSizing {
  /** The coolest first. */
  readonly choices: readonly SizedMosfet[]
  readonly rejected: readonly RejectedMosfet[]
  /**
   * Largest guaranteed on-resistance at the reference temperature that keeps the junction below its limit, with the first
   * candidate's other figures; `null` where even none of it would help.
   */
  readonly largestOnResistance: number | null
}

const seriesNames = ['E3', 'E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const
const own = ['transistors', 'drive', 'load', 'pwm', 'thermal'] as const
const more = [
  'parallel',
  'edges',
  'wiring',
  'bursts',
  'lossLimit',
  'switchingShare',
  'edgeLimit',
  'series',
  'tolerance',
] as const

/**
 * Finds, for each candidate transistor, the pulling resistor and the gate resistor among preferred values: the largest
 * pulling resistor that keeps the gate off (or whose edge is fast enough where it drives one), then the smallest gate
 * resistor that the drive's current and the overvoltage at turn-off allow. Every choice returned holds, and every one rejected fails its check.
 *
 * @throws InputError naming the field that isn't allowed
 */
export function sizeMosfet(requirement: MosfetRequirement, conditions: MosfetConditions): MosfetSizing {
  const given = missingFields(requirement, own, 'requirement', more) as unknown as MosfetRequirement
  const { transistors, series = 'E6', tolerance = '1 %', ...base } = given
  if (!seriesNames.includes(series))
    throw new InputError({ field: 'series', value: series, allowed: seriesNames.join(', ') })
  const names = candidateNames(transistors)
  const choices: SizedMosfet[] = []
  const rejected: RejectedMosfet[] = []
  const resistor = (ohms: number) => `${format(ohms, 'ohm', { ascii: true, digits: 6 })} ±${tolerance}`
  readSpread(resistor(1), { field: 'tolerance', unit: 'ohm', min: 0 })
  for (const name of names) {
    const whole = { ...base, transistor: transistors[name]! }
    const read = readMosfet(whole, conditions)
    const reject = (parts: MosfetChoice, margin: Margin) => rejected.push({ name, parts, ...faultOf(margin) })
    const fault = hopeless(read)
    if (fault) reject(whole, fault)
    const found = fault ? undefined : look({ name, base: whole, read, conditions, series, resistor, reject })
    if (found) choices.push(found)
  }
  choices.sort((a, b) => coolness(b) - coolness(a))
  const first = { ...base, transistor: transistors[names[0]!]! }
  return { choices, rejected, largestOnResistance: largestOnResistance(first, conditions) }
}

const coolness = ({ assessment }: SizedMosfet) => assessment.margins.find(({ id }) => id === 'junction')!.slack

function candidateNames(transistors: unknown): string[] {
  const names = typeof transistors === 'object' && transistors !== null ? Object.keys(transistors) : []
  if (names.length === 0 || names.length > 50) {
    throw new InputError({ field: 'transistors', value: transistors, allowed: '1 to 50 transistors by name' })
  }
  return names
}

/** What the pulling resistor decides, and what the gate resistor does. */
const ofPull = [
  'reset-state',
  'contact-edge',
  'off-level',
  'pull-power',
  'saturation',
  'off-edge',
  'on-edge',
  'longest-edge',
]
const ofGate = [
  'pin-current',
  'drain-voltage',
  'gate-drive',
  'gate-time-constant',
  'on-edge',
  'off-edge',
  'longest-edge',
]
/** Full checks for one transistor, at most. */
const examined = 10
/** A gate resistor before a resistor from gate to source takes no more of the level than one in this many. */
const dividing = 20

interface Search {
  readonly name: string
  readonly base: MosfetChoice
  readonly read: ReadMosfet
  readonly conditions: MosfetConditions
  readonly series: Series
  readonly resistor: (ohms: number) => string
  readonly reject: (parts: MosfetChoice, margin: Margin) => void
}

/** Pulling resistors from the largest, and for each of them gate resistors from the smallest, until a choice holds. */
function look({ name, base, read, conditions, series, resistor, reject }: Search): SizedMosfet | undefined {
  const { pull } = base.drive
  const share = read.switchingShare ?? 0.2
  const pulls = pull === undefined ? [undefined] : preferredIn({ from: 100, to: 1e5 }, series).reverse()
  let checks = 0
  for (const R_p of pulls) {
    const most = R_p !== undefined && pull!.at === 'gate' ? R_p / dividing : 1e4
    const gates = preferredIn({ from: base.drive.kind === 'driver' ? 1 : 10, to: most }, series)
    const put = (R_g: number): MosfetChoice => {
      const held = R_p === undefined ? {} : { pull: { ...pull!, resistance: resistor(R_p) } }
      return { ...base, drive: { ...base.drive, ...held, gateResistor: resistor(R_g) } as Drive }
    }
    const fault = (R_g: number, ids: readonly string[]) =>
      screen(withResistors(read, spreadOf(resistor(R_g)), R_p === undefined ? undefined : spreadOf(resistor(R_p))), ids)
    const early = fault(gates[0]!, ofPull)
    if (early) {
      reject(put(gates[0]!), early)
      continue
    }
    for (const R_g of gates) {
      const parts = put(R_g)
      const first = fault(R_g, ofGate)
      if (first) {
        reject(parts, first)
        continue
      }
      const assessment = checkMosfet(parts, conditions, { simulation: false })
      if (assessment.verdict === 'holds')
        return { name, parts, assessment, highestFrequency: highestFrequency(share, assessment) }
      const late = assessment.margins.find(({ verdict }) => verdict !== 'holds')!
      reject(parts, late)
      checks++
      if (checks >= examined) return undefined
      if (ofPull.includes(late.id) && !ofGate.includes(late.id)) break
    }
  }
  return undefined
}

const spreadOf = (text: string) => readSpread(text, { field: 'resistor', unit: 'ohm' })

/** What no resistor can mend: the transistor with the strongest drive that the search knows. */
function hopeless(read: ReadMosfet): Margin | undefined {
  const strongest = withResistors(read, exact(1), read.drive.pull === 'none' ? undefined : exact(1e5))
  return screen(strongest, ['gate-drive', 'gate-maximum', 'drive-supply', 'drain-current'])
}

function faultOf({ id, name, verdict, slack, unit, reason }: Margin): { margin: string; reason: string } {
  const short = format(Math.abs(slack), unit === 'degC' ? 'K' : unit, { digits: 2 })
  return { margin: id, reason: `${name}: ${verdict === 'fails' ? `short by ${short}` : `not sure, ${reason}`}` }
}

/** Conduction and energy of the edges of a typical board where it is hottest give the frequency of a share. */
function highestFrequency(share: number, { values }: MosfetAssessment): number | null {
  const { P_sw = 0, f_edge = 0, P_ctop = 0, P_cond = P_ctop } = values
  if (!(P_sw > 0 && f_edge > 0)) return null
  return shareFrequency({ a_sw: share, P_cond, f_edge, P_sw })
}
