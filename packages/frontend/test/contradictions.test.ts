import { InputError } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import {
  refuseAir,
  refuseBursts,
  refuseCoefficient,
  refuseDiode,
  refuseDrive,
  refuseHighLevel,
  refuseMonitor,
  refuseTopology,
} from '../src/design/contradictions.js'

/* What a design may not say of itself, each combination of it: what is refused follows from where the current would flow. */

/** The field that is refused; undefined where nothing is. */
function refused(read: () => void): string | undefined {
  try {
    read()
  } catch (error) {
    if (error instanceof InputError) return error.field
    throw error
  }
  return undefined
}

const kinds = ['pin', 'follower', 'inverting transistor', 'driver'] as const
const channels = ['N', 'P'] as const
const rails = [undefined, 'main', 'logic'] as const
const supplies = [undefined, 'rail', { regulated: '5 V' }] as const

describe('the supply of a gate drive', () => {
  const combinations = kinds.flatMap((kind) =>
    channels.flatMap((channel) =>
      rails.flatMap((drive) =>
        rails.flatMap((controller) => supplies.map((supply) => ({ kind, channel, drive, controller, supply }))),
      ),
    ),
  )

  it.each(kinds)('is said once, and where the gate of a %s can have it from', (only) => {
    for (const { kind, channel, drive, controller, supply } of combinations.filter(({ kind }) => kind === only)) {
      const design = { lives: { drive, controller }, mosfet: { drive: { kind, supply }, transistor: { channel } } }
      const own = controller ?? 'main'
      const isOfPin = kind === 'pin' || kind === 'follower'
      const isStated = typeof supply === 'object'
      const expected: (string | false)[] = [
        // What hangs on the controller's pin has no rail of its own, and no supply but the rail on which both are.
        isOfPin && drive !== undefined && 'lives.drive',
        // A gate at the rail of its source, or a supply that was said already.
        !isOfPin && channel === 'P' && drive === 'logic' && 'lives.drive',
        !isOfPin && drive !== undefined && isStated && 'lives.drive',
        isOfPin && (isStated || (supply === 'rail' && own !== 'main')) && 'mosfet.drive.supply',
        // An emitter follower comes no higher than its base: a P-channel gate at the main rail stays below it.
        kind === 'follower' && channel === 'P' && own !== 'main' && 'mosfet.drive.kind',
      ]
      const found = refused(() => refuseDrive(design as never))
      const said = JSON.stringify({ kind, channel, drive, controller, supply })
      expect(found, said).toBe(expected.find((one) => one !== false))
    }
  })

  it('has no pin that comes above the rail of its controller on full cells', () => {
    const high = (kind: string, highLevel: string | undefined, controller?: string) => {
      const design = { lives: { controller }, mosfet: { drive: { kind, highLevel } } }
      const found = { main: { rest: { upper: 4.2 } }, logic: { rest: { upper: 3.3 } } }
      return refused(() => refuseHighLevel(design as never, found as never))
    }
    for (const kind of ['pin', 'inverting transistor']) {
      expect(high(kind, undefined)).toBeUndefined()
      expect(high(kind, '4.2 V')).toBeUndefined()
      expect(high(kind, '4.21 V')).toBe('mosfet.drive.highLevel')
      expect(high(kind, '3.3 V', 'logic')).toBeUndefined()
      expect(high(kind, '3.31 V', 'logic')).toBe('mosfet.drive.highLevel')
      // Lots that go below it are no contradiction.
      expect(high(kind, '3.4 V ±5 %', 'logic')).toBeUndefined()
    }
    expect(high('driver', '12 V')).toBeUndefined()
    expect(high('follower', '12 V')).toBeUndefined()
  })
})

describe('the load', () => {
  it('hangs on the end of the switch that its measurement takes it to, and a load at the rail is driven by that rail', () => {
    const topology = (channel: string, divider: object) =>
      refused(() => refuseTopology({ divider, mosfet: { transistor: { channel } } } as never))
    expect(topology('P', {})).toBeUndefined()
    expect(topology('N', {})).toBe('divider.topology')
    expect(topology('P', { topology: 'load at ground' })).toBeUndefined()
    expect(topology('N', { topology: 'load at ground' })).toBe('divider.topology')
    expect(topology('P', { topology: 'load at rail' })).toBe('divider.topology')
    expect(topology('N', { topology: 'load at rail' })).toBeUndefined()
    expect(topology('N', { topology: 'load at rail', excitation: 'rail' })).toBeUndefined()
    expect(topology('N', { topology: 'load at rail', excitation: '3 V' })).toBe('divider.excitation')
    expect(topology('P', { excitation: '3 V' })).toBeUndefined()
  })

  it('has a resistance left at each of its temperatures (straight line through 20 degC)', () => {
    const coefficient = (lower: number, upper: number, from: number, workingCelsius: number) =>
      refused(() =>
        refuseCoefficient({
          load: { temperatureCoefficient: { lower, upper }, workingCelsius },
          ambientCelsius: { from, to: 50 },
        } as never),
      )
    // 1 - 0.01 · 100 = 0 at 120 degC; 1 + 0.02 · (-50 - 20) < 0.
    expect(coefficient(-0.01, 0, 20, 119)).toBeUndefined()
    expect(coefficient(-0.01, 0, 20, 120)).toBe('load.temperatureCoefficient')
    expect(coefficient(-0.01, 0, 20, 400)).toBe('load.temperatureCoefficient')
    expect(coefficient(0, 0.02, -29, 20)).toBeUndefined()
    expect(coefficient(0, 0.02, -30, 20)).toBe('load.temperatureCoefficient')
    expect(coefficient(0, 0.02, -30, 400)).toBe('load.temperatureCoefficient')
    // A load that is colder at work than the air.
    expect(coefficient(0, 0.02, 20, -31)).toBe('load.temperatureCoefficient')
    // What counts is the end of the spread that takes from it there.
    expect(coefficient(-0.001, 0.01, -50, 400)).toBeUndefined()
  })

  it('has no diode between the board and itself', () => {
    const element = (tap: string | undefined, drop: number) => ({ name: 'x', tap, drop: { lower: 0, upper: drop } })
    const path = (...all: object[]) => refused(() => refuseDiode({ supply: { path: all }, board: 'board' } as never))
    expect(path(element(undefined, 0.5), element('board', 0.5), element(undefined, 0))).toBeUndefined()
    expect(path(element('board', 0), element(undefined, 0.5))).toBe('supply.path x drop')
    expect(refused(() => refuseDiode({ supply: {}, board: undefined } as never))).toBeUndefined()
  })
})

describe('the air', () => {
  it('is no colder and no warmer than the resistance of the cells is stated for; of a port nothing is asked', () => {
    const air = (from: number, to: number, kind = 'cell') =>
      refused(() =>
        refuseAir({
          supply: { source: { kind, temperatureFactor: { x: [-10, 25, 50] } } },
          ambientCelsius: { from, to },
        } as never),
      )
    expect(air(-10, 50)).toBeUndefined()
    expect(air(-11, 50)).toBe('ambientCelsius.from')
    expect(air(-10, 51)).toBe('ambientCelsius.to')
    expect(air(51, 52)).toBe('ambientCelsius.from')
    expect(air(-90, 90, 'port')).toBeUndefined()
  })
})

describe('a monitor', () => {
  it('needs a reference, and a divider where the converter has one of its own', () => {
    const own = { kind: 'absolute', voltage: '2.5 V' }
    const monitor = (divider: unknown, reference: unknown, internalReference: unknown) =>
      refused(() =>
        refuseMonitor({
          monitor: { divider },
          controller: { internalReference },
          divider: { converter: { reference } },
          lives: {},
        } as never),
      )
    const told = { voltage: '1.2 V' }
    for (const against of [undefined, 'rail', { kind: 'rail' }]) {
      expect(monitor(undefined, against, told)).toBeUndefined()
      expect(monitor({}, against, told)).toBeUndefined()
      expect(monitor(undefined, against, undefined)).toBe('controller.internalReference')
    }
    expect(monitor({}, own, told)).toBeUndefined()
    expect(monitor(undefined, own, told)).toBe('monitor.divider')
    expect(monitor({}, own, undefined)).toBe('controller.internalReference')
    expect(refused(() => refuseMonitor({ controller: {}, divider: {} } as never))).toBeUndefined()
  })

  it('is told of the regulator that it may trust instead, where its converter lives behind one', () => {
    const hint = (kind: string, converter: string | undefined) => {
      try {
        refuseMonitor({
          monitor: {},
          controller: {},
          divider: { converter: {} },
          rails: [
            { name: 'other', through: { kind: 'direct' } },
            { name: 'logic', through: { kind } },
          ],
          lives: { converter },
        } as never)
      } catch (error) {
        return (error as InputError).message
      }
      return ''
    }
    expect(hint('regulator', 'logic')).toMatch(/trusts the regulator of logic instead/)
    for (const one of [hint('diode', 'logic'), hint('regulator', 'other'), hint('regulator', undefined)]) {
      expect(one).toMatch(/internalReference/)
      expect(one).not.toMatch(/trusts/)
    }
  })
})

describe('bursts', () => {
  it('are there where some are asked for, and end before the watchdog does', () => {
    const bursts = (own: object | undefined, asked?: number) =>
      refused(() => refuseBursts({ bursts: own, requirements: { bursts: asked } } as never))
    expect(bursts(undefined)).toBeUndefined()
    expect(bursts(undefined, 0)).toBe('requirements.bursts')
    expect(bursts({ time: 20 }, 5)).toBeUndefined()
    expect(bursts({ time: 20, watchdog: 20 })).toBeUndefined()
    expect(bursts({ time: 20, watchdog: 19 })).toBe('bursts.watchdog')
  })
})

describe('what is said of a contradiction', () => {
  const told = (read: () => void): string => {
    try {
      read()
    } catch (error) {
      return (error as InputError).message
    }
    return ''
  }

  it('names the value, its unit, what is allowed, and why', () => {
    const topology = (channel: string, topology?: string) =>
      told(() => refuseTopology({ divider: { topology }, mosfet: { transistor: { channel } } } as never))
    expect(topology('P', 'load at rail')).toMatch(
      /^divider\.topology = "load at rail": allowed is "load at ground"\. .*channel is "P": .* load and rail$/,
    )
    expect(topology('N')).toMatch(
      /^divider\.topology = "load at ground": allowed is "load at rail"\. .*channel is "N": .* load and ground$/,
    )
    const coefficient = (lower: number, upper: number, from: number, workingCelsius: number) =>
      told(() =>
        refuseCoefficient({
          load: { temperatureCoefficient: { lower, upper }, workingCelsius },
          ambientCelsius: { from, to: 50 },
        } as never),
      )
    // Of a straight line through 20 degC nothing is left 100 K above at 1 % less for each, 80 K below at 1.25 % more.
    expect(coefficient(-0.011, 0, 20, 120)).toMatch(
      /^load\.temperatureCoefficient = -0\.011 1\/K: allowed is more than -0\.01 1\/K\. At 120 degC /,
    )
    expect(coefficient(0, 0.013, -60, 20)).toMatch(
      /^load\.temperatureCoefficient = 0\.013 1\/K: allowed is less than 0\.0125 1\/K\. At -60 degC /,
    )
    const high = () =>
      refuseHighLevel(
        { lives: { controller: 'logic' }, mosfet: { drive: { kind: 'pin', highLevel: '3.5 V' } } } as never,
        { logic: { rest: { upper: 3.3456 } } } as never,
      )
    expect(told(high)).toBe(
      'mosfet.drive.highLevel = 3.5 V: allowed is at most the rail of lives.controller, logic: 3.35 V',
    )
    expect(told(() => refuseBursts({ bursts: { time: 20, watchdog: 10 }, requirements: {} } as never))).toBe(
      'bursts.watchdog = 10 s: allowed is at least bursts.time, 20 s',
    )
    const air = { supply: { source: { kind: 'cell', temperatureFactor: { x: [-10, 25, 50] } } } }
    expect(told(() => refuseAir({ ...air, ambientCelsius: { from: -20, to: 30 } } as never))).toBe(
      'ambientCelsius.from = -20 degC: allowed is from -10 to 50 degC, where supply.source.temperatureFactor has points',
    )
    const diode = { name: 'x', drop: { upper: 0.5 } }
    expect(told(() => refuseDiode({ supply: { path: [{ tap: 'board' }, diode] }, board: 'board' } as never))).toBe(
      'supply.path x drop = 0.5 V: allowed is 0 V behind the board. Put the diode before the board',
    )
  })
})
