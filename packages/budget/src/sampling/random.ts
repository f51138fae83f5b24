/** Words drawn at a time. */
const AHEAD = 512

/** A stream of random numbers: four words of state, then the words drawn last. */
export type Stream = Int32Array

/**
 * A stream of random numbers of its own: the same seed and index give the same numbers, another index of the same seed
 * gives numbers that have nothing to do with these. Generator: sfc32 (C. Doty-Humphrey, PractRand), 32-bit integers
 * only, period at least 2^32 in every stream and about 2^127 on average.
 */
export function stream(seed: number, index: number): Stream {
  const state = new Int32Array(4 + AHEAD)
  state.set([seed, Math.floor(seed / 2 ** 32), index, 1])
  draw(state, 16)
  return state
}

/** Draws `n` words, at most {@link AHEAD}, to the places from 4 on. */
function draw(state: Stream, n: number): void {
  let a = state[0]!
  let b = state[1]!
  let c = state[2]!
  let d = state[3]!
  for (let i = 4; i < n + 4; i++) {
    const word = (((a + b) | 0) + d) | 0
    d = (d + 1) | 0
    a = b ^ (b >>> 9)
    b = (c + (c << 3)) | 0
    c = (((c << 21) | (c >>> 11)) + word) | 0
    state[i] = word
  }
  state[0] = a
  state[1] = b
  state[2] = c
  state[3] = d
}

/** A word as a number strictly between 0 and 1. */
const fraction = (word: number): number => ((word >>> 0) + 0.5) * 2 ** -32

/** Fills the first `n` values with uniform numbers strictly between 0 and 1 (32 bits). */
export function fillUniform(state: Stream, out: Float64Array, n: number): void {
  for (let from = 0; from < n; from += AHEAD) {
    const count = Math.min(AHEAD, n - from)
    draw(state, count)
    for (let i = 0; i < count; i++) out[from + i] = fraction(state[4 + i]!)
  }
}

/** One uniform number strictly between 0 and 1; leaves the words drawn ahead alone, but for the first. */
export function uniform(state: Stream): number {
  draw(state, 1)
  return fraction(state[4]!)
}

/** Where the tail begins, and the area of a layer: G. Marsaglia, W. W. Tsang, J. Stat. Software 5 (2000) 8, 256 layers. */
const TAIL = 3.6541528853610088
const AREA = 0.00492867323399

interface Layers {
  /** Right edges of the layers, widest first; the last is 0. */
  readonly edge: Float64Array
  /** Edge over 2^31: turns a signed 32-bit word into a point of the layer. */
  readonly scale: Float64Array
  /** exp(-x²/2) at the edges. */
  readonly height: Float64Array
}

function build(): Layers {
  const edge = new Float64Array(257)
  edge[0] = AREA / Math.exp((-TAIL * TAIL) / 2)
  edge[1] = TAIL
  for (let i = 1; i < 255; i++) {
    const x = edge[i]!
    edge[i + 1] = Math.sqrt(-2 * Math.log(AREA / x + Math.exp((-x * x) / 2)))
  }
  const scale = edge.map((x) => x * 2 ** -31)
  const height = edge.map((x) => Math.exp((-x * x) / 2))
  return { edge, scale, height }
}

let layers: Layers | undefined

/** Fills the first `n` values with standard normal deviates: the ziggurat of Marsaglia and Tsang. */
export function fillNormal(state: Stream, out: Float64Array, n: number): void {
  layers ??= build()
  const { edge, scale } = layers
  for (let from = 0; from < n; from += AHEAD) {
    const count = Math.min(AHEAD, n - from)
    draw(state, count)
    for (let i = 0; i < count; i++) {
      const word = state[4 + i]!
      const layer = word & 255
      const x = word * scale[layer]!
      out[from + i] = Math.abs(x) < edge[layer + 1]! ? x : outside(state, layers, layer, x)
    }
  }
}

/** The one draw in a hundred that falls outside the rectangle inside its layer. */
function outside(state: Stream, { edge, scale, height }: Layers, layer: number, x: number): number {
  for (;;) {
    if (layer === 0) return x < 0 ? -tail(state) : tail(state)
    const y = height[layer]! + uniform(state) * (height[layer + 1]! - height[layer]!)
    if (y < Math.exp((-x * x) / 2)) return x
    draw(state, 1)
    const word = state[4]!
    layer = word & 255
    x = word * scale[layer]!
    if (Math.abs(x) < edge[layer + 1]!) return x
  }
}

/** A deviate beyond the last layer (G. Marsaglia, Technometrics 6 (1964) 101). */
function tail(state: Stream): number {
  for (;;) {
    const x = -Math.log(uniform(state)) / TAIL
    if (-2 * Math.log(uniform(state)) >= x * x) return TAIL + x
  }
}
