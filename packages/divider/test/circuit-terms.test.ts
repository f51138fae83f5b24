import { exampleConverters } from '@ohmward/adc'
import { describe, expect, it } from 'vitest'
import { checkDivider, type DividerChoice, dividerChanges, dividerModel } from '../src/index.js'
import { cell, idealAmplifier, knife, margin, ideal as usual } from './design.js'

/** Ideal parts, rounding and noise among them: what is looked at stands alone. */
const idealConverter = { ...usual.converter, bits: 24 }
const ideal: DividerChoice = { ...usual, converter: idealConverter, timing: { samples: 65536 } }

/** One rail, one temperature: 3.3 V through 47 ohm. */
const still = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
const at = (choice: DividerChoice, id = 'error-nominal') => margin(choice, id, still)
const current = 3.3 / 47.7

describe('the ground that the load shares with others', () => {
  it('carries the test current too, which reads as load', () => {
    const shared = (more: object) => at({ ...ideal, surroundings: { ...ideal.surroundings, ...more } }).worst
    // 10 mohm below the load; 0.2 A of others put 2 mV on it, read by 70 mA less what that takes off it.
    expect(shared({ sharedGround: '10 mohm' })).toBeCloseTo(0.01, 5)
    const I_t = (3.3 - 0.002) / (47.7 + 0.01)
    const r = (I_t * 0.71 + 0.002) / 3.3
    expect(shared({ sharedGround: '10 mohm', groundCurrent: '200 mA' })).toBeCloseTo((47 * r) / (1 - r) - 0.7, 5)
  })

  it('of a load at the rail stands in line with the reference resistor', () => {
    const rail: DividerChoice = { ...ideal, topology: 'load at rail', error: '50 %' }
    const error = at({ ...rail, surroundings: { ...ideal.surroundings, sharedGround: '1 ohm' } }).worst
    // A loop of 48 instead of 47 ohm: a 48th too little; the amplifier's own current doesn't pass there.
    expect(error).toBeGreaterThan((0.95 * 0.7) / 48)
    expect(error).toBeLessThan((1.05 * 0.7) / 48)
  })

  it('goes with a short at the load, and is proposed to be one point', () => {
    const choice: DividerChoice = { ...ideal, surroundings: { sharedGround: '40 mohm' }, error: '10 mohm' }
    expect(at(choice).verdict).toBe('fails')
    // With ideal parts the short shows the shared ground alone: 0.04 of 47 ohm is far above the lowest output.
    expect(at({ ...choice, calibration: { kind: 'zero' } }).worst).toBeLessThan(0.002)
    const { changes } = dividerChanges(choice, still)
    expect(changes.map(({ id }) => id)).toContain('star-ground')
  })
})

describe('the common mode at which an offset is specified', () => {
  const amplifier = { ...idealAmplifier, commonModeRejectionDb: 60, offsetSupply: '3.3 V' }

  it('is half of the supply by default: 60 dB of 1.65 V less the load’s own', () => {
    const V_x = current * 0.7
    expect(at({ ...ideal, amplifier }).worst).toBeCloseTo((1.65 - V_x) / 1000 / current, 3)
  })

  it('may be that of the load, and then hardly moves it', () => {
    const there = { ...amplifier, offsetCommonMode: current * 0.7 }
    expect(at({ ...ideal, amplifier: there }).worst).toBeLessThan(1e-5)
  })
})

describe('one node that is not the rail', () => {
  const converter = { ...idealConverter, reference: { kind: 'absolute', voltage: '2.5 V ±2 %' } } as const
  const gainResistors = { feedback: '15 kohm', ground: '1 kohm', ratioDrift: 0 }
  const regulated: DividerChoice = { ...ideal, converter, gainResistors }

  it('cancels out of the reading', () => {
    expect(at({ ...regulated, excitation: '2.5 V ±2 %' }).worst).toBeGreaterThan(0.02)
    expect(at({ ...regulated, excitation: 'reference' }).worst).toBeLessThan(1e-4)
    expect(at({ ...ideal, excitation: 'reference' }).worst).toBe(at(ideal).worst)
  })

  it('has no row for a ratio, says so, and is proposed where the nodes differ', () => {
    const answer = checkDivider({ ...regulated, excitation: 'reference' }, still, { simulation: false })
    expect(answer.margins.map(({ id }) => id)).not.toContain('ratio')
    expect(answer.assumptions.join(' ')).toContain("the converter's reference are one node")
    expect(answer.cautions.map(({ id }) => id)).toContain('reference-load')
    expect(answer.values).toMatchObject({ V_exc: 2.5, V_ref: 2.5 })
    const { changes } = dividerChanges({ ...regulated, excitation: '2.5 V ±2 %', error: '1 %' }, still)
    expect(changes.map(({ id }) => id)).toContain('excitation-from-reference')
  })
})

describe('what is not settled when the reading is taken', () => {
  it('counts as error: amplifier and filter, by their differential equations', () => {
    const [gainBandwidth, tau_f, wait] = [1e5, 300e-6, 2e-3]
    const amplifier = { ...idealAmplifier, gainBandwidth, slewRate: 1e10 }
    const timing = { wait, filter: tau_f, filterResistance: 0, samples: 65536 }
    const error = at({ ...ideal, amplifier, timing }).worst
    // From the supply, where it stood while the load was driven: stepped in time.
    const tau_a = 23 / (2 * Math.PI * gainBandwidth)
    const target = current * 0.7 * 23
    let [u, v] = [3.3, 3.3]
    const dt = 1e-8
    for (let t = 0; t < wait; t += dt) {
      v += (dt * (u - v)) / tau_f
      u += (dt * (target - u)) / tau_a
    }
    const left = v - target
    expect(left).toBeGreaterThan(2e-3)
    expect(error).toBeGreaterThan(left / 23 / current)
    // At most what a step of the whole supply would leave, on top of the bending of the reading.
    expect(error).toBeLessThan((1.05 * left * (3.3 / (3.3 - target))) / 23 / current)
  })

  it('counts from the supply, to which a saturated output may come closer than is guaranteed', () => {
    const [gainBandwidth, wait] = [1e5, 300e-6]
    const timing = { wait, filter: 0, filterResistance: 0, samples: 65536 }
    const amplifier = { ...idealAmplifier, gainBandwidth, slewRate: 1e10, highOutputDrop: '1.5 V' }
    const error = at({ ...ideal, amplifier, timing }).worst
    const left = (3.3 - current * 0.7 * 23) * Math.exp((-wait * 2 * Math.PI * gainBandwidth) / 23)
    expect(error).toBeGreaterThan(left / 23 / current)
    expect(error).toBeLessThan((1.8 * left) / 23 / current)
  })

  it('takes the slowest loop: of the largest gain that the resistors allow', () => {
    const settling = (gainResistors: DividerChoice['gainResistors']) => {
      const amplifier = { ...idealAmplifier, gainBandwidth: 1e5, slewRate: 1e10 }
      return at({ ...ideal, amplifier, gainResistors, converter: { ...idealConverter, bits: 12 } }, 'settling').worst
    }
    // Half a count of 12 bits after 13 ln 2 time constants of one pole.
    const wanted = (gain: number) => (13 * Math.LN2 * gain) / (2 * Math.PI * 1e5)
    const loose = { feedback: '22 kohm ±20 %', ground: '1 kohm ±20 %', ratioDrift: 0 }
    expect(settling(loose)).toBeCloseTo(wanted(1 + (22 * 1.2) / 0.8), 8)
    expect(settling({ ...loose, ratioTolerance: '1 %' })).toBeCloseTo(wanted(1 + 22 * 1.01), 8)
  })

  it('counts as error: a sampling capacitor that is charged too late', () => {
    const converter = { ...idealConverter, switchResistance: 1e4, samplingCapacitance: 20e-12, acquisitionTime: 1e-6 }
    const error = at({ ...ideal, converter, timing: { filterResistance: 0, samples: 65536 } }).worst
    const missing = Math.exp(-1e-6 / (1e4 * 20e-12))
    // It held another channel's voltage before, up to the supply.
    expect(error).toBeGreaterThan((missing * (3.3 - current * 0.7 * 23)) / 23 / current)
    expect(error).toBeLessThan((1.1 * missing * 3.3) / 23 / current)
  })

  it('is nothing after a long wait', () => {
    const { inputs } = dividerModel(knife, cell)
    expect(inputs['s_set']).toMatchObject({ lower: 0, upper: 0 })
  })
})

describe('ageing', () => {
  it('of the reference, of the gain and of the offset adds to the error', () => {
    const worst = (more: Partial<DividerChoice>) => at({ ...ideal, ...more }).worst
    expect(worst({ referencePart: { temperatureCoefficient: 0, ageing: '1 %' } })).toBeCloseTo(0.7 * 0.01, 3)
    // The gain is 1 + 22: a change of the ratio counts 22/23.
    const gain = worst({ gainResistors: { ...ideal.gainResistors, ratioAgeing: '1 %' } })
    expect(gain).toBeCloseTo((0.7 * 0.01 * 22) / 23, 3)
    expect(worst({ amplifier: { ...idealAmplifier, offsetAgeing: '100 uV' } })).toBeCloseTo(1e-4 / current, 4)
  })

  // A pedestal lifts the zero reading above the end of the scale: a clipped one would leave the offset too.
  const lifted: DividerChoice = { ...ideal, pedestal: '5 %' }
  const zero = { kind: 'zero' } as const
  const span = { kind: 'zero and span', resistor: '1 ohm' } as const

  it.each([zero, span])('of the offset is not taken away by a calibration when new: $kind', (calibration) => {
    const worst = (more: Partial<DividerChoice>) => at({ ...lifted, ...more, calibration }).worst
    expect(worst({ amplifier: { ...idealAmplifier, offsetAgeing: '100 uV' } })).toBeCloseTo(1e-4 / current, 4)
    expect(worst({ amplifier: { ...idealAmplifier, offsetVoltage: '100 uV' } })).toBeLessThan(0.1 * (1e-4 / current))
  })

  it('of the reference and of the gain is not taken away by a calibration of the span when new', () => {
    const worst = (more: Partial<DividerChoice>) => at({ ...lifted, ...more, calibration: span }).worst
    expect(worst({ referencePart: { temperatureCoefficient: 0, ageing: '1 %' } })).toBeCloseTo(0.7 * 0.01, 3)
    const gainResistors = { ...ideal.gainResistors, ratioAgeing: '1 %' }
    expect(worst({ gainResistors })).toBeCloseTo((0.7 * 0.01 * 22) / 23, 3)
    expect(worst({ reference: '47 ohm ±1 %' })).toBeLessThan(2e-4)
  })

  it('moves a temperature whose cold value was stored when new', () => {
    const element = { coefficient: 0.004, curvature: 0 }
    const thermometry = { element, restCelsius: 25, hotCelsius: 125, error: 50 } as const
    // 1.4 times the resistance, off by 1 %, is 1.4 · 0.01/0.004 = 3.5 K.
    const aged = { ...ideal, thermometry, referencePart: { temperatureCoefficient: 0, ageing: '1 %' } }
    expect(at(aged, 'temperature').worst).toBeGreaterThan(3.45)
    expect(at(aged, 'temperature').worst).toBeLessThan(3.65)
  })
})

describe('a matched resistor network', () => {
  const loose = { feedback: '22 kohm ±20 %', ground: '1 kohm ±20 %', ratioDrift: 0 }

  it('keeps its ratio however far off its resistors are', () => {
    expect(at({ ...ideal, gainResistors: loose }).worst).toBeGreaterThan(0.2)
    const matched = at({ ...ideal, gainResistors: { ...loose, ratioTolerance: '0.1 %' } })
    expect(matched.worst).toBeCloseTo((0.7 * 0.001 * 22) / 23, 4)
  })

  it('serves a difference amplifier, whose pairs are each as far off as the ratio', () => {
    const rail: DividerChoice = { ...ideal, topology: 'load at rail', error: '50 %' }
    const matched = at({ ...rail, gainResistors: { ...loose, ratioTolerance: '0.01 %' } })
    // Common mode 3.3 V · 22/23: each pair lets its error of that through, over the gain 22. What the 1 kohm takes out of
    // the sense point is off by a fifth, and reads as load.
    const pairs = (2 * 1e-4 * 3.3) / 23
    const taken = ((0.25 * (3.3 / 23 - current * 0.7)) / 1000) * 0.7
    expect(matched.worst * current).toBeGreaterThan(0.95 * pairs)
    expect(matched.worst * current).toBeLessThan(1.05 * (pairs + taken))
  })

  it('is proposed, and in the derivation', () => {
    const choice: DividerChoice = { ...knife, error: '4 %' }
    const { changes } = dividerChanges(
      { ...choice, gainResistors: { ...choice.gainResistors, feedback: '22 kohm ±5 %' } },
      cell,
    )
    expect(changes.map(({ id }) => id)).toContain('matched-network')
    const answer = checkDivider(
      {
        ...ideal,
        gainResistors: { ...loose, ratioTolerance: '0.1 %' },
        converter: exampleConverters['12-bit controller converter'],
      },
      still,
      { simulation: false },
    )
    expect(answer.derivation.find(({ symbol }) => symbol === 'R_f')?.value).toBeCloseTo(22e3, 6)
  })
})
