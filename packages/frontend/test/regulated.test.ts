import { checkDesign, type Design, designChanges, simulateBoards, withChange } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { linesOf } from '../src/command/print.js'
import { once } from '../src/kept/once.js'
import { changesBy, rowHeld } from './shared.js'
import { waxPen } from './wax-pen.js'

const check = (design: Design) => checkDesign(design, { charges: 6 })
const marginOf = (design: Design, id: string) => rowHeld(design, id, 2)

/** The pen with other fields of a regulator. */
const withLogic = (through: object, brownOut = '2.7 V ±3 %'): Design => ({
  ...waxPen,
  controller: { ...waxPen.controller, brownOut },
  rails: [{ ...waxPen.rails[0], through: { ...waxPen.rails[0].through, ...through } }, waxPen.rails[1]],
})

const ceramic = {
  name: 'ceramic',
  capacitance: '2 uF ±20 %',
  ratedVoltage: 25,
  seriesResistance: '4 mohm',
  rippleCurrent: '3 A',
} as const

/** The pen with long wires and hardly a capacitor. */
const bare: Design = {
  ...waxPen,
  supply: { ...waxPen.supply, inductance: '2 uH ±30 %' },
  load: { ...waxPen.load, rise: '0.5 us' },
  decoupling: { capacitors: [ceramic] },
}

/** A regulator that answers late for the controller's brown-out, and what can be done about it: one search for all tests. */
const slow = withLogic({ responseTime: '50 us' })
const slowChanges = once(() => designChanges(slow, { checks: 40, walked: 0 }).changes)

describe('the test current on the regulator of the controller', () => {
  /** Test current at most: the highest rail across reference, switch and lead at their least, and the smallest load, cold. */
  const I = (3.3 * 1.015) / (99.9 + 0.7 + 0.021 + 0.72)

  it('is carried by the output capacitor until the regulator answers: charge is current times time', () => {
    const margin = marginOf(waxPen, 'rails/brown-out-test')!
    // 20 us out of what is left of 4.7 uF, and the drop across 20 mohm.
    const lowest = 3.3 * 0.985 - (I * 20e-6) / (4.7e-6 * 0.5) - I * 0.02
    expect(margin.worst).toBeLessThanOrEqual(lowest + 1e-3)
    expect(margin.worst).toBeGreaterThan(lowest - 0.02 * (3.3 * 0.985 - lowest))
    expect(margin.verdict).toBe('holds')
  })

  it('resets a controller whose regulator answers late, and some boards of it', () => {
    expect(marginOf(slow, 'rails/brown-out-test')!.verdict).toBe('fails')
    // Boards by the same law, each with its own regulator, capacitor and threshold: on a grid of thirds of their limits.
    const n = 40
    let held = 0
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++)
        for (let k = 0; k < n; k++) {
          const share = (m: number) => (2 * (m + 0.5)) / n - 1
          const [V, C, V_bod] = [
            3.3 * (1 + 0.015 * share(i)),
            4.7e-6 * (1 + 0.5 * share(j)),
            2.7 * (1 + 0.03 * share(k)),
          ]
          if (V - (I * 50e-6) / C - I * 0.02 >= V_bod) held++
        }
    const { works } = simulateBoards(slow, { boards: 800 })
    expect(works).toBeCloseTo(held / n ** 3, 1)
    expect(works).toBeLessThan(0.97)
  })

  it('is not sure where nothing is said of the regulator, and says what is missing', () => {
    const { responseTime: _, outputCapacitance: __, ...through } = waxPen.rails[0].through
    const silent: Design = { ...waxPen, rails: [{ ...waxPen.rails[0], through }, waxPen.rails[1]] }
    const answer = check(silent)
    const row = answer.rows.find(({ id }) => id === 'rails/brown-out-test')!
    expect(row.margin.verdict).toBe('not sure')
    expect(row.margin.reason).toMatch(/regulator of logic.*responseTime, outputCapacitance/)
    // What fails does so only below the charge that must be usable.
    expect(answer.verdict).toBe('not sure')
    expect(linesOf(answer).join(' ').replace(/\s+/g, ' ')).toContain(row.margin.reason)
  })

  it('asks nothing of a controller whose rail it does not flow through', () => {
    const apart: Design = { ...waxPen, lives: { ...waxPen.lives, controller: 'five' } }
    expect(marginOf(apart, 'rails/brown-out-test')).toBeUndefined()
  })

  it('pulls a rail behind a resistor lower than the load does, by Ohm’s law', () => {
    const through = { kind: 'resistor', resistance: '5 ohm ±1 %', capacitance: '10 uF' } as const
    const controller = { ...waxPen.controller, brownOut: '2.9 V ±3 %' }
    const filtered: Design = {
      ...waxPen,
      controller,
      rails: [...waxPen.rails, { name: 'clean', source: 'logic', through }],
      lives: { ...waxPen.lives, controller: 'clean', converter: 'clean', amplifier: 'clean' },
    }
    const margin = marginOf(filtered, 'rails/brown-out-test')!
    // The regulator is late for the step, and the resistor drops what controller, amplifier and test take.
    const late = (I * 20e-6) / (4.7e-6 * 0.5) + I * 0.02
    const lowest = 3.3 * 0.985 - late - 5.05 * (0.013 + I)
    expect(margin.worst).toBeCloseTo(lowest, 1)
    expect(margin.worst).toBeLessThan(marginOf(filtered, 'rails/brown-out')!.worst - 0.1)
  })

  it('is mended by a larger capacitor at its output, as printed', () => {
    const larger = slowChanges().find(({ puts }) => 'rails.0.through.outputCapacitance' in puts)!
    expect(larger.mends.map(({ id }) => id)).toEqual(['rails/brown-out-test'])
    expect(check(withChange(slow, larger)).verdict).toBe('holds')
  })
})

/** Rail at its lowest while a load is on, and at its highest with its release, in small steps of time: Kirchhoff alone. */
function stepped(V: number, R: number, L: number, C: number, R_c: number, R_L: number, on: number): [number, number] {
  const dt = 2e-9
  let [i, v, lowest, highest] = [0, V, V, V]
  for (let t = 0; t < on + 60e-6; t += dt) {
    const share = t < on ? Math.min(1, t / 0.5e-6) : Math.max(0, 1 - (t - on) / 0.5e-6)
    const rail = (i + v / R_c) / (share / R_L + 1 / R_c)
    v += ((rail - v) / R_c / C) * dt
    i += ((V - R * i - rail) / L) * dt
    if (t < on) lowest = Math.min(lowest, rail)
    highest = Math.max(highest, rail)
  }
  return [lowest, highest]
}

describe('a regulator on a rail that rings', () => {
  it('takes its output along where the rail dips below it: the brown-out is held there too', () => {
    const margin = marginOf(bare, 'decoupling/rail-brown-out')!
    // Full cells, new, 40 °C: 8.46 V, and what cells and path have then; a heater as warm as the air.
    const R = 2 * 0.015 * 0.936 + 0.03
    const [lowest] = stepped(8.4, R, 2.6e-6, 1.6e-6, 0.004, 0.8 * 1.09 + 0.05, 60e-6)
    expect(margin.worst).toBeLessThan(lowest)
    expect(margin.verdict).toBe('fails')
    // As little as the controller needs, with what the regulator drops at 13 mA: 0.5 V at 200 mA.
    expect(margin.limit).toBeCloseTo(2.7 * 1.03 + (0.5 * 0.013) / 0.2, 9)
    expect(marginOf(waxPen, 'decoupling/rail-brown-out')!.verdict).toBe('holds')
  })

  it('must stand what the rail rises to at insertion and release, whatever else is said of the rail', () => {
    const margin = marginOf(bare, 'decoupling/rail-maximum')!
    // A series circuit plugged onto full cells: its first peak, by its damping.
    const R = 2 * 0.015 * 0.8 * 0.936 + (0.006 + 0.0096 + 0.0048) * (1 + 0.00393 * 20) + 0.004
    const zeta = (R / 2) * Math.sqrt(1.6e-6 / 2.6e-6)
    const peak = 8.46 * (1 + Math.exp((-Math.PI * zeta) / Math.sqrt(1 - zeta ** 2)))
    expect(margin.worst).toBeGreaterThan(peak * 0.995)
    expect(margin.limit).toBe(16)
    expect(margin.verdict).toBe('fails')
    const [, released] = stepped(8.46, R, 2.6e-6, 1.6e-6, 0.004, 0.85, 200e-6)
    expect(marginOf(bare, 'decoupling/PWM/rail-maximum')!.worst).toBeGreaterThan(released * 0.995)
    const told = { ...bare, decoupling: { ...bare.decoupling, insertion: { railMaximum: '12 V' } } }
    expect(marginOf(told, 'decoupling/rail-maximum')!.limit).toBe(12)
  })

  it('is mended by what is printed, and by a regulator that takes more', () => {
    const [, five] = waxPen.rails
    const weakest = (highestInput: string): Design => ({
      ...waxPen,
      rails: [
        ...(withLogic({ highestInput }).rails ?? []).slice(0, 1),
        { ...five, through: { ...five.through, highestInput: '40 V' } },
      ],
      decoupling: { capacitors: [{ ...ceramic, capacitance: '10 uF ±20 %' }] },
    })
    const weak = weakest('12 V')
    const id = 'decoupling/rail-maximum'
    expect(marginOf(weak, id)!.verdict).toBe('fails')
    const [more] = changesBy(weak, ['input-1'], (row) => row === id)
    expect(more!.mends.map((row) => row.id)).toEqual([id])
    expect(marginOf(withChange(weak, more!), id)!.verdict).toBe('holds')
    expect(marginOf(weakest('16 V'), id)!.verdict).toBe('holds')
  })
})

describe('a load that is cold of less than half its resistance', () => {
  it('draws no more in a pulse than the rail at rest gives it: Ohm’s law', () => {
    // Much more capacitance: it holds the rail up in all of the pulse.
    const [bulk, ceramic] = waxPen.decoupling.capacitors
    const capacitors = [{ ...bulk, capacitance: '2000 uF ±20 %', seriesResistance: '10 mohm' }, ceramic]
    const margin = marginOf({ ...waxPen, decoupling: { capacitors } }, 'power/current')!
    // 10 °C, the least heater, cable and switch of any line; full cells at most.
    const most = 8.46 / (0.76 * (1 - 0.045) + 0.024 * 0.96 + 0.2 * 0.008)
    expect(margin.worst).toBeLessThanOrEqual(most)
    expect(margin.worst).toBeGreaterThan(10.4)
  })

  it('has no change that mends a row which holds: a cold load in warm air is at no place', () => {
    const failing = check(slow).rows.filter(({ margin }) => margin.verdict !== 'holds')
    const changes = slowChanges()
    const mended = new Set(changes.flatMap(({ mends }) => mends.map(({ id }) => id)))
    expect([...mended].filter((id) => !failing.some((row) => row.id === id))).toEqual([])
    expect(changes.some(({ verdict }) => verdict === 'holds')).toBe(true)
  })
})
