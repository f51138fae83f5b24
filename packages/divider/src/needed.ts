import { type ChangeSpec, type Changes, type Choosing, changesOf, choose, type Rejected } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import { divider } from './block.js'
import { remedies, sought } from './changes/index.js'
import type { DividerChoice } from './choice.js'
import { look, readParts, type Search } from './search.js'

/** What would be needed where none of the candidates holds. */
export interface Needed {
  /** Largest offset voltage with which a choice holds, V; where that is what is lacking. */
  readonly offsetVoltage?: number
  /** Largest distance of the output from its supply with which a choice holds, V; where that is what is lacking. */
  readonly outputDrop?: number
  /** In words: what costs nothing first, then the amplifier that would do, else what the nearest candidate lacks. */
  readonly text: string
}

/** Nearest candidates for which the changes that cost no part are tried. */
const NEAREST = 3

/** Checks with the changes of one candidate, at most: those that cost no part, and all. */
const CHECKS = { free: 15, all: 30 } as const

/**
 * What is to be done where no candidate holds. What costs no part comes first: more samples or a longer wait with one of the
 * nearest candidates. Then a better amplifier, then any change of the nearest. What sizing looks for itself is not proposed.
 */
export function neededFor(search: Search, { rejected }: Pick<Choosing<DividerChoice, never>, 'rejected'>): Needed {
  const checked = rejected.filter(({ lack }) => lack !== undefined)
  for (const near of checked.slice(0, NEAREST)) {
    const { changes, text } = changesFor(search, near.choice, ({ isFree }) => isFree === true, CHECKS.free)
    if (changes[0]?.verdict === 'holds') return { text: `Close is ${inWords(near)}. ${text}` }
  }
  const amplifier = amplifierNeeded(search)
  if (amplifier) return amplifier
  const nearest = rejected[0]
  if (!nearest) return { text: 'A better offset or swing alone would not do; no candidate is left.' }
  const { text } = changesFor(search, nearest.choice, (one) => !sought.includes(one), CHECKS.all)
  return { text: `A better offset or swing alone would not do; nearest is ${inWords(nearest)}. ${text}` }
}

/** Those changes of a candidate that are wanted, tried. */
function changesFor(
  { conditions }: Search,
  choice: DividerChoice,
  wanted: (one: ChangeSpec) => boolean,
  checks: number,
): Changes {
  const left = Object.entries(remedies).map(([row, own]) => [row, own.filter(wanted)] as const)
  return changesOf(divider, Object.fromEntries(left), choice, conditions, { checks })
}

const inWords = ({ choice, reason }: Rejected<DividerChoice>) =>
  `${choice.reference} with ${choice.gainResistors.feedback}: ${reason}`

/**
 * The weakest amplifier of the given kind with which a choice holds: first the reach of its output, then its offset. Nothing
 * where one without offset, to both rails, wouldn't do.
 */
function amplifierNeeded(search: Search): Needed | undefined {
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
  if (!choice) return undefined
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

/** The largest share from 0 to 1 that works, where smaller ones do. */
export function largestShare(works: (share: number) => boolean): number {
  if (works(1)) return 1
  let [good, bad] = [0, 1]
  for (let i = 0; i < 7; i++) {
    const middle = (good + bad) / 2
    if (works(middle)) good = middle
    else bad = middle
  }
  return good
}
