import { exact, type Spread } from '@ohmward/quantity'
import { followCell, followPort } from '@ohmward/supply'
import type { Firmware } from '../blocks/firmware.js'
import type { ReadDesign } from '../design/record.js'
import { behindAfter, leftAfter, recoveryOf } from '../pulse/coming-back.js'
import { conductingIn } from '../pulse/conducting.js'
import { readAfter } from '../pulse/off-times.js'
import { dropIn, fallTime, pulseAt } from '../pulse/pulse.js'
import { beforeBoard, behindBoard } from '../supply/path.js'
import { loadEndsAt, type SolvedPlace } from '../supply/solve.js'
import { at } from './draw.js'
import { type Column, Conductors } from './path.js'

/** Where in its spread a part of each board lies, by its name: drawn once, whatever the place. */
export type Shares = (name: string) => Float64Array

/** Supply and load of every board at a place, each a column. */
export interface BoardsAt {
  readonly R_s: Float64Array
  /** Load with what is in series behind the board, the switch apart, ohm. */
  readonly R_L: Float64Array
  /** Board with the load off, and with the load on, V. */
  readonly rest: Float64Array
  readonly rail: Float64Array
  /** Both ends of what it may come to while the resistance is read, and as the current is. */
  readonly measuring: Ends
  readonly sampled: Ends
  /** How far the amplifier shows it from where it is at those ends, as a share of it. */
  readonly lags: Ends
  /** A */
  readonly current: Float64Array
  /** How hot an element of the path gets after a long time, degC; undefined where nothing warms it, and at the first step. */
  readonly celsiusOf: (element: string) => Float64Array | undefined
  /** Resistance of an element of the path, ohm: as warm as the air at the first step, and as its current makes it after a long time. */
  readonly ohmsOf: (element: string) => Float64Array | undefined
}

/** The lowest and the highest on each board. */
export type Ends = readonly [lower: Float64Array, upper: Float64Array]

/**
 * The boards at a place: each has the same cell, path, load, switch and controller at every one. Where the load warms the path,
 * they are there twice: at the first step, the path as warm as the air, and after a long time, each as warm as its own current
 * makes it; and so where the load's resistance goes with its temperature, as cold as the air and at work.
 */
export function boardsAt(
  design: ReadDesign,
  solved: SolvedPlace,
  idle: Spread,
  shares: Shares,
  count: number,
  firmware: Pick<Firmware, 'edges' | 'ring' | 'sampledAfter'>,
): readonly BoardsAt[] {
  const { place, own, switch: on, test } = solved
  const { supply, board, parts, pwm } = design
  const column: Column = (name, spread) => shares(name).map((share) => at(spread, share))
  const path = supply.path ?? []
  const before = new Conductors(beforeBoard(path, board), place.celsius, column, count)
  const behind = new Conductors(behindBoard(path, board), place.celsius, column, count)
  const conductor = shares('conductor').map((share) => share * parts.sensor.conductorResistance.upper)
  const [R_on, I_0] = [column('switch', on), column('idle', idle)]
  const { capacitance, capacitances, excitation } = parts
  const C_all = capacitances ? column('capacitors', capacitances) : new Float64Array(count).fill(capacitance)
  const [recovery, fall, toCome] = [
    recoveryOf(design, solved),
    fallTime(design, solved),
    dropIn(design, firmware.sampledAfter()),
  ]
  const since = Math.max(0, readAfter(design) - (firmware.edges()?.off ?? 0))
  const isPulsed = pwm.duty.from < 1
  const limit = supply.source.kind === 'port' ? column('limit', supply.source.currentLimit) : undefined
  // On each board the load is as cold as the air at first and as warm as at work later: both, not one of them by chance.
  const { lower: least, upper: most } = design.load.temperatureCoefficient
  const isSteady = least === 0 && most === 0
  const loads = (isSteady ? [own] : loadEndsAt(design, place.celsius)).map((one) => column('load', one))
  const withPath = (load: Float64Array, R_before: Float64Array, R_behind: Float64Array): BoardsAt => {
    const { V_oc, R_s } = sourcesOf(design, solved, column, R_before, before.drop)
    const R_L = sumOf([load, R_behind, conductor], count)
    const rest = V_oc.map((V, i) => V - I_0[i]! * R_s[i]!)
    const largest = (i: number) => (limit === undefined ? Infinity : Math.max(limit[i]! - I_0[i]!, 0))
    const current = rest.map((V, i) => Math.min(V / (R_s[i]! + R_L[i]! + R_on[i]!), largest(i)))
    const rail = current.map((I, i) => I * (R_L[i]! + R_on[i]!))
    const [measuring, sampled, lags] = [ends(count), ends(count), ends(count)]
    for (let i = 0; i < count; i++) {
      const [R, V] = [R_s[i]!, rest[i]!]
      const sag = V - rail[i]!
      const { current: loaded, resistance: off } = firmware.ring(exact(R))
      sampled[0][i] = rail[i]! - loaded.below * V
      sampled[1][i] = rail[i]! + toCome(fall(R, R_L[i]! + R_on[i]!, C_all[i]!)) * sag + loaded.above * V
      const back = { time: isPulsed ? recovery(Math.max(R, V / largest(i)), C_all[i]!) : 0, steps: 1 }
      const still = V - test.upper * R
      measuring[0][i] = still - Math.max(leftAfter(since, back) * sag, off.below * V)
      measuring[1][i] = still + off.above * V
      const late = behindAfter(since, back, excitation.lag, limit !== undefined) * sag
      lags[0][i] = -(late + off.behind * V) / measuring[0][i]!
      lags[1][i] = (off.behind * V) / measuring[1][i]!
    }
    const ohmsOf = (name: string) => before.ohmsOf(name) ?? behind.ohmsOf(name)
    return { R_s, R_L, rest, rail, measuring, sampled, lags, current, celsiusOf: () => undefined, ohmsOf }
  }
  const coldPath = loads.map((load) => withPath(load, before.cold, behind.cold))
  if (!before.isWarmed && !behind.isWarmed) return coldPath
  // Every board is taken to be off as late as the latest.
  const { to: duty } = conductingIn(design, firmware.edges(), pwm.duty.to)
  const share = Math.sqrt(duty)
  // Behind the board flows what the capacitors of the rail give as well.
  const pulse = pulseAt(design, solved.source, duty)
  const rmsOf = ({ current }: BoardsAt) => current.map((I) => share * I)
  const withIdle = (rms: Float64Array) => rms.map((I, i) => I + I_0[i]!)
  const warmPath = loads.map((load, end): BoardsAt => {
    let warm = coldPath[end]!
    // What a warm path takes of the current is little: each turn leaves a few hundredths of what the last one was off.
    for (let turn = 0; turn < 4; turn++) {
      const rms = rmsOf(warm)
      warm = withPath(load, before.warm(withIdle(rms)), behind.warm(rms))
    }
    const rms = rmsOf(warm)
    const celsiusOf = (name: string) =>
      before.celsiusOf(name, withIdle(rms)) ??
      behind.celsiusOf(
        name,
        rms.map((I, i) => I * Math.sqrt(pulse(warm.R_s[i]!, warm.R_L[i]! + R_on[i]!, C_all[i]!).power)),
      )
    const ohmsOf = (name: string) => before.ohmsOf(name, withIdle(rms)) ?? behind.ohmsOf(name, rms)
    return { ...warm, celsiusOf, ohmsOf }
  })
  return [...coldPath, ...warmPath]
}

const ends = (count: number): Ends => [new Float64Array(count), new Float64Array(count)]

const sumOf = (columns: readonly Float64Array[], count: number): Float64Array =>
  columns.reduce((sum, one) => sum.map((x, i) => x + one[i]!), new Float64Array(count))

/** The source of every board, through the chain of the supply. */
function sourcesOf(
  { supply }: ReadDesign,
  { source }: SolvedPlace,
  column: Column,
  R_path: Float64Array,
  V_drop: Float64Array,
): { readonly V_oc: Float64Array; readonly R_s: Float64Array } {
  const [V_oc, R_s] = [R_path.slice(), R_path.slice()]
  if (supply.source.kind === 'port') {
    const [V_port, R_lead] = [column('port', supply.source.voltage), column('leads', supply.source.leadResistance)]
    const y = { V_port: 0, R_lead: 0, R_path: 0, V_drop: 0, V_oc: 0, R_s: 0 }
    for (let i = 0; i < V_oc.length; i++) {
      y.V_port = V_port[i]!
      y.R_lead = R_lead[i]!
      y.R_path = R_path[i]!
      y.V_drop = V_drop[i]!
      followPort(y)
      V_oc[i] = y.V_oc
      R_s[i] = y.R_s
    }
    return { V_oc, R_s }
  }
  const { n_s, U_0, e_oc, R_cell, k_T, k_q, k_old, x_age } = source.cells!.inputs
  const [off, cell, old] = [column('cell voltage', e_oc), column('cell resistance', R_cell), column('cell age', k_old)]
  const fixed = { n_s: n_s.nominal, U_0: U_0.nominal, k_T: k_T.nominal, k_q: k_q.nominal, x_age: x_age.nominal }
  const y = {
    ...fixed,
    e_oc: 0,
    R_cell: 0,
    k_old: 0,
    R_path: 0,
    V_drop: 0,
    V_bat: 0,
    k_age: 0,
    R_bat: 0,
    V_oc: 0,
    R_s: 0,
  }
  for (let i = 0; i < V_oc.length; i++) {
    y.e_oc = off[i]!
    y.R_cell = cell[i]!
    y.k_old = old[i]!
    y.R_path = R_path[i]!
    y.V_drop = V_drop[i]!
    followCell(y)
    V_oc[i] = y.V_oc
    R_s[i] = y.R_s
  }
  return { V_oc, R_s }
}
