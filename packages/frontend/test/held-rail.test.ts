import type { Capacitor } from '@ohmward/decoupling'
import {
  type Design,
  exampleDesigns,
  firstBoard,
  hallAt,
  levelsAt,
  readDesign,
  solveAt,
  walkOf,
} from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'
import { standbyOf } from '../src/answer/standby.js'
import { comb } from './comb.js'
import { changeOf, rowAt } from './shared.js'

const bench = { charge: 1, celsius: 25, age: 0 }
const coldOld = { charge: 0.3, celsius: -10, age: 1 }

/** The comb with what stands before its controller changed. */
const behind = (resistance: string, capacitance: string, more: Partial<Design> = {}): Design => ({
  ...comb,
  rails: [{ name: 'logic', source: 'main', through: { kind: 'resistor', resistance, capacitance } }],
  ...more,
})

describe('a controller behind a resistor with its hold-up capacitor', () => {
  it('what the pin gives the gate comes through that resistor: charge, pull-down, or what is said of it', () => {
    const { main, logic } = levelsAt(comb, bench).rails
    // 14 mA; nothing of the gate with the load off.
    expect(main!.rest.nominal - logic!.rest.nominal).toBeCloseTo(0.014 * 6.8, 9)
    // Of the gate at most 14 nC five thousand times a second, and full cells of 4.2232 V over 47 kohm less 1 %.
    const most = 0.014 * 1.15 + 14e-9 * 5000 + 4.2232 / 46.53e3
    expect(main!.rest.lower - logic!.rest.lower).toBeCloseTo(most * 6.8 * 1.05, 7)
    const told = levelsAt({ ...comb, lives: { ...comb.lives, driveCurrent: '5 mA' } }, bench).rails
    expect(told['main']!.rest.nominal - told['logic']!.rest.nominal).toBeCloseTo(0.019 * 6.8, 9)
  })

  it('so does the base current of a transistor that the pin drives', () => {
    const { gateResistor, pull } = comb.mosfet.drive
    const drive = {
      kind: 'inverting transistor',
      gateResistor,
      pull: { at: 'gate', ...pull, resistance: '1 kohm' },
      baseResistor: '1 kohm',
      highLevel: '2.3 V',
    } as const
    const { main, logic } = levelsAt({ ...comb, mosfet: { ...comb.mosfet, drive } }, bench).rails
    // Its pull-up hangs on the main rail; the base has 0.6 V at the least.
    const most = 0.014 * 1.15 + (4.2232 - 0.6) / 1000
    expect(main!.rest.lower - logic!.rest.lower).toBeCloseTo(most * 6.8 * 1.05, 6)
  })

  it('no code of the divided cells tells how far they are where the converter falls with them: that of the reference does', () => {
    const [stop] = monitorOf(walkOf(readDesign(comb), { charges: 2 }))!.alarms
    expect(stop!.code).toBeNull()
    const share = 220 / 690
    expect(stop!.overReference).toBeCloseTo((3.15 * share) / 1.2, 9)
    // 95 mV below the cells the code even rises as they fall: none of 3.15 V would be seen as less than that of full ones.
    const code = (cells: number) => (cells * share * 4096) / (cells - 0.0952)
    expect(code(3.15)).toBeGreaterThan(code(4.19))
    const through = {
      kind: 'regulator',
      voltage: '2.5 V ±1 %',
      dropoutResistance: '2 ohm',
      currentLimit: '0.3 A',
      quiescentCurrent: '5 uA',
    } as const
    const regulated: Design = { ...comb, rails: [{ name: 'logic', source: 'main', through }] }
    const [held] = monitorOf(walkOf(readDesign(regulated), { charges: 2 }))!.alarms
    expect(held!.code).toBe(Math.ceil((3.15 * share * 4096) / 2.5))
  })

  it('sensor and converter still have the rail at rest when a first pulse is sampled, by small time steps', () => {
    const slow = behind('22 ohm ±1 %', '470 uF ±10 %', {
      pwm: { frequency: '500 Hz', duty: { from: 0.35, to: 0.9 } },
      hall: { ...comb.hall, wait: '600 us' },
    })
    const design = readDesign(slow)
    const solved = solveAt(design, coldOld)
    const { rail } = hallAt(design, solved, walkOf(design, { charges: 2 }).firmware).conditions
    const { openCircuit, resistance } = solved.source
    const { load, switch: on } = solved
    const [V, R_s, R_L] = [openCircuit.upper, resistance.lower, load.upper + on.upper]
    const [C, R, C_h, I_0, step] = [220e-6, 22, 470e-6, 0.014 * 0.85, 1e-7]
    let main = V - I_0 * R_s
    let logic = main - I_0 * R
    for (let t = 0; t < 600e-6; t += step) {
      const into = (V - main) / R_s - main / R_L - (main - logic) / R
      logic += (((main - logic) / R - I_0) * step) / C_h
      main += (into * step) / C
    }
    // It has come down by hardly anything, and stands far above where the load would bring it in the end.
    expect(logic).toBeGreaterThan(solved.rails['logic']!.sag.upper + 0.1)
    expect(rail.to).toBeGreaterThan(logic)
    expect(rail.from).toBeLessThan(solved.rails['logic']!.sag.lower + 1e-9)
  })

  it('a capacitor that does not recover between bursts holds no more than it got back, burst by burst', () => {
    const [R, C] = [22 * 1.05, 2.2 * 0.8]
    const lowest = (pause: number, bursts: number): number => {
      const { main, logic } = levelsAt(behind('22 ohm ±5 %', '2.2 F ±20 %'), coldOld).rails
      const drop = main!.rest.lower - logic!.rest.lower
      const [rest, sag] = [main!.rest.lower - drop, main!.sag.lower - drop]
      let now = rest
      let low = rest
      for (let burst = 0; burst < bursts; burst++) {
        low = sag + (now - sag) * Math.exp(-20 / (R * C))
        now = rest + (low - rest) * Math.exp(-pause / (R * C))
      }
      return low
    }
    const lower = (monitor: Partial<NonNullable<Design['monitor']>>) =>
      levelsAt(
        behind('22 ohm ±5 %', '2.2 F ±20 %', { bursts: { time: '20 s' }, monitor: { ...comb.monitor!, ...monitor } }),
        coldOld,
      ).rails['logic']!.sag.lower
    // The largest resistor and the least capacitor are not the worst of both ways at once: below, by a little.
    expect(lower({})).toBeLessThan(lowest(60, 20))
    expect(lower({})).toBeGreaterThan(lowest(60, 20) - 0.03)
    expect(lowest(60, 20)).toBeLessThan(lowest(60, 1) - 0.03)
    // Where no pause is told, they may follow each other at once.
    const { lacking: _, pause: __, ...monitor } = comb.monitor!
    const unsaid = behind('22 ohm ±5 %', '2.2 F ±20 %', {
      bursts: { time: '20 s' },
      monitor: { ...monitor, reads: 'under load' },
    })
    expect(levelsAt(unsaid, coldOld).rails['logic']!.sag.lower).toBeLessThan(lowest(0, 100) + 1e-6)
  })

  it('what rings on the main rail as the load comes reaches the controller through the resistor, by small time steps', () => {
    const [capacitor] = comb.decoupling.capacitors as [Capacitor]
    const ringing = behind('2.2 ohm ±5 %', '4.7 uF ±20 %', {
      supply: { ...comb.supply, inductance: '0.5 uH ±30 %' },
      load: { ...comb.load, rise: '0.2 us' },
      decoupling: {
        capacitors: [{ ...capacitor, name: 'ceramic', capacitance: '22 uF ±10 %', seriesResistance: '3 mohm' }],
      },
    })
    const place = { charge: 0.3, celsius: 45, age: 0 }
    const walk = walkOf(readDesign(ringing), { charges: 2 })
    const worst = rowAt(walk, place, 'decoupling/logic-brown-out')!.worst
    const { openCircuit, sourceResistance, load, behindBoard, switch: on, rails } = levelsAt(ringing, place)
    const [V, R_s, R_L] = [openCircuit.lower, sourceResistance.lower, load.lower + behindBoard.lower + on.lower]
    const [L, C, ESR, R, C_h, I_0, step] = [0.65e-6, 19.8e-6, 3e-3, 2.2, 4.7e-6 * 0.8, 0.014 * 1.15, 2e-9]
    let [current, stored] = [I_0, V - I_0 * R_s]
    let logic = stored - I_0 * R
    let low = logic
    for (let t = 0; t < 40e-6; t += step) {
      const conductance = Math.min(1, t / 0.2e-6) / R_L
      const main = (current + stored / ESR + logic / R) / (1 / ESR + conductance + 1 / R)
      current += ((V - current * R_s - main) * step) / L
      stored += (((main - stored) / ESR) * step) / C
      logic += (((main - logic) / R - I_0) * step) / C_h
      low = Math.min(low, logic)
    }
    expect(low).toBeLessThan(rails['logic']!.sag.lower - 0.05)
    expect(worst).toBeLessThan(low + 1e-3)
    expect(worst).toBeGreaterThan(low - 0.1)
  })

  it('is offered a smaller resistor where the design has it, which mends as printed', () => {
    const controller = { ...comb.controller, brownOut: '2.5 V ±3 %' }
    const high = behind('15 ohm ±5 %', '220 uF ±20 %', { controller })
    const isAsked = (id: string) => id.includes('brown-out') && !id.includes('clock')
    const smaller = changeOf(high, 'decoupling/less-isolation', isAsked)!
    const [[path, value]] = Object.entries(smaller.puts) as [[string, string]]
    expect(path).toBe('rails.0.through.resistance')
    expect(smaller.mends.map(({ id }) => id)).toContain('decoupling/logic-brown-out')
    const { place, worst } = { place: { charge: 0.15, celsius: -10, age: 1 }, worst: 2.5 * 1.03 }
    const lowest = (resistance: string) =>
      levelsAt(behind(resistance, '220 uF ±20 %', { controller }), place).rails['logic']!.sag.lower
    expect(lowest('15 ohm ±5 %')).toBeLessThan(worst)
    expect(lowest(value)).toBeGreaterThan(worst)
  })

  it('a capacitor that outlasts a burst is held by what it has left, not by where the rail would end', () => {
    const walk = walkOf(readDesign(behind('22 ohm ±5 %', '2.2 F ±20 %', { bursts: { time: '20 s' } })), { charges: 2 })
    expect(rowAt(walk, coldOld, 'decoupling/steady-sag-logic')).toBeUndefined()
    const { rails } = walk.over({
      charge: { from: 0.3, to: 0.3 },
      celsius: { from: -10, to: -10 },
      age: { from: 1, to: 1 },
    }).solved
    expect(rowAt(walk, coldOld, 'rails/brown-out')!.worst).toBeCloseTo(rails['logic']!.sag.lower, 9)
  })

  it('the divider in the drawer draws what full cells drive through it, at the least as well', () => {
    const design = readDesign(comb)
    const { drains } = standbyOf(design, null)!
    const { lower, nominal, upper } = drains.find(({ name }) => name === 'divider of the monitor')!.current
    expect(nominal).toBeCloseTo(4.1932 / 690e3, 12)
    expect(lower).toBeCloseTo((4.1932 - 0.03) / (690e3 * 1.01), 12)
    expect(upper).toBeCloseTo((4.1932 + 0.03) / (690e3 * 0.99), 12)
  })
})

describe('the list for the first board, load on', () => {
  const find = (design: Design, point: string) =>
    firstBoard(design).find((one) => one.point === point && one.state.startsWith('load on'))!

  it('has the gate of a pin at its own rail as that settles, and no board of good parts beyond the limits', () => {
    const gate = find(comb, 'gate to source of the switch')
    const logic = find(comb, 'rail logic to ground')
    // 47 kohm to ground behind 22 and 25 ohm.
    const share = 47e3 / (47e3 + 47)
    expect(gate.expected).toBeCloseTo(logic.expected * share, 6)
    expect(gate.upper).toBeLessThan(logic.upper)
    expect(gate.lower).toBeLessThan(logic.lower)
    expect(gate.lower).toBeGreaterThan(logic.lower - 0.01)
  })

  it('has the gate that the main rail drives from the lowest of its sources to the highest', () => {
    const mat = exampleDesigns.mat
    const gate = find(mat, 'gate to source of the switch')
    const rail = find(mat, 'rail main to ground')
    const { gateResistor: _, ...drive } = mat.mosfet.drive as { gateResistor: string; saturation?: string }
    expect(drive.saturation).toBeUndefined()
    // What the divider of pull-up and gate resistor leaves of the rail less 0.1 to 0.3 V: the same of all of them, nearly.
    const share = gate.expected / (rail.expected - 0.2)
    expect(gate.lower).toBeCloseTo((rail.lower - 0.3) * share, 1)
    expect(gate.upper).toBeCloseTo((rail.upper - 0.1) * share, 1)
    expect(share).toBeGreaterThan(0.9)
    expect(share).toBeLessThan(1)
  })

  it('has a rail that a large capacitor still holds up where it comes to in the end', () => {
    const large = behind('22 ohm ±5 %', '2.2 F ±20 %', { bursts: { time: '20 s' } })
    const { main, logic } = levelsAt(large, bench).rails
    const point = find(large, 'rail logic to ground')
    expect(point.expected).toBeCloseTo(main!.sag.nominal - 0.014 * 22, 6)
    expect(point.upper).toBeCloseTo(logic!.sag.upper, 9)
    expect(point.lower).toBeLessThan(main!.sag.lower - 0.014 * 1.15 * 22 * 1.05)
  })
})
