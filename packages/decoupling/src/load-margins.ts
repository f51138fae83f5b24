import { type Margin, plainMargin } from '@ohmward/budget'
import type { Spread } from '@ohmward/quantity'
import type { Board } from './board.js'
import { steadyCurrent } from './chain.js'
import type { ReadDecoupling } from './choice.js'
import { tripCurrent } from './formulas/index.js'
import type { Hold } from './hold.js'
import { remedyTexts } from './remedy-texts.js'

/** Whether the load's power exists, and whether the protection lets it through. */
export function loadMargins(read: ReadDecoupling, hold: Hold): Margin[] {
  const margins: Margin[] = []
  const rest = ({ source, idle }: Board) => source.voltage - source.resistance * idle
  if (read.load.kind === 'power') {
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
        ({ board }) => Math.min(1e12, (0.7 * rest(board) ** 2) / (4 * board.source.resistance)),
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
          return (rest(board) ** 2 * R) / (R + board.source.resistance) ** 2
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
        ({ board }) => steadyCurrent(read, board) + board.idle,
        ({ board }) => 0.7 * tripCurrent({ V_trip: tripVoltage.lower, R_pair: board.protection }),
      ),
    )
  }
  return margins
}

/** A weak port: its current and what may be plugged onto it. */
export function portMargins(read: ReadDecoupling, hold: Hold): Margin[] {
  if (read.source.kind !== 'limited supply') return []
  const { attachable } = read.source.fields
  const duty = read.load.pwm?.duty ?? 1
  const total = (parts: readonly { fields: { capacitance: Spread }; count: number }[], end: 'nominal' | 'upper') =>
    parts.reduce((sum, { fields, count }) => sum + count * fields.capacitance[end], 0)
  return [
    hold(
      {
        id: 'port-current',
        name: 'mean current, below what the port guarantees',
        unit: 'A',
        sense: 'at most',
        remedies: remedyTexts.port,
        catches: ['J13'],
      },
      ({ board }) => board.idle + wantedFromPort(board) * duty,
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
      total(read.capacitors, 'upper'),
      attachable.lower,
      total(read.capacitors, 'nominal'),
    ),
  ]
}

/** What the load would draw if the port had no limit. */
function wantedFromPort({ source: { voltage, resistance }, idle, load }: Board): number {
  const rest = voltage - resistance * idle
  if (load.kind === 'current') return load.current
  if (load.kind === 'resistor') return rest / (load.resistance + resistance)
  const square = rest * rest - 4 * resistance * load.power
  return square < 0 ? voltage / resistance : (2 * load.power) / (rest + Math.sqrt(square))
}
