import { type Design, exampleDesign, type Place, readDesign, walkOf } from '@ohmward/frontend'
import type { Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { boardsAt } from '../src/boards/board.js'
import { spanOf } from '../src/supply/place.js'
import { drawOf } from '../src/supply/rails.js'
import { boardByNodes } from './nodes.js'

/* Supply and load of boards whose every part lies at the same share of its spread, against Ohm's law and node equations. */

const shares = [0.1, 0.5, 0.9]
const place: Place = { charge: 0.5, celsius: 25, age: 0.5 }

const within = ({ lower, upper }: Pick<Spread, 'lower' | 'upper'>, share: number) => lower + share * (upper - lower)

function boards(given: Design) {
  const design = readDesign(given)
  const walk = walkOf(design, { charges: 2 })
  const solved = { place, ...walk.solve(spanOf(place)) }
  const count = shares.length
  const all = boardsAt(design, solved, drawOf(design, 'main'), () => Float64Array.from(shares), count, walk.firmware)
  return { design, solved, all, edges: walk.firmware.edges()! }
}

/** Always on, without a monitor. */
const { monitor: _, bursts: __, ...bare } = exampleDesign
const { insertion: ___, ...decoupling } = exampleDesign.decoupling
const steady: Design = {
  ...bare,
  supply: { ...exampleDesign.supply, inductance: 0 },
  decoupling,
  pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
  hall: { ...exampleDesign.hall, otherTasks: [] },
  controller: { ...exampleDesign.controller, current: '30 mA ±50 %' },
}

const port = (more: object, load: object = {}): Design => {
  const { board: ____, ...own } = steady
  return {
    ...own,
    supply: { source: { kind: 'port', voltage: '4 V ±2 %', leadResistance: '50 mohm ±20 %', ...more } },
    load: { ...exampleDesign.load, ...load },
  } as Design
}

describe('boards on a cell', () => {
  it('have its rail at rest and under load, and its current, as node equations say', () => {
    const { design, solved, all } = boards(steady)
    shares.forEach((share, i) => {
      const { U, rest, current } = boardByNodes(design, place, solved.switch, (limits) => within(limits, share))
      expect(all[0]!.rail[i]).toBeCloseTo(U, 9)
      expect(all[0]!.rest[i]).toBeCloseTo(rest, 9)
      expect(all[0]!.current[i]).toBeCloseTo(current, 9)
      // It is sampled where it stands, since nothing pulses it; the test current takes of the source while the resistance is read.
      for (const end of all[0]!.sampled) expect(end[i]).toBeCloseTo(U, 9)
      for (const end of all[0]!.measuring) expect(end[i]).toBeCloseTo(rest - solved.test.upper * all[0]!.R_s[i]!, 9)
      for (const end of all[0]!.lags) expect(Math.abs(end[i]!)).toBe(0)
    })
    expect(all[0]!.celsiusOf('wiring and copper')).toBeUndefined()
  })
})

describe('boards on a port', () => {
  const loop = (share: number, own: number, on: Spread) => {
    const [V, R_s] = [within({ lower: 3.92, upper: 4.08 }, share), within({ lower: 0.04, upper: 0.06 }, share)]
    const idle = within({ lower: 0.015, upper: 0.045 }, share)
    return { V: V - idle * R_s, R_s, idle, R: own + 0.001 * share + within(on, share) }
  }

  it('have no more current than its limit leaves beside what is always on', () => {
    const { solved, all } = boards(port({ currentLimit: '5.3 A ±4 %' }))
    const limited = shares.map((share, i) => {
      const { V, R_s, idle, R } = loop(share, within({ lower: 0.665, upper: 0.735 }, share), solved.switch)
      const most = within({ lower: 5.3 * 0.96, upper: 5.3 * 1.04 }, share) - idle
      const current = Math.min(V / (R_s + R), most)
      expect(all[0]!.current[i]).toBeCloseTo(current, 9)
      expect(all[0]!.rail[i]).toBeCloseTo(current * R, 9)
      expect(all[0]!.rest[i]).toBeCloseTo(V, 9)
      return most < V / (R_s + R)
    })
    // One is held by the limit, another is not.
    expect(new Set(limited).size).toBe(2)
  })

  it('have their load cold and at work where its resistance goes with the temperature', () => {
    for (const [coefficient, least, most] of [
      ['4000 ppm/K', 0.004, 0.004],
      ['1000 ppm/K ±100 %', 0, 0.002],
      ['-1000 ppm/K ±100 %', -0.002, 0],
    ] as const) {
      const { solved, all } = boards(
        port({ currentLimit: '20 A' }, { temperatureCoefficient: coefficient, workingCelsius: 120 }),
      )
      expect(all).toHaveLength(2)
      for (const [end, celsius] of [25, 120].entries())
        shares.forEach((share, i) => {
          const own = within(
            { lower: 0.665 * (1 + least * (celsius - 20)), upper: 0.735 * (1 + most * (celsius - 20)) },
            share,
          )
          const { V, R_s, R } = loop(share, own, solved.switch)
          expect(all[end]!.current[i]).toBeCloseTo(V / (R_s + R), 6)
        })
    }
    expect(boards(port({ currentLimit: '20 A' })).all).toHaveLength(1)
  })
})

describe('boards whose path the load warms', () => {
  const element = (name: string, more: object = {}) => ({
    ...{ name, resistance: '10 mohm ±50 %', thermalResistance: 60, highestCelsius: 300, ...more },
  })
  const warm = (path: readonly object[], more: Partial<Design> = {}): Design =>
    ({ ...steady, ...more, supply: { ...steady.supply, path } }) as Design
  const copper = (celsius: number) => 1 + 0.00393 * (celsius - 20)

  it('are there cold and warm: each element as its own mean square makes it, with what is always on up to the board', () => {
    // A capacitor that is nothing, and pulses that are 64 % of a second.
    const { design, solved, all, edges } = boards(
      warm([element('fuse'), { name: 'board', resistance: 0, tap: 'board' }, element('plug')], {
        pwm: { frequency: '1 Hz', duty: { from: 0.64, to: 0.64 } },
        decoupling: { capacitors: [{ capacitance: '1 nF', ratedVoltage: 6.3, seriesResistance: 0 }] },
      }),
    )
    expect(all).toHaveLength(2)
    const [cold, hot] = all
    shares.forEach((share, i) => {
      const R_el = within({ lower: 0.005, upper: 0.015 }, share)
      const idle = within({ lower: 0.015, upper: 0.045 }, share)
      // Of the cell and of the load, what is left when the path is taken off: the cold one has it at 25 degC.
      const [R_cell, R_load] = [cold!.R_s[i]! - R_el * copper(25), cold!.R_L[i]! - R_el * copper(25)]
      const V = cold!.rest[i]! + idle * cold!.R_s[i]!
      const R_on = within(solved.switch, share)
      let [fuse, plug, current] = [25, 25, 0]
      for (let turn = 0; turn < 60; turn++) {
        const R_s = R_cell + R_el * copper(fuse)
        current = (V - idle * R_s) / (R_s + R_load + R_el * copper(plug) + R_on)
        const rms = Math.sqrt(0.64 + edges.off) * current
        fuse = 25 + 60 * (rms + idle) ** 2 * R_el * copper(fuse)
        plug = 25 + 60 * rms ** 2 * R_el * copper(plug)
      }
      expect(fuse).toBeGreaterThan(30)
      expect(hot!.current[i]).toBeCloseTo(current, 5)
      expect(hot!.celsiusOf('fuse')![i]).toBeCloseTo(fuse, 2)
      expect(hot!.celsiusOf('plug')![i]).toBeCloseTo(plug, 2)
      expect(cold!.celsiusOf('fuse')).toBeUndefined()
      expect(hot!.celsiusOf('board')).toBeUndefined()
    })
    expect(design.supply.path).toHaveLength(3)
  })

  it('are there twice wherever the warm element lies, and with a load that goes with the temperature four times', () => {
    const tap = { name: 'board', resistance: '1 mohm', tap: 'board' }
    const still = { name: 'plug', resistance: '10 mohm' }
    const load = { ...exampleDesign.load, temperatureCoefficient: '1000 ppm/K', workingCelsius: 120 } as const
    expect(boards(warm([element('fuse'), tap, still])).all).toHaveLength(2)
    expect(boards(warm([tap, element('plug')])).all).toHaveLength(2)
    expect(boards(warm([tap, still])).all).toHaveLength(1)
    const four = boards(warm([element('fuse'), tap], { load })).all
    expect(four.map(({ celsiusOf }) => celsiusOf('fuse') !== undefined)).toEqual([false, false, true, true])
    // A cold load warms the path more than one at work.
    expect(four[2]!.celsiusOf('fuse')![1]).toBeGreaterThan(four[3]!.celsiusOf('fuse')![1]! + 1)
  })

  it('have what lies behind the board warmer by what the capacitors give as well, and nothing before it', () => {
    const tap = { name: 'board', resistance: '50 mohm', tap: 'board' }
    const heated = (capacitance: string) => {
      const { all, edges } = boards(
        warm([element('fuse'), tap, element('plug')], {
          pwm: { frequency: '10 kHz', duty: { from: 0.5, to: 0.5 } },
          decoupling: { capacitors: [{ capacitance, ratedVoltage: 6.3, seriesResistance: '1 mohm' }] },
        }),
      )
      const { R_s, R_L, celsiusOf } = all.at(-1)!
      const rise = (name: string) => celsiusOf(name)![1]! - 25
      const share = R_s[1]! / (R_s[1]! + R_L[1]!)
      // It is off late, by a part of a period of 0.1 ms.
      return { fuse: rise('fuse'), plug: rise('plug'), share: share * (0.5 - edges.off / 1e-4) }
    }
    const [none, large] = [heated('1 nF'), heated('20 mF')]
    expect(large.fuse).toBeCloseTo(none.fuse, 3)
    // A rail that stands still: the source feels the mean of the current, and not its share of the pauses.
    const still = 1 / (1 - large.share) ** 2
    expect(large.plug / none.plug).toBeGreaterThan(1 + 0.9 * (still - 1))
    expect(large.plug / none.plug).toBeLessThan(1 + 1.2 * (still - 1))
  })
})

describe('boards whose resistance is read while the rail comes back', () => {
  const filter = 15e-6
  const read = (capacitance: string, wait: string, more: Partial<Design> = {}): Design => ({
    ...steady,
    ...more,
    pwm: { frequency: '100 Hz', duty: { from: 0.5, to: 0.5 } },
    supply: more.supply ?? steady.supply,
    divider: { ...exampleDesign.divider, timing: { ...exampleDesign.divider.timing, wait, filter } },
    decoupling: { capacitors: [{ capacitance, ratedVoltage: 6.3, seriesResistance: 0 }] },
    load: { ...exampleDesign.load, rise: 0 },
  })
  const { gainResistors, amplifier } = exampleDesign.divider
  const [R_f, R_g] = [gainResistors.feedback, gainResistors.ground].map((one) => Number.parseFloat(one))
  // Noise gain over 2 pi times the least gain-bandwidth product.
  const tau_a = (1 + R_f! / R_g!) / (2 * Math.PI * Number.parseFloat(amplifier.gainBandwidth) * 1e6)

  /** Rail and output of amplifier and filter after a time, as shares of the drop that are left, in small steps. */
  const follow = (tau: number, time: number) => {
    let [rail, y, z] = [1, 1, 1]
    const dt = 1e-8
    for (let t = 0; t < time; t += dt) {
      rail -= (rail * dt) / tau
      y += ((rail - y) * dt) / tau_a
      z += ((y - z) * dt) / filter
    }
    return { rail, behind: z - rail }
  }

  it('have it lower by what is left of their own drop, and show it behind that by no less than small steps of time', () => {
    for (const [capacitance, farads] of [
      ['1 mF', 1e-3],
      ['3 mF', 3e-3],
    ] as const) {
      const { solved, all, edges } = boards(read(capacitance, '0.15 ms'))
      const [{ rest, rail, R_s, measuring, lags }] = all as [(typeof all)[number]]
      shares.forEach((_, i) => {
        const left = follow(farads * R_s[i]!, 1.5e-4 - edges.off)
        const sag = rest[i]! - rail[i]!
        const still = rest[i]! - solved.test.upper * R_s[i]!
        expect(measuring[0][i]).toBeCloseTo(still - left.rail * sag, 3)
        expect(measuring[1][i]).toBeCloseTo(still, 9)
        const shown = (left.behind * sag) / measuring[0][i]!
        expect(shown).toBeGreaterThan(1e-4)
        expect(lags[0][i]).toBeLessThan(-shown)
        expect(lags[0][i]).toBeGreaterThan(-5 * shown - 1e-3)
        expect(lags[1][i]! + 0).toBe(0)
      })
    }
  })

  it('come back through a source that holds its current no faster than it lets them', () => {
    const source = { kind: 'port', voltage: '4 V', leadResistance: '20 mohm' }
    const at = (currentLimit: string) => {
      const { board: ____, ...own } = read('2 mF', '0.8 ms', {
        supply: { source: { ...source, currentLimit } } as Design['supply'],
      })
      const { solved, all, edges } = boards(own as Design)
      const [{ rest, rail, R_s, measuring, current, lags }] = all as [(typeof all)[number]]
      return shares.map((_, i) => {
        // Charge by the source's current, which is the limit's until the resistance lets less through.
        let u = rail[i]!
        const limit = Number.parseFloat(currentLimit) - (rest[i]! < 4 ? (4 - rest[i]!) / R_s[i]! : 0)
        for (let t = 0; t < 8e-4 - edges.off; t += 1e-7) u += (Math.min(limit, (rest[i]! - u) / R_s[i]!) * 1e-7) / 2e-3
        return { u: u - solved.test.upper * R_s[i]!, told: measuring[0][i]!, current: current[i]!, lag: lags[0][i]! }
      })
    }
    for (const one of at('5 A')) expect(one.told).toBeLessThan(one.u + 1e-6)
    for (const one of at('400 A')) expect(one.told).toBeCloseTo(one.u, 3)
  })

  it('are shown behind a rail that such a source lifts straight, by no less than small steps of time', () => {
    const source = { kind: 'port', voltage: '4 V', leadResistance: '20 mohm', currentLimit: '5 A' }
    const { board: ____, ...own } = read('20 mF', '0.8 ms', { supply: { source } as Design['supply'] })
    const { all, edges } = boards(own as Design)
    const [{ rest, rail, R_s, measuring, lags }] = all as [(typeof all)[number]]
    shares.forEach((_, i) => {
      let [u, y, z] = [rail[i]!, rail[i]!, rail[i]!]
      const limit = 5 - (4 - rest[i]!) / R_s[i]!
      const dt = 1e-8
      for (let t = 0; t < 8e-4 - edges.off; t += dt) {
        u += (Math.min(limit, (rest[i]! - u) / R_s[i]!) * dt) / 20e-3
        y += ((u - y) * dt) / tau_a
        z += ((y - z) * dt) / filter
      }
      expect((u - z) / u).toBeGreaterThan(0.001)
      expect(-lags[0][i]!).toBeGreaterThan((u - z) / measuring[1][i]!)
    })
  })
})
