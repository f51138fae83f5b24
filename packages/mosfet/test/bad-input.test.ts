import { InputError } from '@ohmward/quantity'
import { describe, expect, it, vi } from 'vitest'
import { checkMosfet, type MosfetChoice, type MosfetConditions, sizeMosfet } from '../src/index.js'
import { readTransistor } from '../src/parts/transistor.js'
import { cell, inverterFast, knife, lowSide, nChannelLowVoltage, pChannelLowVoltage, pin } from './choice.js'

vi.setConfig({ testTimeout: 30_000 })

const refusal = (run: () => unknown): InputError => {
  try {
    run()
  } catch (error) {
    if (error instanceof InputError) return error
    throw error
  }
  throw new Error('nothing was refused')
}
const refused = (choice: unknown, conditions: unknown = cell()) =>
  refusal(() => checkMosfet(choice as MosfetChoice, conditions as MosfetConditions, { simulation: false }))
const transistor = (changes: object) => refusal(() => readTransistor({ ...pChannelLowVoltage, ...changes }))

describe('bad input is named', () => {
  it('on-resistance without a guaranteed line, points out of order', () => {
    expect(transistor({ onResistance: [] }).message).toMatch(
      /transistor\.onResistance = a list: .*guaranteed.*threshold does not/,
    )
    const lines = [
      { gateSource: 4.5, maximum: 0.01 },
      { gateSource: 2.5, maximum: 0.02 },
    ]
    expect(transistor({ onResistance: lines }).message).toMatch(/onResistance\[1\]\.gateSource = 2\.5.*ascend/)
    const rising = [
      { gateSource: 2.5, maximum: 0.01 },
      { gateSource: 4.5, maximum: 0.02 },
    ]
    expect(transistor({ onResistance: rising }).field).toBe('transistor.onResistance[1].maximum')
    expect(transistor({ onResistance: [{ gateSource: 2.5, maximum: 0.01, typical: 0.02 }] }).field).toBe(
      'transistor.onResistance[0].typical',
    )
  })

  it('a temperature law that turns negative, falls, or isn’t one', () => {
    expect(transistor({ temperatureLaw: { kind: 'linear', perKelvin: 0.02 } }).message).toMatch(
      /perKelvin = 0\.02.*above 0 down to -55 °C/,
    )
    const falling = {
      kind: 'points',
      points: [
        { celsius: 25, factor: 1 },
        { celsius: 100, factor: 0.9 },
      ],
    }
    expect(transistor({ temperatureLaw: falling }).field).toBe('transistor.temperatureLaw.points[1].factor')
    const steep = {
      kind: 'points',
      points: [
        { celsius: 25, factor: 1 },
        { celsius: 50, factor: 1.5 },
      ],
    }
    expect(transistor({ temperatureLaw: steep }).message).toMatch(/above 0 down to/)
    expect(transistor({ temperatureLaw: { kind: 'points', points: [{ celsius: 25, factor: 1 }] } }).message).toMatch(
      /2 points or more/,
    )
    expect(transistor({ temperatureLaw: { kind: 'cubic' } }).field).toBe('transistor.temperatureLaw.kind')
    expect(transistor({ temperatureLaw: { kind: 'power', exponent: 0.5 } }).field).toBe(
      'transistor.temperatureLaw.exponent',
    )
    expect(transistor({ temperatureLaw: { kind: 'linear', perKelvin: 0.004, exponent: 2 } }).message).toMatch(
      /Unknown: exponent/,
    )
    const percent = { kind: 'linear', perKelvin: '0.4 %/K' } as const
    expect(readTransistor({ ...pChannelLowVoltage, temperatureLaw: percent }).law).toEqual({
      kind: 'linear',
      perKelvin: 0.004,
      referenceCelsius: 25,
    })
  })

  it('a table written as a text, by its field', () => {
    const read = readTransistor({ ...pChannelLowVoltage, onResistance: '2.5 V: 20 mohm typ 15 mohm; 4.5 V: 12 mohm;' })
    expect(read.onResistance).toEqual([
      { gateSource: 2.5, maximum: 0.02, typical: 0.015 },
      { gateSource: 4.5, maximum: 0.012 },
    ])
    expect(readTransistor({ ...pChannelLowVoltage, safePulses: '1 ms: 10 W' }).safePulses).toEqual([
      { seconds: 1e-3, watts: 10 },
    ])
    expect(transistor({ onResistance: '' }).field).toBe('transistor.onResistance')
    for (const text of ['2.5 V', '14 mohm', '2.5 V: 20 mohm; 12 mohm'])
      expect(transistor({ onResistance: text }).message).toBe(
        `transistor.onResistance = "${text}": allowed is lines such as "gateSource: maximum; gateSource: maximum"`,
      )
    expect(transistor({ onResistance: '4.5 V: 12 mohm; 2.5 V: 20 mohm' }).message).toMatch(
      /^transistor\.onResistance\.gateSource = 2\.5.*ascend/,
    )
    expect(transistor({ onResistance: '4.5 V: 12 W' }).field).toBe('transistor.onResistance.maximum')
    expect(transistor({ copper: '100: 60 K/W; 50: 80 K/W' }).field).toBe('transistor.copper.squareMillimetres')
  })

  it('a negative magnitude, as a P-channel data sheet prints it', () => {
    expect(transistor({ gateSourceMaximum: -12 }).hint).toMatch(/P-channel/)
    expect(transistor({ plateauVoltage: '-1.5 V' }).hint).toMatch(/P-channel/)
    expect(transistor({ plateauVoltage: '−1.5 V' }).hint).toMatch(/P-channel/)
  })

  it('a plateau not above the threshold, a channel that isn’t one, missing and unknown fields at once', () => {
    expect(transistor({ plateauVoltage: 0.3 }).message).toMatch(/more than the smallest threshold, 0\.4 V/)
    expect(transistor({ channel: 'n' }).field).toBe('transistor.channel')
    const { gateCharge: _, plateauVoltage: __, ...rest } = pChannelLowVoltage
    const missing = refusal(() => readTransistor({ ...rest, gateCharg: 1 }))
    expect(missing.message).toMatch(/Missing: gateCharge, plateauVoltage. Unknown: gateCharg/)
  })

  it('thermal resistance of 0, duty above 1, ranges upside down', () => {
    expect(refused(knife({ thermal: { junctionToAmbient: 0 } })).message).toMatch(
      /thermal\.junctionToAmbient = 0 K\/W: allowed is .*more than 0/,
    )
    expect(refused(knife({ pwm: { frequency: 100, duty: { from: 0.1, to: 1.2 } } })).field).toBe('pwm.duty.to')
    expect(refused(knife({ pwm: { frequency: 100, duty: { from: 0.9, to: 0.1 } } })).field).toBe('pwm.duty.from')
    expect(refused(knife({ pwm: { frequency: -1, duty: { from: 0, to: 1 } } })).field).toBe('pwm.frequency')
    expect(refused(knife(), cell({ openCircuit: { from: 0, to: 4 } })).field).toBe('openCircuit.from')
    expect(refused(knife({ parallel: 1.5 })).field).toBe('parallel')
    expect(refused(knife({ edges: 'capacitive' as 'resistive' })).field).toBe('edges')
  })

  it('one of two, not both and not neither', () => {
    expect(refused(knife({ load: {} as { current: 1 } })).field).toBe('load')
    expect(refused(knife({ load: { resistance: 1, current: 1 } })).field).toBe('load')
    expect(refused(knife({ thermal: {} as { junctionToAmbient: 1 } })).field).toBe('thermal')
    expect(refused(knife({ thermal: { junctionToAmbient: 50, tolerance: 0.1 } as never })).field).toBe(
      'thermal.tolerance',
    )
    const { copper: _, ...bare } = nChannelLowVoltage
    expect(refused(lowSide({ transistor: bare, thermal: { copperSquareMillimetres: 100 } })).field).toBe(
      'transistor.copper',
    )
    expect(refused(lowSide({ drive: { ...pin, supply: {} as { diode: 1 } } })).field).toBe('drive.supply')
  })

  it('a drive that can’t be', () => {
    expect(refused(knife({ drive: { kind: 'magic' } as never })).message).toMatch(/drive\.kind = "magic"/)
    expect(refused(knife({ drive: { kind: 'toString' } as never })).field).toBe('drive.kind')
    expect(refused(knife({ drive: null as never })).field).toBe('drive.kind')
    // All that a transistor needs is asked for at once.
    const { pull: _, highLevel: __, ...bare } = inverterFast
    expect(refused(knife({ drive: bare as never })).message).toMatch(
      /^drive = an object: .*Missing: pull, highLevel$|^drive = an object: .*Missing: highLevel, pull$/,
    )
    const none = refused(knife({ drive: { ...pin, pull: 'none' as never } })).message
    expect(none).toBe('drive.pull = "none": allowed is an object, or left out')
    expect(refused(lowSide({ drive: { kind: 'follower' } })).message).toMatch(
      /^drive\.pull = nothing: allowed is a resistor: this drive pulls the gate one way only/,
    )
    expect(
      refused(
        lowSide({ drive: { kind: 'follower', complementary: 1 as never, pull: { at: 'gate', resistance: 1e3 } } }),
      ).field,
    ).toBe('drive.complementary')
    expect(refused(knife({ drive: { ...inverterFast, pull: { at: 'pin' as 'gate', resistance: 1 } } })).field).toBe(
      'drive.pull.at',
    )
    expect(refused(knife({ drive: { ...pin, supply: { regulated: 5 } } })).message).toMatch(
      /source of a P-channel switch is on the rail/,
    )
    expect(refused(knife({ drive: { ...pin, supply: { diode: 0.3 } } })).field).toBe('drive.supply')
    expect(refused(lowSide({ drive: { ...pin, highLevel: 3 } })).field).toBe('drive.highLevel')
  })

  it('bursts without a curve, a burst longer than its period', () => {
    expect(refused(lowSide({ bursts: { on: 1, period: 2, count: 3 } })).field).toBe('transistor.transientImpedance')
    expect(refused(knife({ bursts: { on: 2, period: 1, count: 3 } })).field).toBe('bursts.period')
    expect(refused(knife({ bursts: { on: 1, period: 2, count: 0 } })).field).toBe('bursts.count')
    const impedance = [
      { seconds: 1, kelvinPerWatt: 5 },
      { seconds: 2, kelvinPerWatt: 4 },
    ]
    expect(transistor({ transientImpedance: impedance }).field).toBe('transistor.transientImpedance[1].kelvinPerWatt')
  })

  it('hostile values of every kind: the library’s own error or a finite answer', () => {
    const values = [
      Number.NaN,
      Number.POSITIVE_INFINITY,
      Number.NEGATIVE_INFINITY,
      -0,
      1e308,
      1e-308,
      -1e308,
      '',
      'x',
      null,
      {},
      [],
      true,
      '__proto__',
    ]
    const put = (value: unknown): [unknown, unknown][] => [
      [knife({ load: { resistance: value as number } }), cell()],
      [knife({ load: { current: value as number } }), cell()],
      [knife({ pwm: { frequency: value as number, duty: { from: 0.1, to: 0.9 } } }), cell()],
      [knife({ thermal: { junctionToAmbient: value as number } }), cell()],
      [knife({ wiring: { inductance: value as number } }), cell()],
      [lowSide({ transistor: { ...nChannelLowVoltage, gateCharge: value as number } }), cell()],
      [lowSide({ drive: { ...pin, gateResistor: value as number } }), cell()],
      [knife({ drive: value as never }), cell()],
      [knife(), cell({ sourceResistance: value as number })],
      [knife(), value],
      [value, cell()],
    ]
    let refusedCount = 0
    for (const value of values) {
      for (const [choice, conditions] of put(value)) {
        try {
          const { values: all, margins } = checkMosfet(choice as MosfetChoice, conditions as MosfetConditions, {
            simulation: false,
          })
          for (const one of Object.values(all)) expect(Number.isFinite(one)).toBe(true)
          for (const { worst, limit, slack } of margins) expect([worst, limit, slack].every(Number.isFinite)).toBe(true)
        } catch (error) {
          expect(error).toBeInstanceOf(InputError)
          refusedCount++
        }
      }
    }
    expect(refusedCount).toBeGreaterThan(100)
  })

  it('sizing: no candidates, a series or tolerance that isn’t one', () => {
    const { transistor: _, ...base } = knife()
    const size = (changes: object) =>
      refusal(() => sizeMosfet({ ...base, transistors: { a: pChannelLowVoltage }, ...changes }, cell()))
    expect(size({ transistors: {} }).field).toBe('transistors')
    expect(size({ transistors: null }).field).toBe('transistors')
    expect(size({ series: 'E5' }).field).toBe('series')
    expect(size({ tolerance: 'much' }).field).toBe('tolerance')
    expect(size({ transistor: 1 }).message).toMatch(/Unknown: transistor/)
    expect(size({ lossLimt: 1 }).message).toMatch(/Unknown: lossLimt/)
    const two = { a: pChannelLowVoltage, spare: { ...pChannelLowVoltage, gateCharge: '5 W' } }
    expect(size({ transistors: two }).field).toBe('transistors.spare.gateCharge')
    const low = { a: { ...pChannelLowVoltage, plateauVoltage: 0.3 } }
    expect(size({ transistors: low }).field).toBe('transistors.a.plateauVoltage')
    const { drive, ...rest } = base
    const drives = { one: drive, other: { ...drive, gateResistor: '5 V' } }
    const without = { ...rest, transistors: { a: pChannelLowVoltage } } as never
    expect(refusal(() => sizeMosfet(Object.assign({ drives }, without), cell())).field).toBe(
      'drives.other.gateResistor',
    )
  })
})
