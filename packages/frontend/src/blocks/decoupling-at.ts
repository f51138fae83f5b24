import type { DecouplingChoice, DecouplingConditions } from '@ohmward/decoupling'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { conductingOver, type Edges, leastLeft } from '../pulse/conducting.js'
import { inSeries } from '../supply/path.js'
import type { Ends } from '../supply/place.js'
import { drawOf } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import { ambient, type BlockAt } from './block-at.js'
import { insertionOf, limitsOf, logicOf } from './rail-limits.js'

type DecouplingAt = BlockAt<DecouplingChoice, DecouplingConditions>

/** Time in which a switch may take the current from a load, s: beside what rings it goes at once. Common practice, no source. */
const quickest = 1e-7

/** In what time the current of the load goes, s: none at all where it comes so, and with inductance everywhere none can. */
export const goesIn = ({ load }: Pick<ReadDesign, 'load'>): number => Math.min(load.rise, quickest)

/** The last step below a duty of 1 that is followed: that of a timer of ten bits. Common practice, no source. */
const lastDuty = 1023 / 1024

/**
 * The pulses to cover, as the switch makes them: a duty of 1 ripples no more, one just below it is off for twice as long as its edge takes
 * at least, and none is shorter than the current takes to rise. Of a gate that may not get there the shortest is as short as any.
 */
function pulsesOf(design: ReadDesign, edges: Edges | undefined): DecouplingChoice['load']['pwm'] {
  const { frequency, duty } = design.pwm
  const edge = design.load.rise * frequency
  const { from: sure, to } = conductingOver(design, edges)
  const from = edges?.isStuck ? Math.min(sure, leastLeft * duty.from) : sure
  const last = Math.max(duty.from, Math.min(lastDuty, 1 - 2 * edge))
  return {
    frequency,
    duty: {
      from: Math.max(from, Math.min(duty.from, edge)),
      to: duty.to < 1 ? Math.max(duty.to, Math.min(to, last)) : last,
    },
  }
}

/**
 * The rail with its capacitors while the load is switched on, or in steady PWM at every duty that is to be covered.
 *
 * @param edges - delay and edge of the switch, at most, s: its pulses are longer and shorter by those than told
 */
export function decouplingAt(
  design: ReadDesign,
  solved: SolvedSpan,
  state: 'load on' | 'PWM' = 'load on',
  edges?: Edges,
): DecouplingAt {
  const { span, load, switch: on } = solved
  const { load: own, lifeYears, decoupling, board } = design
  const { supply } = design.parts
  return {
    choice: {
      ...decoupling,
      source: supply,
      ...(board !== undefined && { tap: board }),
      load: {
        resistance: inSeries(load, on),
        rise: own.rise,
        // What rings as it goes is held with it wholly on before.
        ...(state === 'load on' && { fall: goesIn(design) }),
        ...(state === 'PWM' && { pwm: pulsesOf(design, edges) }),
      },
      idle: drawOf(design, mainRail),
      limits: limitsOf(design),
      ...logicOf(design),
      ...insertionOf(design),
    },
    conditions: {
      ...(supply.source.kind === 'cell' && { charge: upward(span.charge) }),
      ageYears: { from: 0, to: lifeYears },
      ...ambient(span),
    },
    at: span.age.from === span.age.to ? { ageYears: span.age.to * lifeYears } : {},
  }
}

const upward = ({ from, to }: Ends): Ends => ({ from: Math.min(from, to), to: Math.max(from, to) })
