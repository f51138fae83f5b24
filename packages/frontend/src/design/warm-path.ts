import { between, exact, type Spread } from '@ohmward/quantity'
import { copperCoefficient, pathAt, type ReadElement, type ReadSupply, resistanceOf, stretchOf } from '@ohmward/supply'
import { beforeBoard, behindBoard, element } from '../supply/path.js'
import { sourceOver } from '../supply/source.js'
import type { ReadLoad } from './load.js'
import type { ReadFields } from './record.js'

/** Temperature up to which an element that runs away is followed, where its highest isn't stated, degC. */
export const hottestFollowed = 500

/**
 * The supply with what its path gains in resistance by its own heating as one element more, before the board and behind it: from
 * nothing, at the first step, to what the load makes of the elements whose thermal resistance is known, at the largest duty for
 * long. The current is that of full cells through the least resistances, the load at work: no place of a walk has more.
 *
 * @param duty - share of the time in which the load conducts at the largest duty
 */
export function warmed(design: ReadFields, load: ReadLoad, duty = design.pwm.duty.to): ReadSupply {
  const { supply, board, ambientCelsius: around, controller } = design
  const path = supply.path ?? []
  const rms = Math.sqrt(duty) * mostCurrent(design, load) + controller.current.upper
  // In pulses the capacitors of the rail make up for some of the source: at most for all but the mean current's part.
  const rmsBehind = Math.sqrt(duty) * mostCurrent(design, load, duty)
  const gainOf = (name: string, elements: readonly ReadElement[], rms: number): readonly ReadElement[] => {
    const gains = [around.from, around.to].map((celsius) =>
      elements.reduce((sum, one) => sum + gain(one, rms, celsius), 0),
    )
    const most = Math.max(...gains)
    return most > 0 ? [element(name, between(0, most, 0))] : []
  }
  const [before, behind] = [beforeBoard(path, board), behindBoard(path, board)]
  const gained = gainOf('warming of the path', before, rms)
  const gainedBehind = gainOf('warming behind the board', behind, rmsBehind)
  if (gained.length + gainedBehind.length === 0) return supply
  return { ...supply, path: [...before.slice(0, -1), ...gained, ...before.slice(-1), ...behind, ...gainedBehind] }
}

/** Largest load current, A, of the source with a share of its resistance: the switch counts nothing. */
function mostCurrent({ supply, board, age, ambientCelsius: celsius }: ReadFields, load: ReadLoad, share = 1): number {
  const { openCircuit, resistance } = sourceOver({ supply, board }, { charge: { from: 1, to: 1 }, celsius, age })
  const { temperatureCoefficient, workingCelsius } = load
  const own = resistanceOf({ ...element('load', load.resistance), temperatureCoefficient }, workingCelsius)
  const behind = stretchOf(behindBoard(supply.path ?? [], board), celsius.from).resistance
  const current = openCircuit.upper / (share * resistance.lower + behind.lower + own.lower)
  const { source } = supply
  return source.kind === 'port' ? Math.min(current, source.currentLimit.upper) : current
}

/** Temperature coefficient of an element's resistance, 1/K. */
export function coefficientOf(given: ReadElement['temperatureCoefficient']): Spread {
  if (given === 'copper') return exact(copperCoefficient)
  return given === 'none' ? exact(0) : given
}

/** What an element gains in resistance by its own heating, ohm; one that falls as it warms counts nothing. */
function gain(one: ReadElement, rms: number, around: number): number {
  const { thermalResistance, highestCelsius = hottestFollowed } = one
  if (thermalResistance === undefined) return 0
  const [at] = pathAt([one], exact(rms), around)
  const hot = at!.celsius === 'runs away' ? resistanceOf(one, highestCelsius) : at!.resistance
  return Math.max(0, hot.upper - resistanceOf(one, around).upper)
}
