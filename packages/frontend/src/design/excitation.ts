import { type DividerChoice, type DividerConditions, divider } from '@ohmward/divider'
import { amplifierTimeConstant } from '@ohmward/divider/formulas'
import { between, type Spread } from '@ohmward/quantity'
import { mainRail, railOf, type WithRails } from './rails.js'

/** What of a design the loop of the test current hangs on. */
interface Measured extends WithRails {
  readonly divider: DividerChoice
  readonly ambientCelsius: DividerConditions['ambientCelsius']
}

/** The loop of the test current, as its rail sees it. */
export interface ReadExcitation {
  /** Rail that gives the current: that of the converter, but the main one where the load hangs on that. */
  readonly rail: string
  /** Reference, switch and load in series, from the smallest load to the largest, ohm. */
  readonly series: Spread
  /** What drives it, V; undefined where the rail does. */
  readonly voltage: Spread | undefined
  /** By how much the code of the converter lies behind it, s at most: amplifier, filter and conversion. */
  readonly lag: number
}

/** Reads what the measurement of the resistance draws. @throws InputError naming the field of the divider */
export function readExcitation(design: Measured): ReadExcitation {
  const { divider: choice, ambientCelsius } = design
  // On a rail that holds any saturation: at which it works is asked at each place.
  const {
    load,
    reference,
    excitationSwitch,
    excitation: voltage,
    topology,
    gainResistors: { feedback, ground, ratioTolerance },
    amplifier,
    timing,
    converter,
  } = divider.read(choice, {
    rail: { from: 60, to: 60 },
    ambientCelsius,
  })
  const { resistance } = excitationSwitch
  const series = between(
    reference.lower + resistance.lower + load.from,
    reference.upper + resistance.upper + load.to,
    reference.nominal + resistance.nominal + load.nominal,
  )
  const ratio = ratioTolerance
    ? (feedback.nominal / ground.nominal) * (1 + ratioTolerance.upper)
    : feedback.upper / ground.lower
  const tau_a = amplifierTimeConstant({ G_noise: ratio + 1, GBW: amplifier.gainBandwidth.lower })
  const lag = tau_a + timing.filter.upper + converter.spreads.t_conv.upper
  return { rail: topology === 'load at rail' ? mainRail : railOf(design, 'converter'), series, voltage, lag }
}
