import {
  type Circuit,
  type Extreme,
  highestAbove,
  Lately,
  type Load,
  respondTo,
  type Timing,
} from '../waveform/inside.js'
import { question } from './question.js'

/** The answer to a step or burst in the numbers that margins ask for. */
export interface Step {
  readonly lowest: Pick<Extreme, 'value'>
  readonly collapse: number | null
  /** Highest voltage, at rest or as the load goes. */
  readonly highest: number
}

/** Steps that were followed lately. */
const steps = /*#__PURE__*/ new Lately(1024, 3)

/** The rail's answer to one step or burst; the waveform itself isn't kept. */
export function stepOf(c: Circuit, load: Load, timing: Timing): Step {
  const { told } = steps
  steps.answer(question(steps.asked, c, load, [timing.rise, timing.fall, timing.duration]), () => {
    const found = respondTo(c, load, timing)
    told[0] = found.lowest.value
    told[1] = found.collapse ?? Number.NaN
    told[2] = highestAbove(found, found.rest)?.value ?? found.rest
  })
  const collapse = told[1]!
  return { lowest: { value: told[0]! }, collapse: Number.isNaN(collapse) ? null : collapse, highest: told[2]! }
}
