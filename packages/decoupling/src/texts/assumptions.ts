import { bareText, format, takenFor } from '@ohmward/quantity'
import { leastOfLargest } from '../chain/capacitor.js'
import type { DecouplingChoice, ReadDecoupling } from '../choice/choice.js'
import { usualOnLogicRail } from '../choice/read.js'
import { conditionsRecord, recordFor } from '../choice/record.js'
import { insertionFields } from '../parts/index.js'
import { mostHeldSeries } from '../rail/diode.js'
import { dutiesInside, frequenciesInside } from '../search/pulses.js'

/** Assumptions: of the circuit in sentences, and each value that wasn't given. */
export function assumptionsOf(read: ReadDecoupling): string[] {
  const { age, source, load, capacitors, logicRail } = read
  const list = [
    'The load current rises and falls in a straight line.',
    'After a step capacitors keep the capacitance that they have at the rail at rest; their series resistance does not change with frequency.',
    'Limits without a stated distribution are rectangular (JCGM 100:2008, 4.3.7).',
    'Budgets and probabilities are those at the worst of the conditions, where the margin is least.',
  ]
  if (capacitors.some(({ bias }) => bias !== undefined)) {
    list.push(
      'Points of dc bias are small-signal: dQ/dV at that voltage. At insertion a capacitor charges from 0 V through all of them, and keeps the last one beyond it.',
    )
  }
  if (capacitors.some(({ fields: { seriesResistance: r } }) => r.upper > 0 && r.lower === r.upper)) {
    list.push(
      `A series resistance without a range is the largest: the sag counts all of it, the inrush ${100 * leastOfLargest} % (usual parts have a third to two thirds), the plug-in peak either, whichever is worse${load.pwm ? '; the ripple current of a part, and its life, any share from there on for each part by itself' : ''}.`,
    )
  }
  if (source.kind === 'cell') {
    list.push(
      'Factors of cold, charge and age on the cell resistance are multiplied; the charge is read from the curve at the voltage at rest.',
      'The cell resistance is that by direct current: at the beginning of a short burst it is less, so the rail falls less, but inrush and peak at insertion are larger than stated.',
    )
  }
  if (age.to > 0) {
    const places = 'What the end of life takes from cell and electrolytics is lost in full at the oldest age'
    list.push(
      `${places}, ${age.to} years, in a straight line from new; at insertion no series resistance has grown; capacitance has fallen by all that is stated, so let the ages begin at 0 where the inrush counts.`,
    )
  }
  if (source.currentLimit !== undefined)
    list.push(
      'The source holds its current at the limit, but at insertion its own output capacitor gives more (common practice, no source). Inductances of the capacitors are left out.',
    )
  if (load.kind === 'power')
    list.push('Inductances of the capacitors are left out: a constant power needs a capacitor at its terminals.')
  if (capacitors.some(({ fields }) => fields.ageing.upper > 0)) {
    list.push('Ageing counts from one hour after the last heating, linear in decades of hours.')
  }
  if (logicRail?.behind === 'diode') {
    list.push(
      `At insertion the hold-up capacitor has up to ${mostHeldSeries} ohm in series beside its diode, whichever lets the rail go higher; its inrush is counted without any drop.`,
      'The diode rail is full when the load is switched on; its largest current is drawn all the while the diode blocks.',
      'The logic current is constant and the diode leaks nothing back: count in it what a hot Schottky diode leaks, and what a converter draws more as its voltage falls.',
      ...(load.pwm
        ? [
            'Under PWM the diode charges its capacitor in pulses: they are followed through a tangent of its exponential law, with a tenth of its thermal voltage taken off the capacitor for what the law differs from that, and the rail as low as with the pulses or without.',
          ]
        : []),
    )
  }
  if (load.duration < Number.POSITIVE_INFINITY)
    list.push('A burst begins from rest: the capacitors have recovered from the one before.')
  if (load.pwm)
    list.push(
      'Parts of one kind spread each by itself, so the ripple current is that of the one that carries most; they wear alike.',
      'PWM runs until the rail repeats itself; its start is sought from the worst board of that on, one part at a time.',
      ...triedOf(load.pwm),
    )
  return [...list, ...bareText(recordFor(read.given.choice), read.given.choice), ...valuesTaken(read)]
}

/** What of the ranges of PWM was tried. */
function triedOf({ frequency, duty }: NonNullable<ReadDecoupling['load']['pwm']>): string[] {
  const sweep = (what: string, { from, to }: typeof duty, unit: string, rest: string) =>
    from === to
      ? []
      : [
          `${what} from ${format(from, unit)} to ${format(to, unit)}: its ends, ${rest} were tried, and the worst was then found by halving.`,
        ]
  return [
    ...sweep(
      'PWM frequency',
      frequency,
      'Hz',
      `${frequenciesInside} points between by equal factors, each resonance of the loops with all inductances and capacitances at either end, and its subharmonics at which the ringing lasts a period`,
    ),
    ...sweep('Duty', duty, '1', `${dutiesInside} points between, each at each frequency,`),
  ]
}

/** What nothing depends on where it isn't stated. */
const silent = /*#__PURE__*/ (() =>
  new Set([
    ...['count', 'volume', 'rippleCurrent', 'lifeHours'],
    ...['capacityLeft', 'lowestVoltage', 'damageVoltage', 'hazardVoltage', 'selfDischarge', 'drop'],
    ...Object.keys(insertionFields),
  ]))()
/** What only a pulsed load depends on. */
const pulsed = /*#__PURE__*/ new Set(['thermalResistance', 'lifeCelsius'])

/** Each value that was taken because none was given, with its unit. */
function valuesTaken({ given: { choice, conditions }, load, logicRail }: ReadDecoupling): string[] {
  const taken = [...takenFor(recordFor(choice), choice), ...takenFor(conditionsRecord, conditions)]
  const values = taken.filter(({ field }) => {
    const word = field.slice(field.lastIndexOf('.') + 1)
    return !silent.has(word) && (load.pwm !== undefined || !pulsed.has(word))
  })
  const places =
    logicRail && (choice as Partial<DecouplingChoice>).onLogicRail === undefined
      ? [`onLogicRail = ${usualOnLogicRail.join(', ')} (which limits count on the logic rail)`]
      : []
  return [...values.map(({ text }) => text), ...places].map((text) => `By default: ${text}.`)
}
