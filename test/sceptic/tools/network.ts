/**
 * Node equations of a linear network, solved by elimination: Kirchhoff's current law at every node, and one equation
 * for each voltage that is imposed. Node 0 is ground.
 */
export class Network {
  private readonly size: number
  private readonly a: Float64Array[]
  private readonly b: Float64Array
  private imposed = 0
  private readonly nodes: number

  constructor(nodes: number, imposed: number) {
    this.nodes = nodes
    this.size = nodes + imposed
    this.a = Array.from({ length: this.size }, () => new Float64Array(this.size))
    this.b = new Float64Array(this.size)
  }

  /** Empties the equations for another board. */
  clear(): void {
    for (const row of this.a) row.fill(0)
    this.b.fill(0)
    this.imposed = 0
  }

  private add(row: number, column: number, x: number): void {
    if (row > 0 && column > 0) this.a[row - 1]![column - 1]! += x
  }

  /** A resistor between two nodes. */
  resistor(from: number, to: number, ohms: number): void {
    const g = 1 / ohms
    this.add(from, from, g)
    this.add(to, to, g)
    this.add(from, to, -g)
    this.add(to, from, -g)
  }

  /** A current that leaves one node and enters another. */
  current(from: number, to: number, amperes: number): void {
    if (from > 0) this.b[from - 1]! -= amperes
    if (to > 0) this.b[to - 1]! += amperes
  }

  /** A voltage imposed between two nodes. */
  voltage(plus: number, minus: number, volts: number): void {
    this.equation(plus, minus, [], volts)
  }

  /** An amplifier: output / gain = (1 + common) * plus - minus + offset. `inverse` is 1 / gain. */
  amplifier(output: number, plus: number, minus: number, inverse: number, common: number, offset: number): void {
    this.equation(
      output,
      0,
      [
        [output, inverse - 1],
        [plus, -(1 + common)],
        [minus, 1],
      ],
      offset,
    )
  }

  /** Imposes a sum of node voltages by a current between two nodes: plus - minus + more = volts. */
  private equation(plus: number, minus: number, more: readonly (readonly [number, number])[], volts: number): void {
    const row = this.nodes + ++this.imposed
    this.add(plus, row, 1)
    this.add(minus, row, -1)
    this.add(row, plus, 1)
    this.add(row, minus, -1)
    for (const [node, factor] of more) this.add(row, node, factor)
    this.b[row - 1] = volts
  }

  /** Voltages of the nodes, ground first. */
  solve(): Float64Array {
    const { a, b, size } = this
    for (let k = 0; k < size; k++) {
      let pivot = k
      for (let i = k + 1; i < size; i++) if (Math.abs(a[i]![k]!) > Math.abs(a[pivot]![k]!)) pivot = i
      if (pivot !== k) {
        ;[a[k], a[pivot]] = [a[pivot]!, a[k]!]
        ;[b[k], b[pivot]] = [b[pivot]!, b[k]!]
      }
      for (let i = k + 1; i < size; i++) {
        const factor = a[i]![k]! / a[k]![k]!
        if (factor === 0) continue
        for (let j = k; j < size; j++) a[i]![j]! -= factor * a[k]![j]!
        b[i]! -= factor * b[k]!
      }
    }
    const x = new Float64Array(this.nodes + 1)
    const all = new Float64Array(size)
    for (let k = size - 1; k >= 0; k--) {
      let sum = b[k]!
      for (let j = k + 1; j < size; j++) sum -= a[k]![j]! * all[j]!
      all[k] = sum / a[k]![k]!
    }
    x.set(all.subarray(0, this.nodes), 1)
    return x
  }
}
