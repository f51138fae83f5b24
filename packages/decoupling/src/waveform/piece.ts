import type { Solved } from './network.js'
import { at, type Signal } from './signal.js'

/** What the circuit remembers: the source's current, each branch's capacitor voltage and current (into it). */
export interface State {
  readonly source: number
  readonly voltages: readonly number[]
  readonly currents: readonly number[]
}

/** Load current beside the network's conductance: `current + slope·t`. */
export interface LoadLine {
  readonly current: number
  readonly slope: number
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
}

/** The exact answer of a network to a straight-line load from a given state: Laplace transform, residues at its modes. */
export function respond(solved: Solved, state: State, load: LoadLine, duration: number): Piece {
  const { feed, branches, conductance: G } = solved.network
  const { current, slope: m } = load
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
  let [constant, slope, curve, sourceConstant, sourceSlope] = [0, 0, 0, 0, 0]
  if (!('current' in feed)) {
    const { voltage, resistance: R, inductance: L } = feed
    slope = (-R * m) / (1 + R * G)
    sourceSlope = G * slope + m
    constant = (voltage - R * (C * slope + current) - L * sourceSlope) / (1 + R * G)
    sourceConstant = C * slope + G * constant + current
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
  return { solved, load, duration, voltage, sourceConstant, sourceSlope }
}

/** Amplitude of each mode: the image of all sources and stored energies there, over the derivative of the admittance. */
function amplitudes(solved: Solved, state: State, { current, slope }: LoadLine): [number[], number[]] {
  const { feed, branches } = solved.network
  const { roots, feedRe, feedIm, branchRe, branchIm, weightRe, weightIm } = solved
  const n = roots.re.length
  const re = new Array<number>(n)
  const im = new Array<number>(n)
  for (let j = 0; j < n; j++) {
    const x = roots.re[j]!
    const y = roots.im[j]!
    const size = x * x + y * y
    const ur = x / size
    const ui = -y / size
    const drawn = 'current' in feed ? current - feed.current : current
    let r = -drawn * ur - slope * (ur * ur - ui * ui)
    let i = -drawn * ui - slope * 2 * ur * ui
    if (!('current' in feed)) {
      const er = feed.voltage * ur + feed.inductance * state.source
      const ei = feed.voltage * ui
      r += feedRe[j]! * er - feedIm[j]! * ei
      i += feedRe[j]! * ei + feedIm[j]! * er
    }
    for (let k = 0; k < branches.length; k++) {
      const v = state.voltages[k]!
      const er = v * ur - branches[k]!.inductance * state.currents[k]!
      const ei = v * ui
      const br = branchRe[k * n + j]!
      const bi = branchIm[k * n + j]!
      r += br * er - bi * ei
      i += br * ei + bi * er
    }
    re[j] = r * weightRe[j]! - i * weightIm[j]!
    im[j] = r * weightIm[j]! + i * weightRe[j]!
  }
  return [re, im]
}

/** Multiplies a signal's amplitudes by a complex factor for each root. */
function modes(s: Signal, factor: (j: number) => readonly [number, number]): Pick<Signal, 'roots' | 're' | 'im'> {
  const re: number[] = []
  const im: number[] = []
  for (let j = 0; j < s.re.length; j++) {
    const [a, b] = factor(j)
    re.push(s.re[j]! * a - s.im[j]! * b)
    im.push(s.re[j]! * b + s.im[j]! * a)
  }
  return { roots: s.roots, re, im }
}

/** Current of the source into the rail. */
export function sourceCurrent({ solved, voltage, sourceConstant, sourceSlope }: Piece): Signal {
  const own = modes(voltage, (j) => [-solved.feedRe[j]!, -solved.feedIm[j]!])
  return { constant: sourceConstant, slope: sourceSlope, curve: 0, ...own }
}

/** Current into branch `k`. */
export function branchCurrent({ solved, voltage }: Piece, k: number): Signal {
  const { capacitance: C, resistance: R } = solved.network.branches[k]!
  const n = voltage.re.length
  const own = modes(voltage, (j) => [solved.branchRe[k * n + j]!, solved.branchIm[k * n + j]!])
  return { constant: C * (voltage.slope - 2 * R * C * voltage.curve), slope: 2 * C * voltage.curve, curve: 0, ...own }
}

/** Voltage of branch `k`'s capacitance itself, behind its series resistance and inductance. */
export function branchVoltage(piece: Piece, k: number): Signal {
  const { solved, voltage: v } = piece
  const { resistance: R, inductance: L } = solved.network.branches[k]!
  const i = branchCurrent(piece, k)
  const n = v.re.length
  const own = modes(v, (j) => {
    const [x, y] = [solved.roots.re[j]!, solved.roots.im[j]!]
    const [a, b] = [R + x * L, y * L]
    const [c, d] = [solved.branchRe[k * n + j]!, solved.branchIm[k * n + j]!]
    return [1 - (a * c - b * d), -(a * d + b * c)]
  })
  return { constant: v.constant - R * i.constant - L * i.slope, slope: v.slope - R * i.slope, curve: v.curve, ...own }
}

/** Current of the load: its straight line and what the conductance takes. */
export function loadCurrent({ solved, voltage: v, load }: Piece): Signal {
  const G = solved.network.conductance
  const own = modes(v, () => [G, 0])
  return { constant: load.current + G * v.constant, slope: load.slope + G * v.slope, curve: G * v.curve, ...own }
}

/** State of the circuit at time `t` of the piece. */
export function stateAt(piece: Piece, t: number): State {
  const { branches } = piece.solved.network
  const voltages: number[] = []
  const currents: number[] = []
  for (let k = 0; k < branches.length; k++) {
    voltages.push(at(branchVoltage(piece, k), t))
    currents.push(at(branchCurrent(piece, k), t))
  }
  return { source: at(sourceCurrent(piece), t), voltages, currents }
}
