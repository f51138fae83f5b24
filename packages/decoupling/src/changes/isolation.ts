import { type ChangeSpec, type ChangeStart, changed, type Rung } from '@ohmward/budget'
import { format, InputError, preferredIn } from '@ohmward/quantity'
import type { DecouplingChoice, DecouplingConditions, ReadDecoupling } from '../choice/choice.js'
import { readDecoupling } from '../choice/read.js'
import { limitNames } from '../parts/index.js'
import { limitRows } from '../rows/limits.js'
import { watchedRows } from '../rows/watched.js'
import { planOf } from '../search/plan.js'

/** Current, drop at 25 °C and resistor of a logic rail where none is stated: invented figures of usual size. */
const usual = { current: '5 mA', forwardVoltage: '0.35 V', resistance: '10 ohm' }

/**
 * A logic rail of its own that carries every limit, with the smallest capacitor that holds it. Its rows are others than those that
 * failed, so it is looked for here. None holds a load that stays on.
 */
const isolated = (behind: 'diode' | 'resistor', name: string): ChangeSpec => ({
  id: behind,
  name,
  order: 'any',
  rungs: (given) => {
    const { logicRail, load, limits } = given.read as ReadDecoupling
    if (logicRail || (load.duration === Number.POSITIVE_INFINITY && !load.pwm)) return []
    const rungs = preferredIn({ from: 1e-6, to: 0.1 }, 'E6').map((farads): Rung => {
      const { current, forwardVoltage, resistance } = usual
      const capacitance = format(farads, 'F', { ascii: true })
      const drop = behind === 'diode' ? { forwardVoltage } : { resistance }
      const what = behind === 'diode' ? `a diode of ${forwardVoltage} at 25 °C` : resistance
      return {
        puts: {
          logicRail: { behind, ...drop, capacitance, current },
          onLogicRail: limitNames.filter((name) => limits[name] !== undefined),
        },
        text: `${capacitance} behind ${what}, for a logic current of ${current}`,
      }
    })
    const enough = firstOf(rungs, (rung) => holds(given, rung))
    return enough === undefined ? [] : [enough]
  },
})

/** Steps that one look may take, a tenth of a check's: what can't be followed within them isn't proposed. */
const steps = 3e6

/** Whether every limit of the logic rail is kept. */
function holds(given: ChangeStart, { puts }: Rung): boolean {
  const { choice, conditions } = changed(
    { choice: given.choice as DecouplingChoice, conditions: given.conditions as DecouplingConditions },
    puts,
  )
  try {
    const plan = { ...planOf(readDecoupling(choice, conditions)), allowance: { left: steps } }
    return watchedRows(plan, limitRows(plan)).every(({ hold }) => hold({}).verdict === 'holds')
  } catch (error) {
    if (error instanceof InputError) return false
    throw error
  }
}

/** The first that is enough, where each further one is too. */
function firstOf<T>(list: readonly T[], isEnough: (one: T) => boolean): T | undefined {
  let [bad, good] = [-1, list.length]
  while (good - bad > 1) {
    const middle = (good + bad) >> 1
    if (isEnough(list[middle]!)) good = middle
    else bad = middle
  }
  return list[good]
}

/** A logic rail of its own where there is none. */
export const isolation: readonly ChangeSpec[] = [
  /*#__PURE__*/ isolated('diode', 'a logic rail behind a diode, with its hold-up capacitor'),
  /*#__PURE__*/ isolated('resistor', 'a logic rail behind a resistor, with its capacitor'),
]
