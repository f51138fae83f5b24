import { exampleConverters } from '@ohmward/adc'
import { checkDivider, exampleAmplifiers } from '@ohmward/divider'
import { checkHall, exampleSensors } from '@ohmward/hall'
import { checkMosfet, exampleTransistors, type MosfetChoice } from '@ohmward/mosfet'
import { describe, expect, it } from 'vitest'
import { marginOf } from './tools/tally.js'

/*
 * More terms that were missing once, by their numbers in the list of what independent models found: what each adds to the worst
 * error, against the slope of the reading from circuit laws.
 */

const quick = { simulation: false } as const
const [rail, reference, load] = [3.6, 47, 0.7]

/** Worst error of the nominal load with more in the choice, ohm. */
function worst(more: object = {}, amplifier: object = {}, converter: object = {}): number {
  const choice = {
    load: { from: '0.5 ohm', to: '1.2 ohm', nominal: `${load} ohm` },
    error: '50 %',
    reference: `${reference} ohm ±0.1 %`,
    gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
    amplifier: { ...exampleAmplifiers.zeroDrift, commonModeRejectionDb: 80, ...amplifier },
    converter: { ...exampleConverters['12-bit controller converter'], ...converter },
    ...more,
  } as const
  const around = { rail: { from: rail, to: rail }, ambientCelsius: { from: 25, to: 25 } }
  return marginOf(checkDivider(choice, around, quick), 'error-nominal')!.worst
}

/** Ohms that a volt at the amplifier's input reads as: the share r of the loop's voltage is shown as R_ref r / (1 - r). */
const share = load / (reference + load)
const ohmsPerVolt = reference / (rail * (1 - share) ** 2)
const before = worst()

/** Worst cases add up, but for a few per cent of one in the other. */
const adds = (after: number, ohms: number) => {
  expect(after - before).toBeGreaterThan(0.97 * ohms)
  expect(after - before).toBeLessThan(1.05 * ohms)
}

describe('13. the common mode at which an offset is specified', () => {
  it.each([1, 2.5, 5])('counts by its distance from that of the reading, at %d V', (volts) => {
    const here = worst({}, { offsetCommonMode: `${rail * share} V` })
    const there = worst({}, { offsetCommonMode: `${volts} V` })
    const ohms = (volts - rail * share) * 10 ** (-80 / 20) * ohmsPerVolt
    expect(there - here).toBeGreaterThan(0.97 * ohms)
    expect(there - here).toBeLessThan(1.05 * ohms)
  })
})

describe('18. ageing', () => {
  it('of the reference resistor is a share of the reading', () =>
    adds(worst({ referencePart: { ageing: '1 %' } }), 0.01 * load))

  it('of the ratio is a share of what the feedback adds to the gain', () =>
    adds(
      worst({ gainResistors: { feedback: '22 kohm ±0.1 %', ground: '1 kohm ±0.1 %', ratioAgeing: '1 %' } }),
      (0.01 * load * 22) / 23,
    ))

  it('of the offset is a voltage at the input', () => adds(worst({}, { offsetAgeing: '1 mV' }), 1e-3 * ohmsPerVolt))

  it('of a sensor is a share of the current, and of its zero a voltage over the sensitivity', () => {
    const { wideSupplyOneWay: sensor } = exampleSensors
    const at = (more: object) => {
      const choice = {
        sensor: { ...sensor, ...more },
        converter: exampleConverters['12-bit controller converter'],
        current: { from: 0, to: 6 },
        errors: [{ at: 5, allowed: '90 %' }],
        filter: { resistance: 330, capacitance: 1e-9 },
        calibration: { kind: 'none' },
      } as const
      const around = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
      return marginOf(checkHall(choice, around, quick), 'error-1')!.worst
    }
    const new_ = at({})
    expect(at({ sensitivityAgeing: '2 %' }) - new_).toBeGreaterThan(0.97 * 0.02 * 5)
    expect(at({ sensitivityAgeing: '2 %' }) - new_).toBeLessThan(1.05 * 0.02 * 5)
    // 200 mV/A.
    expect(at({ zeroAgeing: '10 mV' }) - new_).toBeGreaterThan(0.97 * 0.05)
    expect(at({ zeroAgeing: '10 mV' }) - new_).toBeLessThan(1.05 * 0.05)
  })
})

describe('22. errors that a sheet states and no field is for', () => {
  it('as a voltage at the input', () =>
    adds(worst({ further: [{ name: 'strain', voltage: 1e-3 }] }), 1e-3 * ohmsPerVolt))

  it('as a share of the output', () => adds(worst({ further: [{ name: 'strain', share: 0.01 }] }), 0.01 * load))

  it('as a current through the series resistor of the input', () =>
    adds(
      worst({ further: [{ name: 'humidity', current: 1e-6 }], surroundings: { protectionResistance: '1 kohm' } }),
      1e-3 * ohmsPerVolt,
    ))
})

describe('24. one reference for excitation and converter', () => {
  const reads = (tolerance: number, excitation: string) =>
    worst({ excitation }, {}, { reference: { kind: 'absolute', voltage: `2.5 V ±${tolerance} %`, drift: 0 } })

  it('cancels as one node, and as two does not', () => {
    // With 5 % less current a voltage at the input reads as 5 % more.
    expect(reads(5, 'reference')).toBeLessThan(1.06 * reads(0.01, 'reference'))
    const apart = reads(5, '2.5 V') - reads(0.01, '2.5 V')
    // A reference that is 5 % low reads 1/0.95 as much.
    expect(apart).toBeGreaterThan(0.97 * load * (1 / 0.95 - 1))
    expect(apart).toBeLessThan(1.06 * load * (1 / 0.95 - 1))
  })
})

describe('27. a gate that takes a hundredth of the period', () => {
  it('is no fault where the edges fit and the junction is cool', () => {
    const [pull, input, period] = [1e5, 2.3e-9, 0.025]
    expect((pull * input) / period).toBeGreaterThan(0.009)
    const choice = {
      transistor: exampleTransistors['P-channel, driven from 1.8 V'],
      drive: {
        ...{ kind: 'inverting transistor', gateResistor: 47, baseResistor: 1000, basePullDown: 2200, highLevel: 2.3 },
        pull: { at: 'gate', resistance: pull },
      },
      load: { resistance: '5 ohm ±5 %' },
      thermal: { junctionToAmbient: '60 K/W ±10 %' },
      pwm: { frequency: 1 / period, duty: { from: 0.2, to: 0.8 } },
      wiring: { inductance: '0.1 uH' },
    } as unknown as MosfetChoice
    const around = {
      openCircuit: { from: 3.3, to: 4.2 },
      sourceResistance: '60 mohm ±20 %',
      ambientCelsius: { from: 0, to: 45 },
    }
    const a = checkMosfet(choice, around, quick)
    // The edge by the current of the pull at the plateau: all of the charge that moves the drain, and a triangle of power.
    const amperes = 4.2 / (0.95 * 5)
    const edge = (2 * 12.5e-9 * pull) / 0.7
    const watts = amperes ** 2 * 0.05 + (4.2 * amperes * edge) / 6 / period
    expect(45 + 66 * watts).toBeLessThan(150)
    expect(a.margins.filter(({ verdict }) => verdict !== 'holds')).toEqual([])
  })
})

describe('29. a burst of samples through a filter', () => {
  it.each([1, 4, 16])('takes as much as its own conversions do, %d of them', (samplesPerWindow) => {
    const [ohms, farads, sampled] = [1e4, 1e-8, 8e-12]
    const choice = {
      sensor: exampleSensors.wideSupplyOneWay,
      converter: exampleConverters['12-bit controller converter'],
      current: { from: 0, to: 6 },
      errors: [{ at: 6, allowed: '50 %' }],
      pwm: { frequency: 100, duty: { from: 0.2, to: 0.5 } },
      filter: { resistance: ohms, capacitance: farads },
      timing: { edge: 1e-6, samples: samplesPerWindow, samplesPerWindow },
      calibration: { kind: 'zero' },
    } as const
    const around = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
    const claimed = marginOf(checkHall(choice, around, quick), 'sampling')!.worst
    // Conversion by conversion: the sampling capacitor comes with another channel's voltage, and what it takes from the filter's
    // comes back through the resistor, in 2 µs of sampling and 1 µs of conversion.
    const missing = (volts: number) => {
      let gap = 0
      for (let k = 1; k <= samplesPerWindow; k++) {
        gap = (gap * farads + volts * sampled) / (farads + sampled)
        gap *= Math.exp(-2e-6 / (ohms * farads))
        if (k < samplesPerWindow) gap *= Math.exp(-1e-6 / (ohms * farads))
      }
      return (gap / 3.3) * 4096
    }
    // From the rail down to the zero of 0.33 V, or from anywhere to anywhere.
    expect(claimed).toBeGreaterThanOrEqual(missing(3.3 - 0.34))
    expect(claimed).toBeLessThan(1.02 * missing(3.3))
    // Without an end it would be the sampled charge in each 3 µs, through the resistor.
    expect(claimed).toBeLessThan((0.6 * (((3.3 * sampled) / 3e-6) * ohms * 4096)) / 3.3)
  })
})
