import { describe, expect, it } from 'vitest'
import { checkDecoupling, type DecouplingChoice } from '../src/index.js'

interface Loop {
  readonly V: number
  readonly R_s: number
  readonly L: number
  readonly C: number
  readonly ESR: number
  readonly R_L: number
}

/**
 * Highest rail after a load has gone that was on for long, by Kirchhoff's laws in small steps of time: the source's current goes on
 * through its inductance into the capacitor.
 */
const afterLoad = (loop: Loop): number => highestFrom(loop, loop.V / (loop.R_s + loop.R_L))

/** The same of a source that is plugged onto an empty capacitor. */
const pluggedIn = (loop: Loop): number => highestFrom(loop, 0, 0)

function highestFrom({ V, R_s, L, C, ESR }: Loop, from: number, charged = V - from * R_s): number {
  let [current, stored] = [from, charged]
  let highest = stored
  const step = Math.sqrt(L * C) / 20_000
  for (let n = 0; n < 400_000; n++) {
    const rail = stored + current * ESR
    current += ((V - current * R_s - rail) * step) / L
    stored += (current * step) / C
    highest = Math.max(highest, rail)
  }
  return highest
}

const on = (L: string, C: string, R_L: number, ESR: number): DecouplingChoice => ({
  source: { source: { kind: 'port', voltage: 4.2, currentLimit: 40, leadResistance: 0.08 }, inductance: L },
  load: { resistance: R_L, rise: 0, fall: 0 },
  capacitors: [{ name: 'ceramic', capacitance: C, ratedVoltage: 6.3, seriesResistance: ESR }],
  idle: 0,
  limits: { converter: 1 },
  insertion: { railMaximum: 6 },
})

describe('a load that stays on', () => {
  it.each([
    ['2 uH', '2 uF', 0.5, 0.005],
    ['1 uH', '4.7 uF', 0.3, 0.01],
    ['0.5 uH', '22 uF', 0.7, 0.003],
  ])('goes in the end, and lifts the rail by what is stored in %s with %s', (L, C, R_L, ESR) => {
    const { margins } = checkDecoupling(
      on(L, C, R_L, ESR),
      { ambientCelsius: { from: 25, to: 25 } },
      { simulation: false },
    )
    const told = margins.find(({ id }) => id === 'rail-maximum')!
    const loop = { V: 4.2, R_s: 0.08, L: Number.parseFloat(L) * 1e-6, C: Number.parseFloat(C) * 1e-6, ESR, R_L }
    const highest = afterLoad(loop)
    expect(told.worst).toBeGreaterThan(highest * (1 - 1e-3))
    // What warmth, bias and age leave of the capacitor makes it higher: at most as if a third were left.
    const third = { ...loop, C: loop.C / 3 }
    expect(told.worst).toBeLessThan(Math.max(afterLoad(third), pluggedIn(loop) * 1.5))
    if (R_L === 0.5) expect(highest).toBeGreaterThan(1.3 * pluggedIn(loop))
  })
})
