import { exampleConverters } from '@ohmward/adc'
import { checkDivider, exampleAmplifiers } from '@ohmward/divider'
import { checkHall, exampleSensors } from '@ohmward/hall'
import { checkMosfet, exampleTransistors, type MosfetChoice } from '@ohmward/mosfet'
import { describe, expect, it } from 'vitest'
import { Random } from './tools/random.js'
import { marginOf } from './tools/tally.js'

/*
 * Terms that were missing once, by their numbers in the list of what independent models found: each against arithmetic from circuit laws on
 * boards at random.
 */

const quick = { simulation: false } as const
const random = new Random(20261130)
const within = (nominal: number, percent: number) =>
  random.now(0.5)
    ? nominal * (1 + (random.now(0.5) ? percent : -percent) / 100)
    : nominal * (1 + random.even(-percent, percent) / 100)

const driven = {
  drive: {
    kind: 'pin',
    resistance: '10 ohm',
    sinkResistance: '10 ohm',
    currentMaximum: 1,
    gateResistor: '10 ohm',
    pull: { at: 'gate', resistance: '100 kohm' },
  },
  thermal: { junctionToAmbient: '60 K/W ±10 %' },
  wiring: { inductance: '0.1 uH' },
} as const

const at = (from: number, to: number) => ({
  openCircuit: { from, to },
  sourceResistance: '60 mohm ±20 %',
  ambientCelsius: { from: 0, to: 45 },
})

describe('17. what a filter has not settled yet', () => {
  it.each([0.08, 0.09, 0.1])('is in the error of a current, with a least duty of %d', (from) => {
    // 1 kohm and 1 nF, both at most: 1.02 µs with 1 %. An edge of 1 µs, and 3 µs of sampling at the end of the on-time.
    const a = checkHall(
      {
        sensor: { ...exampleSensors.wideSupplyOneWay, bandwidth: '100 MHz' },
        converter: exampleConverters['12-bit controller converter'],
        current: { from: 0, to: 6 },
        errors: [{ at: 6, allowed: '50 %' }],
        pwm: { frequency: 1e4, duty: { from, to: 0.5 } },
        filter: { resistance: 1000, capacitance: 1e-9 },
        timing: { edge: 1e-6 },
        calibration: { kind: 'zero' },
      },
      { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } },
      quick,
    )
    const left = 6 * Math.exp(-(from / 1e4 - 4e-6) / 1.01e-6)
    expect(left).toBeGreaterThan(0.015)
    expect(marginOf(a, 'error-1')!.worst).toBeGreaterThan(left)
  })
})

describe('20. the loss of a freewheeling diode', () => {
  it.each(Array.from({ length: 12 }, (_, i) => i))(
    'is that of the smallest duty and the largest current, design %d',
    () => {
      const [amperes, volts, least] = [random.even(1, 6), random.even(0.3, 0.9), random.even(0.05, 0.6)]
      const choice = {
        ...driven,
        transistor: exampleTransistors['P-channel, driven from 1.8 V'],
        load: { current: `${amperes} A ±10 %` },
        edges: 'clamped inductive',
        freewheel: { drop: `${volts} V ±20 %`, ratedPower: 5 },
        pwm: { frequency: 2e4, duty: { from: least, to: 0.9 } },
      } as unknown as MosfetChoice
      const { worst } = marginOf(checkMosfet(choice, at(3, 4.2), quick), 'freewheel-power')!
      let found = 0
      for (let board = 0; board < 300; board++) {
        const duty = random.now(0.5) ? least : random.even(least, 0.9)
        found = Math.max(found, (1 - duty) * within(amperes, 10) * within(volts, 20))
      }
      // An edge takes the current from the diode for some of its time at most.
      expect(worst).toBeGreaterThanOrEqual(found * 0.999)
      expect(worst).toBeLessThan(1.05 * (1 - least) * 1.1 * amperes * 1.2 * volts)
    },
  )
})

/** A number with its unit out of a sentence, in SI units. */
function told(text: string, before: string, unit: string): number {
  const [, digits, prefix] = new RegExp(`${before} ([0-9.]+)\\s*([mkµ]?)${unit}\\b`).exec(text)!
  return Number(digits) * ({ m: 1e-3, k: 1e3, µ: 1e-6 }[prefix!] ?? 1)
}

describe('21. a cell the wrong way round', () => {
  it.each(Array.from({ length: 12 }, (_, i) => i))(
    'drives through the body diode what the caution says, design %d',
    () => {
      const [ohms, drop] = [random.even(0.3, 3), random.even(0.6, 1)]
      const choice = {
        ...driven,
        transistor: { ...exampleTransistors['P-channel, driven from 1.8 V'], bodyDiodeDrop: `${drop} V ±20 %` },
        load: { resistance: `${ohms} ohm ±5 %` },
        pwm: { frequency: 1e3, duty: { from: 0.1, to: 0.9 } },
      } as unknown as MosfetChoice
      const { text } = checkMosfet(choice, at(3, 4.2), quick).cautions.find(({ id }) => id === 'reversed-cell')!
      let [amperes, watts] = [0, 0]
      for (let board = 0; board < 300; board++) {
        // Round the loop: what the cell gives less the diode's drop, over all resistance.
        const volts = within(drop, 20)
        const current = ((random.now(0.5) ? 4.2 : random.even(3, 4.2)) - volts) / (within(0.06, 20) + within(ohms, 5))
        amperes = Math.max(amperes, current)
        watts = Math.max(watts, current * volts)
      }
      // Two digits are told.
      expect(told(text, 'drive up to', 'A')).toBeGreaterThanOrEqual(amperes * 0.95)
      expect(told(text, 'dissipate up to', 'W')).toBeGreaterThanOrEqual(watts * 0.95)
    },
  )
})

describe('31. a sensor that is used for a part of its range', () => {
  it('is advised against, and fails only where a least share is asked for', () => {
    const sensor = exampleSensors.wideSupplyOneWay
    const choice = {
      sensor,
      converter: exampleConverters['12-bit controller converter'],
      current: { from: 0, to: 1 },
      errors: [{ at: 1, allowed: '90 %' }],
      filter: { resistance: 330, capacitance: 1e-9 },
      calibration: { kind: 'zero' },
    } as const
    const around = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
    const free = checkHall(choice, around, quick)
    expect(marginOf(free, 'range')).toBeUndefined()
    expect(free.cautions.some(({ text }) => /range|span/.test(text))).toBe(true)
    expect(marginOf(checkHall({ ...choice, leastUse: 0.4 }, around, quick), 'range')!.verdict).toBe('fails')
  })
})

describe('25. a cell that makes contact', () => {
  it.each(Array.from({ length: 8 }, (_, i) => i))('lifts the gate for as long as small steps say, design %d', (i) => {
    // By turns a pull that holds the gate and one that does not.
    const [pull, threshold] = [i % 2 === 0 ? random.decades(1e3, 2e4) : random.decades(2e5, 2e6), random.even(0.5, 1)]
    const transistor = {
      ...exampleTransistors['P-channel, driven from 1.8 V'],
      ...{ thresholdVoltage: threshold, thresholdFall: 0, plateauVoltage: 2 },
      ...{ inputCapacitance: 2e-9, reverseCapacitance: 3e-10 },
    }
    const choice = {
      ...driven,
      transistor,
      drive: {
        ...{ kind: 'inverting transistor', gateResistor: 47, baseResistor: 1000, highLevel: 2.3 },
        pull: { at: 'gate', resistance: pull },
      },
      load: { resistance: 0.7 },
      pwm: { frequency: 1e3, duty: { from: 0.1, to: 0.9 } },
    } as unknown as MosfetChoice
    const { worst, verdict } = marginOf(checkMosfet(choice, at(4.2, 4.2), quick), 'contact-edge')!
    // The cell's voltage comes in 10 µs and lifts the gate through the reverse capacitance; the pull takes it down again.
    const step = 2e-8
    let [gate, over] = [0, 0]
    for (let t = 0; t < 2e-5 || gate > threshold; t += step) {
      gate += (step * ((t < 1e-5 ? (3e-10 * 4.2) / 1e-5 : 0) - gate / pull)) / 2e-9
      if (gate > threshold) over += step
    }
    expect(worst).toBeGreaterThanOrEqual(over)
    if (over === 0) expect({ worst, verdict }).toEqual({ worst: 0, verdict: 'holds' })
  })
})

describe('41. a law that refers to another temperature than 25 °C', () => {
  it.each([65, 0, 100])('leaves what its coefficient may be off by, stated at %d °C', (atCelsius) => {
    const [rest, hot, nominal] = [25, 200, 0.004]
    const a = checkDivider(
      {
        load: { from: '0.1 ohm', to: '3 ohm', nominal: '0.7 ohm' },
        error: '50 %',
        reference: '47 ohm ±0.1 %',
        gainResistors: { feedback: '10 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
        amplifier: exampleAmplifiers.zeroDrift,
        converter: exampleConverters['12-bit controller converter'],
        thermometry: {
          element: { coefficient: `${nominal} 1/K ±5 %`, atCelsius },
          ...{ restCelsius: rest, hotCelsius: hot, error: 100 },
        },
      },
      { rail: { from: 3.6, to: 3.6 }, ambientCelsius: { from: 25, to: 25 } },
      quick,
    )
    let found = 0
    for (const share of [-1, -0.5, 0.5, 1]) {
      const alpha = nominal * (1 + 0.05 * share)
      const ratio = (1 + alpha * (hot - atCelsius)) / (1 + alpha * (rest - atCelsius))
      // What the firmware, which has the nominal coefficient, makes of that ratio.
      const read = atCelsius + (ratio * (1 + nominal * (rest - atCelsius)) - 1) / nominal
      found = Math.max(found, Math.abs(read - hot))
    }
    expect(found).toBeGreaterThan(5)
    expect(marginOf(a, 'temperature')!.worst).toBeGreaterThanOrEqual(found)
  })
})
