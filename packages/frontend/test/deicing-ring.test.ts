import { checkDesign, type Design, type DesignAssessment } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { deicingRing } from './deicing-ring.js'

/*
 * The de-icing ring against a model of its own: boards at random, every second one with each part at one of its limits, by Kirchhoff's laws and
 * by counting charge. Nothing of the packages is in it; what the design doesn't state is what its assumptions say: the published curve of the
 * cell, its resistance 3.75 times at -10 degC and twice at the end of its life, four fifths of its capacity left.
 */

let seed = 987_654_321
let isCorner = false
/** Park and Miller's generator, 1988. */
const uniform = () => {
  seed = (seed * 16807) % 2147483647
  return seed / 2147483647
}
const between = (from: number, to: number) => {
  const share = uniform()
  return from + (to - from) * (isCorner ? Math.round(share) : share)
}
const sign = (size: number) => between(-size, size)
const within = (x: number, share: number) => x * (1 + sign(share))

/** A line through points. */
function line(x: readonly number[], y: readonly number[], at: number): number {
  let i = 1
  while (i < x.length - 1 && x[i]! < at) i++
  return y[i - 1]! + ((y[i]! - y[i - 1]!) * (at - x[i - 1]!)) / (x[i]! - x[i - 1]!)
}

const charges = [0, 0.0151, 0.0452, 0.0955, 0.1508, 0.2915, 0.4573, 0.8342, 0.9497, 1]
const volts = [2.5061, 2.8981, 3.1461, 3.3231, 3.4218, 3.5737, 3.7017, 4.0637, 4.1009, 4.1932]
/** Copper at -10 degC of its resistance at 20 degC. */
const copper = 1 - 0.00393 * 30
const period = 1 / 200

/** The parts of a board. */
const board = (edges: { readonly on: number; readonly off: number }) => {
  isCorner = uniform() < 0.5
  return {
    off: [sign(0.03), sign(0.05)] as const,
    cell: within(0.015, 0.2) * 3.75 * 2,
    coulombs: within(5, 0.04) * 0.8 * 3600,
    path: (within(0.002, 0.5) + within(0.008, 0.15) + within(0.005, 0.2)) * copper,
    behind: within(0.006, 0.5) * copper + between(0, 0.001),
    load: within(0.8, 0.04),
    alpha: within(0.0035, 0.05),
    warmth: between(0, 1),
    lot: uniform(),
    farads: 2 * within(470e-6, 0.2) * between(0.8, 1) + within(47e-6, 0.2) * between(0.35, 0.6),
    late: between(0, edges.on),
    later: between(0, edges.off),
    reference: within(1.2, 0.02),
    brownOut: within(2.4, 0.03),
    gain: sign(0.001),
    counts: sign(3) + sign(2),
    rounded: sign(0.5),
    noise: sign(0.01),
    // A sensor of 1 %, 150 ppm/K of 35 K, 0.6 % over its supply; 12.5 A with 0.2 % and 0.05 %; the zero 0.6 % of 0.33 V at 0.2 V/A.
    sensitivity: (1 + sign(0.01)) * (1 + sign(150e-6 * 35)) * (1 + sign(0.006)),
    // The noise of its bandwidth, three times: 14 uV in the root of 1.57 * 120 kHz.
    amperes:
      sign(0.091) +
      sign(0.025) +
      sign(0.00625) +
      sign((0.006 * 0.33) / 0.2) +
      (sign(2) + sign(0.5) + sign(0.5)) / 248.24,
    asleep: within(8e-6, 0.5) + within(4e-6, 0.5),
    lost: between(0.01, 0.05),
  }
}
type Board = ReturnType<typeof board>

const openAt = ({ off: [mid, low] }: Board, q: number) =>
  line(charges, volts, q) + mid + low * Math.min(1, Math.max(0, (0.25 - q) / 0.15))

/** On-resistance by the sheet's lines, -10 degC and a little more, from as far below typical as the guarantee is above. */
function channel({ lot }: Board, level: number): number {
  const lines = [
    [1.8, 0.022, 0.032],
    [2.5, 0.0145, 0.019],
    [4.5, 0.0098, 0.0125],
  ] as const
  const [, typical, most] = lines.findLast(([V]) => V <= level) ?? lines[0]
  return (typical + (2 * lot - 1) * (most - typical)) * 0.93
}

/** A board with its load on, so warm, from cold as the air (0) to at work (1). */
function loaded(b: Board, q: number, warmth = b.warmth) {
  const source = b.cell * line([0, 0.1, 0.2, 0.5, 1], [2.5, 1.6, 1.2, 1, 1], q) + b.path
  const rest = openAt(b, q) - 0.012 * source
  const own = b.load * (1 + b.alpha * (-30 + 70 * warmth))
  let all = own + b.behind + 0.015
  for (let round = 0; round < 4; round++) all = own + b.behind + channel(b, (rest * all) / (source + all) - 0.1)
  const current = rest / (source + all)
  return { source, rest, own, all, current, rail: current * all }
}

/** Its pulses once they repeat: the capacitors fall through source and load, and come back through the source. */
function pulsed(b: Board, q: number, duty: number, warmth: number) {
  const s = loaded(b, q, warmth)
  const [on, off] = [duty * period - b.late + b.later, (1 - duty) * period + b.late - b.later]
  const [falls, rises] = [(b.farads * (s.source * s.all)) / (s.source + s.all), b.farads * s.source]
  const [f, r] = [Math.exp(-on / falls), Math.exp(-off / rises)]
  const end = (s.rail * (1 - f) + s.rest * (1 - r) * f) / (1 - f * r)
  const first = s.rest + (end - s.rest) * r - s.rail
  const square = s.rail ** 2 * on + 2 * s.rail * first * falls * (1 - f) + (first ** 2 * falls * (1 - f * f)) / 2
  const railAt = (t: number) => s.rail + first * Math.exp(-t / falls)
  const mean = (s.rail * on + first * falls * (1 - f)) / s.all / period
  return { ...s, mean, power: ((square / s.all ** 2) * s.own) / period, railAt }
}

/** Where the code of the reference comes to one. */
const actsAt = (b: Board, code: number) => (b.reference * 4096 * (1 + b.gain)) / (code - 0.5 - b.counts)

/** The highest charge at which the rail is so low. */
function chargeBelow(b: Board, rail: number, state: 'on' | 'off', warmth = b.warmth): number {
  let [above, below] = [1, 0]
  for (let halving = 0; halving < 40; halving++) {
    const q = (above + below) / 2
    const s = loaded(b, q, warmth)
    if ((state === 'on' ? s.rail : s.rest) < rail + b.noise) below = q
    else above = q
  }
  return below
}

/** Days in the drawer between two charges, and no further than to a voltage at rest. */
function days(b: Board, from: number, to: number, least: number): number {
  const step = (from - to) / 200
  let total = 0
  for (let k = 0; k < 200; k++) {
    const q = from - (k + 0.5) * step
    const open = openAt(b, q)
    if (open < least) break
    const own = (b.lost * b.coulombs) / ((365.25 / 12) * 86_400)
    total += (b.coulombs * step) / (b.asleep + open / 2e6 + own) / 86_400
  }
  return total
}

/** Least and most over all boards, by name. */
type Seen = Readonly<Record<string, readonly [least: number, most: number]>>

function boards(count: number, codes: Readonly<Record<'stop' | 'warning', number>>, hysteresis: number): Seen {
  const seen: Record<string, [number, number]> = {}
  const put = (name: string, value: number) => {
    seen[name] ??= [value, value]
    seen[name] = [Math.min(seen[name][0], value), Math.max(seen[name][1], value)]
  }
  // What the switch takes to be on and off, from its rows' own model.
  const edges = { on: 1.5e-6, off: 24.5e-6 }
  for (let n = 0; n < count; n++) {
    const b = board(edges)
    for (const q of [1, 0.4])
      for (const warmth of [0, 1]) {
        const on = loaded(b, q, warmth)
        put('on', on.current ** 2 * on.own)
        for (const duty of [0.2, 0.9]) {
          const p = pulsed(b, q, duty, warmth)
          put(`mean ${duty}`, p.power)
          if (q === 1 && duty === 0.9) put('energy', p.power * 30)
          const V = p.railAt(0.4e-3 - b.late)
          const shown = (1.2 * 4096) / ((b.reference * 4096 * (1 + b.gain)) / V + b.counts + b.rounded)
          put('largest read', V / p.all)
          const current = (V / p.all) * b.sensitivity * (1 + b.gain) + b.amperes
          // Of the nominal way from board to load, 19 mohm beside 0.912, the firmware knows.
          put('error', (shown * current * duty * (0.912 / 0.931)) / p.power - 1)
        }
      }
    const stop = actsAt(b, codes.stop)
    put('stop acts', stop)
    const q = chargeBelow(b, stop, 'on')
    put('stop charge', q)
    put('stop rest', loaded(b, q).rest)
    put('warning charge', chargeBelow(b, actsAt(b, codes.warning), 'on'))
    put('early', 1 - q)
    put('damage', loaded(b, q).rest - 2.5)
    // The next burst begins with the load as cold as the air.
    const warm = chargeBelow(b, stop, 'on', 1)
    put('reset', loaded(b, warm, 0).rail - b.brownOut)
    const s = loaded(b, q)
    put('hysteresis', (hysteresis * b.reference) / 1.2 - (s.rest - s.rail) - 2 * Math.abs(b.noise))
    put('full', loaded(b, 1, 0).rail - actsAt(b, codes.warning) - Math.abs(b.noise))
    put('trip', loaded(b, 1, 0).current + 0.012)
    let [left, bursts] = [1, 0]
    const end = Math.max(0.4, q)
    while (left > end) {
      const taken = ((pulsed(b, left, 0.9, b.warmth).mean + 0.012) * 30) / b.coulombs
      bursts += Math.min(1, (left - end) / taken)
      left -= taken
    }
    put('bursts', bursts)
    put('days', days(b, 1, q, 3))
    put('reserve', days(b, q, 0, 2.5))
  }
  return seen
}

const codesOf = ({ monitor }: DesignAssessment) => {
  const [warning, stop] = ['warning', 'stop'].map((name) => monitor!.alarms.find((one) => one.name === name)!.code!)
  return { warning: warning!, stop: stop! }
}

const check = (given: Design) => checkDesign(given, { charges: 3 })
const worstOf = ({ rows }: DesignAssessment, id: string) => rows.find((row) => row.id === id)!.margin.worst

describe('the de-icing ring, against 5000 boards', () => {
  const a = check(deicingRing)
  const seen = boards(5000, codesOf(a), 0.5)

  /** No board is beyond what is said, and one comes as near to it as a share of it. */
  const holds = (name: string, end: 'least' | 'most', said: number, near: number) => {
    const found = seen[name]![end === 'least' ? 0 : 1]
    expect(end === 'least' ? said : found, name).toBeLessThanOrEqual(end === 'least' ? found : said)
    expect(Math.abs(said - found), name).toBeLessThan(near)
  }

  it('has no more and no less power than is said, in bursts and at the least duty', () => {
    const { on, mean, least, bursts, read } = a.power!
    holds('on', 'least', on.lower, 0.3)
    holds('on', 'most', on.upper, 0.5)
    holds('mean 0.9', 'least', mean.lower, 0.4)
    holds('mean 0.9', 'most', mean.upper, 0.6)
    holds('mean 0.2', 'least', least.lower, 0.3)
    holds('mean 0.2', 'most', least.upper, 0.4)
    holds('energy', 'most', bursts!.energy[0]!.energy.upper, 20)
    holds('energy', 'least', bursts!.energy[0]!.energy.lower, 40)
    holds('largest read', 'most', read!.largest, 0.3)
    holds('trip', 'most', worstOf(a, 'supply/trip-of-protection'), 0.1)
  })

  it('reads its power no worse than is said', () => {
    const { lower, upper } = a.power!.error.voltageTimesCurrent!
    holds('error', 'least', lower, 0.08)
    holds('error', 'most', upper, 0.08)
  })

  it('stops, warns, and starts again where it is said', () => {
    const alarm = (name: string) => a.monitor!.alarms.find((one) => one.name === name)!
    const { acts, charge, rest } = alarm('stop')
    holds('stop acts', 'least', acts.lower, 0.01)
    holds('stop acts', 'most', acts.upper, 0.01)
    holds('stop charge', 'least', charge!.lower, 0.02)
    holds('stop charge', 'most', charge!.upper, 0.03)
    holds('stop rest', 'least', rest.lower, 0.03)
    holds('stop rest', 'most', rest.upper, 0.03)
    holds('warning charge', 'most', alarm('warning').charge!.upper, 0.03)
    holds('warning charge', 'least', alarm('warning').charge!.lower, 0.03)
    holds('early', 'least', worstOf(a, 'monitor/early'), 0.03)
    holds('damage', 'least', worstOf(a, 'monitor/damage'), 0.03)
    holds('hysteresis', 'least', worstOf(a, 'monitor/hysteresis'), 0.05)
    holds('full', 'least', worstOf(a, 'monitor/full'), 0.03)
  })

  it('stays above its brown-out as the next burst begins with the load cold', () => {
    holds('reset', 'least', worstOf(a, 'monitor/reset'), 0.03)
  })

  it('lasts as many bursts, and as many days in the drawer, as is said', () => {
    const { count } = a.power!.bursts!
    holds('bursts', 'least', count!.lower, 8)
    holds('bursts', 'most', count!.upper, 8)
    holds('days', 'least', a.standby!.daysToCutOff.lower, 60)
    holds('reserve', 'least', a.standby!.daysToDamage.lower, 20)
  })
})

describe('changes of the ring, typed in as they are printed', () => {
  it('mend what they say on boards at random', () => {
    const { monitor } = deicingRing
    // 2.85 V for the stop, 3.05 V for the warning; 760 mV of hysteresis.
    const lower = check({
      ...deicingRing,
      monitor: { ...monitor!, warning: '3.05 V', stop: '2.85 V', latch: '3.15 V' },
    })
    const wider = check({ ...deicingRing, monitor: { ...monitor!, hysteresis: '760 mV' } })
    const verdictOf = ({ rows }: DesignAssessment, id: string) => rows.find((row) => row.id === id)!.margin.verdict
    expect([verdictOf(lower, 'monitor/early'), verdictOf(lower, 'power/bursts')]).toEqual(['holds', 'holds'])
    const seen = boards(3000, codesOf(lower), 0.5)
    expect(seen['early']![0]).toBeGreaterThan(0.6)
    expect(seen['bursts']![0]).toBeGreaterThan(60)
    expect(verdictOf(wider, 'monitor/hysteresis')).toBe('holds')
    expect(boards(3000, codesOf(wider), 0.76)['hysteresis']![0]).toBeGreaterThan(0)
  })
})
