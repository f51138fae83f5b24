import { describe, expect, it } from 'vitest'
import type { PulsedRail } from '../../../test/sceptic/decoupling/pulsed-rail.js'
import { sampledRail } from '../src/index.js'
import { uniform } from './reference.js'

/*
 * What a sample of the rail finds in the pulses of a resistor on a source with inductance, against the classical
 * Runge-Kutta method on Kirchhoff's laws.
 */

const open = 4

interface Board extends PulsedRail {
  readonly limit?: number
}

/** The rail while the load is on, after it, and in a pause twice as long, of each of the first pulses from rest, at equal steps of time. */
function pulsesOf(b: Board, count: number, steps: number) {
  const on = b.duty / b.frequency
  const off = 1 / b.frequency - on
  const pulses: Readonly<Record<'on' | 'off' | 'alone', readonly number[]>>[] = []
  let [i, u] = [0, open]
  const railOf = (current: number, volts: number, isOn: boolean) =>
    (volts + b.series * current) / (1 + (isOn ? b.series / b.load : 0))
  const slopes = (current: number, volts: number, isOn: boolean): [number, number] => {
    const rail = railOf(current, volts, isOn)
    const grown = (open - b.resistance * current - rail) / b.inductance
    return [
      // At its limit a source gives no more.
      b.limit !== undefined && current >= b.limit ? Math.min(0, grown) : grown,
      (current - (isOn ? rail / b.load : 0)) / b.capacitance,
    ]
  }
  const follow = (length: number, isOn: boolean) => {
    const h = length / steps
    const rails = [railOf(i, u, isOn)]
    for (let n = 0; n < steps; n++) {
      const [a, b1] = slopes(i, u, isOn)
      const [c, d] = slopes(i + (h / 2) * a, u + (h / 2) * b1, isOn)
      const [e, f] = slopes(i + (h / 2) * c, u + (h / 2) * d, isOn)
      const [g, k] = slopes(i + h * e, u + h * f, isOn)
      i += (h / 6) * (a + 2 * c + 2 * e + g)
      u += (h / 6) * (b1 + 2 * d + 2 * f + k)
      rails.push(railOf(i, u, isOn))
    }
    return rails
  }
  for (let n = 0; n < count; n++) {
    const pulse = { on: follow(on, true), off: follow(off, false) }
    const kept = [i, u] as const
    pulses.push({ ...pulse, alone: [...pulse.off, ...follow(off, false)] })
    ;[i, u] = kept
  }
  return pulses
}

const choiceOf = (b: Board, exact = true) => ({
  source: { resistance: b.resistance, inductance: b.inductance, currentLimit: b.limit },
  load: { resistance: b.load, rise: 0, fall: 0, pwm: { frequency: b.frequency, duty: b.duty } },
  capacitors: [
    {
      capacitance: b.capacitance,
      ratedVoltage: 10,
      seriesResistance: exact ? `${b.series} ohm ±0.000001 %` : b.series,
    },
  ],
  limits: { brownOut: '1 V' },
})
const steadily = {
  openCircuit: { from: open, to: open },
  ambientCelsius: { from: 25, to: 25 },
  ageYears: { from: 0, to: 0 },
}

/** A board whose loop rings, or with so much resistance that it doesn't. */
function drawn(random: () => number, rings: boolean): Board {
  const log = (from: number, to: number) => from * (to / from) ** random()
  const [inductance, capacitance] = [log(3e-7, 2e-6), log(2e-5, 2e-4)]
  const wave = Math.sqrt(inductance / capacitance)
  return {
    inductance,
    capacitance,
    resistance: wave * (rings ? log(0.1, 0.5) : log(3, 6)),
    series: wave * log(0.02, 0.1),
    load: wave * log(4, 20),
    frequency: 1 / (2 * Math.PI * Math.sqrt(inductance * capacitance) * log(4, 30)),
    duty: 0.2 + 0.6 * random(),
  }
}

/** One that gives less than the load takes while it is on, but as much as it takes altogether. */
function limited(random: () => number): Board {
  const board = { ...drawn(random, false), duty: 0.2 + 0.3 * random() }
  const taken = open / (board.load + board.resistance)
  return { ...board, capacitance: 4 * board.capacitance, limit: taken * (board.duty + 0.3 + 0.1 * random()) }
}

const random = uniform(1201)
const steps = 2000
const least = (values: readonly number[]) => Math.min(...values)
const most = (values: readonly number[]) => Math.max(...values)

describe('a rail that is sampled in pulses', () => {
  it.each([
    ['', 12, 4],
    [', at its current limit too', 40, 3],
  ] as const)(
    'of a loop that only fades stands where circuit laws put it, in the pulse and after it%s',
    (_, count, digits) => {
      for (let n = 0; n < 8; n++) {
        const board = digits === 4 ? drawn(random, false) : limited(random)
        const [on, off] = [board.duty / board.frequency, (1 - board.duty) / board.frequency]
        const [from, to, gone] = [Math.round(steps * 0.2), Math.round(steps * 0.8), Math.round(steps * 0.3)]
        const [after, until] = [(from / steps) * on, (to / steps) * on]
        const released = [{ after: (gone / steps) * off, lag: 0 }]
        const found = sampledRail(choiceOf(board), steadily, { after, until, lag: 0, released })!
        const pulses = pulsesOf(board, count, steps)
        const windows = pulses.map((pulse) => pulse.on.slice(from, to + 1))
        const end = Math.min((open * board.load) / (board.load + board.resistance), (board.limit ?? 1e9) * board.load)
        const [lowest, highest] = [least(windows.flat()), most(windows.flat())]
        expect(found.lowest * open).toBeCloseTo(lowest, digits)
        expect(found.highest * open).toBeCloseTo(highest, digits)
        expect(found.below * open).toBeCloseTo(Math.max(0, end - lowest), digits)
        expect(found.above * open).toBeCloseTo(Math.max(0, highest - end), digits)
        expect(found.share).toBeCloseTo(Math.max(0, highest - end) / (open - end), digits)
        // Mean and root of the mean square of each pulse, by trapezoids.
        const meanOf = (rails: readonly number[], of: (v: number) => number) =>
          rails.reduce((sum, v, k) => sum + of(v) * (k === 0 || k === steps ? 0.5 : 1), 0) / steps
        const roots = pulses.map((pulse) => Math.sqrt(meanOf(pulse.on, (v) => v * v)))
        expect(found.least).toBeCloseTo(least(windows.map((rails, k) => least(rails) / roots[k]!)), digits)
        expect(found.most).toBeCloseTo(most(windows.map((rails, k) => most(rails) / roots[k]!)), digits)
        expect(found.mean).toBeCloseTo(
          least(pulses.map((pulse, k) => meanOf(pulse.on, (v) => v) / roots[k]!)),
          digits + 1,
        )
        const later = pulses.map((pulse) => open - least(pulse.off.slice(gone)))
        expect(found.released[0]!.below * open).toBeCloseTo(most(later), digits)
        expect(found.released[0]!.share).toBeCloseTo(most(later) / (open - end), digits)
        expect(found.released[0]!.behind).toBe(0)
      }
    },
  )

  it('of a loop that rings never leaves what is said, nor do poles that show it, and comes near it', () => {
    let [nearest, deepest] = [Number.POSITIVE_INFINITY, 0]
    for (let n = 0; n < 12; n++) {
      const board = drawn(random, true)
      const [on, off] = [board.duty / board.frequency, (1 - board.duty) / board.frequency]
      const [from, gone] = [Math.round(steps * 0.3 * random()), Math.round(steps * 0.3 * random())]
      const lag = 0.02 * on
      const [after, left] = [(from / steps) * on, (gone / steps) * off]
      const options = {
        after,
        lag: 0,
        shown: { after, lag },
        released: [
          { after: left, lag },
          { after: 1.1 * off, lag },
        ],
      }
      const found = sampledRail(choiceOf(board), steadily, options)!
      const slow = sampledRail(choiceOf(board), steadily, { after, lag })!
      const end = (open * board.load) / (board.load + board.resistance)
      const slack: number[] = []
      let [farthest, farthestLater] = [0, 0]
      for (const pulse of pulsesOf(board, 8, steps)) {
        const window = pulse.on.slice(from)
        slack.push(least(window) - found.lowest * open, found.highest * open - most(window))
        slack.push(found.below * open - (end - least(window)), found.above * open - (most(window) - end))
        const rest = pulse.off.slice(gone)
        const { below, above, behind } = found.released[0]!
        slack.push(below * open - (open - least(rest)), above * open - (most(rest) - open))
        // One pole that showed where it ends as the pulse began, or ended.
        const shown = lagging(pulse.on, on / steps, lag, end)
        const away = most(window.map((v, k) => Math.abs(shown[from + k]! - v)))
        slack.push(found.behind * open - away)
        farthest = Math.max(farthest, away)
        const later = lagging(pulse.off, off / steps, lag, open)
        const gap = most(rest.map((v, k) => Math.abs(later[gone + k]! - v)))
        slack.push(behind * open - gap)
        farthestLater = Math.max(farthestLater, gap)
        // Whoever asks for it later than the next pulse asks after the last one.
        const dip = open - least(pulse.alone.slice(1.1 * steps))
        slack.push(found.released[1]!.below * open - dip)
        deepest = Math.max(deepest, dip)
        // A pole that showed the highest rail before.
        slack.push(slow.highest * open - most(lagging(pulse.on, on / steps, lag, open).slice(from)))
      }
      expect(least(slack), JSON.stringify(board)).toBeGreaterThan(-1e-4)
      nearest = Math.min(nearest, least(slack))
      // The bound is of poles that turn a third further, at a moment whose next peak may be half a turn away, and damped.
      if (from * on > 12 * lag * steps) expect(found.behind * open).toBeLessThan(4 * farthest)
      if (gone * off > 12 * lag * steps) expect(found.released[0]!.behind * open).toBeLessThan(4 * farthestLater)
    }
    expect(nearest).toBeLessThan(0.01)
    expect(deepest).toBeGreaterThan(1e-3)
  })

  it('is the same on a source whose current limit is far away, also where it is asked for long after a pulse', () => {
    for (const rings of [false, true]) {
      // A short pause, which what rings outlasts.
      const board = { ...drawn(random, rings), duty: 0.85 }
      const choice = choiceOf(board)
      const on = board.duty / board.frequency
      const released = [0.1, 3].map((pauses) => ({
        after: (pauses * (1 - board.duty)) / board.frequency,
        lag: 0.02 * on,
      }))
      const sampling = { after: 0.3 * on, lag: 0, released }
      const free = sampledRail(choice, steadily, sampling)!
      const held = sampledRail({ ...choice, source: { ...choice.source, currentLimit: 1000 } }, steadily, sampling)!
      for (const key of ['lowest', 'highest', 'below', 'above', 'share', 'least', 'most', 'mean'] as const)
        expect(held[key], key).toBeCloseTo(free[key], 6)
      held.released.forEach((one, k) => {
        for (const key of ['below', 'above', 'share', 'behind'] as const)
          expect(one[key], key).toBeCloseTo(free.released[k]![key], 6)
      })
    }
  })

  it('of parts with tolerances holds each board between their ends', () => {
    const board = drawn(random, false)
    const spread = {
      ...choiceOf(board),
      source: { resistance: `${board.resistance} ohm ±20 %`, inductance: board.inductance },
    }
    const load = { ...spread.load, resistance: `${board.load} ohm ±10 %` }
    const after = (0.2 * board.duty) / board.frequency
    const found = sampledRail({ ...spread, load }, steadily, { after, lag: 0 })!
    for (let n = 0; n < 20; n++) {
      const one = {
        ...board,
        resistance: board.resistance * (0.8 + 0.4 * random()),
        load: board.load * (0.9 + 0.2 * random()),
      }
      const window = pulsesOf(one, 8, steps).flatMap((pulse) => pulse.on.slice(steps / 5))
      expect(least(window)).toBeGreaterThan(found.lowest * open)
      expect(most(window)).toBeLessThan(found.highest * open)
    }
  })

  it('is not said without pulses of a resistor', () => {
    const choice = choiceOf(drawn(random, true))
    const sampling = { after: 1e-6, lag: 0 }
    expect(sampledRail(choice, steadily, sampling)).toBeDefined()
    expect(sampledRail({ ...choice, load: { resistance: choice.load.resistance } }, steadily, sampling)).toBeUndefined()
    const current = { current: 1, rise: 0, fall: 0, pwm: choice.load.pwm }
    expect(sampledRail({ ...choice, load: current }, steadily, sampling)).toBeUndefined()
  })

  it('refuses times that are none, with their field', () => {
    const choice = choiceOf(drawn(random, false))
    const asked = (sampling: object) => () => sampledRail(choice, steadily, sampling as never)
    expect(asked({ after: -1, lag: 0 })).toThrow(/sampling.after = -1/)
    expect(asked({ after: 0, lag: 'soon' })).toThrow(/sampling.lag = "soon"/)
    expect(asked({ after: 0, lag: 0, until: -1 })).toThrow(/sampling.until = -1/)
    expect(asked({ after: 0, lag: 0, shown: { after: 0, lag: -2 } })).toThrow(/sampling.shown.lag = -2/)
    expect(asked({ after: 0, lag: 0, released: 3 })).toThrow(/sampling.released = 3/)
    expect(
      asked({
        after: 0,
        lag: 0,
        released: [
          { after: 0, lag: 0 },
          { after: 0, lag: -3 },
        ],
      }),
    ).toThrow(/sampling.released\[1\].lag = -3/)
  })
})

/** What one pole shows of values at equal steps, in short straight lines. */
function lagging(values: readonly number[], step: number, lag: number, start: number): number[] {
  const kept = Math.exp(-step / lag)
  const shown = [start]
  for (let k = 1; k < values.length; k++) {
    const slope = (values[k]! - values[k - 1]!) / step
    // Of a straight line the pole is behind by its slope times its time constant, once it has followed.
    shown.push(values[k]! - slope * lag + (shown[k - 1]! - values[k - 1]! + slope * lag) * kept)
  }
  return shown
}
