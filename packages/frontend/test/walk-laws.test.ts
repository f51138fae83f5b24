import { type Design, exampleDesign, readDesign, solveAt, walkOf } from '@ohmward/frontend'
import { between, exact } from '@ohmward/quantity'
import { sourceAt } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { errorsOf, relativeError } from '../src/answer/power/power-errors.js'
import { untilOff, untilOn } from '../src/blocks/edges.js'
import { insertionOf, limitsOf } from '../src/blocks/rail-limits.js'
import { stepLeft } from '../src/formulas/index.js'
import { railRows } from '../src/rows/rail-rows.js'
import { senseRows } from '../src/rows/sense-rows.js'
import { gateLevel, switchOn } from '../src/supply/drive.js'
import { hull } from '../src/supply/hull.js'
import { gapBelow } from '../src/supply/rails.js'
import { sourceOver } from '../src/supply/source.js'
import { cutter } from './cutter.js'

const place = { charge: 1, celsius: 25, age: 0 }
const regulator = (voltage: string, more = {}) =>
  ({
    kind: 'regulator',
    voltage,
    dropoutResistance: '2 ohm ±50 %',
    currentLimit: '200 mA',
    quiescentCurrent: '4 uA',
    ...more,
  }) as const

const rowsBy = (rows: ReturnType<typeof railRows>) => new Map(rows.map(({ id, row }) => [id, row as any]))

describe('a source over a span', () => {
  const { source } = exampleDesign.supply
  // Its resistance is largest in the middle of its charge, and of its temperatures.
  const humped = readDesign({
    ...exampleDesign,
    supply: {
      ...exampleDesign.supply,
      source: { ...source, chargeFactor: '0: 1, 0.5: 3, 1: 1', temperatureFactor: '0 degC: 1, 20 degC: 2, 50 degC: 1' },
    },
  } as Design)

  it('takes in all that the points of its curves lead to inside it, from either end', () => {
    const at = (charge: number, celsius: number) => sourceAt(humped.supply, { charge, celsius, age: 0, tap: 'board' })
    for (const charge of [
      { from: 1, to: 0.2 },
      { from: 0.2, to: 1 },
    ]) {
      const over = sourceOver(humped, { charge, celsius: { from: 0, to: 50 }, age: { from: 0, to: 0 } })
      expect(over.cells!.resistance.upper).toBeCloseTo(at(0.5, 20).cells!.resistance.upper, 12)
      expect(over.cells!.resistance.lower).toBeCloseTo(at(1, 0).cells!.resistance.lower, 12)
      expect(over.openCircuit.lower).toBeCloseTo(at(0.2, 25).openCircuit.lower, 12)
      expect(over.openCircuit.upper).toBeCloseTo(at(1, 25).openCircuit.upper, 12)
    }
  })
})

describe('two rails, each behind a regulator of its own', () => {
  const two: Design = {
    ...exampleDesign,
    rails: [
      { name: 'analog', source: 'main', through: regulator('3 V ±1 %', { highestInput: '6 V' }) },
      {
        name: 'logic',
        source: 'main',
        through: regulator('2.8 V ±1 %', { dropoutResistance: '20 ohm ±50 %', highestInput: '7 V' }),
      },
    ],
    controller: { ...exampleDesign.controller, brownOut: '2.5 V ±2 %', current: '10 mA' },
    lives: {
      controller: 'logic',
      converter: 'analog',
      sensor: 'analog',
      amplifier: 'analog',
      sensorCurrent: '10 mA',
      driveCurrent: 0,
    },
  } as Design
  const design = readDesign(two)

  it('hold the main rail to what the controller needs, by its own regulator', () => {
    // 2.55 V and 10 mA through 30 ohm at most; 2.45 V and nothing lost at least.
    expect(limitsOf(design)!.brownOut).toMatchObject({ lower: 2.45, upper: expect.closeTo(2.55 + 0.3, 9) })
    expect(limitsOf(design)!.clock).toBeUndefined()
    expect(limitsOf(design)!.sensor).toBeUndefined()
  })

  it('hold what the rail may rise to at the least that one of them stands, or what is said of it if less', () => {
    const told = (insertion: object | undefined) =>
      insertionOf({ ...design, decoupling: { ...design.decoupling, insertion } } as never).insertion?.railMaximum
    expect(told(undefined)).toBe(6)
    expect(told({ railMaximum: '5 V' })).toBe(5)
    expect(told({ railMaximum: '9 V' })).toBe(6)
    expect(told({})).toBe(6)
    const none = readDesign(exampleDesign)
    expect(insertionOf({ ...none, decoupling: { ...none.decoupling, insertion: undefined } } as never)).toEqual({})
  })

  it('have no junction where more is asked of them than they give', () => {
    const solved = solveAt(design, place)
    const rails = design.rails!.map((rail) => ({ ...rail, through: { ...rail.through, currentLimit: 1e-3 } }))
    const ids = railRows({ ...design, rails } as never, solved).map(({ id }) => id)
    expect(ids).toContain('rails/regulator-input-analog')
    expect(ids).not.toContain('rails/regulator-junction-analog')
  })

  it('count for what hangs on the main rail itself, not behind a diode', () => {
    const through = { kind: 'diode', drop: '0.3 V', capacitance: '100 uF ±20 %', leakage: '1 uA' }
    const rails = [
      { name: 'held', source: 'main', through },
      { ...two.rails![1]!, source: 'held' },
    ]
    const { insertion: _, ...decoupling } = design.decoupling
    const found = (all: object[]) => insertionOf({ ...design, rails: all, decoupling } as never)
    expect(found(rails)).toEqual({})
    expect(
      found([
        { ...rails[0], through: { kind: 'direct' } },
        { ...design.rails![1], source: 'held' },
      ]),
    ).toEqual({
      insertion: { railMaximum: 7 },
    })
    // Without rails controller and sensor live on the main one.
    expect(Object.keys(limitsOf(readDesign(exampleDesign))!)).toEqual(['brownOut', 'clock', 'sensor'])
  })

  it('stand below the main rail by what is left of it, at rest and in its sag (arithmetic)', () => {
    const { rails } = solveAt(design, place)
    const { rest, sag } = rails['main']!
    const gap = gapBelow(design, 'analog', rails, { from: 25, to: 25 })
    expect(gap.upper).toBeCloseTo(rest.upper - 2.97, 9)
    expect(gap.nominal).toBeCloseTo(rest.nominal - 3, 9)
    // Where the main rail stands lowest, its regulator may be in dropout: 10 mA through 1 ohm at least.
    expect(gap.lower).toBeCloseTo(Math.max(0, sag.lower - Math.min(3.03, sag.lower - 0.01)), 6)
  })

  it('name what is watched of each, with its input where that stands highest', () => {
    const solved = solveAt(design, place)
    const rows = rowsBy(railRows(design, solved))
    for (const name of ['analog', 'logic']) {
      expect(rows.get(`rails/regulator-junction-${name}`).name).toBe(`junction of the regulator of ${name}`)
      expect(rows.get(`rails/regulator-current-${name}`).name).toBe(`current of the regulator of ${name}`)
      expect(rows.get(`rails/regulator-input-${name}`).worst).toBe(solved.rails['main']!.rest.upper)
    }
    expect(rows.get('rails/regulator-input-analog').limit).toBe(6)
    // The sensor lives on one of them.
    expect(rows.get('rails/sensor-highest').worst).toBe(solved.rails['analog']!.rest.upper)
    expect(rows.get('rails/regulator-current-analog').limit).toBe(0.2)
  })
})

describe('pins between two rails', () => {
  it('of a sensor through a divider take what its share of the rail leaves over the clamp (arithmetic)', () => {
    const pins = readDesign({
      ...exampleDesign,
      rails: [{ name: 'logic', source: 'main', through: regulator('2 V ±1 %') }],
      controller: { ...exampleDesign.controller, brownOut: '1.8 V ±1 %', lowestSupply: '1.7 V' },
      lives: { controller: 'logic', converter: 'logic', sensor: 'main', amplifier: 'logic', pinClamp: '0.3 V' },
      divider: { ...exampleDesign.divider, amplifier: { ...exampleDesign.divider.amplifier, supplyMinimum: '1.8 V' } },
      mosfet: { ...exampleDesign.mosfet, drive: { ...exampleDesign.mosfet.drive, highLevel: '1.9 V' } },
      hall: { ...exampleDesign.hall, divider: { top: '1 kohm ±10 %', bottom: '9 kohm ±10 %' }, filter: undefined },
    } as never)
    const solved = solveAt(pins, place)
    const rows = rowsBy(railRows(pins, solved))
    const [top, bottom] = [900, 9900]
    const open = (solved.rails['main']!.rest.upper * bottom) / (top + bottom)
    const clamp = rows.get('rails/pin-sensor')
    expect(clamp.worst).toBeCloseTo((open - 1.98 - 0.3) / ((top * bottom) / (top + bottom)), 9)
    // And of nominal parts: nine tenths, less 2 V and the clamp, through a tenth of 9 kohm.
    const usual = 0.9 * solved.rails['main']!.rest.nominal
    expect(clamp.nominal).toBeCloseTo((usual - 2 - 0.3) / 900, 9)
    expect(clamp.nominal).toBeLessThan(clamp.worst)
    expect(clamp.name).toBe('current into the clamp of the pin of the current sensor')
  })

  it('of the sense input stand above supplies that are stated (arithmetic)', () => {
    const stated = (more: object) => {
      const surroundings = { ...exampleDesign.divider.surroundings, protectionResistance: '2 kohm ±10 %' }
      const own = readDesign({
        ...exampleDesign,
        divider: { ...exampleDesign.divider, surroundings, ...more },
      } as Design)
      const solved = solveAt(own, place)
      const over = (volts: number) => solved.rails['main']!.rest.upper - volts - own.lives.pinClamp
      const usual = solved.rails['main']!.rest.nominal - 3 - own.lives.pinClamp
      return { over, usual, back: rowsBy(senseRows(own, solved)).get('rails/back-feed-own') }
    }
    // Through 47 ohm ±0.1 % into a supply of 2.94 to 3.06 V, and through 2 kohm ±10 % as well.
    const one = stated({ excitation: '3 V ±2 %' })
    expect(one.back.worst).toBeCloseTo(one.over(2.94) / 46.953, 9)
    expect(one.back.nominal).toBeCloseTo(one.usual / 47, 9)
    expect(one.back.limit).toBe(0)
    const both = stated({ excitation: '3 V ±2 %', amplifierSupply: '3 V ±2 %' })
    expect(both.back.worst).toBeCloseTo(both.over(2.94) * (1 / 46.953 + 1 / 1800), 9)
    expect(both.back.nominal).toBeCloseTo(both.usual * (1 / 47 + 1 / 2000), 9)
  })
})

describe('an amplifier that runs on the rail of the converter, whatever it lives on', () => {
  it('has its inputs above that rail where the load is driven (arithmetic)', () => {
    const on = (amplifierSupply: 'rail' | undefined) => {
      const own = readDesign({
        ...cutter,
        divider: { ...cutter.divider, ...(amplifierSupply && { amplifierSupply }) },
        lives: { ...cutter.lives, amplifier: 'main' },
      } as Design)
      const solved = solveAt(own, place)
      const { lives } = own
      const over = solved.rails['main']!.rest.upper - solved.rails['logic']!.rest.lower - lives.pinClamp
      return { needed: over / lives.pinCurrent, clamp: rowsBy(senseRows(own, solved)).get('rails/sense-clamp') }
    }
    expect(on(undefined).clamp).toBeUndefined()
    const { needed, clamp } = on('rail')
    expect(clamp.limit).toBeCloseTo(needed, 6)
  })
})

describe('a gate that another rail than the main one drives', () => {
  const { rails } = solveAt(readDesign(exampleDesign), place)
  const { rest } = rails['main']!
  const over = (lower: number, upper: number) => ({ rest: between(lower, upper), sag: between(lower / 2, upper / 2) })
  const all = { main: rails['main']!, logic: over(3, 3.2), gate: over(5, 5.2) }
  const level = (channel: string, kind: string, lives: object) => {
    const read = readDesign(exampleDesign)
    const mosfet = { transistor: { channel }, drive: { kind } }
    const design = { ...read, mosfet, lives: { ...read.lives, ...lives }, rails: [{ name: 'logic' }, { name: 'gate' }] }
    return gateLevel(design as never, all)
  }

  it('is that of an N-channel switch alone, and goes from the sag of that rail to its rest', () => {
    expect(level('P', 'pin', { controller: 'logic' })).toBeUndefined()
    expect(level('N', 'pin', { controller: 'logic' })).toMatchObject({ lower: 1.5, upper: 3.2 })
    expect(level('N', 'follower', { controller: 'logic' })).toMatchObject({ lower: 1.5, upper: 3.2 })
    // A driver hangs on the main rail, unless it lives on another.
    expect(level('N', 'driver', { controller: 'logic' })).toBeUndefined()
    expect(level('N', 'driver', { controller: 'logic', drive: 'gate' })).toMatchObject({ lower: 2.5, upper: 5.2 })
    expect(level('N', 'pin', {})).toBeUndefined()
    const design = readDesign(exampleDesign)
    expect(switchOn(design, rails)).toBe(design.parts.switch)
    expect(rest.upper).toBeLessThan(4.3)
  })
})

describe('all that several spreads cover', () => {
  it('has its ends at the furthest of them and its nominal between those, and is exact where they all are one', () => {
    expect(hull([between(1, 2, 1.2), between(3, 5, 4.8)])).toMatchObject({ lower: 1, upper: 5, nominal: 3 })
    expect(hull([exact(2), exact(2)])).toEqual(exact(2))
    const one = between(1, 2)
    expect(hull([one, one])).toBe(one)
  })
})

describe('when a reading finds the switch settled', () => {
  const edges = { on: 2e-6, off: 3e-6 }
  const on = (hall: object, more: object = {}) => {
    const design = { hall, load: { rise: 1e-5 }, pwm: { frequency: 100, duty: { from: 0.1, to: 0.9 } }, ...more }
    return untilOn(design as never, {} as never, () => edges).edge
  }

  it('is after its edge and the rise of the current, or what is told where that is more; a zero each time waits for it to be off', () => {
    expect(on({})).toBeCloseTo(1.2e-5, 12)
    expect(on({ timing: { edge: '50 us' } })).toBeCloseTo(5e-5, 12)
    expect(on({ wait: '1 ms', timing: { edge: '5 us' } })).toBeCloseTo(1.2e-5, 12)
    const steady = { pwm: { frequency: 100, duty: { from: 1, to: 1 } } }
    expect(on({}, steady)).toBe(1e-6)
    expect(on({ timing: { edge: '50 us' } }, steady)).toBeCloseTo(5e-5, 12)
    const still = { load: { rise: 0 } }
    expect(on({ calibration: 'zero each time' }, still)).toBe(3e-6)
    expect(on({ calibration: { kind: 'zero each time' } }, still)).toBe(3e-6)
    expect(on({ calibration: { kind: 'zero' } }, still)).toBe(2e-6)
  })

  it('is of a resistance after it is off', () => {
    const off = (timing: object | undefined) =>
      untilOff({ divider: { timing } } as never, {} as never, () => edges).edge
    expect([off(undefined), off({ wait: '1 ms' }), off({ edge: '4 us' })]).toEqual([3e-6, 3e-6, 4e-6])
  })
})

describe('the error of a reading as a share of what is read', () => {
  const sure = (truth: number, error: number) => ({ truth, error, isSure: true })
  const most = (found: Parameters<typeof relativeError>[0], lower: number, upper: number) =>
    relativeError(found, { ...exact(lower), upper })?.upper

  it('is what it is held to at a value, on a straight line between two, and in proportion beyond', () => {
    const two = [sure(4, 0.8), sure(2, 0.1)]
    expect(most(two, 2, 2)).toBeCloseTo(0.05, 12)
    expect(most(two, 3, 3)).toBeCloseTo(0.45 / 3, 12)
    expect(most(two, 4, 8)).toBeCloseTo(0.2, 12)
    // Below the least it stays as large as there.
    expect(most(two, 1, 1)).toBeCloseTo(0.1, 12)
    expect(most(two, 1, 8)).toBeCloseTo(0.2, 12)
    expect(most([sure(2, 0)], 1, 3)).toBe(0)
    expect(most([], 1, 3)).toBeUndefined()
  })

  it('leaves of one beyond what must be read no more than that it is shown as no less', () => {
    const found = [sure(2, 0.1), sure(4, 0.2)]
    const e = (upper: number) => relativeError(found, { ...exact(4), upper }, { from: 4, to: upper })!
    // Shown at a clip just above 4, less its error: of 5 that is 3.8.
    expect(e(5).lower).toBeCloseTo(3.8 / 5 - 1, 12)
    expect(e(5).upper).toBeCloseTo(0.05, 12)
    expect(e(4).lower).toBeCloseTo(-0.05, 12)
    expect(relativeError([sure(4, 0)], { ...exact(4), upper: 5 }, { from: 4, to: 5 })!.lower).toBeCloseTo(-0.2, 12)
  })

  it('below one that is in doubt is that in proportion, but not at the value before it', () => {
    const doubt = { truth: 4, error: 2, isSure: false }
    expect(most([sure(2, 0.1), doubt], 2, 2)).toBeCloseTo(0.05, 12)
    expect(most([sure(2, 0.1), doubt], 3, 3)).toBeCloseTo(0.5, 12)
    expect(relativeError([sure(1, 3)], exact(1))).toMatchObject({ lower: -1, upper: 3 })
  })
})

describe('the power as it is read', () => {
  it('is off by what the calibration leaves of the reference, and by noise and counts of the rail', () => {
    const error = (calibration: string | undefined, noise = '0 V') => {
      const monitor = { ...exampleDesign.monitor, calibration, noise }
      const walk = walkOf(readDesign({ ...exampleDesign, monitor } as Design), { charges: 2 })
      return errorsOf(walk)({ from: 0.5, to: 0.5 }).voltageTimesCurrent!
    }
    const [one, two, none] = [error('1 %'), error('2 %'), error(undefined)]
    expect(one.upper).toBeGreaterThan(0.01)
    for (const more of [two.upper - one.upper, one.lower - two.lower]) {
      expect(more).toBeGreaterThan(0.01 * (1 + one.lower))
      // It enters twice at most, times what the other errors make of it.
      expect(more).toBeLessThan(0.02 * (1 + one.upper))
    }
    // Without one the reference is off by 9 % of itself: V_rail is 1 / (1 - 0.09) of what it is taken for.
    expect(none.upper).toBeGreaterThan(1 / 0.91 - 1)
  })
})

describe('a step of the rail at a pin', () => {
  it('is missed whole at once, and fades as the rail alone does where nothing stands at the pin', () => {
    for (const tau_p of [0, 1e-5, 1e-3]) expect(stepLeft({ t_p: 0, tau_r: 1e-3, tau_p })).toBe(1)
    expect(stepLeft({ t_p: 2e-3, tau_r: 1e-3, tau_p: 0 })).toBeCloseTo(Math.exp(-2), 12)
  })
})

describe('a switch of which the sheet has no typical resistance', () => {
  it('has as little as its lots may have of the largest, and cold', () => {
    const { mosfet } = exampleDesign
    const transistor = { ...mosfet.transistor, onResistance: '2.5 V: 32 mohm; 4.5 V: 12.5 mohm' }
    const design = readDesign({ ...exampleDesign, mosfet: { ...mosfet, transistor } } as Design)
    const { lower, nominal, upper } = solveAt(design, place).switch
    const { leastShare } = design.parts.switch.transistor
    expect(lower).toBeGreaterThan(0)
    expect(lower).toBeLessThanOrEqual(leastShare * nominal * (1 + 1e-9))
    expect(upper).toBeGreaterThanOrEqual(nominal)
  })
})

describe('a walk', () => {
  it('meets each of its temperatures at each of its ages', () => {
    const { states } = walkOf(readDesign(exampleDesign), { charges: 2 })
    const { from, to } = readDesign(exampleDesign).ambientCelsius
    const all = [from, (from + to) / 2, to].flatMap((celsius) => [0, 1].map((age) => ({ celsius, age })))
    expect(states).toEqual(all)
  })
})
