import { type Design, dividerAt, exampleDesign, hallAt, mosfetAt, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { chargeAt } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { cautionsOf } from '../src/answer/cautions.js'
import { monitorOf } from '../src/answer/monitor.js'
import { rowAt } from './shared.js'

const regulator = {
  kind: 'regulator',
  voltage: '3 V ±2 %',
  dropout: '0 A: 0.02 V, 10 mA: 0.1 V, 200 mA: 0.5 V',
  currentLimit: '200 mA',
  quiescentCurrent: '4 uA',
} as const

const logic: Design = {
  ...exampleDesign,
  rails: [{ name: 'logic', source: 'main', through: regulator }],
  lives: {
    controller: 'logic',
    converter: 'logic',
    sensor: 'logic',
    amplifier: 'logic',
    sensorCurrent: '10 mA',
    driveCurrent: 0,
  },
}

describe('rails behind the main one', () => {
  const place = { charge: 1, celsius: 25, age: 0 }
  const design = readDesign(logic)
  const solved = solveAt(design, place)

  it('a regulator holds its voltage over the step, and takes the currents of all that lives on it and its own', () => {
    expect(solved.rails['logic']!.rest).toMatchObject({ lower: 2.94, upper: 3.06 })
    expect(solved.rails['logic']!.sag.upper).toBeLessThanOrEqual(3.06)
    // 12 mA, 10 mA and 4 uA through the source.
    const { openCircuit, resistance } = solved.source
    expect(solved.rest.nominal).toBeCloseTo(openCircuit.nominal - 0.022004 * resistance.nominal, 12)
  })

  it('a raw rail in dropout leaves what the dropout leaves, by plain arithmetic', () => {
    const { rails, rail } = solveAt(design, { charge: 0.1, celsius: 0, age: 1 })
    // At 22 mA between 0.1 V at 10 mA and 0.5 V at 200 mA.
    const dropout = 0.1 + (0.4 * (0.022 - 0.01)) / 0.19
    expect(rails['logic']!.sag.lower).toBeCloseTo(rail.lower - dropout, 9)
  })

  it('a regulator in dropout is pulled lower by the test current, by plain arithmetic', () => {
    const { rails, test } = solveAt(design, { charge: 0.1, celsius: 0, age: 1 })
    const { rest, measuring } = rails['logic']!
    expect(test.upper).toBeCloseTo(rest.upper / (47 * 0.999 + 0.4 + 0.5), 9)
    // 0.4 V more for 190 mA more.
    const dropout = 0.1 + (0.4 * (0.022 + test.upper - 0.01)) / 0.19
    expect(measuring.lower).toBeCloseTo(Math.min(2.94, rails['main']!.measuring.lower - dropout), 9)
    const most = rowAt(walkOf(design, { charges: 2 }), place, 'rails/regulator-current-logic')
    expect(most!.worst).toBeGreaterThan(0.022 + 3.06 / 48.5)
  })

  it('each block gets the rail of its parts', () => {
    const { firmware } = walkOf(design, { charges: 2 })
    // The test current takes hardly anything of a regulator in its range.
    const { from, to } = dividerAt(design, solved, firmware).conditions.rail
    expect(from).toBeCloseTo(2.94, 3)
    expect(to).toBeCloseTo(3.06, 3)
    expect(hallAt(design, solved, firmware).conditions.rail).toMatchObject({ to: 3.06 })
    const apart = readDesign({ ...logic, lives: { ...logic.lives, sensor: 'main', amplifier: 'main' } })
    const there = solveAt(apart, place)
    // The firmware has one value for the sensor's supply, wherever the rail is: the middle of what it comes to.
    const own = walkOf(apart, { charges: 2 })
    const { lower, upper } = there.rail
    // Capacitors hardly hold the rail up any more when it is sampled.
    const { sensorSupply } = hallAt(apart, there, own.firmware).choice as { sensorSupply: { upper: number } }
    expect(sensorSupply.upper).toBeGreaterThan(upper)
    expect(sensorSupply.upper).toBeLessThan(upper + 0.001)
    expect(hallAt(apart, there, own.firmware).choice.sensorSupply).toMatchObject({
      nominal: own.firmware.sensor,
      lower: Math.min(lower, own.firmware.sensor),
    })
    const { source } = apart.supply
    if (source.kind !== 'cell') throw new Error('a cell')
    const { rail } = own.solve({
      charge: { from: 1, to: chargeAt(source, source.lowestVoltage).nominal },
      ...own.around,
    })
    expect(own.firmware.sensor).toBeCloseTo((rail.lower + rail.upper) / 2, 12)
    // Half a millisecond after a pulse the main rail still has a hundredth of its sag to come back from.
    const { rest, measuring, sag } = there.rails['main']!
    const { amplifierSupply } = dividerAt(apart, there, firmware).choice as { amplifierSupply: typeof measuring }
    expect(amplifierSupply.upper).toBe(measuring.upper)
    expect(amplifierSupply.lower).toBeLessThan(measuring.lower)
    expect(amplifierSupply.lower).toBeGreaterThan(measuring.lower - 0.01 * (rest.lower - sag.lower))
  })

  it('behind a regulator the firmware is written for its nominal output, wherever it drops out: full cells are read right, empty ones low', () => {
    // On one cell a regulator of 3.3 V with a dropout of 0.3 V is in range at 4.2 V, and far below it on empty cells.
    const sensor = {
      name: 'sensor',
      source: 'main',
      through: { ...regulator, voltage: '3.3 V ±1 %', dropout: '0 A: 0.3 V, 200 mA: 0.3 V' },
    } as const
    const reference = { kind: 'absolute', voltage: '1.6 V' } as const
    const apart: Design = {
      ...exampleDesign,
      rails: [sensor, { name: 'behind', source: 'sensor', through: 'direct' }],
      lives: { sensor: 'behind' },
      hall: {
        ...exampleDesign.hall,
        sensor: { ...exampleDesign.hall.sensor, ratedSupply: '3.3 V' },
        converter: { ...exampleDesign.hall.converter, reference },
        calibration: 'none',
      },
    }
    const walk = walkOf(readDesign(apart), { charges: 2 })
    expect(walk.firmware.sensor).toBe(3.3)
    const error = (one: typeof place) => rowAt(walk, one, 'hall/error-2')!
    const { lower } = solveAt(walk.design, { charge: 0.1, celsius: 0, age: 1 }).rails['behind']!.sag
    expect(lower).toBeLessThan(2.6)
    // Ratiometric against a converter that isn't: at 6 A and 200 mV/A with 0.33 V of zero, a rail that is low by a share takes as much of both.
    const share = 1 - lower / 3.3
    const low = ((0.33 + 6 * 0.2) * share) / 0.2
    expect(error({ charge: 0.1, celsius: 0, age: 1 }).worst).toBeGreaterThan(low)
    // On full cells no more than the regulator's own 1 % of that, and what sensor and converter err by.
    expect(error(place).worst).toBeLessThan(((0.33 + 6 * 0.2) * 0.01) / 0.2 + 0.5)
  })

  it('a sensor on the raw rail, its converter behind a regulator: the zero was read on a rail that no load sags', () => {
    const zeroed = readDesign({ ...logic, lives: { ...logic.lives, sensor: 'main' } })
    const walk = walkOf(zeroed, { charges: 2 })
    const there = solveAt(zeroed, { charge: 0.1, celsius: 0, age: 1 })
    // Read once, as in the demo: anywhere between full and empty cells at rest.
    const { calibration } = hallAt(zeroed, there, walk.firmware).choice
    const supply = Object(calibration).supply
    expect(supply.lower).toBeLessThan(there.rest.upper)
    expect(supply.upper).toBeGreaterThan(4.1)
    // Ratiometric, 0.33 V at 3.3 V: 1 V between zero and use is 0.1 V, 0.5 A; more than the 0.48 A allowed.
    const row = rowAt(walk, { charge: 0.1, celsius: 0, age: 1 }, 'hall/error-2')!
    expect(there.rest.lower - there.rail.lower).toBeGreaterThan(0.7)
    expect(row.worst).toBeGreaterThan((0.1 * (there.rest.lower - there.rail.lower)) / 0.2)
    expect(row.verdict).toBe('fails')
  })

  it('the gate has what the controller leaves of the rail, too', () => {
    const gate = (current: string) => {
      const hungry = readDesign({ ...exampleDesign, controller: { ...exampleDesign.controller, current } })
      const at = solveAt(hungry, { charge: 0.5, celsius: 25, age: 0 })
      const { from } = mosfetAt(hungry, at).conditions.openCircuit as { from: number }
      return { from, source: at.source.resistance.upper }
    }
    const [less, more] = [gate('12 mA'), gate('312 mA')]
    // 0.3 A through the source, which they warm by a little.
    expect(less.from - more.from).toBeGreaterThan(0.3 * less.source)
    expect(less.from - more.from).toBeLessThan(0.3 * 1.02 * less.source)
  })

  it('a port that limits its current leaves the load less by all that is always on, and the gate what that makes of its rail', () => {
    const port = { kind: 'port', voltage: '5 V', currentLimit: '3 A', leadResistance: '0.1 ohm' } as const
    const limited = readDesign({
      ...exampleDesign,
      supply: { source: port },
      decoupling: { ...exampleDesign.decoupling, insertion: { contactSurge: '150 A', railMaximum: '6 V' } },
      board: undefined,
      controller: { ...exampleDesign.controller, current: '200 mA' },
    })
    const at = solveAt(limited, { charge: 1, celsius: 25, age: 0 })
    expect(at.current.upper).toBeCloseTo(2.8, 9)
    expect(at.rail.lower).toBeCloseTo(2.8 * (at.load.lower + at.switch.lower), 9)
    const { from } = mosfetAt(limited, at).conditions.openCircuit as { from: number }
    expect(from).toBeCloseTo(at.rail.lower + 2.8 * 0.1, 9)
  })

  it('the sensor stands on the highest rail while the load is off', () => {
    const at = (id: string) =>
      rowAt(walkOf(readDesign(exampleDesign), { charges: 2 }), { charge: 1, celsius: 25, age: 0 }, id)!
    const { worst, limit } = at('rails/sensor-highest')
    const loaded = at('hall/supply-high').worst
    const { rest } = solveAt(readDesign(exampleDesign), { charge: 1, celsius: 25, age: 0 })
    expect(worst).toBe(rest.upper)
    expect(limit).toBe(5.5)
    expect(worst).toBeGreaterThan(loaded + 0.1)
  })

  it('behind a regulator the firmware does not see the cells: full ones stand a volt above what it reads', () => {
    // At least 4.15 V of a full cell less the little that the controller takes, at most 3.06 V behind the regulator.
    expect(monitorOf(walkOf(design, { charges: 2 }))!.unseen).toBeGreaterThan(4.1 - 3.06)
    expect(monitorOf(walkOf(readDesign(exampleDesign), { charges: 2 }))!.unseen).toBe(0)
  })

  it('cells are read against the regulator of the converter where that is stated as the reference, and against nothing else', () => {
    const [upper, lower] = ['100 kohm ±1 %', '200 kohm ±1 %']
    const monitor = { divider: { upper, lower }, stop: '3.3 V' }
    const { internalReference: _, ...controller } = exampleDesign.controller
    const watched = { ...logic, monitor }
    expect(() => readDesign({ ...watched, controller })).toThrow(
      /^controller\.internalReference = nothing: .*regulator of logic instead, state that one's voltage/,
    )
    const internalReference = { voltage: '3 V ±2 %' }
    const walk = walkOf(readDesign({ ...watched, controller: { ...controller, internalReference } }), { charges: 2 })
    const { acts, code } = monitorOf(walk)!.alarms[0]!
    const share = (top: number, bottom: number) => bottom / (top + bottom)
    const nominal = share(100, 200)
    expect(code).toBe(Math.round((3.3 * nominal * 4096) / 3))
    // The pin has its code at 2 % more or less of the regulator, and the rail is what the two resistors make of the pin.
    for (const [volts, top, bottom] of [
      [3.06, 101, 198],
      [2.94, 99, 202],
    ] as const) {
      const rail = ((code! / 4096) * volts) / share(top, bottom)
      expect(rail).toBeGreaterThan(acts.lower)
      expect(rail).toBeLessThan(acts.upper)
      expect(Math.abs(rail / 3.3 - 1)).toBeGreaterThan(0.02)
    }
    // No more than counts and leakage on top.
    expect(acts.upper - acts.lower).toBeLessThan(2 * 3.3 * (0.02 + 0.0068 + 0.012))
  })

  it('what lives on a rail that is not there is refused with the nearest', () => {
    expect(() => readDesign({ ...logic, lives: { controller: 'logc' } })).toThrow(
      /lives\.controller.*did you mean logic/i,
    )
  })
})

describe('a gate driver on a rail of its own', () => {
  const { transistor } = exampleDesign.mosfet
  const driver = {
    kind: 'driver',
    resistance: '3 ohm',
    sinkResistance: '2 ohm',
    currentMaximum: '2 A',
    supplyMinimum: '4.5 V',
    pull: { at: 'gate', resistance: '100 kohm' },
  } as const
  const { monitor: _, ...rest } = logic
  const two: Design = {
    ...rest,
    supply: { ...exampleDesign.supply, source: { ...exampleDesign.supply.source, inSeries: 2 } as never },
    load: { resistance: '2 ohm ±5 %', rise: '5 us' },
    mosfet: { ...exampleDesign.mosfet, transistor: { ...transistor, channel: 'N' }, drive: driver },
    divider: { ...exampleDesign.divider, topology: 'load at rail' },
    decoupling: { capacitors: [{ capacitance: '220 uF ±20 %', ratedVoltage: 16, seriesResistance: '25 mohm' }] },
    rails: [...logic.rails!, { name: 'gate', source: 'main', through: { ...regulator, voltage: '5 V ±2 %' } }],
    lives: { ...logic.lives, drive: 'gate', driveCurrent: '10 mA' },
  }
  const nearlyEmpty = { charge: 0.05, celsius: -10, age: 1 }
  const marginOf = (given: Design, id: string, place = nearlyEmpty) =>
    rowAt(walkOf(readDesign(given), { charges: 2 }), place, id)!

  it('has 5 V of full cells, and of sagged ones what the dropout leaves, by plain arithmetic', () => {
    expect(marginOf(two, 'mosfet/drive-supply', { charge: 1, celsius: 25, age: 0 }).worst).toBeCloseTo(4.9, 9)
    const { rail } = solveAt(readDesign(two), nearlyEmpty)
    expect(rail.lower).toBeLessThan(4.5)
    const { worst, verdict } = marginOf(two, 'mosfet/drive-supply')
    // 0.1 V at the 10 mA of the driver.
    expect(worst).toBeCloseTo(rail.lower - 0.1, 9)
    expect(verdict).toBe('fails')
    expect(marginOf(two, 'mosfet/gate-drive').worst).toBeLessThanOrEqual(worst)
  })

  it('draws its current from there, through the supply', () => {
    const rest = (driveCurrent: string) =>
      solveAt(readDesign({ ...two, lives: { ...two.lives, driveCurrent } }), nearlyEmpty)
    const [less, more] = [rest('0 mA'), rest('10 mA')]
    expect(less.rest.nominal - more.rest.nominal).toBeCloseTo(0.01 * less.source.resistance.nominal, 9)
  })

  it('says which supplies are only stated, and hang on no rail of the design', () => {
    const stated = {
      ...two,
      mosfet: { ...two.mosfet, drive: { ...driver, supply: { regulated: '5 V' } } },
      lives: logic.lives!,
    }
    expect(marginOf(stated, 'mosfet/drive-supply').verdict).toBe('holds')
    const told = (given: Design) => cautionsOf(walkOf(readDesign(given), { charges: 2 })).join(' ')
    expect(told(stated)).toMatch(/mosfet\.drive\.supply.*lives/)
    expect(told(two)).not.toMatch(/mosfet\.drive\.supply|Taken to stand/)
  })

  it('is refused where the drive is a pin, the switch at the rail, or its supply is told twice', () => {
    const as = (drive: object) => () => readDesign({ ...two, mosfet: { ...two.mosfet, drive: drive as never } })
    expect(as({ ...driver, kind: 'pin' })).toThrow(/^lives\.drive = "gate".*lives\.controller/)
    expect(as({ ...driver, supply: { regulated: '5 V' } })).toThrow(/^lives\.drive = "gate".*mosfet\.drive\.supply/)
    const mosfet = { ...exampleDesign.mosfet, drive: driver }
    expect(() => readDesign({ ...two, mosfet, divider: exampleDesign.divider })).toThrow(/^lives\.drive.*P-channel/)
    expect(() => readDesign({ ...two, lives: { ...two.lives, drive: 'gte' } })).toThrow(/^lives\.drive.*gate/)
  })
})

describe('bad input', () => {
  it('what the design says for all blocks is refused in a block', () => {
    const hall = { ...exampleDesign.hall, pwm: { frequency: 1, duty: { from: 0.1, to: 0.2 } } }
    expect(() => readDesign({ ...exampleDesign, hall })).toThrow(/^hall\.pwm/)
  })
})
