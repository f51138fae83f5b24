import type { Board } from '../chain/board.js'
import { type Circuit, Lately, meanSquares, respondToPwm, type State } from '../waveform/inside.js'
import { question } from './question.js'

/** A period of steady PWM in the numbers that margins ask for. */
export interface Period {
  /** Rail voltage. */
  readonly lowest: number
  readonly highest: number
  /** State at its beginning. */
  readonly steady: State
  /** Mean square current of each branch as acting, A². */
  readonly squares: readonly number[]
}

/** Numbers of the answer: whether there is one, lowest, highest, source; of each branch voltage, current, square. */
const ofPeriod = 4
const ofBranch = 3

/** Periods that were followed lately; a rail has seven branches at most, six kinds and one behind the resistor of a logic rail. */
const periods = /*#__PURE__*/ new Lately(1024, 25)

/**
 * The period of a board in steady PWM, what is drawn behind a diode drawn evenly; `null` where there is none, undefined without PWM. The
 * waveform itself isn't kept.
 */
export function periodOf({ pwm, load }: Board, c: Circuit): Period | null | undefined {
  if (pwm === undefined) return pwm
  const { told } = periods
  const size = question(periods.asked, c, load, [pwm.frequency, pwm.duty, pwm.rise, pwm.fall])
  periods.answer(size, () => {
    const found = respondToPwm(c, load, pwm)
    told.fill(0)
    if (found === null) return
    const { steady, lowest, highest } = found
    told.set([1, lowest.value, highest.value, steady.source])
    const squares = meanSquares(c, found)
    for (let k = 0; k < squares.length; k++)
      told.set([steady.voltages[k]!, steady.currents[k]!, squares[k]!], ofPeriod + ofBranch * k)
  })
  if (told[0] === 0) return null
  const of = (which: number): number[] => c.branches.map((_, k) => told[ofPeriod + ofBranch * k + which]!)
  const voltages = of(0)
  const steady = { rail: voltages[0]!, source: told[3]!, voltages, currents: of(1) }
  return { lowest: told[1]!, highest: told[2]!, steady, squares: of(2) }
}
