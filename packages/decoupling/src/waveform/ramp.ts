import type { Feed, Network } from './modes/parts.js'
import { type Piece, respond, type State, stateAt } from './piece.js'

/** Ramps shorter than this part of a natural time are summed up. */
const short = 1e-3

/**
 * State at the end of a piece. A ramp that is short against a natural time leaves in that mode a difference of huge numbers, and
 * loses the digits that a steady state is made of: there the ramp's own part is added to what happens without it.
 *
 * @param from - state at its beginning
 */
export function endOf(piece: Piece, from: State): State {
  const { solved, load, duration } = piece
  const { roots, feedRe, feedIm, branchRe, branchIm, shareRe, shareIm, weightRe, weightIm } = solved
  const isSlow = load.slope !== 0 && !('current' in solved.network.feed) && roots.re.some((x) => -x * duration < short)
  if (!isSlow) return stateAt(piece, duration)
  const flat = stateAt(respond(solved, from, { current: load.current, slope: 0 }, duration), duration)
  const voltages = [...flat.voltages]
  const currents = [...flat.currents]
  let { source } = flat
  const direct = directPart(solved.network, duration)
  let rail = flat.rail - load.slope * direct.drop
  // A ramp divides itself at once where inductances alone lead to the rail.
  const { feed, branches } = solved.network
  if (direct.flux > 0 && 'inductance' in feed) {
    source += (load.slope * direct.flux) / feed.inductance
    for (let k = 0; k < currents.length; k++) currents[k]! -= (load.slope * direct.flux) / branches[k]!.inductance
  }
  const n = roots.re.length
  for (let j = 0; j < n; j++) {
    const [a, b] = ramped(roots.re[j]!, roots.im[j]!, duration)
    // A complex mode stands for its conjugate too.
    const size = (roots.im[j] === 0 ? -1 : -2) * load.slope
    const re = size * (weightRe[j]! * a - weightIm[j]! * b)
    const im = size * (weightRe[j]! * b + weightIm[j]! * a)
    rail += re
    source -= feedRe[j]! * re - feedIm[j]! * im
    for (let k = 0; k < voltages.length; k++) {
      const place = k * n + j
      voltages[k]! += shareRe[place]! * re - shareIm[place]! * im
      currents[k]! += branchRe[place]! * re - branchIm[place]! * im
    }
  }
  return { rail, source, voltages, currents }
}

/**
 * What a ramp of 1 A/s does beside all modes: what it takes off the rail, across what has no inductance or across all inductances with
 * their resistances; and of these the flux, V s, which over each inductance is its share of the current.
 */
function directPart({ feed, branches, conductance }: Network, duration: number): { drop: number; flux: number } {
  const { resistance, inductance } = feed as Exclude<Feed, { readonly current: number }>
  const all = [{ resistance, inductance }, ...branches]
  let siemens = conductance
  let inverse = 0
  let damping = 0
  for (const one of all) {
    if (one.inductance === 0) {
      siemens += 1 / one.resistance
      continue
    }
    inverse += 1 / one.inductance
    damping += one.resistance / one.inductance ** 2
  }
  if (siemens > 0) return { drop: duration / siemens, flux: 0 }
  return { drop: 1 / inverse + (damping / inverse ** 2) * duration, flux: duration / inverse }
}

/** ∫ τ·e^(s(d - τ)) dτ over `0 <= τ <= d`, which is (e^(sd) - 1 - sd) / s², with s = x + iy: by its series where that cancels. */
function ramped(x: number, y: number, d: number): readonly [re: number, im: number] {
  const [p, q] = [x * d, y * d]
  const square = p * p + q * q
  if (square < 1) {
    let [tr, ti] = [d * d, 0]
    let [re, im] = [tr / 2, 0]
    for (let k = 3; k < 24; k++) {
      const next = tr * p - ti * q
      ti = (tr * q + ti * p) / (k - 1)
      tr = next / (k - 1)
      re += tr / k
      im += ti / k
    }
    return [re, im]
  }
  const decay = Math.exp(p)
  const [r, i] = [decay * Math.cos(q) - 1 - p, decay * Math.sin(q) - q]
  // Over (p + iq)², times d².
  const [u, v] = [p * p - q * q, 2 * p * q]
  const scale = (d * d) / (square * square)
  return [(r * u + i * v) * scale, (i * u - r * v) * scale]
}
