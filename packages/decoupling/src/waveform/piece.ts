import type { Solved } from './network.js'
import type { Signal } from './signal.js'

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
  /** 0 unless told; not with a feed that is held at its current limit. */
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
  const re = new Array<number>(n)
  const im = new Array<number>(n)
  for (let j = 0; j < n; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
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
  const C = network.branches.reduce((sum, b) => sum + b.capacitance, 0)
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

/** A signal of a piece: its straight line, and the rail's modes times a factor for each root that stands from `from` on in two lists. */
function signalOf(
  { voltage }: Piece,
  [constant, slope, curve]: readonly [number, number, number],
  factorRe: readonly number[],
  factorIm: readonly number[],
  from: number,
  sign: 1 | -1,
): Signal {
  const n = voltage.re.length
  const re = new Array<number>(n)
  const im = new Array<number>(n)
  for (let j = 0; j < n; j++) {
    const a = sign * factorRe[from + j]!
    const b = sign * factorIm[from + j]!
    re[j] = voltage.re[j]! * a - voltage.im[j]! * b
    im[j] = voltage.re[j]! * b + voltage.im[j]! * a
  }
  return { constant, slope, curve, roots: voltage.roots, re, im }
}

/** Current of the source into the rail. */
export function sourceCurrent(piece: Piece): Signal {
  const { solved, sourceConstant, sourceSlope, sourceCurve } = piece
  return signalOf(piece, [sourceConstant, sourceSlope, sourceCurve], solved.feedRe, solved.feedIm, 0, -1)
}

/** The same with the opposite sign. */
export function sourceDrain(piece: Piece): Signal {
  const { solved, sourceConstant, sourceSlope, sourceCurve } = piece
  return signalOf(piece, [-sourceConstant, -sourceSlope, -sourceCurve], solved.feedRe, solved.feedIm, 0, 1)
}

/** Current into branch `k`. */
export function branchCurrent(piece: Piece, k: number): Signal {
  const { solved, voltage: v } = piece
  const { capacitance: C, resistance: R } = solved.network.branches[k]!
  const line = [C * (v.slope - 2 * R * C * v.curve), 2 * C * v.curve, 0] as const
  return signalOf(piece, line, solved.branchRe, solved.branchIm, k * v.re.length, 1)
}

/** Voltage of branch `k`'s capacitance itself, behind its series resistance and inductance. */
export function branchVoltage(piece: Piece, k: number): Signal {
  const { solved, voltage: v } = piece
  const { capacitance: C, resistance: R, inductance: L } = solved.network.branches[k]!
  const i = C * (v.slope - 2 * R * C * v.curve)
  const rise = 2 * C * v.curve
  const line = [v.constant - R * i - L * rise, v.slope - R * rise, v.curve] as const
  return signalOf(piece, line, solved.shareRe, solved.shareIm, k * v.re.length, 1)
}

/** Current of the load: its own line and what the conductance takes. */
export function loadCurrent({ solved, voltage: v, load }: Piece): Signal {
  const G = solved.network.conductance
  return {
    constant: load.current + G * v.constant,
    slope: load.slope + G * v.slope,
    curve: (load.curve ?? 0) + G * v.curve,
    roots: v.roots,
    re: v.re.map((a) => G * a),
    im: v.im.map((a) => G * a),
  }
}

/** State of the circuit at time `t` of the piece. */
export function stateAt({ solved, voltage, sourceConstant, sourceSlope, sourceCurve }: Piece, t: number): State {
  const { feedRe, feedIm, branchRe, branchIm, shareRe, shareIm, roots } = solved
  const { branches } = solved.network
  const { slope, curve } = voltage
  const n = roots.re.length
  const voltages = new Array<number>(branches.length)
  const currents = new Array<number>(branches.length)
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
    const decay = (y === 0 ? 1 : 2) * Math.exp(roots.re[j]! * t)
    const c = y === 0 ? decay : decay * Math.cos(y * t)
    const s = y === 0 ? 0 : decay * Math.sin(y * t)
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
