import { faultText, type Margin, type Rejected, relativeSlack } from '@ohmward/budget'
import { format, preferredIn, readSpread } from '@ohmward/quantity'
import { type MosfetChoice, type MosfetConditions, type ReadMosfet, readMosfet } from '../choice.js'
import type { Drive } from '../parts/drive.js'
import type { Transistor } from '../parts/transistor.js'
import type { Wanted } from './requirement.js'
import { hopeless, screen, withResistors } from './screen.js'

/** A choice to be checked, with the names that its transistor and its drive have in the requirement. */
export interface Candidate {
  readonly transistor: string
  readonly drive: string
  readonly choice: MosfetChoice
}

/** What came of looking for the resistors of one transistor and drive. */
export interface Candidates {
  readonly able: readonly Candidate[]
  readonly rejected: readonly Rejected<Candidate>[]
  /** How many resistors weren't looked at: between those that were, or beyond them. */
  readonly skipped: number
}

/** What the pull resistor decides, with the smallest gate resistor. */
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
/** What a larger gate resistor makes better, and what it makes worse. */
const better = ['pin-current', 'drain-voltage']
const worse = ['gate-drive', 'gate-plateau', 'on-edge', 'off-edge', 'longest-edge']

/** Pull resistors looked at for one transistor and drive, and gate resistors for each of them, at most. */
const PULLS = 12
const GATES = 6

/** Looks for the resistors with which each transistor and drive may hold. */
export function candidatesOf(wanted: Wanted, conditions: MosfetConditions): Candidates[] {
  return wanted.transistors.flatMap(([transistor, part]) =>
    wanted.drives.map(([drive, given]): Candidates => {
      const names = { transistor, drive }
      const { able, rejected, skipped } = look(searchOf(wanted, part, given, conditions))
      return {
        able: able.map((choice) => ({ ...names, choice })),
        rejected: rejected.map(({ choice, ...why }) => ({ choice: { ...names, choice }, ...why })),
        skipped,
      }
    }),
  )
}

/** One transistor and drive, and how a pair of resistors is put in. */
interface Search {
  readonly whole: MosfetChoice
  readonly read: ReadMosfet
  readonly pulls: readonly (number | undefined)[]
  readonly gates: readonly number[]
  readonly put: (R_g: number, R_p: number | undefined) => MosfetChoice
  readonly readWith: (R_g: number, R_p: number | undefined) => ReadMosfet
}

function searchOf(
  { base, series, tolerance }: Wanted,
  transistor: Transistor,
  drive: Drive,
  conditions: MosfetConditions,
): Search {
  const whole = { ...base, transistor, drive }
  const read = readMosfet(whole, conditions)
  const { pull } = drive
  const text = (ohms: number) => `${format(ohms, 'ohm', { ascii: true, digits: 6 })} ±${tolerance}`
  const spread = (ohms: number) => readSpread(text(ohms), { field: 'resistor', unit: 'ohm' })
  return {
    whole,
    read,
    pulls: pull === undefined ? [undefined] : preferredIn({ from: 100, to: 1e5 }, series).reverse(),
    gates: preferredIn({ from: drive.kind === 'driver' ? 1 : 10, to: 1e4 }, series),
    put: (R_g, R_p) => {
      const own = { ...drive, gateResistor: text(R_g) }
      return { ...whole, drive: pull && R_p !== undefined ? { ...own, pull: { ...pull, resistance: text(R_p) } } : own }
    },
    readWith: (R_g, R_p) => withResistors(read, spread(R_g), R_p === undefined ? undefined : spread(R_p)),
  }
}

/** Pull resistors from the largest, and for each the gate resistors from the smallest that may hold. */
function look({ whole, read, pulls, gates, put, readWith }: Search) {
  const able: MosfetChoice[] = []
  const rejected: Rejected<MosfetChoice>[] = []
  const reject = (choice: MosfetChoice, margin: Margin) => rejected.push({ choice, ...faultOf(margin) })
  const fault = hopeless(read)
  if (fault) {
    reject(whole, fault)
    return { able, rejected, skipped: 0 }
  }
  const least = gates[0]!
  const holding = pulls.filter((R_p) => {
    const early = screen(readWith(least, R_p), ofPull)
    if (early) reject(put(least, R_p), early)
    return early === undefined
  })
  const chosen = thinned(holding, PULLS)
  let skipped = (holding.length - chosen.length) * gates.length
  for (const R_p of chosen) {
    let tried = 0
    for (const [i, R_g] of gates.entries()) {
      if (tried === GATES) {
        skipped += gates.length - i
        break
      }
      const early = screen(readWith(R_g, R_p), better)
      const late = early ?? screen(readWith(R_g, R_p), worse)
      if (late) reject(put(R_g, R_p), late)
      else able.push(put(R_g, R_p))
      if (late && !early) {
        // Larger ones are worse still.
        break
      }
      if (!late) tried++
    }
  }
  return { able, rejected, skipped }
}

/** At most so many of a list, evenly, both ends among them. */
function thinned<T>(list: readonly T[], most: number): T[] {
  if (list.length <= most) return [...list]
  return Array.from({ length: most }, (_, i) => list[Math.round((i * (list.length - 1)) / (most - 1))]!)
}

/** The row that decides against a choice, and why in words. */
function faultOf(margin: Margin): Pick<Rejected<MosfetChoice>, 'row' | 'reason' | 'lack'> {
  return { row: margin.id, reason: faultText(margin), lack: -relativeSlack(margin) }
}
