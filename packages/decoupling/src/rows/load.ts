import { type Margin, plainMargin } from '@ohmward/budget'
import { remedyTexts } from '../changes/texts.js'
import type { ReadDecoupling } from '../choice/choice.js'
import { mostResistorPower } from '../formulas/index.js'
import { powerAllowed, tripAllowed, tripLoad } from '../rail/protection.js'
import { portCurrent, restOf } from '../rail/steady.js'
import type { Hold } from './hold.js'

/** Whether the load's power exists, and whether the protection lets it through. */
export function loadMargins(read: ReadDecoupling, hold: Hold): Margin[] {
  const margins: Margin[] = []
  // A burst may take more than stays possible: what it does to the rail tells.
  if (read.load.kind === 'power' && read.load.duration === Number.POSITIVE_INFINITY) {
    margins.push(
      hold(
        {
          id: 'power-exists',
          name: 'constant power, 30 % below the largest that has a solution',
          unit: 'W',
          sense: 'at most',
          remedies: remedyTexts.power,
          catches: ['K02'],
        },
        ({ board }) => (board.load.kind === 'power' ? board.load.power : 0),
        ({ board }) => powerAllowed(board),
      ),
    )
  }
  if (read.load.wantedPower) {
    margins.push(
      hold(
        {
          id: 'power-reaches',
          name: 'wanted power, below what a resistor gets when fully on',
          unit: 'W',
          sense: 'at most',
          remedies: remedyTexts.power,
          catches: ['K02'],
        },
        ({ board }) => board.wantedPower,
        ({ board }) =>
          mostResistorPower({
            V_rest: restOf(board),
            R_s: board.source.resistance,
            R_L: board.load.kind === 'resistor' ? board.load.resistance : 0,
          }),
      ),
    )
  }
  const { tripVoltage } = read.insertion
  if (tripVoltage.upper > 0) {
    margins.push(
      hold(
        {
          id: 'protection-trip',
          name: 'load current, 30 % below the trip current of the protection',
          unit: 'A',
          sense: 'at most',
          remedies: remedyTexts.trip,
          catches: ['K03'],
        },
        ({ board, lowest }) => tripLoad(read, board, lowest),
        ({ board }) => tripAllowed(read, board),
      ),
    )
  }
  return margins
}

/** A weak port: its current and what may be plugged onto it. */
export function portMargins(read: ReadDecoupling, hold: Hold): Margin[] {
  if (read.source.kind !== 'limited supply') return []
  const { attachable } = read.source.fields
  const hung = (end: 'nominal' | 'upper') =>
    read.capacitors.reduce(
      (sum, { fields, count }) => sum + count * fields.capacitance[end],
      read.logicRail?.fields.capacitance[end] ?? 0,
    )
  const isBurst = read.load.duration < Number.POSITIVE_INFINITY
  return [
    hold(
      {
        id: 'port-current',
        name: `${isBurst ? 'current between bursts' : 'mean current'}, below what the port guarantees`,
        unit: 'A',
        sense: 'at most',
        remedies: remedyTexts.port,
        catches: ['J13'],
      },
      ({ board }) => portCurrent(read, board),
      ({ board }) => board.source.currentLimit!,
    ),
    plainMargin(
      {
        id: 'port-capacitance',
        name: 'capacitance plugged onto the port',
        unit: 'F',
        sense: 'at most',
        remedies: remedyTexts.attach,
        catches: ['J13'],
      },
      hung('upper'),
      attachable.lower,
      hung('nominal'),
    ),
  ]
}
