import { type Circuit, type LinearLoad, type Load, networkOf, type Pwm } from './circuit.js'
import { effort } from './effort.js'
import type { Solved } from './modes/network.js'
import { identity, reals, realsOf } from './modes/reals.js'
import { type Piece, respond, type State, stateAt } from './piece.js'
import { isState, packed, unpacked } from './remembered.js'
import { lowest } from './signal/lowest.js'

/** Nothing that drives the circuit. */
const still = { current: 0, slope: 0 }

/** A network without any source: how a difference of two states goes on. */
function sourceless(solved: Solved): Solved {
  const { network } = solved
  const feed = { ...network.feed, voltage: 0 } as Solved['network']['feed']
  return { ...solved, network: { ...network, feed } }
}

/** How a difference of two states goes on in a network without any source. */
const fading = (without: Solved, off: State, duration: number): Piece => respond(without, off, still, duration)

/**
 * What must be added to a state for a period to bring it back, where the network is the same through all of it: of each mode, a period
 * leaves e^(sT), so what a period is off is 1 - e^(sT) of what is lacking.
 *
 * @param off - what a period takes the state away from itself
 */
export function returningStep(c: Circuit, off: readonly number[], { frequency }: Pwm): number[] {
  const n = c.branches.length
  effort.spend(10 + 3 * (n + 1) ** 2)
  const piece = fading(sourceless(networkOf(c, 0, false)), unpacked(off, n), 0)
  const { re, im, roots } = piece.voltage
  const grownRe = reals(re.length)
  const grownIm = reals(re.length)
  for (let j = 0; j < re.length; j++) {
    // 1 - e^(x + iy), whose digits a slow mode must not lose.
    const x = roots.re[j]! / frequency
    const y = roots.im[j]! / frequency
    const half = Math.sin(y / 2)
    const u = 2 * half * half - Math.expm1(x) * Math.cos(y)
    const v = -Math.exp(x) * Math.sin(y)
    const square = u * u + v * v
    grownRe[j] = (re[j]! * u + im[j]! * v) / square
    grownIm[j] = (im[j]! * u - re[j]! * v) / square
  }
  const voltage = { ...piece.voltage, re: grownRe, im: grownIm }
  return packed(stateAt({ ...piece, voltage }, 0))
}

/**
 * What is left of each entry of a state after a period, taken off the identity, for a resistor that is switched: nearly, since its edges
 * count as on for one half and as off for the other.
 */
export function returningSlopes(c: Circuit, load: LinearLoad & { readonly kind: 'resistor' }, pwm: Pwm): number[][] {
  const n = c.branches.length
  const on = pwm.duty / pwm.frequency + (pwm.fall - pwm.rise) / 2
  const rest = 1 / pwm.frequency - on
  const [closed, open] = [sourceless(networkOf(c, 1 / load.resistance, false)), sourceless(networkOf(c, 0, false))]
  const size = 2 * n + 1
  const A = identity(size)
  for (let j = 0; j < size; j++) {
    if (!isState(c, j)) continue
    effort.spend(20 + 8 * (n + 1) ** 2)
    const one = realsOf(size, (i) => Number(i === j))
    const middle = stateAt(fading(closed, unpacked(one, n), on), on)
    const { source, voltages, currents } = stateAt(fading(open, middle, rest), rest)
    A[0]![j]! -= source
    for (let k = 0; k < n; k++) {
      A[1 + k]![j]! -= voltages[k]!
      A[1 + n + k]![j]! -= currents[k]!
    }
  }
  return A
}

/**
 * By how much a rail that is not in its steady state yet can still come below it, at most: what parts it from that fades by itself where
 * a current is switched, whatever the pulses do meanwhile. Undefined where the network changes with the load, or with a current limit.
 */
export function leastFading(c: Circuit, load: Load, from: State, steady: State): number | undefined {
  if (load.kind !== 'current' || c.source.currentLimit !== undefined) return undefined
  const [a, b] = [packed(from), packed(steady)]
  const off = unpacked(
    realsOf(a.length, (i) => a[i]! - b[i]!),
    c.branches.length,
  )
  effort.spend(20 + 3 * (c.branches.length + 1) ** 2)
  return lowest(
    fading(sourceless(networkOf(c, 0, false)), off, Number.POSITIVE_INFINITY).voltage,
    Number.POSITIVE_INFINITY,
  ).value
}
