import type { Solved } from './modes/network.js'
import { reals } from './modes/reals.js'
import type { Signal } from './signal/signal.js'

/** What the circuit remembers: the source's current, each branch's capacitor voltage and current (into it). */
export interface State {
  /** Rail voltage then: not remembered, but asked for. */
  readonly rail: number
  readonly source: number
  readonly voltages: readonly number[]
  readonly currents: readonly number[]
}

/** Load current beside the network's conductance: `current + slope·t + curve·t²`. */
export interface LoadLine {
  readonly current: number
  readonly slope: number
  /** 0 by default; not with a feed that is held at its current limit. */
  readonly curve?: number
}

/** A stretch of time in which the circuit doesn't change: every quantity in it is a {@link Signal}. */
export interface Piece {
  readonly solved: Solved
  readonly load: LoadLine
  readonly duration: number
  /** Rail voltage. */
  readonly voltage: Signal
  /** Of the source's current, the part without modes. */
  readonly sourceConstant: number
  readonly sourceSlope: number
  readonly sourceCurve: number
}

/** The exact answer of a network to a load's line from a given state: Laplace transform, residues at its modes. */
export function respond(solved: Solved, state: State, load: LoadLine, duration: number): Piece {
  const { feed, branches, conductance: G } = solved.network
  const { current, slope: m, curve: q = 0 } = load
  const [re, im] = amplitudes(solved, state, load)
  let C = 0
  let squares = 0
  let charge = 0
  for (let k = 0; k < branches.length; k++) {
    const b = branches[k]!
    C += b.capacitance
    squares += b.resistance * b.capacitance * b.capacitance
    charge += b.capacitance * state.voltages[k]!
  }
  let constant = 0
  let slope = 0
  let curve = 0
  let sourceConstant = 0
  let sourceSlope = 0
  let sourceCurve = 0
  if (!('current' in feed)) {
    const { voltage, resistance: R, inductance: L } = feed
    curve = (-R * q) / (1 + R * G)
    sourceCurve = G * curve + q
    slope = -(R * (2 * C * curve + m) + 2 * L * sourceCurve) / (1 + R * G)
    sourceSlope = 2 * C * curve + G * slope + m
    const rest = C * slope - 2 * squares * curve + current
    constant = (voltage - R * rest - L * sourceSlope) / (1 + R * G)
    sourceConstant = G * constant + rest
  } else if (G > 0) {
    sourceConstant = feed.current
    slope = -m / G
    constant = (feed.current - current - C * slope) / G
  } else {
    // Nothing fixes the level: all that isn't drawn stays in the capacitors, whose charge is known.
    sourceConstant = feed.current
    curve = -m / (2 * C)
    slope = (feed.current - current + 2 * curve * squares) / C
    for (const b of branches) {
      const [R, L, c] = [b.resistance, b.inductance, b.capacitance]
      charge += c * (R * c * (slope - 2 * R * c * curve) + 2 * L * c * curve)
    }
    constant = charge / C
  }
  const voltage: Signal = { constant, slope, curve, roots: solved.roots, re, im }
  return { solved, load, duration, voltage, sourceConstant, sourceSlope, sourceCurve }
}

/** Amplitude of each mode: the image of all sources and stored energies there, over the derivative of the admittance. */
function amplitudes(solved: Solved, state: State, { current, slope, curve = 0 }: LoadLine): [number[], number[]] {
  const { feed, branches } = solved.network
  const { roots, feedRe, feedIm, branchRe, branchIm, weightRe, weightIm } = solved
  const n = roots.re.length
  const isHeld = 'current' in feed
  const drawn = isHeld ? current - feed.current : current
  const re = reals(n)
  const im = reals(n)
  for (let j = 0; j < n; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    if (y === 0) {
      const u = 1 / x
      let a = -drawn - u * (slope + 2 * curve * u)
      let b = 0
      if (!isHeld) {
        a += feedRe[j]! * feed.voltage
        b = feedRe[j]! * feed.inductance * state.source
      }
      for (let k = 0; k < branches.length; k++) {
        const r = branchRe[k * n + j]!
        a += r * state.voltages[k]!
        b -= r * branches[k]!.inductance * state.currents[k]!
      }
      re[j] = (b + a * u) * weightRe[j]!
      im[j] = 0
      continue
    }
    const size = x * x + y * y
    const ur = x / size
    const ui = -y / size
    // What an image 1/s multiplies, and what it doesn't.
    let ar = -drawn - slope * ur - 2 * curve * (ur * ur - ui * ui)
    let ai = -slope * ui - 4 * curve * ur * ui
    let br = 0
    let bi = 0
    if (!isHeld) {
      const e = feed.inductance * state.source
      ar += feedRe[j]! * feed.voltage
      ai += feedIm[j]! * feed.voltage
      br = feedRe[j]! * e
      bi = feedIm[j]! * e
    }
    for (let k = 0; k < branches.length; k++) {
      const v = state.voltages[k]!
      const e = branches[k]!.inductance * state.currents[k]!
      const r = branchRe[k * n + j]!
      const i = branchIm[k * n + j]!
      ar += r * v
      ai += i * v
      br -= r * e
      bi -= i * e
    }
    br += ar * ur - ai * ui
    bi += ar * ui + ai * ur
    re[j] = br * weightRe[j]! - bi * weightIm[j]!
    im[j] = br * weightIm[j]! + bi * weightRe[j]!
  }
  return [re, im]
}

/** How far the rail has fallen at the end of a ramp of the load current from 0 to 1 A, nothing else acting; the feed a source. */
export function dropOfRamp({ network, roots, weightRe, weightIm }: Solved, duration: number): number {
  const { resistance: R, inductance: L } = network.feed as { readonly resistance: number; readonly inductance: number }
  let C = 0
  for (let k = 0; k < network.branches.length; k++) C += network.branches[k]!.capacitance
  let sum = L - R * R * C
  for (let j = 0; j < roots.re.length; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    const decay = Math.exp(x * duration)
    if (y === 0) {
      sum += (weightRe[j]! * decay) / (x * x)
      continue
    }
    const [a, b] = [x * x - y * y, 2 * x * y]
    const c = decay * Math.cos(y * duration)
    const s = decay * Math.sin(y * duration)
    const re = weightRe[j]! * c - weightIm[j]! * s
    const im = weightRe[j]! * s + weightIm[j]! * c
    sum += (2 * (re * a + im * b)) / (a * a + b * b)
  }
  return R + sum / duration
}

/** State of the circuit at time `t` of the piece. */
export function stateAt({ solved, voltage, sourceConstant, sourceSlope, sourceCurve }: Piece, t: number): State {
  const { feedRe, feedIm, branchRe, branchIm, shareRe, shareIm, roots } = solved
  const { branches } = solved.network
  const { slope, curve } = voltage
  const n = roots.re.length
  const voltages = reals(branches.length)
  const currents = reals(branches.length)
  const level = voltage.constant + t * (slope + t * curve)
  for (let k = 0; k < branches.length; k++) {
    const { capacitance: C, resistance: R, inductance: L } = branches[k]!
    const rise = 2 * C * curve
    const i = C * (slope - 2 * R * C * curve) + rise * t
    currents[k] = i
    voltages[k] = level - R * i - L * rise
  }
  let rail = level
  let source = sourceConstant + t * (sourceSlope + t * sourceCurve)
  for (let j = 0; j < n; j++) {
    const y = roots.im[j]!
    const decay = Math.exp(roots.re[j]! * t)
    if (y === 0) {
      const mode = voltage.re[j]! * decay
      rail += mode
      source -= feedRe[j]! * mode
      for (let k = 0; k < branches.length; k++) {
        currents[k]! += branchRe[k * n + j]! * mode
        voltages[k]! += shareRe[k * n + j]! * mode
      }
      continue
    }
    const c = 2 * decay * Math.cos(y * t)
    const s = 2 * decay * Math.sin(y * t)
    const re = voltage.re[j]! * c - voltage.im[j]! * s
    const im = voltage.re[j]! * s + voltage.im[j]! * c
    rail += re
    source -= feedRe[j]! * re - feedIm[j]! * im
    for (let k = 0; k < branches.length; k++) {
      const place = k * n + j
      currents[k]! += branchRe[place]! * re - branchIm[place]! * im
      voltages[k]! += shareRe[place]! * re - shareIm[place]! * im
    }
  }
  return { rail, source, voltages, currents }
}
