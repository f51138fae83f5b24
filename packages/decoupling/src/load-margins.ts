import { type Margin, plainMargin } from '@ohmward/budget'
import type { Board } from './board.js'
import { dutyOf, restOf, steadyCurrent } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { tripCurrent } from './formulas/index.js'
import type { Hold } from './hold.js'
import { remedyTexts } from './remedy-texts.js'

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
        ({ board }) => (board.load as { power: number }).power,
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
        ({ board }) => {
          const R = (board.load as { resistance: number }).resistance
          return (restOf(board) ** 2 * R) / (R + board.source.resistance) ** 2
        },
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

/** Largest constant power that is allowed: 30 % below the one that still has a solution. */
export const powerAllowed = (board: Board): number =>
  Math.min(1e12, (0.7 * restOf(board) ** 2) / (4 * board.source.resistance))

/** Largest current that the protection is let carry. */
export const tripAllowed = ({ insertion }: ReadDecoupling, board: Board): number =>
  0.7 * tripCurrent({ V_trip: insertion.tripVoltage.lower, R_pair: board.protection })

/**
 * Current through the protection while the load is on: in the end, or over a burst at most, where the capacitors give the rest. It is
 * largest while it doesn't change, so the loop's inductance takes nothing then.
 */
export function tripLoad(read: ReadDecoupling, board: Board, lowest: number): number {
  const steady = steadyCurrent(read, board) + board.idle
  if (read.load.duration === Number.POSITIVE_INFINITY) return steady
  return Math.min(steady, (board.source.voltage - lowest) / board.source.resistance)
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

/** Mean current that a port without a limit would give; of a burst, which comes out of the capacitors, only what is drawn around it. */
export function portCurrent(read: ReadDecoupling, board: Board): number {
  const { source, idle, load } = board
  if (read.load.duration < Number.POSITIVE_INFINITY) return idle
  const rest = restOf(board)
  const duty = dutyOf(read)
  if (load.kind === 'current') return idle + load.current * duty
  if (load.kind === 'resistor') return idle + (Math.max(0, rest) * duty) / (load.resistance + source.resistance * duty)
  const square = rest * rest - 4 * source.resistance * load.power
  return idle + (square < 0 ? source.voltage / source.resistance : (2 * load.power) / (rest + Math.sqrt(square)))
}
