import type { BlockRow } from '@ohmward/budget'
import { sinkCurrentNeeded, zeroFloor } from '../formulas/index.js'
import { allowedAt } from './allowed.js'
import type { RowContext } from './context.js'

/** Whether the amplifier's output reaches what it must show. */
export function outputRows({ choice, plan, reading }: RowContext): BlockRow[] {
  const { from, to } = choice.load
  const rows: BlockRow[] = [
    {
      kind: 'limit',
      id: 'headroom',
      name: 'highest amplifier output',
      unit: 'V',
      sense: 'at most',
      reading,
      at: { R_x: to },
      value: 'V_want',
      limit: 'V_hi',
      catches: ['A01'],
    },
    {
      kind: 'limit',
      id: 'open-load',
      name: 'open-circuit detection',
      unit: 'V',
      sense: 'at most',
      reading,
      at: { R_x: to + allowedAt(choice, 'largest') },
      value: 'V_want',
      limit: 'V_hi',
      // What saturates within the range saturates beyond it too.
      causes: ['headroom'],
      catches: ['D08'],
    },
    {
      kind: 'limit',
      id: 'dead-zone',
      name: 'lowest amplifier output',
      unit: 'V',
      sense: 'at least',
      reading,
      at: { R_x: from },
      value: 'V_want',
      limit: 'V_ol',
      catches: ['A02'],
    },
  ]
  if (choice.amplifierSupply || choice.converter.reference.kind === 'absolute') {
    rows.push({
      kind: 'limit',
      id: 'full-scale',
      name: 'highest converter input',
      unit: 'V',
      sense: 'at most',
      reading,
      at: { R_x: to },
      value: 'V_want',
      limit: 'V_ref',
      catches: ['A01'],
    })
  }
  if (plan.zero) {
    rows.push({
      kind: 'limit',
      id: 'zero',
      name: 'output at the zero reading',
      unit: 'V',
      sense: 'at least',
      reading: { ...reading, follow: plan.zero },
      at: { R_x: from },
      value: (y) => y['V_want']!,
      limit: (y) => zeroFloor(y as Parameters<typeof zeroFloor>[0]),
      catches: ['A04'],
    })
  }
  if (plan.span) {
    rows.push({
      kind: 'limit',
      id: 'span',
      name: 'highest output at the known resistor',
      unit: 'V',
      sense: 'at most',
      reading: { ...reading, follow: plan.span },
      at: { R_x: from },
      value: (y) => y['V_want']!,
      limit: (y) => Math.min(y['V_hi']!, y['V_ref']!),
      catches: ['A01'],
    })
    rows.push({
      kind: 'limit',
      id: 'span-low',
      name: 'lowest output at the known resistor',
      unit: 'V',
      sense: 'at least',
      reading: { ...reading, follow: plan.span },
      at: { R_x: from },
      value: (y) => y['V_want']!,
      limit: (y) => y['V_ol']!,
      catches: ['A02'],
    })
  }
  if (choice.topology === 'load at rail') {
    rows.push({
      kind: 'limit',
      id: 'sink',
      name: 'output sink current',
      unit: 'A',
      sense: 'at most',
      reading,
      at: { R_x: from },
      value: (y) => sinkCurrentNeeded(y as Parameters<typeof sinkCurrentNeeded>[0]),
      limit: choice.amplifier.sinkCurrent.lower,
      catches: ['A02'],
    })
  }
  return rows
}
