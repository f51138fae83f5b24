import { reals } from '../modes/reals.js'
import type { Signal } from './signal.js'
import { onlyZero } from './zero.js'

/**
 * Where in `0 < t < duration` a signal has the one lowest point that its form allows: 0 where it surely has none, undefined where
 * the form doesn't tell.
 */
export function onlyBottom(s: Signal, duration: number): number | undefined {
  const { re, im } = s.roots
  if (s.curve !== 0) return undefined
  for (let j = 0; j < im.length; j++) {
    if (im[j] !== 0) return im.length === 1 && s.slope === 0 ? bottomOfRinging(s, duration) : undefined
  }
  // Rate of change m + Σ b·e^(st), summed up from the slowest mode: as many zeros at t > 0 at most as the sums change sign, and
  // not fewer but by an even number (Laguerre, 1883).
  const b = reals(re.length)
  let sum = s.slope
  let sign = Math.sign(sum)
  let changes = 0
  for (let j = re.length - 1; j >= 0; j--) {
    b[j] = s.re[j]! * re[j]!
    sum += b[j]!
    const next = Math.sign(sum)
    if (next !== 0 && sign !== 0 && next !== sign) changes++
    if (next !== 0) sign = next
  }
  if (changes > 1) return undefined
  if (changes === 0 || sign > 0) return 0
  const time = onlyZero(s.slope, b, re, 0, duration)
  return time < duration ? time : 0
}

/** v' = 2·|z|·e^(σt)·cos(ωt + φ), z = amplitude·root: 0 at ωt + φ = π/2 + kπ, rising through 0 at -π/2 + 2kπ. */
function bottomOfRinging({ roots, re, im }: Signal, duration: number): number {
  const x = roots.re[0]!
  const y = roots.im[0]!
  const phase = Math.atan2(re[0]! * y + im[0]! * x, re[0]! * x - im[0]! * y)
  const turn = 2 * Math.PI
  const angle = -Math.PI / 2 - phase
  const time = (angle - turn * Math.floor(angle / turn)) / y
  return time < duration ? time : 0
}
