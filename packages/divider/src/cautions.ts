import { type Budget, type Caution, designAid, furtherTexts, hotLoad, lithiumIon, stoppedShort } from '@ohmward/budget'
import { bareText, format, takenFor } from '@ohmward/quantity'
import { fastest } from './chain/inputs.js'
import { type DividerChoice, dividerRecord, type ReadChoice } from './choice.js'
import { unsettledOf } from './settling.js'
import type { ReadThermometry } from './thermometry/fields.js'

const always: readonly Caution[] = [
  designAid,
  lithiumIon,
  hotLoad,
  {
    id: 'open-input',
    text: 'An open sense line floats: give it a path to ground, and treat a reading beyond the largest load as no load.',
    catches: ['D08'],
  },
  {
    id: 'tap',
    text: 'The rail here is the node of excitation and reference, not the cell: a fuse, switch or diode between the two drops voltage.',
    catches: ['D09'],
  },
  {
    id: 'rail-reading',
    text: 'A rail read against an internal reference has the tolerance of that reference, and a step that grows with the square of the rail; this reading does not use it.',
    catches: ['D03', 'D04'],
  },
]

/** What no margin covers, or what can hurt. */
export function cautionsOf(choice: ReadChoice, budgets: readonly Budget[]): Caution[] {
  const {
    topology,
    amplifier,
    converter,
    timing,
    thermometry,
    surroundings,
    excitation,
    reference,
    rail,
    referencePart,
  } = choice
  const cautions = [...always]
  const contacts = Math.max(
    ...budgets.map(({ linear }) =>
      linear.contributions
        .filter(({ input }) => input === 'R_con' || input === 'R_lead')
        .reduce((sum, { share }) => sum + share, 0),
    ),
  )
  if (contacts > 0.3) {
    cautions.push({
      id: 'contacts',
      text: `Leads and contacts cause ${format(contacts, '1', { as: '%', digits: 2 })} of the variance. Averaging does not help: contact resistance changes, it is not noise. Sense at the load.`,
      catches: ['B10'],
    })
  }
  if (timing.samples.nominal > 1 && converter.spreads.n_rms.lower < 0.5) {
    cautions.push({
      id: 'averaging',
      text: 'Averaging adds resolution only with noise of half a count or more; offset, gain and nonlinearity stay.',
      catches: ['D06'],
    })
  }
  if (topology === 'load at rail') {
    cautions.push({
      id: 'at-rail',
      text: 'A load at the rail puts both amplifier inputs near the rail, and the four resistors must match: a mismatch of the two ratios puts nearly that share of the rail on the output.',
      catches: ['A05', 'A08'],
    })
  } else if (amplifier.lowOutput.upper > 0) {
    cautions.push({
      id: 'pull-up',
      text: 'Nothing may pull the amplifier output up: its lowest output holds for a load to ground.',
      catches: ['A02'],
    })
  }
  if (excitation && topology === 'load at ground' && rail.to > excitation.lower) {
    const current = (rail.to - excitation.lower) / reference.lower
    cautions.push({
      id: 'back-feed',
      text: `While the load is driven, up to ${format(current, 'A', { digits: 2 })} flow back through the reference resistor into the excitation, past a switch that blocks only one way, into the supply, heating the resistor. Block it with a diode or two transistors back to back.`,
      catches: ['A07'],
    })
  }
  const peak = peakOf(choice)
  if (peak > referencePart.ratedPower.lower) {
    cautions.push({
      id: 'pulse',
      text: `While the test current flows the reference resistor takes up to ${format(peak, 'W', { digits: 2, towards: 'up' })}, more than its rating: its data sheet must allow that for the length of a reading. Warming within one reading is not followed, only the mean.`,
      catches: ['B07'],
    })
  }
  if (choice.isOneNode) {
    cautions.push({
      id: 'reference-load',
      text: "The converter's reference carries the test current: it must be rated for that, and settle before the sample.",
      catches: ['D05'],
    })
  }
  if (surroundings.switchInSpan.upper > 0) {
    cautions.push({
      id: 'switch',
      text: 'A switch between the sense points is read as load, and changes with the gate voltage and its temperature.',
      catches: ['B04'],
    })
  }
  if (thermometry) {
    cautions.push({
      id: 'hot-spot',
      text: 'A resistance shows the mean temperature of the element, never that of its hottest spot.',
      catches: ['C05'],
    })
    cautions.push({
      id: 'cold-value',
      text: 'Store the cold value only after a rest of four thermal time constants and two equal readings.',
      catches: ['C01'],
    })
    cautions.push(...lineCaution(thermometry))
  }
  return cautions
}

/** Change of a coefficient by the rise, relative and per kelvin, of nickel; iron's is more. From memory. */
const NICKEL = 1.2e-3
const IRON = 1.6e-3

/** What a straight line doesn't tell where it allows for less than the most curved of the usual metals. */
function lineCaution({ element, restCelsius, hotCelsius }: ReadThermometry): Caution[] {
  const { q_alpha } = element.inputs
  if (q_alpha === undefined || q_alpha.upper >= IRON) return []
  const rise = hotCelsius - restCelsius.nominal
  const off = (curvature: number) => format(curvature * rise * rise, 'K', { digits: 2 })
  return [
    {
      id: 'straight-line',
      text: `A straight line covers metals whose coefficient changes by up to ${format(q_alpha.upper, '1', { as: '%', digits: 2 })} for each kelvin. Nickel's changes by 0.12 % and iron's by some 0.16 % (from memory): here they may read wrong by ${off(NICKEL)} and ${off(IRON)}. Give their points, or that curvature.`,
      catches: ['C02'],
    },
  ]
}

/** Most that the reference resistor dissipates while the test current flows: where it is as large as all else, or next to it. */
function peakOf({ excitation, rail, reference, load, excitationSwitch, surroundings }: ReadChoice): number {
  const others = load.from + excitationSwitch.resistance.lower + surroundings.leadResistance.lower
  const own = Math.min(Math.max(others, reference.lower), reference.upper)
  const current = (excitation?.upper ?? rail.to) / (own + others)
  return current * current * own
}

/** Assumptions, in sentences. */
export function assumptionsOf(choice: ReadChoice, given: DividerChoice, budgets: readonly Budget[]): string[] {
  const { excitation, isOneNode, converter, calibration, kappa, amplifier } = choice
  const same = excitation === undefined && converter.reference.kind === 'rail'
  return [
    'The power switch is off while measuring.',
    kappa === 1
      ? 'Two wires: leads and contacts between the sense points are read as load, less their nominal value.'
      : 'Four wires: the load is sensed at its own terminals.',
    same
      ? 'Excitation and reference are the rail, one variable at one instant: it cancels but for the excitation switch.'
      : isOneNode
        ? "Excitation and the converter's reference are one node, at one instant: it cancels but for the excitation switch. What the test current changes of it reaches both."
        : 'Excitation and reference are different nodes: their ratio enters the reading.',
    `What isn't settled when the reading is taken counts as error, either way: ${format(unsettledOf(choice), '1', { as: '%', digits: 2 })} of the supply.`,
    calibration.kind === 'none'
      ? 'No calibration.'
      : `Calibrated by ${calibration.kind === 'zero' ? 'a short at the load terminals' : 'a short and a known resistor at the load terminals'}, at ${format(calibration.atCelsius.nominal, 'degC')} and ${format(calibration.rail?.nominal ?? choice.nominalRail, 'V')}; drift, ageing, noise, resolution, moved contacts and hot leakage stay. Drift of the converter's own offset and gain is not followed.`,
    ...(amplifier.fastestGainBandwidth === undefined
      ? [
          `The amplifier may be as fast as ${format(fastest(amplifier), 'Hz')}, twice its least gain-bandwidth product (common practice, no source): its noise counts over that. Give amplifier.fastestGainBandwidth where it is known.`,
        ]
      : []),
    ...sentencesOf(choice),
    ...furtherTexts(choice.further, 'no calibration takes it away'),
    ...stoppedShort(budgets),
    'Budgets and probabilities are those at the worst of the conditions, where the margin is least.',
    'Limits without a stated distribution are rectangular (JCGM 100:2008, 4.3.7).',
    ...bareText(dividerRecord, withoutPair(given)),
    ...takenFor(dividerRecord, given).map(({ text }) => `By default: ${text}.`),
  ]
}

/** Of a matched network the ratio has the tolerance, not each resistor. */
function withoutPair(given: DividerChoice): object {
  const { feedback, ground, ...pair } = given.gainResistors
  return pair.ratioTolerance === undefined ? given : { ...given, gainResistors: pair }
}

/** The same of what not every choice has. */
function sentencesOf({ topology, surroundings, thermometry }: ReadChoice): string[] {
  const sentences: string[] = []
  if (topology === 'load at rail') {
    sentences.push('The two pairs of the difference amplifier drift each by itself.')
    if (surroundings.groundCurrent.upper > 0) {
      sentences.push(
        'Ground current of others counts in series with the load, which overstates it for a load at the rail.',
      )
    }
  }
  if (thermometry) {
    const { restCelsius, restExcess, element } = thermometry
    sentences.push(
      `The law of the element: ${element.text}.`,
      `The cold value is stored at ${format(restCelsius.lower, 'degC')} to ${format(restCelsius.upper, 'degC')}, up to ${format(restExcess.upper, 'K')} too warm, on a new board as cold as the element, at any rail of the range.`,
      `The hottest spot rises by ${format(thermometry.hotSpotFactor.upper, '1')} times the mean. The temperature is judged at the nominal load, without the heating by the test current.`,
    )
  }
  return sentences
}
