/** A cell put onto an empty ceramic and, behind a diode, an empty hold-up capacitor. SI units. */
export interface Inserted {
  readonly volts: number
  readonly resistance: number
  readonly inductance: number
  /** Small-signal capacitance of the ceramic, and what is left of it at voltages that rise from 0. */
  readonly capacitance: number
  readonly bias: readonly (readonly [volts: number, factor: number])[]
  readonly series: number
  readonly hold: number
  readonly holdSeries: number
  /** Forward voltage at a current, thermal voltage times emission coefficient, resistance in series. */
  readonly drop: number
  readonly at: number
  readonly scale: number
  readonly slope: number
}

function factorOf({ bias }: Inserted, volts: number): number {
  const k = bias.findIndex(([at]) => at >= volts)
  if (k < 0) return bias[bias.length - 1]![1]
  if (k === 0) return bias[0]![1]
  const [[x0, y0], [x1, y1]] = [bias[k - 1]!, bias[k]!]
  return y0 + ((y1 - y0) * (volts - x0)) / (x1 - x0)
}

/** Rail and diode current where the source brings `i`: the exponential law, the diode blocking the other way. */
function railAt(x: Inserted, i: number, ceramic: number, held: number): { rail: number; diode: number } {
  let [low, high] = [-60, Math.log(1000 / x.at)]
  for (let k = 0; k < 70; k++) {
    const log = (low + high) / 2
    const diode = x.at * Math.exp(log)
    const rail = ceramic + x.series * (i - diode)
    const wanted = held + x.drop + x.scale * log + x.slope * (diode - x.at) + x.holdSeries * diode
    if (rail > wanted) low = log
    else high = log
  }
  const diode = x.at * Math.exp(low)
  return { rail: ceramic + x.series * (i - diode), diode }
}

/** Highest rail, by the midpoint rule. */
export function highestInserted(x: Inserted): number {
  const h = 4e-9
  let [i, ceramic, held, peak] = [0, 0, 0, 0]
  const rates = (j: number, u: number, w: number) => {
    const { rail, diode } = railAt(x, j, u, w)
    peak = Math.max(peak, rail)
    return [
      (x.volts - x.resistance * j - rail) / x.inductance,
      (j - diode) / (x.capacitance * factorOf(x, u)),
      diode / x.hold,
    ] as const
  }
  for (let t = 0; t < 60e-6; t += h) {
    const [a, b, c] = rates(i, ceramic, held)
    const [d, e, f] = rates(i + (h / 2) * a, ceramic + (h / 2) * b, held + (h / 2) * c)
    i += h * d
    ceramic += h * e
    held += h * f
  }
  return peak
}
