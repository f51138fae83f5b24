import type { HallChoice, HallConditions } from '@ohmward/hall'
import { between, type Spread } from '@ohmward/quantity'
import { mainRail, type Part, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { holdsUp, railsInPause } from '../pulse/coming-back.js'
import { conductingOver, isPulsed } from '../pulse/conducting.js'
import { isZeroedEachTime } from '../pulse/off-times.js'
import { rung } from '../pulse/rung.js'
import { lagAsSampled, lagAtZero, lagErrors, sensorRail } from '../pulse/sensor-lag.js'
import { type LoadedRails, type RailState, railsOver } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { about, apartFrom, ends } from './apart.js'
import { ambient, type BlockAt } from './block-at.js'
import { untilOn } from './edges.js'
import type { Firmware } from './firmware.js'

type HallAt = BlockAt<HallChoice, HallConditions>

/** The measurement of the current: the load is on. Its rail is that of the converter; a sensor on another one has its own. */
export function hallAt(design: ReadDesign, solved: SolvedSpan, firmware: Firmware): HallAt {
  const { hall } = design
  const { span } = solved
  const rails = rungRails(design, solved, firmware)
  const converter = railOf(design, 'converter')
  const { rest, sag } = rails[converter]!
  const { rails: zeros, lag: zero } = atZero(design, solved, firmware)
  const after = firmware.sampledAfter()
  const ring = () => firmware.ring(solved.source.resistance).current
  const current = isPulsed(design) ? lagAsSampled(design, solved, after, ring()) : 0
  /** A rail that capacitors still hold up when it is asked for. */
  const held = ({ rest, sag }: Pick<RailState, 'rest' | 'sag'>, part: Part): Spread => {
    const early = rest.upper <= sag.upper ? 0 : holdsUp(design, solved, railOf(design, part), after)
    return early === 0 ? sag : between(sag.lower, sag.upper + early * (rest.upper - sag.upper), sag.nominal)
  }
  const apart = hall.sensorSupply === undefined ? apartFrom(design, 'sensor', rails) : undefined
  return {
    choice: {
      otherTasks: firmware.tasks,
      ...hall,
      timing: untilOn(design, solved, firmware.edges),
      pwm: pulsesRead(design, firmware),
      // The firmware takes one value for it over the whole discharge, and for the zero it stands higher than under load.
      ...(apart && { sensorSupply: about(held(apart, 'sensor'), firmware.sensor) }),
      ...lagErrors(design, { current, zero }),
      ...zeroOf(
        hall.calibration,
        { rail: zeros[converter]!, ...(apart && { supply: zeros[railOf(design, 'sensor')]! }) },
        { rail: firmware.rests, ...(apart && { supply: firmware.sensorRests }) },
      ),
    },
    conditions: { rail: ends(held({ rest, sag }, 'converter')), nominalRail: firmware.rail, ...ambient(span) },
    at: {},
  }
}

/** The rails as the current is sampled: the main one may still ring, and those behind it with it. */
function rungRails(design: ReadDesign, { rails, source, span }: SolvedSpan, { ring }: Firmware): LoadedRails {
  const { rest, sag } = rails[mainRail]!
  const swung = rung(sag, rest, ring(source.resistance).current)
  return swung === sag ? rails : railsOver(design, { rest, sag: swung }, span.celsius)
}

/** What a zero was read at: the rail, and the supply of a sensor that lives on another one. */
interface AtZero {
  readonly rail: Spread
  readonly supply?: Spread
}

/** Where the rail of the zero reading isn't told: the board at rest, here just before each use, anywhere at power-up. */
function zeroOf(given: HallChoice['calibration'], here: AtZero, anywhere: AtZero): Pick<HallChoice, 'calibration'> {
  if (given === undefined || given === 'none') return {}
  const calibration = typeof given === 'string' ? ({ kind: given } as const) : given
  // What is no calibration at all, the block refuses.
  if (typeof calibration !== 'object' || calibration === null) return { calibration }
  if (calibration.kind === 'none') return {}
  const told = Object.fromEntries(Object.entries(calibration).filter(([, value]) => value !== undefined))
  return { calibration: { ...(calibration.kind === 'zero' ? anywhere : here), ...told } as HallChoice['calibration'] }
}

/** The pulses of which a mean is read, as the switch makes them; those that are sampled have the edges in their timing. */
function pulsesRead(design: ReadDesign, { edges }: Firmware): NonNullable<HallChoice['pwm']> {
  const { pwm, hall } = design
  if (hall.reading !== 'averaged' || !isPulsed(design)) return pwm
  const { from, to } = conductingOver(design, edges())
  return { ...pwm, duty: { from: Math.max(from, Math.min(pwm.duty.from, leastRead)), to } }
}

/** The least duty of which a mean is read. */
const leastRead = 1e-6

/** The same of a zero of the current, and how far the sensor is shown behind its supply then; at rest where it isn't read in each pause. */
function atZero(
  design: ReadDesign,
  solved: SolvedSpan,
  { ring, zeroAfter }: Firmware,
): { readonly rails: Readonly<Record<string, Spread>>; readonly lag: number } {
  const { rails, source } = solved
  if (!isZeroedEachTime(design) || !isPulsed(design))
    return { rails: Object.fromEntries(Object.entries(rails).map(([name, { rest }]) => [name, rest])), lag: 0 }
  const { top, zero } = ring(source.resistance)
  const since = zeroAfter()
  const found = railsInPause(design, solved, { since, ring: zero, top, state: 'rest' })
  const back = found.returns.get(sensorRail(design))!
  return { rails: found.rails, lag: lagAtZero(design, solved, { since, back, ring: zero }) }
}
