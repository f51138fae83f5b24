import { InputError } from '@ohmward/quantity'
import type { Values } from '../formula/formula.js'
import type { Columns, Fill, Model, Row } from '../model/model.js'

/** Rows of a block: the columns of a chain with 25 inputs then stay in the processor's cache. */
export const BLOCK = 512

/** Evaluates the model in the first `n` rows of the columns. */
export type Evaluate = (out: Float64Array, from: number, n: number) => void

interface View {
  columns: readonly Float64Array[]
  row: number
  readonly x: Record<string, number>
}

/** One object a set of names: the engine's loop then meets the same shape in every call. */
const views = /*#__PURE__*/ new Map<string, View>()

function viewOf(names: readonly string[]): View {
  const key = JSON.stringify(names)
  const known = views.get(key)
  if (known) return known
  const view: View = { columns: [], row: 0, x: {} }
  names.forEach((name, k) => {
    Object.defineProperty(view.x, name, { get: () => view.columns[k]![view.row], enumerable: true })
  })
  if (views.size > 50) views.clear()
  views.set(key, view)
  return view
}

/** The loop over a block: the block's own where it has one, through its row literal, else through an accessor view. */
export function evaluateRows<K extends string>(
  names: readonly K[],
  columns: readonly Float64Array[],
  model: Model<K>,
  row?: Row<K>,
  fill?: Fill<K>,
): Evaluate {
  const named = Object.fromEntries(names.map((name, k) => [name, columns[k]])) as Columns<K>
  const check = (out: Float64Array, from: number, n: number) => {
    let sum = 0
    for (let i = from; i < from + n; i++) sum += out[i]! * 0
    if (sum === 0) return
    for (let i = 0; i < n; i++) {
      if (!Number.isFinite(out[from + i])) throw notFinite(names, columns, i, out[from + i]!)
    }
  }
  if (fill) {
    return (out, from, n) => {
      fill(named, out.subarray(from, from + n), n)
      check(out, from, n)
    }
  }
  if (row) {
    return (out, from, n) => {
      for (let i = 0; i < n; i++) out[from + i] = model(row(named, i))
      check(out, from, n)
    }
  }
  const view = viewOf(names)
  const x = view.x as Values<K>
  return (out, from, n) => {
    const { columns: before, row: at } = view
    view.columns = columns
    try {
      for (let i = 0; i < n; i++) {
        view.row = i
        out[from + i] = model(x)
      }
    } finally {
      view.columns = before
      view.row = at
    }
    check(out, from, n)
  }
}

function notFinite(names: readonly string[], columns: readonly Float64Array[], row: number, value: number): InputError {
  const varying = names.map((_, k) => k).filter((k) => columns[k]!.some((x) => x !== columns[k]![0]))
  const at = varying.slice(0, 6).map((k) => `${names[k]} = ${columns[k]![row]}`)
  if (varying.length > 6) at.push('…')
  return new InputError({
    field: 'result of the model',
    value,
    allowed: 'a finite number for every value that the inputs can take',
    ...(at.length > 0 && { hint: `It was met at ${at.join(', ')}` }),
  })
}
