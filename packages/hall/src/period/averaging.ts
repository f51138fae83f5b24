import * as f from '../formulas/index.js'
import type { ReadChoice } from '../read-choice.js'

/** The shortest time constant that averages the current to within the least of the errors wanted. */
export const leastAveraging = ({ pwm, errors, current }: Pick<ReadChoice, 'pwm' | 'errors' | 'current'>): number =>
  f.averagingTime({
    I_max: Math.max(Math.abs(current.to), Math.abs(current.from)),
    f_PWM: pwm?.frequency ?? 1e3,
    E_I: Math.min(...errors.map(({ allowed }) => allowed)),
  })
