import type { Capacitor } from '@ohmward/decoupling'
import { type Design, levelsAt, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { comb } from './comb.js'
import { rowAt } from './shared.js'

const place = { charge: 0.3, celsius: 45, age: 0 }

/** A small capacitor on long leads, and a load that comes at once. */
const ringing = (rails: Design['rails'], more: Partial<Design> = {}): Design => {
  const [capacitor] = comb.decoupling.capacitors as [Capacitor]
  return {
    ...comb,
    rails,
    supply: { ...comb.supply, inductance: '0.5 uH ±30 %' },
    load: { ...comb.load, rise: '0.2 us' },
    decoupling: {
      capacitors: [{ ...capacitor, name: 'ceramic', capacitance: '22 uF ±10 %', seriesResistance: '3 mohm' }],
    },
    ...more,
  }
}

/** How the main rail feeds a capacitor: the current from one to the other, A. */
type Way = (main: number, held: number) => number

/** What a board of the worst parts has: current from the held rail, A, and its capacitor, F. */
interface Board {
  readonly way: Way
  readonly draw: number
  readonly farads: number
}

/**
 * Lowest of a held rail from when the load comes on, pulse by pulse: main rail and held rail as nodes, the source's current through its
 * inductance, in steps of two nanoseconds.
 */
function lowestOf(design: Design, { way, draw, farads }: Board, pulses: number): number {
  const { openCircuit, sourceResistance, load, behindBoard, switch: on } = levelsAt(design, place)
  const [V, R_s, R_L] = [openCircuit.lower, sourceResistance.lower, load.lower + behindBoard.lower + on.lower]
  const [L, C, ESR, step] = [0.65e-6, 19.8e-6, 3e-3, 2e-9]
  const { frequency, duty } = readDesign(design).pwm
  let [current, stored] = [draw, V - draw * R_s]
  let main = stored
  // At rest only what is drawn flows.
  let held = stored
  for (let n = 0; n < 60; n++) held += (way(stored, held) - draw > 0 ? 1 : -1) * 0.5 ** n
  let low = held
  const follow = (time: number, isOn: boolean) => {
    for (let t = 0; t < time; t += step) {
      const conductance = isOn ? Math.min(1, t / 0.2e-6) / R_L : 0
      const fed = way(main, held)
      main = (current + stored / ESR - fed) / (1 / ESR + conductance)
      current += ((V - current * R_s - main) * step) / L
      stored += (((main - stored) / ESR) * step) / C
      held += ((fed - draw) * step) / farads
      low = Math.min(low, held)
    }
  }
  for (let pulse = 0; pulse < pulses; pulse++) {
    follow(duty.to / frequency, true)
    follow((1 - duty.to) / frequency, false)
  }
  return low
}

const diode = (capacitance: string) =>
  ({
    kind: 'diode',
    forwardVoltage: '0.3 V ±0.05 V',
    forwardAt: '10 mA',
    emission: 1.2,
    drift: '1.5 mV/K',
    capacitance,
  }) as const

/** By the diode's law, its drop at 10 mA and 25 degC at most, at the temperature of the place; ten ohms beyond an ampere keep it in step. */
const throughDiode: Way = (main, held) => {
  const V_T = (1.380649e-23 * (273.15 + place.celsius)) / 1.602176634e-19
  const over = main - held - (0.35 - 1.5e-3 * (place.celsius - 25))
  return Math.min(0.5, 0.01 * Math.exp(Math.min(8, over / (1.2 * V_T))))
}

const regulator = {
  kind: 'regulator',
  voltage: '2.5 V ±1 %',
  dropoutResistance: '4 ohm ±50 %',
  currentLimit: '0.3 A',
  quiescentCurrent: '5 uA',
} as const

/** The controller with the gate that its pin drives, at most, A. */
const draw = 0.014 * 1.15 + 14e-9 * 5000 + 4.2232 / 46.53e3

const worstOf = (design: Design, ids: readonly string[]): number => {
  const walk = walkOf(readDesign(design), { charges: 2 })
  return Math.min(...ids.map((id) => rowAt(walk, place, id)?.worst ?? Number.POSITIVE_INFINITY))
}

describe('what rings on the main rail as the load comes reaches a controller behind', () => {
  it.each([['1 uF ±20 %'], ['4.7 uF ±20 %'], ['22 uF ±20 %']])(
    'a diode with %s, by small time steps',
    (capacitance) => {
      const design = ringing([{ name: 'logic', source: 'main', through: diode(capacitance) }])
      const farads = 0.8e-6 * Number.parseFloat(capacitance)
      const low = lowestOf(design, { way: throughDiode, draw: draw + 10e-6, farads }, 5)
      const worst = worstOf(design, ['rails/brown-out'])
      expect(worst).toBeLessThan(low + 1e-3)
      // What it carries alone while the main rail is below where it comes to: a whole swing of all of the capacitors, at most.
      const swing = 2 * Math.PI * Math.sqrt(0.65e-6 * 24.2e-6)
      expect(worst).toBeGreaterThan(low - 0.2 - (draw * swing) / farads)
    },
  )

  it.each([
    ['2.2 ohm ±5 %', '4.7 uF ±20 %'],
    ['2.2 ohm ±5 %', '1.5 uF ±20 %'],
  ])('a regulator behind %s with %s, by small time steps', (resistance, capacitance) => {
    const design = ringing([
      { name: 'filtered', source: 'main', through: { kind: 'resistor', resistance, capacitance } },
      { name: 'logic', source: 'filtered', through: regulator },
    ])
    const farads = 0.8e-6 * Number.parseFloat(capacitance)
    const ohms = 1.05 * Number.parseFloat(resistance)
    const low = lowestOf(design, { way: (main, held) => (main - held) / ohms, draw: draw + 5e-6, farads }, 5)
    const ids = ['decoupling/logic-brown-out', 'decoupling/PWM/logic-brown-out']
    // What the row holds is the input of the regulator, against what that needs.
    expect(worstOf(design, ids)).toBeLessThan(low + 1e-3)
    expect(worstOf(design, ids)).toBeGreaterThan(low - 0.15)
    const { limit } = rowAt(walkOf(readDesign(design), { charges: 2 }), place, ids[0]!)!
    const { brownOut } = readDesign(design).controller
    expect(limit).toBeCloseTo(brownOut.upper + draw * 6, 3)
  })
})
