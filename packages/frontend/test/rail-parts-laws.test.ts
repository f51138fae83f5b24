import { exampleDesign, type ReadDesign, readDesign } from '@ohmward/frontend'
import { between, exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { isolatedRail, limitsOf, logicOf } from '../src/blocks/rail-limits.js'
import { tasksOf } from '../src/pulse/tasks.js'
import { driveDraws } from '../src/supply/drive-draw.js'
import { monitorDraws } from '../src/supply/monitor-draw.js'

/* What hangs on which rail, and what each must still have: circuits of a few parts, their currents and limits worked out by hand. */

const cells = {
  kind: 'cell',
  inSeries: 2,
  openCircuit: { x: [0, 0.5, 1], y: [3, 3.7, 4.2] },
  openCircuitSpread: { upper: 0.02 },
}
const port = { kind: 'port', voltage: between(11, 13, 12) }
const through = (kind: string, more: object = {}) => ({ kind, ...more })
const logic = { name: 'logic', source: 'main', through: through('regulator', { voltage: { upper: 3.3 } }) }
const gate = { name: 'gate', source: 'main', through: through('diode') }

describe('what a gate drive takes', () => {
  const spreads = { R_p: { lower: 1000 }, V_BE: { lower: 0.6 }, R_b: { lower: 2200 } }
  const draws = (
    drive: object,
    {
      lives = {},
      channel = 'N',
      duty = { from: 0.1, to: 0.9 },
      source = cells,
      rails = [logic, gate] as object[],
    } = {},
  ) =>
    driveDraws({
      ...{ lives, rails, supply: { source } },
      pwm: { duty, frequency: 1000 },
      parts: {
        switch: {
          parallel: 2,
          transistor: { channel, fields: { gateCharge: { upper: 20e-9 } } },
          drive: { pull: 'gate', spreads, ...drive },
        },
      },
    } as unknown as ReadDesign).map(({ rail, current }) => [rail, current.lower, current.upper])
  // The charge of two gates, a thousand times a second.
  const charging = 2 * 20e-9 * 1000

  it('is the charge of its gates and what the pull resistor takes, from the rail that feeds it', () => {
    const lives = { controller: 'logic', drive: 'gate' }
    for (const kind of ['pin', 'follower'])
      expect(draws({ kind }, { lives })).toEqual([['logic', 0, expect.closeTo(charging + 3.3e-3, 12)]])
    // Behind a diode there is at most what two full cells have.
    expect(draws({ kind: 'driver' }, { lives })).toEqual([['gate', 0, expect.closeTo(charging + 8.44e-3, 12)]])
    expect(draws({ kind: 'driver' }, { lives, source: port as never })).toEqual([
      ['gate', 0, expect.closeTo(charging + 13e-3, 12)],
    ])
    // A regulator gives no more than it is fed with.
    const low = { source: { kind: 'port', voltage: { upper: 2.5 } } as never }
    expect(draws({ kind: 'pin' }, { lives, ...low })).toEqual([['logic', 0, expect.closeTo(charging + 2.5e-3, 12)]])
  })

  it('is no current of a pull that there is not, or that a P-channel gate has none of, and no charge of a load that stays on', () => {
    const lives = { controller: 'logic' }
    const only = [['logic', 0, expect.closeTo(charging, 12)]]
    expect(draws({ kind: 'pin', pull: 'none' }, { lives })).toEqual(only)
    expect(draws({ kind: 'pin' }, { lives, channel: 'P' })).toEqual(only)
    const on = { lives, duty: { from: 1, to: 1 } }
    expect(draws({ kind: 'pin' }, on)).toEqual([['logic', 0, expect.closeTo(3.3e-3, 12)]])
    expect(draws({ kind: 'pin', pull: 'none' }, on)).toEqual([])
    expect(draws({ kind: 'pin', pull: 'none' }, { lives, duty: { from: 0.5, to: 1 } })).toEqual(only)
  })

  it('has the base current of a transistor come from the rail of the controller, and counts nothing on the main rail', () => {
    const base = ['logic', 0, expect.closeTo((3.3 - 0.6) / 2200, 12)]
    const own = ['gate', 0, expect.closeTo(charging + 8.44e-3, 12)]
    const kind = 'inverting transistor'
    expect(draws({ kind }, { lives: { controller: 'logic', drive: 'gate' } })).toEqual([own, base])
    expect(draws({ kind }, { lives: { controller: 'logic' } })).toEqual([base])
    expect(draws({ kind }, { lives: { drive: 'gate' } })).toEqual([own])
    expect(draws({ kind }, { lives: {} })).toEqual([])
    expect(draws({ kind: 'driver' }, { lives: { controller: 'logic' } })).toEqual([])
    // A pin that comes no higher than the base needs gives it nothing.
    const low = [{ ...logic, through: through('regulator', { voltage: { upper: 0.5 } }) }, gate]
    expect(draws({ kind }, { lives: { controller: 'logic' }, rails: low })).toEqual([])
  })

  it('is what is said of it, where that is said', () => {
    const driveCurrent = between(1e-3, 3e-3)
    expect(draws({ kind: 'pin' }, { lives: { controller: 'logic', driveCurrent } })).toEqual([['logic', 1e-3, 3e-3]])
    expect(draws({ kind: 'driver' }, { lives: { controller: 'logic', driveCurrent } })).toEqual([['main', 1e-3, 3e-3]])
  })
})

describe('what the divider of the cells draws', () => {
  const divider = { upper: between(99e3, 101e3, 100e3), lower: between(49e3, 51e3, 50e3) }
  const draws = (given: object | undefined, source: object = cells) =>
    monitorDraws({ monitor: given && { divider: given }, supply: { source } } as never)

  it('is at most what the fullest source drives through both of its resistors', () => {
    const [one] = draws(divider)
    expect(one).toMatchObject({ rail: 'main', current: { lower: 0 } })
    expect(one!.current.upper).toBeCloseTo(8.44 / 148e3, 12)
    expect(one!.current.nominal).toBeCloseTo(8.44 / 150e3, 12)
    expect(draws(divider, port)[0]!.current.upper).toBeCloseTo(13 / 148e3, 12)
    for (const none of [undefined, {}, { ratio: exact(0.3) }, { upper: divider.upper }, { lower: divider.lower }])
      expect(draws(none)).toEqual([])
  })
})

describe('what must live on the main rail', () => {
  const design = readDesign(exampleDesign)
  const resistor = through('resistor', { resistance: between(9, 11, 10), capacitance: between(80e-6, 120e-6, 100e-6) })
  const regulator = (more: object = {}) => through('regulator', { quiescentCurrent: exact(0), lowestInput: 0, ...more })
  const curve = { dropout: { x: [0, 0.1], y: [0, 0.5] } }
  const of = (controller: string, rails: readonly (readonly [string, string, object])[], more: object = {}) => {
    const { lives = {}, ...rest } = more as { lives?: object }
    return {
      ...{ ...design, monitor: undefined, bursts: undefined },
      controller: { ...design.controller, brownOut: between(2.4, 2.6, 2.5), current: between(0.01, 0.02, 0.015) },
      rails: rails.map(([name, source, own]) => ({ name, source, through: own })),
      lives: { ...design.lives, controller, sensor: 'own', driveCurrent: exact(0), ...lives },
      ...rest,
    } as unknown as ReadDesign
  }
  const isBare = (one: ReadDesign) => 'converter' in limitsOf(one)!

  it('is the controller where it hangs on that with nothing in between, and a sensor that follows it', () => {
    const direct = ['a', 'main', through('direct')] as const
    expect(limitsOf(of('a', [direct]))).toMatchObject({ brownOut: { lower: 2.4, nominal: 2.5, upper: 2.6 } })
    expect(limitsOf(of('main', []))).toMatchObject({ clock: design.controller.lowestSupply })
    expect(limitsOf(of('a', [direct]))).not.toHaveProperty('clock')
    const held = ['a', 'main', through('diode')] as const
    const sensor = (supply: unknown) =>
      limitsOf(of('a', [held], { lives: { sensor: 'main' }, hall: { ...design.hall, sensorSupply: supply } }))
    for (const supply of [undefined, 'rail'])
      expect(sensor(supply)).toEqual({ sensor: design.parts.sensor.supplyMinimum })
    // A sensor of its own supply, and a controller whose capacitor holds it up: only the load is there, which must not collapse.
    expect(sensor('3 V')).toEqual({ converter: 0.1 })
    expect(isBare(of('a', [held]))).toBe(true)
  })

  it('is as much more as a regulator loses at what hangs on it, and at least what it must be fed with', () => {
    const behind = (own: object) => limitsOf(of('a', [['a', 'main', regulator(own)]]))!.brownOut
    // 10, 15 and 20 mA.
    const ohms = { dropoutResistance: between(10, 30, 20) }
    expect(behind(ohms)).toMatchObject({ lower: 2.4, nominal: expect.closeTo(2.8, 12), upper: expect.closeTo(3.2, 12) })
    expect(behind(curve)).toMatchObject({ nominal: expect.closeTo(2.575, 12), upper: expect.closeTo(2.7, 12) })
    expect(behind({ ...ohms, lowestInput: 2.9 })).toMatchObject({ lower: 2.9, nominal: 2.9 })
    expect(behind({ ...ohms, lowestInput: 3.5 })).toMatchObject({ lower: 3.5, nominal: 3.5, upper: 3.5 })
    // Beyond the last point of its curve, and without one, nothing is known of it.
    for (const own of [{}, { dropout: { x: [0, 0.019], y: [0, 0.1] } }])
      expect(isBare(of('a', [['a', 'main', regulator(own)]]))).toBe(true)
    expect(behind({ dropout: { x: [0, 0.02], y: [0, 0.1] } })).toMatchObject({ upper: expect.closeTo(2.7, 12) })
  })

  it('is told apart from a controller behind a resistor with its capacitor, unless that outlasts a burst', () => {
    const chain = [
      ['c', 'main', through('direct')],
      ['b', 'c', resistor],
      ['a', 'b', through('direct')],
    ] as const
    const found = isolatedRail(of('a', chain))
    expect(found).toMatchObject({ place: 1, through: { kind: 'resistor' } })
    expect(limitsOf(of('a', chain))).toMatchObject({ brownOut: { upper: 2.6 }, clock: design.controller.lowestSupply })
    expect(logicOf(of('a', chain))).toEqual({
      logicRail: { behind: 'resistor', resistance: resistor['resistance' as never], capacitance: 80e-6, current: 0.02 },
      onLogicRail: ['brownOut', 'clock'],
    })
    // Seven times 11 ohm and 120 uF are 9.24 ms.
    expect(isolatedRail(of('a', chain, { bursts: { time: 9.25e-3 } }))).toBeDefined()
    expect(isolatedRail(of('a', chain, { bursts: { time: 9.23e-3 } }))).toBeUndefined()
    expect(logicOf(of('a', chain, { bursts: { time: 9.23e-3 } }))).toEqual({})
    // Behind a regulator no ring of the main rail comes to it, nor where the block was told of it.
    expect(isolatedRail(of('b', [['c', 'main', regulator(curve)], chain[1]]))).toBeUndefined()
    expect(isolatedRail(of('a', [['a', 'main', regulator(curve)]]))).toBeUndefined()
    expect(isolatedRail(of('main', []))).toBeUndefined()
    const told = { decoupling: { ...design.decoupling, logicRail: { behind: 'resistor' } } }
    expect(isolatedRail(of('a', chain, told))).toBeUndefined()
  })
})

describe('what a converter does in a period beside the current', () => {
  const { divider, hall, monitor, controller, ...rest } = exampleDesign
  const design = (more: object = {}): ReadDesign =>
    ({
      ...rest,
      divider: {
        ...divider,
        converter: { ...divider.converter, acquisitionTime: '3 us', conversionTime: '2 us' },
        timing: { wait: '0.5 ms', referenceSettling: '40 us', samples: 4 },
      },
      hall: { ...hall, wait: '0.6 ms' },
      ...{ monitor, controller, ambientCelsius: { from: 0, to: 50 } },
      ...more,
    }) as unknown as ReadDesign
  const times = { acquisition: 3e-6, conversion: 2e-6 }
  const resistance = { name: 'resistance', window: 'off', settling: expect.closeTo(5.4e-4, 12), samples: 4, ...times }
  const loaded = { name: 'rail under load', window: 'on', settling: 6e-4, ...times }
  const rail = { name: 'rail', window: 'off', settling: 0, ...times }
  const found = (more?: object) => tasksOf(design(more))

  it('is the resistance after its waits, the rail at rest where the monitor reads it there, and beside the current', () => {
    expect(found()).toMatchObject([resistance, rail, loaded])
    expect(found({ monitor: { ...monitor, reads: 'under load' } })).toMatchObject([resistance, loaded])
    expect(found({ monitor: undefined })).toMatchObject([resistance, loaded])
    expect(found({ controller: { ...controller, internalReference: undefined } })).toMatchObject([resistance])
    expect(found().map(({ recovery }) => recovery)).toEqual([0, 0, 0])
    expect(found({ hall: { ...hall, wait: undefined } })).toMatchObject([resistance, rail, { ...loaded, settling: 0 }])
    expect(found({ monitor: undefined })).toHaveLength(2)
    expect(found({ controller: { ...controller, internalReference: undefined } })).toHaveLength(1)
  })

  it('is of a load that is never off only what is read of it then', () => {
    expect(found({ pwm: { frequency: 100, duty: { from: 1, to: 1 } } })).toMatchObject([loaded])
    expect(found({ pwm: { frequency: 100, duty: { from: 0.5, to: 1 } } })).toHaveLength(3)
  })
})
