/** Response of one or two poles to a rectangular wave of 0 and 1 in steady state, `on` of each period `T`. */
export function share(time: number, on: number, T: number, poles: readonly number[]): number {
  const t = ((time % T) + T) % T
  const [a = 0, given = 0] = poles
  // Two equal poles are the limit of two that differ a little.
  const b = Math.abs(given - a) < 1e-3 * a ? given * 1.001 + 1e-3 * a : given
  const terms =
    poles.length === 1
      ? [[1, a]]
      : [
          [a / (a - b), a],
          [-b / (a - b), b],
        ]
  const decay = (x: number, tau: number) => Math.exp(-x / tau)
  const sum = (from: number, length: number) =>
    terms.reduce(
      (total, [weight = 0, tau = 1]) =>
        total + (weight * decay(from, tau) * (1 - decay(length, tau))) / (1 - decay(T, tau)),
      0,
    )
  return t < on ? 1 - sum(t, T - on) : sum(t - on, on)
}
