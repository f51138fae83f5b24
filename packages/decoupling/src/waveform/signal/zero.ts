/**
 * The one time in `from < t < to` at which `constant + Σ amplitude·e^(rate·t)` changes sign; `to` where that is no earlier. Newton's
 * method on the logarithm of the terms above 0 over those below: a straight line where each side is one exponential,
 * nearly one elsewhere, and kept between the two ends.
 *
 * @param rates - below 0, the last the slowest
 */
export function onlyZero(
  constant: number,
  amplitudes: readonly number[],
  rates: readonly number[],
  from: number,
  to: number,
): number {
  const slowest = 1 / -rates[rates.length - 1]!
  let low = from
  let high = to
  let time = from
  let isUpAtFirst = false
  for (let round = 0; round < 100; round++) {
    let up = Math.max(constant, 0)
    let down = Math.max(-constant, 0)
    let upRate = 0
    let downRate = 0
    for (let j = 0; j < rates.length; j++) {
      const term = amplitudes[j]! * Math.exp(rates[j]! * time)
      if (term > 0) {
        up += term
        upRate += term * rates[j]!
      } else {
        down -= term
        downRate -= term * rates[j]!
      }
    }
    if (round === 0) isUpAtFirst = up > down
    // Where nothing is left of any term, the zero was passed.
    if (isUpAtFirst ? up > down : up < down) low = time
    else high = time
    let next = time - Math.log(up / down) / (upRate / up - downRate / down)
    if (!(next >= low && next <= high)) {
      // The zero may lie behind the end, or the straight line led astray.
      if (next > high && time < high && high === to) next = to
      else next = high === Number.POSITIVE_INFINITY ? 2 * time + slowest : (low + high) / 2
    }
    if (Math.abs(next - time) <= 1e-10 * next) return next
    time = next
  }
  return time
}
