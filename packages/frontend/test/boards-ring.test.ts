import { type Design, exampleDesign, readDesign, simulateBoards, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { boardsAt } from '../src/boards/board.js'
import { spanOf } from '../src/supply/place.js'
import { drawOf } from '../src/supply/rails.js'
import { onLeads } from './shared.js'

const [wait, pause] = [30e-6, 60e-6]

/** The hot knife on leads and one capacitor, both of its measurements read soon. */
const fedBy = (inductance: string, capacitance: string): Design =>
  onLeads(
    inductance,
    capacitance,
    { frequency: '500 Hz', duty: 0.5 },
    {
      hall: { ...exampleDesign.hall, wait: `${wait} s`, otherTasks: [] },
      divider: { ...exampleDesign.divider, timing: { wait: `${pause} s`, edge: 0 } },
    },
  )

/** Boards whose every part lies at the same share of its spread. */
function boards(given: Design, all: readonly number[]) {
  const design = readDesign(given)
  const walk = walkOf(design, { charges: 2 })
  const place = { charge: 0.5, celsius: 25, age: 0.5 }
  const solved = { place, ...walk.solve(spanOf(place)) }
  const idle = drawOf(design, 'main')
  const [cold] = boardsAt(design, solved, idle, () => Float64Array.from(all), all.length, walk.firmware)
  const { on: late, off: edge } = walk.firmware.edges()!
  return { at: cold!, late, edge, test: solved.test.upper }
}

interface Loop {
  readonly V: number
  readonly R_s: number
  readonly L: number
  readonly C: number
  readonly R_b: number
}

/** Rail so long after the load came, and after it went, from rest on, in small steps of time: lowest and highest from there on. */
function follow({ V, R_s, L, C, R_b }: Loop, afterOn: number, afterOff: number) {
  let [i, v] = [0, V]
  const dt = 2e-9
  const found = [1 / R_b, 0].map((G, k) => {
    let [lowest, highest] = [Number.POSITIVE_INFINITY, 0]
    const from = k === 0 ? afterOn : afterOff
    for (let n = 0; n * dt < 1e-3; n++) {
      if (n * dt >= from) [lowest, highest] = [Math.min(lowest, v), Math.max(highest, v)]
      if (L === 0) i = (V - v) / R_s
      else i += ((V - v - R_s * i) * dt) / L
      v += ((i - G * v) * dt) / C
    }
    return [lowest, highest] as const
  })
  return { on: found[0]!, off: found[1]! }
}

const shares = [0.1, 0.5, 0.9]

describe('the rail of a board as it is read', () => {
  it('rings as that of its own source does', () => {
    const { at, late, edge, test } = boards(fedBy('1.2 uH', '22 uF ±20 %'), shares)
    shares.forEach((share, i) => {
      const [V, R_s, R_b] = [at.rest[i]!, at.R_s[i]!, at.rail[i]! / at.current[i]!]
      const { on, off } = follow({ V, R_s, L: 1.2e-6, C: 22e-6 * (0.8 + 0.4 * share), R_b }, wait - late, pause - edge)
      expect(at.sampled[0][i]).toBeLessThan(on[0])
      expect(at.sampled[1][i]).toBeGreaterThan(on[1])
      expect(on[1]).toBeGreaterThan(at.rail[i]! + 0.05)
      expect(at.measuring[0][i]).toBeLessThan(off[0] - test * R_s)
      expect(at.measuring[1][i]).toBeGreaterThan(off[1] - test * R_s)
      expect(off[1]).toBeGreaterThan(V + 0.05)
    })
  })

  it('is shown by amplifier and filter as far off as they follow its ring, on either side', () => {
    const design = fedBy('1.2 uH', '22 uF ±20 %')
    const filter = 2e-6
    const divider = { ...design.divider, timing: { ...design.divider.timing, filter } } as Design['divider']
    const { gainResistors, amplifier } = exampleDesign.divider
    const [R_f, R_g] = [gainResistors.feedback, gainResistors.ground].map((one) => Number.parseFloat(one))
    const tau_a = (1 + R_f! / R_g!) / (2 * Math.PI * Number.parseFloat(amplifier.gainBandwidth) * 1e6)
    const { at, edge } = boards({ ...design, divider }, shares)
    shares.forEach((share, k) => {
      const [V, R_s, C] = [at.rest[k]!, at.R_s[k]!, 22e-6 * (0.8 + 0.4 * share)]
      let [i, v] = [at.current[k]!, at.rail[k]!]
      let [y, z] = [v, v]
      let [below, above] = [0, 0]
      const dt = 2e-9
      for (let t = 0; t < 2e-4; t += dt) {
        i += ((V - v - R_s * i) * dt) / 1.2e-6
        v += (i * dt) / C
        y += ((v - y) * dt) / tau_a
        z += ((y - z) * dt) / filter
        if (t < pause - edge) continue
        ;[below, above] = [Math.max(below, v - z), Math.max(above, z - v)]
      }
      expect(Math.min(below, above)).toBeGreaterThan(0.02)
      expect(-at.lags[0][k]!).toBeGreaterThan(below / V)
      expect(at.lags[1][k]).toBeGreaterThan(above / V)
      for (const one of [-at.lags[0][k]!, at.lags[1][k]!]) expect(one).toBeLessThan((10 * Math.max(below, above)) / V)
    })
  })

  it('is held up by its own capacitor, of whatever value that is', () => {
    const { at, late, edge, test } = boards(fedBy('0 uH', '1000 uF ±20 %'), shares)
    shares.forEach((share, i) => {
      const [V, R_s, R_b] = [at.rest[i]!, at.R_s[i]!, at.rail[i]! / at.current[i]!]
      const { on, off } = follow({ V, R_s, L: 0, C: 1e-3 * (0.8 + 0.4 * share), R_b }, wait - late, pause - edge)
      expect(at.sampled[1][i]).toBeCloseTo(on[1], 3)
      expect(at.sampled[0][i]).toBeCloseTo(at.rail[i]!, 9)
      // A millisecond is not enough for it to fall all the way.
      expect(at.measuring[0][i]! + test * R_s).toBeLessThan(off[0] + 1e-4)
      expect(at.measuring[0][i]! + test * R_s).toBeGreaterThan(off[0] - 0.03)
    })
  })

  it('brings boards down whose sensor is too low then', () => {
    const share = (inductance: string) => {
      const design = fedBy(inductance, '22 uF ±20 %')
      const sensor = { ...design.hall.sensor, supplyMinimum: '2.75 V' }
      const { rows } = simulateBoards({ ...design, hall: { ...design.hall, sensor } } as Design, { boards: 200 })
      return rows.find(({ id }) => id === 'hall/supply-low')?.fails ?? 0
    }
    expect(share('1.2 uH')).toBeGreaterThan(share('0 uH') + 0.05)
  })
})
