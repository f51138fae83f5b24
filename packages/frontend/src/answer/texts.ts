import { verdictWords } from '@ohmward/budget'
import { format } from '@ohmward/quantity'
import type { Design, ReadDesign } from '../design/record.js'
import { isPulsed } from '../pulse/conducting.js'
import type { Place } from '../supply/place.js'
import type { DesignAssessment, FirstFailure } from './assessment.js'
import type { MonitorAnswer } from './monitor.js'

/** What the walk takes for granted. */
export const assumptions: readonly string[] = [
  'Where its constants need a rail voltage, the firmware assumes the nominal output of the regulator; without one, the middle between full and empty.',
  'A current zero without a stated rail was read with the load off: if each time, at the same operating point; if once, anywhere on the discharge.',
  'The load is covered from the temperature in the case to its working one; a switch lies as far below its typical on-resistance as its guarantee lies above.',
  'The amplifier needs its supply while it is read, load off; the controller, and a sensor on the same rail, also with the load on.',
  'The load is a resistance: it draws less as the rail falls. For a winding (mosfet.edges) the freewheeling current is not counted, but reported as not sure. A load of constant power or current, as behind its own converter, is not covered.',
  'A path element of known thermal resistance is covered from cold to as warm as the load makes it: full cells, largest duty, steady state. All others are at the temperature in the case.',
  'Cells read at rest after a pause of more than 0.1 s are read before each burst, and the last burst may begin just above the stop; after a shorter pause they are read during it. Without bursts, what is drawn between two readings is not counted.',
  'Cells monitored by the firmware are covered down to the lowest that the stop leaves on any board after the last burst, taking the cell highest on its curve; where it is not stated when they are read at rest, at least to the cut-off. Cells that nothing monitors are covered down to the lowest protection cut-off, or to the damage voltage if that cut-off is lower or not stated.',
  'What is drawn between bursts is not counted. A hold-up capacitor behind a diode is recharged before each burst; behind a resistor, as far as the pause before a cell reading allows; without that pause, not at all.',
  'The drawer current is what standby lists, plus regulators that stay on and the monitor divider. Leakage of capacitors, pins and the open switch counts only where listed.',
  'In pulses the rail capacitors raise current and power at most as much as if they began each pulse charged to the full voltage at rest and had no series resistance; where they still ring with the source inductance at the next pulse, at most as if the rail stayed constant.',
  'A sample taken while the rail rings may lie anywhere within the envelope of the ringing, in the first few pulses from rest and in steady PWM; so may one taken after the load has gone off.',
  'The load current rises in a straight line and falls at once. The switch turns on and off late by up to its delays and edges: this counts in power, bursts and their errors, in what warms the path, and in what is read in pulses and at rest.',
  'The power is read from one sample of the rail under load, taken beside that of the current (hall.wait): how far it is above or below the mean of its pulse counts in the error of the power.',
  'Between two pulses the resistance is read while the capacitors of its rails are still recharging, from as low as the load pulls them: how far amplifier, filter and conversion lag behind such a rail counts in the error of the reading.',
  'How far a current sensor that follows its supply lags behind it, with its filter, counts in the error of the reading too, both in a pulse and where its zero is read in a pause.',
  'A check that holds does so over the whole span from full to the cut-off, not only at points of it; where one fails, the first failure is located between two of the points checked.',
]

/** In what unit a capacity was taken that came without one: a number is in SI units, and few think of a cell in coulombs. */
export function bareCapacity({ supply }: Design, { supply: { source } }: ReadDesign): string[] {
  const { capacity } = supply.source as { readonly capacity?: unknown }
  if (
    source.kind !== 'cell' ||
    !(typeof capacity === 'number' || (typeof capacity === 'string' && !/[a-z]/i.test(capacity)))
  )
    return []
  const coulombs = source.capacity.nominal
  const hours = format(coulombs, 'C', { as: 'Ah', digits: 3 })
  return [`supply.source.capacity was given without a unit and read as coulombs: ${coulombs} C is ${hours}.`]
}

/** When what needs the load off is read of one that is on all the time. */
export const unpulsedText = (design: ReadDesign): string[] =>
  isPulsed(design)
    ? []
    : [
        'The load is never pulsed (pwm.duty is 1): resistance, zero and cells at rest are read before it is switched on, and take none of the period.',
      ]

/** What cells that are read at rest still lack, where nobody says it. */
export function lackingText({ monitor }: Design, found: MonitorAnswer | null): string[] {
  if (!found?.lacking || found.lacking.share === 0 || monitor?.lacking !== undefined) return []
  const { share, most } = found.lacking
  const volts = format(most, 'V', { digits: 2 })
  return [
    `By default: monitor.lacking = ${share}, at most ${volts} of the cells at the stop, which acts early by that (common practice, no source). Measure it as the first-board list says.`,
  ]
}

/** `0 °C, at the end of life`. */
export function placeText({ celsius, age }: Pick<Place, 'celsius' | 'age'>): string {
  const old = age === 0 ? 'new' : age === 1 ? 'at the end of life' : `${percent(age)} of its life gone`
  return `${Math.round(celsius)} °C, ${old}`
}

/** Per cent, rounded down: of charge and life never more than there is. */
export const percent = (share: number): string => `${Math.floor(share * 100 + 1e-9)} %`

/** Per cent, rounded up: of the charge at which something gives way never less than there was. */
export const upward = (share: number): string => `${Math.ceil(share * 100 - 1e-9)} %`

/** What gives way and where. */
function failureText(
  { block, margin, place, openCircuit, rail, isLoaded }: FirstFailure,
  source: DesignAssessment['source'],
): string {
  const volts = (value: number) => format(value, 'V', { digits: 3 })
  const charged = source === 'cell' ? ` (${upward(place.charge)} charged)` : ''
  const where = `${volts(openCircuit)} at rest${charged}, ${placeText(place)}`
  const seen = `${isLoaded ? 'load on' : 'load off'}, rail ${volts(rail)}`
  return `${margin.name} (${block}), at ${where}, ${seen}.`
}

/** What of the board gives way first; where a diagnosis alone does so before, that too: the readings still hold there. */
function firstText(first: FirstFailure, firstOfBoard: FirstFailure | null, source: DesignAssessment['source']): string {
  const diagnosis = failureText(first, source)
  if (first.id === firstOfBoard?.id) return `First to give way: ${diagnosis}`
  if (firstOfBoard === null) return `The readings hold, only a diagnostic is lost: ${diagnosis}`
  const board = `First to give way: ${failureText(firstOfBoard, source)}`
  return source === 'cell'
    ? `${board} Before that, while the readings still hold, a diagnostic is lost: ${diagnosis}`
    : `${board} A diagnostic is lost too: ${diagnosis}`
}

/** A sixteenth of a step of the walk: so closely the charge of a first failure is known. */
const near = 1 / 500

/** What of a charge is usable before something gives way, or before the firmware's stop or the cut-off where that may come sooner. */
function usableText({ place }: FirstFailure, { share, wanted }: DesignAssessment['usable']): string {
  const before = share < 1 - place.charge - near ? 'certain to be used before the stop' : 'usable before that'
  return `${percent(share)} of the charge is ${before}; ${percent(wanted)} is required.`
}

/** Rows beside the first that gives way: where the verdict is that all holds, they do so on cells that may be empty by then. */
function othersText(others: number, verdict: DesignAssessment['verdict']): string {
  if (verdict === 'holds') {
    return `${others} more ${others === 1 ? 'check fails' : 'checks fail'} only below the charge required.`
  }
  return `${others} more ${others === 1 ? 'check does' : 'checks do'} not hold.`
}

/** Rows of the whole that do not hold, where all at a place do. */
function ofWholeText([one, ...others]: DesignAssessment['rows']): string {
  if (one === undefined) return ''
  const name = `${one.margin.name} (${one.block})`
  return others.length === 0
    ? `, but one of the whole design does not: ${name}`
    : `, but ${others.length + 1} of the whole design do not, such as ${name}`
}

/** The answer in words. */
export function summaryOf({
  verdict,
  source,
  first,
  firstOfBoard,
  usable,
  rows,
  standby,
}: Omit<DesignAssessment, 'summary'>): string {
  const failing = rows.filter(({ margin }) => margin.verdict !== 'holds')
  const parts = [`${verdictWords[verdict]}.`]
  if (first === null) {
    parts.push(
      `Every check holds ${source === 'cell' ? 'from full to the cut-off' : 'at every temperature and age'}${ofWholeText(failing)}.`,
    )
  } else {
    parts.push(firstText(first, firstOfBoard, source))
    if (source === 'cell') parts.push(usableText(first, usable))
    const others = failing.length - 1
    if (others > 0) parts.push(othersText(others, verdict))
  }
  if (standby) {
    const days = Math.floor(standby.daysToCutOff.lower)
    const wanted = standby.wantedDays === undefined ? '' : `; ${standby.wantedDays} are required`
    parts.push(`In the drawer, full cells last at least ${days} days to the cut-off${wanted}.`)
  }
  return parts.join(' ')
}
