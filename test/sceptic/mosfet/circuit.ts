import type { Board } from '../tools/board.js'
import type { Ladder, Plain, Value } from './design.js'

/** A switch that is on: the loop of source, switch and load, and the level at its gate, found together. */
export interface On {
  readonly gate: number
  readonly current: number
  /** On-resistance of one device, hot. */
  readonly resistance: number
}

/** The guaranteed line that holds at a gate level: that of the next lower voltage; the first below all. */
function lineAt({ lines }: Plain, gate: number) {
  let line = lines[0]!
  for (const one of lines) if (one.gate <= gate) line = one
  return line
}

/** The switch on, at a junction temperature. Rail, gate level and on-resistance depend on each other: turned until they stand. */
export function on(b: Board<Value>, plain: Plain, junction: number): On {
  let resistance = 0
  let gate = 0
  let current = 0
  for (let turn = 0; turn < 6; turn++) {
    current = b.open / (b.source + b.load + resistance / plain.parallel)
    const rail = b.open - current * b.source
    const level = rail - b.saturation
    // Where the pull resistor hangs at the gate, it divides with all that drives the gate; on the drive's side only with that.
    const series = b.driveResistance + (plain.pullAt === 'gate' ? b.gateResistor : 0)
    gate = (level * b.pull) / (series + b.pull)
    const { typical, most } = lineAt(plain, gate)
    resistance = (typical + b.lot * (most - typical)) * (1 + plain.perKelvin * (junction - 25))
  }
  return { gate, current, resistance }
}

/** Share of the current in a typical device whose neighbours stand at their largest on-resistance, on the worst of the lines. */
export const lowestCarries = ({ lines, parallel }: Plain): number =>
  Math.max(...lines.map(({ typical, most }) => 1 / typical / (1 / typical + (parallel - 1) / most)))

/** Loss of one device while it conducts. */
export const lossOn = ({ current, resistance }: On, parallel: number): number => (current / parallel) ** 2 * resistance

/**
 * Highest junction temperature in the steady state of pulses through a ladder, each of its pairs followed exactly: the
 * loss of each of the on-time's pieces is that of the temperature there. Nothing where it runs away.
 */
export function hottest(b: Board<Value>, plain: Plain): number | undefined {
  const ladder: Ladder = plain.ladder
    ? plain.ladder.map(([r, tau]) => [(r * b.thermal) / plain.ladder!.reduce((sum, [x]) => sum + x, 0), tau] as const)
    : [[b.thermal, 1e9]]
  const { frequency } = plain
  const period = frequency > 0 ? 1 / frequency : 1
  const pieces = frequency > 0 && plain.ladder ? 24 : 1
  const length = (b.duty * period) / pieces
  let temperatures = new Array<number>(pieces).fill(b.celsius)
  for (let turn = 0; turn < 400; turn++) {
    const losses = temperatures.map((celsius) => lossOn(on(b, plain, celsius), plain.parallel))
    const next = new Array<number>(pieces).fill(b.celsius)
    for (const [r, tau] of ladder) {
      // Once round the period from 0, then the start that comes back to itself.
      const decay = Math.exp(-length / tau)
      const end = losses.reduce((x, p) => x * decay - p * r * Math.expm1(-length / tau), 0)
      const idle = Math.exp(-((1 - b.duty) * period) / tau)
      let x = (end * idle) / -Math.expm1(-period / tau)
      losses.forEach((p, k) => {
        x = x * decay - p * r * Math.expm1(-length / tau)
        next[k]! += x
      })
    }
    const moved = Math.max(...next.map((x, k) => Math.abs(x - temperatures[k]!)))
    temperatures = next
    if (!(Math.max(...next) < 1000)) return undefined
    if (moved < 1e-6) break
  }
  // Where the gate stands just at a line it may go to and fro between two: both are true.
  return Math.max(...temperatures)
}
