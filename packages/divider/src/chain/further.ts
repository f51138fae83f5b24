import { type Further, furtherOf } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'
import { furtherShift } from '../formulas/index.js'

/** Most that a current into the sense input flows through: the protection, and the load with all that is in line. */
function inputResistance({ topology, gainResistors, surroundings: s, load }: ReadChoice): number {
  if (topology === 'load at rail') return gainResistors.ground.upper
  return (
    s.protectionResistance.upper +
    load.to +
    s.leadResistance.upper +
    s.contactVariation.upper +
    s.switchInSpan.upper +
    s.sharedGround.upper
  )
}

/**
 * The errors that the choice names beside those of its parts: voltages and currents at the amplifier's input, shares of its
 * output. A calibration takes none of them away: nothing is known of them.
 *
 * @param tag - of a reading that has them by itself, beside the one of interest
 */
export function inputErrors(choice: ReadChoice, tag = ''): Further {
  const R_in = inputResistance(choice)
  return furtherOf(choice.further, {
    shift: 'further errors, as voltage at the input',
    share: 'further errors, as a share of the output',
    ofCurrent: (I_add) => furtherShift({ I_add, R_in }),
    tag,
  })
}
