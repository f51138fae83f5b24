import type { Design } from '@ohmward/frontend'
import { type Box, eitherSign, fixed, within } from '../tools/board.js'
import { digits, type Random } from '../tools/random.js'
import type { Points } from './design.js'

/** What feeds a design, as far as no board varies it. */
export type Source =
  | {
      readonly kind: 'cell'
      readonly inSeries: number
      readonly open: Points
      readonly cold: Points
      readonly drained: Points
      /** Charge at the cut-off. */
      readonly empty: number
      /** Voltage of one cell below which it is no longer in use. */
      readonly least: number
      readonly continuous: number
      readonly pulse: number
    }
  | { readonly kind: 'port' }

type SourceValue = 'cellOff' | 'cellEmpty' | 'cell' | 'aging' | 'port' | 'lead' | 'portLimit'

/** A source as it is given and as the model has it, and what its rail comes to about. */
export interface DrawnSource {
  readonly given: Design['supply']['source']
  readonly source: Source
  readonly box: Box<SourceValue>
  readonly volts: { readonly from: number; readonly to: number }
}

const written = (points: Points, unit: string, of: string) =>
  points.map(([x, y]) => `${x}${of}: ${y}${unit}`).join(', ')

/** One cell, two in series, or a port with its leads. */
export function drawSource(random: Random): DrawnSource {
  const kind = random.one(['one', 'one', 'two', 'port'] as const)
  return kind === 'port' ? drawPort(random) : drawCells(random, kind === 'one' ? 1 : 2)
}

function drawCells(random: Random, inSeries: number): DrawnSource {
  const open: Points = [
    [0, random.even(2.7, 2.95)],
    [0.1, random.even(3.3, 3.45)],
    [0.5, random.even(3.6, 3.75)],
    [1, random.even(4.1, 4.2)],
  ]
  const cold: Points = [
    [-20, random.even(2, 5)],
    [25, 1],
    [60, random.even(0.8, 1)],
  ]
  const drained: Points = [
    [0, random.even(1.5, 3)],
    [0.2, random.even(1, 1.4)],
    [1, 1],
  ]
  const cell = within(random.decades(0.008, 0.04), random.one([10, 25]), 'ohm')
  const aging = within(random.even(1.4, 2.2), 10, '')
  const spread = random.one([0.01, 0.03])
  const empties = random.one([0, 0.05])
  const [[, low], [x1, high]] = [open[0]!, open[1]!]
  const empty = (x1 * (3 - low)) / (high - low)
  const [continuous, pulse] = [random.one([10, 20]), random.one([20, 30])]
  return {
    given: {
      kind: 'cell',
      inSeries,
      openCircuit: written(open, ' V', ''),
      openCircuitSpread: spread,
      openCircuitSpreadEmpty: empties,
      capacity: '3000 mAh ±5 %',
      resistance: cell.given,
      temperatureFactor: written(cold, '', ' degC'),
      chargeFactor: written(drained, '', ''),
      ageFactor: aging.given,
      continuousCurrent: continuous,
      pulseCurrent: pulse,
      lowestVoltage: 3,
    },
    source: { kind: 'cell', inSeries, open, cold, drained, empty, least: 3 - spread, continuous, pulse },
    box: {
      cellOff: eitherSign(spread),
      cellEmpty: eitherSign(empties),
      cell: cell.limits,
      aging: aging.limits,
      port: fixed(0),
      lead: fixed(0),
      portLimit: fixed(1e9),
    },
    volts: { from: 2.8 * inSeries, to: digits(open[3]![1] * inSeries) },
  }
}

function drawPort(random: Random): DrawnSource {
  const nominal = random.one([5, 5, 9, 12])
  const port = within(nominal, random.one([2, 5]), 'V')
  const lead = within(random.decades(0.02, 0.15), 20, 'ohm')
  const limit = within(random.even(3, 12), 10, 'A')
  return {
    given: {
      kind: 'port',
      voltage: port.given,
      currentLimit: limit.given,
      leadResistance: lead.given,
    },
    source: { kind: 'port' },
    box: {
      cellOff: fixed(0),
      cellEmpty: fixed(0),
      cell: fixed(0),
      aging: fixed(1),
      port: port.limits,
      lead: lead.limits,
      portLimit: limit.limits,
    },
    volts: { from: digits(nominal * 0.85), to: port.limits[2] },
  }
}
