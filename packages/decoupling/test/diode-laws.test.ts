import { describe, expect, it } from 'vitest'
import { type DiodePlaced, diodeRail } from '../src/waveform/diode/feed.js'
import { diodePeriod } from '../src/waveform/diode/period.js'
import {
  at,
  branchCurrent,
  branchVoltage,
  type Circuit,
  circuit,
  type Load,
  type Pwm,
  respondThroughDiode,
  respondToPwm,
  sourceCurrent,
} from '../src/waveform/inside.js'
import { stateAt } from '../src/waveform/piece.js'
import { uniform } from './reference.js'

/*
 * What each stretch of a period owes to circuit laws, on a rail that charges a capacitor through a diode: what flows through the diode is
 * what the source gives and nobody else takes, the capacitor's voltage is the integral of that, and a diode that blocks stands below its
 * threshold. All of it from the currents of source and capacitors alone.
 */

const random = uniform(20_261_201)
const log = (from: number, to: number) => from * (to / from) ** random()
const some = <T>(...all: readonly T[]): T => all[Math.floor(all.length * random())]!

function drawn() {
  const inductance = some(0, log(5e-8, 2e-6))
  const parts = Array.from({ length: some(1, 2) }, () => ({
    capacitance: log(2e-5, 5e-4),
    resistance: log(5e-3, 0.1),
    inductance: inductance > 0 ? some(0, log(2e-9, 2e-8)) : 0,
  }))
  const open = circuit({ voltage: 4, resistance: log(0.03, 0.2), inductance }, parts, log(1e-3, 0.05))
  const frequency = log(1e3, 5e4)
  const duty = 0.2 + 0.6 * random()
  const pwm: Pwm = { frequency, duty, rise: some(0.02, 0.1) / frequency, fall: some(0, 0.02, 0.1) / frequency }
  const load = some<Exclude<Load, { kind: 'power' }>>(
    { kind: 'current', current: log(0.5, 6) },
    { kind: 'resistor', resistance: log(0.5, 5) },
  )
  const held = { capacitance: log(1e-5, 2e-4), current: log(1e-3, 0.05), threshold: log(0.2, 0.5), slope: log(0.05, 2) }
  return { open, pwm, load, held }
}
type Drawn = ReturnType<typeof drawn>

const currents = ({ branches }: Circuit, { piece }: DiodePlaced, t: number) =>
  branches.map((_, k) => at(branchCurrent(piece, k), t))
/** What source and capacitors leave for load and diode. */
const left = (open: Circuit, one: DiodePlaced, t: number) =>
  at(sourceCurrent(one.piece), t) - currents(open, one, t).reduce((sum, i) => sum + i, 0) - open.idle

/** What the load draws, t seconds after a piece of its phase began, `all` the pieces of the period. */
function loadAt({ pwm, load }: Drawn, all: readonly DiodePlaced[], one: DiodePlaced, t: number): number {
  const wanted = (volts: number) => (load.kind === 'current' ? load.current : volts / load.resistance)
  const rail = (p: DiodePlaced, time: number) => at(p.piece.voltage, time)
  const lastOf = (phase: string) => all.findLast((p) => p.phase === phase)!
  const on = pwm.duty / pwm.frequency
  if (one.phase === 'rise') {
    const end = lastOf('rise')
    return (wanted(rail(end, end.piece.duration)) * (one.start + t)) / pwm.rise
  }
  if (one.phase === 'on') return wanted(rail(one, t))
  if (one.phase === 'off') return 0
  const end = lastOf('on')
  return wanted(rail(end, end.piece.duration)) * (1 - (one.start + t - on) / pwm.fall)
}

/** Through each piece, how far the capacitor behind the diode is charged by what flows, in steps of its time (Simpson), shorter at its beginning. */
function follow(
  x: Drawn,
  all: readonly DiodePlaced[],
  steps: number,
  see: (one: DiodePlaced, t: number, i: number, h: number) => void,
) {
  const { open, held } = x
  let [charge, weighted] = [0, 0]
  for (const [n, one] of all.entries()) {
    const through = (t: number) => left(open, one, t) - loadAt(x, all, one, t)
    let [h, from, i] = [one.held, 0, through(0)]
    see(one, 0, i, h)
    for (let k = 1; k <= steps; k++) {
      const t = one.piece.duration * (k / steps) ** 3
      const [middle, end] = [through((from + t) / 2), through(t)]
      if (one.conducts) {
        const passed = ((t - from) / 6) * (i + 4 * middle + end)
        charge += passed
        weighted += ((t - from) / 6) * (i * i + 4 * middle * middle + end * end)
        h += passed / held.capacitance
      }
      h -= (held.current * (t - from)) / held.capacitance
      ;[from, i] = [t, end]
      see(one, t, i, h)
    }
    const next = all[n + 1]
    if (next) expect(Math.abs(next.held - h)).toBeLessThan(2e-5)
  }
  return { charge, weighted }
}

/** What remembers goes on in the next piece where it was, and all pieces together are the period. */
function joins({ open, pwm }: Drawn, all: readonly DiodePlaced[]) {
  let clock = 0
  for (const [n, one] of all.entries()) {
    expect(one.start).toBeCloseTo(clock, 12)
    clock += one.piece.duration
    const next = all[n + 1]
    if (next === undefined) continue
    open.branches.forEach((_, k) => {
      const was = at(branchVoltage(one.piece, k), one.piece.duration)
      expect(Math.abs(at(branchVoltage(next.piece, k), 0) - was)).toBeLessThan(1e-7)
    })
  }
  expect(clock * pwm.frequency).toBeCloseTo(1, 9)
  const lasts = (phase: string) => all.filter((p) => p.phase === phase).reduce((sum, p) => sum + p.piece.duration, 0)
  expect(lasts('rise')).toBeCloseTo(pwm.rise, 12)
  expect(lasts('fall')).toBeCloseTo(pwm.fall, 12)
  expect(lasts('rise') + lasts('on')).toBeCloseTo(pwm.duty / pwm.frequency, 12)
}

describe('a rail that charges a capacitor through a diode', () => {
  it('obeys the laws of circuits through a period, from any voltage of that capacitor', () => {
    let [conducting, blocking] = [0, 0]
    for (let n = 0; n < 30; n++) {
      const x = drawn()
      const { open, held, load, pwm } = x
      const rail = diodeRail(open, held)
      const rest = open.source.voltage - open.source.resistance * open.idle
      const from = {
        rail: {
          rail: rest,
          source: open.idle,
          voltages: open.branches.map(() => rest),
          currents: open.branches.map(() => 0),
        },
        held: rest - held.threshold - 0.3 * random(),
      }
      const course = diodePeriod(rail, from, load, pwm)
      if (course === null) continue
      const all = course.pieces
      joins(x, all)
      follow(x, all, 60, (one, t, through, h) => {
        const volts = at(one.piece.voltage, t)
        if (one.conducts) {
          conducting++
          expect(through).toBeGreaterThan(-1e-5)
          // Its threshold and its resistance, which is moved a little where two time constants are equal.
          expect(Math.abs(volts - h - held.threshold - held.slope * through)).toBeLessThan(1e-4)
        } else {
          blocking++
          expect(Math.abs(through)).toBeLessThan(1e-6)
          expect(volts).toBeLessThan(h + held.threshold + 1e-6)
        }
      })
      const last = all.at(-1)!
      const end = stateAt(last.piece, last.piece.duration)
      open.branches.forEach((_, k) => {
        expect(course.state.rail.voltages[k]!).toBeCloseTo(end.voltages[k]!, 7)
      })
    }
    expect(conducting).toBeGreaterThan(500)
    expect(blocking).toBeGreaterThan(500)
  })

  it('in its steady state gives the capacitor what is drawn from it, and comes back to where it was', () => {
    let [asked, seen] = [0, 0]
    for (let n = 0; n < 60; n++) {
      const x = drawn()
      const { open, held, load, pwm } = x
      const { capacitance, current } = held
      const diode = { forwardVoltage: 0.3, at: current, scale: 0.04, resistance: 0.1 }
      const without = respondToPwm(circuit(open.source, open.branches, open.idle + current), load, pwm)
      const found = without && respondThroughDiode(open, { capacitance, current, diode }, load, without)
      if (without) asked++
      if (!found) continue
      seen++
      const all = found.rail.pieces as readonly DiodePlaced[]
      joins(x, all)
      let lowest = Number.POSITIVE_INFINITY
      const { charge, weighted } = follow(x, all, 400, (_, __, ___, h) => {
        lowest = Math.min(lowest, h)
      })
      // Or the capacitor comes back to some millionths of the open-circuit voltage.
      const drawnOff = current / pwm.frequency
      expect(Math.abs(charge - drawnOff)).toBeLessThan(0.005 * drawnOff + 1e-5 * capacitance)
      expect(found.pulse / (weighted / charge)).toBeCloseTo(1, 2)
      // A tenth of its thermal voltage is taken off.
      expect(found.level).toBeLessThan(lowest)
      expect(Math.abs(found.level + 0.1 * diode.scale - lowest)).toBeLessThan(1e-4)
      const [first, last] = [all[0]!, all.at(-1)!]
      open.branches.forEach((_, k) => {
        const back = at(branchVoltage(last.piece, k), last.piece.duration)
        expect(Math.abs(at(branchVoltage(first.piece, k), 0) - back)).toBeLessThan(1e-6)
      })
      // A range of the rail takes in every point of it, and without the pulses too.
      const volts = all.flatMap(({ piece }) =>
        [0, 0.3, 0.7, 1].map((share) => at(piece.voltage, share * piece.duration)),
      )
      expect(found.rail.lowest.value).toBeLessThanOrEqual(Math.min(...volts, without.lowest.value) + 1e-9)
      expect(found.rail.highest.value).toBeGreaterThanOrEqual(Math.max(...volts) - 1e-9)
    }
    expect(seen).toBe(asked)
    expect(seen).toBeGreaterThan(30)
  })
})
