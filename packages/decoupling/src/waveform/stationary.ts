import type { Signal } from './signal.js'

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
  let sum = s.slope
  let sign = Math.sign(sum)
  let changes = 0
  for (let j = re.length - 1; j >= 0; j--) {
    sum += s.re[j]! * re[j]!
    const next = Math.sign(sum)
    if (next !== 0 && sign !== 0 && next !== sign) changes++
    if (next !== 0) sign = next
  }
  if (changes > 1) return undefined
  if (changes === 0 || sign > 0) return 0
  return bottomOfCreeping(s, duration)
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

/**
 * The one zero of a rate of change that begins below 0. Newton's method on the logarithm of what raises over what lowers the signal:
 * a straight line where each is one exponential, nearly one elsewhere.
 */
function bottomOfCreeping({ slope, roots: { re: x }, re }: Signal, duration: number): number {
  let low = 0
  let high = duration
  let time = 0
  for (let round = 0; round < 100; round++) {
    let up = slope > 0 ? slope : 0
    let down = slope < 0 ? -slope : 0
    let upRate = 0
    let downRate = 0
    for (let j = 0; j < re.length; j++) {
      const b = re[j]! * x[j]! * Math.exp(x[j]! * time)
      if (b > 0) {
        up += b
        upRate += b * x[j]!
      } else {
        down -= b
        downRate -= b * x[j]!
      }
    }
    if (up < down) low = time
    else high = time
    let next = time - Math.log(up / down) / (upRate / up - downRate / down)
    if (!(next >= low && next <= high)) {
      // The zero may lie behind the end, or the straight line led astray.
      if (next > high && high === duration && time < high) next = duration
      else next = high === Number.POSITIVE_INFINITY ? 2 * time - 1 / x[x.length - 1]! : (low + high) / 2
    }
    if (Math.abs(next - time) <= 1e-10 * next) return next < duration ? next : 0
    time = next
  }
  return time
}
