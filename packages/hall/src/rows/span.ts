import { type BlockRow, behind, type InputSet } from '@ohmward/budget'
import { type Input, nominalOf } from '@ohmward/quantity'
import { namesInZero } from '../chain/put.js'
import { inWindow, type RowContext } from './context.js'

/** Whether the sensor's output stays in its linear span, in use and at its zero. */
export function spanRows({ choice, plan, reading }: RowContext): BlockRow[] {
  const { sensor, current } = choice
  const output = { ...reading, follow: plan.output }
  const rows: BlockRow[] = [
    {
      kind: 'limit',
      id: 'span-high',
      name: 'highest sensor output',
      unit: 'V',
      sense: 'at most',
      reading: output,
      at: inWindow(current.to),
      value: 'V_want',
      limit: 'V_hi',
      catches: ['E02'],
    },
    {
      kind: 'limit',
      id: 'span-low',
      name: 'lowest sensor output',
      unit: 'V',
      sense: 'at least',
      reading: output,
      at: inWindow(Math.min(current.from, 0)),
      value: 'V_want',
      limit: 'V_ol',
      catches: ['E10'],
    },
    {
      kind: 'plain',
      id: 'rated-current',
      name: 'largest current to be read',
      unit: 'A',
      sense: 'at most',
      worst: Math.max(Math.abs(current.from), Math.abs(current.to)),
      limit: sensor.ratedCurrent.lower,
      catches: [],
    },
  ]
  if (plan.zeroOutput) {
    rows.push({
      kind: 'limit',
      id: 'zero-span',
      name: 'sensor output at zero',
      unit: 'V',
      sense: 'at least',
      reading: {
        ...reading,
        inputs: inZero(reading.inputs, behind(reading.formulas, ['V_want'])),
        follow: plan.zeroOutput,
      },
      at: inWindow(0),
      value: (y) => y['V_want']!,
      limit: sensor.lowOutput.upper,
      catches: ['E04'],
    })
  }
  return rows
}

/** Only what stands behind these symbols in the reading of the zero varies; some inputs have names of their own there. */
function inZero(inputs: InputSet, symbols: ReadonlySet<string>): InputSet {
  const names = new Set([...symbols].flatMap((symbol) => [symbol, ...(namesInZero[symbol] ?? [])]))
  const held: Record<string, Input> = {}
  for (const [name, input] of Object.entries(inputs)) held[name] = names.has(name) ? input : nominalOf(input)
  return held
}
