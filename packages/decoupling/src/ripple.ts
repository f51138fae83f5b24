import { type DecisionRule, type Margin, marginOf } from '@ohmward/budget'
import { life, selfHeating } from './formulas/index.js'
import { model } from './hold.js'
import type { Board } from './inputs.js'
import type { Plan } from './plan.js'
import { remedyTexts } from './remedy-texts.js'

/** Ripple current of one part of kind k; 0 without PWM. */
export function rippleOf({ currents, read }: Plan, board: Board, k: number): number {
  const rms = currents(board)?.capacitorRms[k]
  return rms === undefined ? 0 : rms / read.capacitors[k]!.count
}

/** Expected life of a part of kind k in hours, heated by its ripple; a million hours at most, beyond which nothing is known. */
export function lifeOf(plan: Plan, board: Board, k: number): number {
  const part = plan.read.capacitors[k]!
  const { thermalResistance, lifeHours, lifeCelsius } = part.fields
  const one = board.branches[k]!.resistance * part.count
  const dT_C = selfHeating({ R_thC: thermalResistance.upper, I_C: rippleOf(plan, board, k), ESR: one })
  const dT_rated = lifeCelsius.lower - board.ambientCelsius
  return Math.min(1e6, life({ t_rated: lifeHours.lower, dT_rated, dT_C, dT_half: 10 }))
}

/** What PWM does to each kind of capacitor. */
export function rippleMargins(plan: Plan, rule: DecisionRule): Margin[] {
  const { read, inputs, row, conditions } = plan
  const around = { inputs, row, conditions, ...rule }
  return read.capacitors.flatMap(({ name, fields }, k) => {
    const margins: Margin[] = []
    if (read.load.pwm && fields.rippleCurrent.upper > 0) {
      margins.push(
        marginOf(
          {
            id: `ripple-${k + 1}`,
            name: `ripple current of ${name}`,
            unit: 'A',
            sense: 'at most',
            remedies: remedyTexts.ripple,
            catches: ['J10'],
            value: model((board) => rippleOf(plan, board, k)),
            limit: fields.rippleCurrent.lower,
          },
          around,
        ),
      )
    }
    if (read.wantedLifeHours !== undefined && fields.lifeHours.upper > 0) {
      margins.push(
        marginOf(
          {
            id: `life-${k + 1}`,
            name: `life of ${name}, hours`,
            unit: '1',
            sense: 'at least',
            remedies: remedyTexts.life,
            catches: ['J10'],
            value: model((board) => lifeOf(plan, board, k)),
            limit: read.wantedLifeHours,
          },
          around,
        ),
      )
    }
    return margins
  })
}
