import { type Assessment, type Choosing, choose } from '@ohmward/budget'
import { format, preferredAtMost, preferredIn, type Range, type Series } from '@ohmward/quantity'
import { type DividerBudgets, divider } from './block.js'
import { type DividerChoice, type ReadChoice, readChoice } from './choice.js'
import { allowedAt } from './rows/allowed.js'

/** Full checks in one sizing, at most. */
const CHECKS = 24

/** Gains that are tried with each reference resistor, from the largest that leaves headroom downwards. */
const GAINS = 10

/** What sizing looks among: what is given, and what it may take. */
export interface Search {
  readonly base: Omit<DividerChoice, 'reference' | 'gainResistors'>
  readonly conditions: { readonly rail: Range; readonly ambientCelsius: Range }
  readonly series: Series
  readonly tolerance: string
  readonly ground: number
  readonly ratioDrift: NonNullable<DividerChoice['gainResistors']['ratioDrift']>
  readonly most: number
}

/** Chooses among the candidates of a search. */
export const look = (search: Search): Choosing<DividerChoice, Assessment<DividerBudgets>> =>
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
  const smallest = Math.max(
    highest / Math.min(excitationSwitch.currentLimit.lower, load.currentLimit ?? Infinity) / 2,
    load.to / 4,
    1,
  )
  const largest = load.to + allowedAt(probe, 'largest')
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

/** The parts of a search with some resistors, read. */
export const readParts = (search: Search, R_ref: number, R_f: number): ReadChoice =>
  readChoice(partsOf(search, R_ref, R_f), search.conditions)

function partsOf({ base, tolerance, ratioDrift, ground }: Search, R_ref: number, R_f: number): DividerChoice {
  const resistor = (value: number) => `${format(value, 'ohm', { ascii: true })} ±${tolerance}`
  return {
    ...base,
    reference: resistor(R_ref),
    gainResistors: { feedback: resistor(R_f), ground: resistor(ground), ratioDrift },
  }
}
