import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { monitorOf } from '../src/answer/monitor.js'
import { standbyOf } from '../src/answer/standby.js'
import { monitorRow } from './shared.js'

/*
 * Where a stop lands, against boards of our own: a cell's voltage and resistance by its points, Kirchhoff, and the charge stepped down until
 * the board reads its threshold.
 */

const points = [
  [0, 2.5],
  [0.02, 2.9],
  [0.05, 3.15],
  [0.1, 3.33],
  [0.3, 3.58],
  [0.6, 3.8],
  [1, 4.2],
] as const
const factors = [
  [0, 3],
  [0.1, 1.7],
  [0.3, 1.1],
  [1, 0.9],
] as const

function along(curve: readonly (readonly [number, number])[], at: number): number {
  const i = Math.max(
    1,
    curve.findIndex(([x]) => x >= at),
  )
  const [[x0, y0], [x1, y1]] = [curve[i - 1]!, curve[i]!]
  return y0 + ((y1 - y0) * (at - x0)) / (x1 - x0)
}

const said = (curve: readonly (readonly [number, number])[], unit: string) =>
  curve.map(([x, y]) => `${x}: ${y}${unit}`).join(', ')

const mohm = 1e-3

/** One cell of 20 mohm by 25 %, thrice that in the cold, twice when old; a path of 40 mohm; a load of 0.7 ohm by 3 % behind a switch of nothing. */
const design = (monitor: Design['monitor'], more: Partial<Design> = {}): Design => {
  const { tap: _, ...knife } = { tap: 0, ...exampleDesign }
  return {
    ...knife,
    board: 'board',
    supply: {
      source: {
        kind: 'cell',
        openCircuit: said(points, ' V'),
        openCircuitSpread: '20 mV',
        openCircuitSpreadEmpty: '40 mV',
        capacity: '2 Ah ±5 %',
        capacityLeft: 0.8,
        resistance: '20 mohm ±25 %',
        temperatureFactor: '0 degC: 3, 30 degC: 1',
        chargeFactor: said(factors, ''),
        ageFactor: 2,
        continuousCurrent: 20,
      },
      path: [{ name: 'wires', resistance: '40 mohm ±20 %', temperatureCoefficient: 'none', tap: 'board' }],
      inductance: '0.2 uH',
    },
    load: { resistance: '0.7 ohm ±3 %', temperatureCoefficient: 0, workingCelsius: '300 degC' },
    decoupling: { capacitors: exampleDesign.decoupling.capacitors },
    hall: { ...exampleDesign.hall, sensor: { ...exampleDesign.hall.sensor, conductorResistance: 0 } },
    mosfet: {
      ...exampleDesign.mosfet,
      transistor: {
        ...exampleDesign.mosfet.transistor,
        onResistance: '2.5 V: 0.1 mohm',
        temperatureLaw: { kind: 'power', exponent: 1 },
      },
    },
    pwm: { frequency: '100 Hz', duty: { from: 0.1, to: 1 } },
    controller: { ...exampleDesign.controller, brownOut: '1.5 V', current: '10 mA ±50 %' },
    monitor,
    ambientCelsius: { from: '0 degC', to: '30 degC' },
    ...more,
  } as unknown as Design
}

/** A board: where it lies between its limits, -1 to 1. */
interface Board {
  readonly curve: number
  readonly cell: number
  readonly path: number
  readonly load: number
  readonly idle: number
  readonly celsius: number
  readonly age: number
}

const open = (b: Board, q: number) =>
  along(points, q) + b.curve * (0.02 + 0.04 * Math.min(1, Math.max(0, (0.25 - q) / 0.15)))
const cellOf = (b: Board, q: number) =>
  20 * mohm * (1 + 0.25 * b.cell) * (3 - (2 * b.celsius) / 30) * along(factors, q) * (1 + b.age)
const pathOf = (b: Board) => 40 * mohm * (1 + 0.2 * b.path)
const loadOf = (b: Board) => 0.7 * (1 + 0.03 * b.load)
const idleOf = (b: Board) => 10 * mohm * (1 + 0.5 * b.idle)

/** Rail with the load off and on. */
function railsOf(b: Board, q: number) {
  const source = cellOf(b, q) + pathOf(b)
  const rest = open(b, q) - idleOf(b) * source
  return { rest, on: (rest * loadOf(b)) / (loadOf(b) + source) }
}

/** What is read at rest of cells that still lack a share of what the load took in them. */
function readAtRest(b: Board, q: number, lacking: number): number {
  const { rest, on } = railsOf(b, q)
  return rest - lacking * (on / loadOf(b) + idleOf(b)) * cellOf(b, q)
}

const ends = [-1, 1]
const boards: Board[] = ends.flatMap((curve) =>
  ends.flatMap((cell) =>
    ends.flatMap((path) =>
      ends.flatMap((load) =>
        [0, 30].flatMap((celsius) => [0, 1].map((age) => ({ curve, cell, path, load, idle: cell, celsius, age }))),
      ),
    ),
  ),
)
let seed = 3
const draw = () => {
  seed = (seed * 16807) % 2147483647
  return seed / 2147483647
}
const sign = () => 2 * draw() - 1
for (let n = 0; n < 100; n++)
  boards.push({
    curve: sign(),
    cell: sign(),
    path: sign(),
    load: sign(),
    idle: sign(),
    celsius: 30 * draw(),
    age: draw(),
  })

/** The highest charge at which a board reads no more than its threshold. */
function landing(read: (q: number) => number, threshold: number): number {
  let q = 1
  for (; q > 0 && read(q) > threshold; q -= 1e-3);
  let [above, below] = [Math.min(1, q + 1e-3), Math.max(0, q)]
  for (let n = 0; n < 30; n++) {
    const middle = (above + below) / 2
    if (read(middle) <= threshold) below = middle
    else above = middle
  }
  return above
}

const answer = (given: Design) => monitorOf(walkOf(readDesign(given), { charges: 2 }))!

/** Over all boards, each at both ends of what a threshold may be off. */
function over<T>(
  acts: { readonly lower: number; readonly upper: number },
  of: (b: Board, threshold: number) => T,
): T[] {
  return boards.flatMap((b) => [acts.lower - 0.01, acts.upper + 0.01].map((threshold) => of(b, threshold)))
}
const least = (values: readonly number[]) => Math.min(...values)
const most = (values: readonly number[]) => Math.max(...values)

describe('where a stop lands', () => {
  const base = { stop: '2.9 V', hysteresis: '1 V', calibration: '0.5 %', noise: '10 mV' } as const

  it('under load is where boards read it, charge by charge: held on both sides, to a millivolt', () => {
    const found = answer(design({ ...base, reads: 'under load' }))
    const [{ acts, rest, charge }] = found.alarms as [(typeof found.alarms)[0]]
    const all = over(acts, (b, threshold) => {
      const q = landing((at) => railsOf(b, at).on, threshold)
      const { rest: back, on } = railsOf(b, q)
      return { q, volts: open(b, q), rebound: back - on }
    })
    const volts = all.map((one) => one.volts)
    expect(rest.lower).toBeLessThanOrEqual(least(volts) + 1e-6)
    expect(rest.lower).toBeGreaterThan(least(volts) - 1e-3)
    expect(rest.upper).toBeGreaterThanOrEqual(most(volts) - 1e-4)
    expect(rest.upper).toBeLessThan(most(volts) + 1e-3)
    const charges = all.map((one) => one.q)
    // The switch takes 0.1 mohm. A millivolt is some thousandth of the charge where the curve is flat.
    expect(charge!.upper).toBeGreaterThanOrEqual(most(charges) - 1e-4)
    expect(charge!.upper).toBeLessThan(most(charges) + 1e-3)
    expect(charge!.lower).toBeLessThanOrEqual(least(charges) + 1e-6)
    expect(charge!.lower).toBeGreaterThan(least(charges) - 1e-3)
    // A hysteresis of 1 V, as much less as the threshold is, less twice the noise and a count.
    const left = acts.lower / 2.9 - 0.02 - found.perCount.stop - found.hysteresis!
    expect(left).toBeGreaterThan(most(all.map((one) => one.rebound)) - 1e-4)
    expect(left).toBeLessThan(most(all.map((one) => one.rebound)) + 2e-3)
  })

  it('at rest is early by what the cells still lack, with the resistance that they have there', () => {
    const early = [0, 0.3].map((lacking) => {
      const found = answer(design({ ...base, reads: 'at rest', pause: '1 min', lacking }))
      const [{ acts, rest, charge }] = found.alarms as [(typeof found.alarms)[0]]
      const shares = [0, lacking]
      const all = shares.flatMap((share) =>
        over(acts, (b, threshold) => {
          const q = landing((at) => readAtRest(b, at, share), threshold)
          return { q, volts: open(b, q), back: open(b, q) - idleOf(b) * (cellOf(b, q) + pathOf(b)) - threshold }
        }),
      )
      const volts = all.map((one) => one.volts)
      expect(rest.lower).toBeLessThanOrEqual(least(volts) + 1e-6)
      expect(rest.lower).toBeGreaterThan(least(volts) - 1e-3)
      expect(rest.upper).toBeGreaterThanOrEqual(most(volts) - 1e-4)
      expect(rest.upper).toBeLessThan(most(volts) + 1e-3)
      const soonest = most(all.map((one) => one.q))
      expect(found.beforeStop!).toBeLessThanOrEqual(1 - soonest + 1e-6)
      expect(found.beforeStop!).toBeGreaterThan(1 - soonest - 1e-3)
      expect(charge!.upper).toBeCloseTo(1 - found.beforeStop!, 12)
      expect(found.lacking!.most).toBeGreaterThanOrEqual(most(all.map((one) => one.back)) - 1e-6)
      expect(found.lacking!.most).toBeLessThan(most(all.map((one) => one.back)) + 1e-3)
      const left = acts.lower / 2.9 - 0.02 - found.perCount.stop - found.hysteresis!
      expect(left).toBeCloseTo(found.lacking!.most, 9)
      return soonest
    })
    // A third of half a volt, on a curve of 1.25 V for a whole charge from a tenth on.
    expect(early[1]! - early[0]!).toBeGreaterThan(0.01)
  })

  it('comes back further where a diode in the path drops less: such a board is stopped later, its cells of more resistance', () => {
    const { supply } = design(undefined)
    const path = supply.path!.map((one) => ({ ...one, drop: '0.2 V ±40 %' }))
    for (const [reads, lacking] of [
      ['under load', 0],
      ['at rest', 0.3],
    ] as const) {
      const watch = { ...base, stop: '2.85 V', reads, ...(lacking > 0 && { pause: '1 min', lacking }) }
      const found = answer(design(watch, { supply: { ...supply, path } }))
      const { acts } = found.alarms[0]!
      const all = [0.12, 0.28].flatMap((drop) =>
        over(acts, (b, threshold) => {
          const on = (q: number) => {
            const source = cellOf(b, q) + pathOf(b)
            const rest = open(b, q) - drop - idleOf(b) * source
            const rail = (rest * loadOf(b)) / (loadOf(b) + source)
            const lacks = 0.3 * (rail / loadOf(b) + idleOf(b)) * cellOf(b, q)
            return reads === 'under load' ? { read: rail, back: rest - rail } : { read: rest - lacks, back: lacks }
          }
          const q = landing((at) => on(at).read, threshold)
          // What reads so low at once, or never, is stopped elsewhere.
          return q >= 1 || Math.abs(on(q).read - threshold) > 1e-3 ? 0 : on(q).back
        }),
      )
      const left = acts.lower / 2.85 - 0.02 - found.perCount.stop - found.hysteresis!
      expect(left).toBeGreaterThan(most(all) - 1e-4)
      expect(left).toBeLessThan(most(all) * 1.1)
    }
  })

  it('on full cells leaves the rail no higher than they hold it under load, a diode in the path taken off', () => {
    const { supply } = design(undefined)
    const path = supply.path!.map((one) => ({ ...one, drop: '0.2 V ±40 %' }))
    const found = answer(design({ ...base, stop: '4.1 V', reads: 'under load' }, { supply: { ...supply, path } }))
    const rails = boards.map((b) => {
      const source = cellOf(b, 1) + pathOf(b)
      return ((open(b, 1) - 0.28 - idleOf(b) * source) * loadOf(b)) / (loadOf(b) + source)
    })
    // The switch takes 0.1 mohm at most, of 0.86 ohm.
    expect(found.aboveReset).toBeLessThanOrEqual(least(rails) - 1.5 + 1e-4)
    expect(found.aboveReset).toBeGreaterThan(least(rails) - 1.5 - 5e-3)
  })

  it('before a burst leaves what the burst takes from it: cells and rail come to less than where it acts', () => {
    const monitor = { ...base, reads: 'at rest', pause: '1 min', lacking: 0, stop: '3.1 V' } as const
    const bursts = { time: '10 s' }
    const found = answer(design(monitor, { bursts }))
    const acts = found.alarms[0]!.acts
    const after = over(acts, (b, threshold) => {
      let q = landing((at) => readAtRest(b, at, 0), threshold)
      let low = Number.POSITIVE_INFINITY
      // An old cell has 0.8 of 2 Ah less 5 % at least.
      const coulombs = 7200 * 0.95 * (1 - 0.2 * b.age)
      for (let t = 0; t < 10; t += 0.02) {
        const { on } = railsOf(b, q)
        low = Math.min(low, on)
        q -= ((on / loadOf(b) + idleOf(b)) * 0.02) / coulombs
      }
      return { volts: open(b, q), rail: low }
    })
    const [volts, rails] = [least(after.map((one) => one.volts)), least(after.map((one) => one.rail))]
    expect(found.aboveDamage!).toBeLessThanOrEqual(volts - 2.5 + 1e-6)
    expect(found.aboveReset).toBeLessThanOrEqual(rails - 1.5 + 1e-6)
    // An old warm cell counts with the capacity of an old one, a new one as well, and the current as at the beginning.
    expect(found.aboveDamage!).toBeGreaterThan(volts - 2.5 - 0.1)
    expect(found.aboveReset).toBeGreaterThan(rails - 1.5 - 0.1)
    const without = answer(design({ ...monitor, pause: '5 ms' }, { bursts }))
    expect(without.aboveDamage! - found.aboveDamage!).toBeGreaterThan(0.05)
    // The cells and the reserve in the drawer count from there.
    const days = (pause: string) =>
      standbyOf(
        readDesign(design({ ...monitor, pause }, { bursts })),
        answer(design({ ...monitor, pause }, { bursts })),
      )!.daysToDamage.lower
    expect(days('1 min')).toBeLessThan(days('5 ms'))
  })

  it('leaves empty cells nothing: a burst that takes more than is left fails against damage', () => {
    const monitor = { ...base, reads: 'at rest', pause: '1 min', lacking: 0, stop: '2.7 V' } as const
    // At 2.7 V a cell of the curve has a hundredth of its charge, 72 C; a burst of 30 s at 3.5 A takes 105 C.
    expect(answer(design(monitor, { bursts: { time: '30 s' } })).aboveDamage).toBe(-2.5)
    expect(answer(design({ ...monitor, pause: '5 ms' }, { bursts: { time: '30 s' } })).aboveDamage).toBeGreaterThan(0.1)
  })

  it('holds the rail of the controller behind its regulator at the rail that stops it, load on', () => {
    const behind = (monitor: Design['monitor']) =>
      design(monitor, {
        rails: [
          {
            name: 'logic',
            source: 'main',
            through: {
              kind: 'regulator',
              voltage: '2.5 V ±2 %',
              dropout: '0 A: 0 V, 100 mA: 1 V',
              currentLimit: '100 mA',
              quiescentCurrent: '1 uA',
              highestInput: '12 V',
            },
          },
        ],
        lives: { controller: 'logic', converter: 'main', sensor: 'main', amplifier: 'main', driveCurrent: 0 },
      } as unknown as Partial<Design>)
    // 15 mA through 1 V for 0.1 A drop 0.15 V; 2.9 V less its errors leave it 2.45 V all the same.
    expect(answer(behind({ ...base, reads: 'under load' })).aboveReset).toBeCloseTo(2.5 * 0.98 - 1.5, 6)
    const low = answer(behind({ ...base, stop: '2.5 V', reads: 'under load' }))
    expect(low.aboveReset).toBeCloseTo(low.alarms[0]!.acts.lower - 0.01 - 0.15 - 1.5, 3)
  })
})

describe('a latch', () => {
  const base = { stop: '2.9 V', calibration: '0.5 %', noise: 0 } as const
  it('is read at rest after a stop under load: above it by more than the rebound it keeps it off, below it does nothing', () => {
    const latched = (latch?: string) => answer(design({ ...base, reads: 'under load', ...(latch && { latch }) }))
    // The rail comes back to 3.6 V at most.
    expect(latched('3.9 V').hysteresis!).toBeGreaterThan(0)
    expect(latched('3.2 V').hysteresis!).toBeLessThan(0)
    expect(latched('2.7 V').hysteresis!).toBe(latched().hysteresis!)
    // As far above the stop as a hysteresis is, it is worth as much.
    const hysteresis = answer(design({ ...base, reads: 'under load', hysteresis: '1 V' })).hysteresis!
    expect(latched('3.9 V').hysteresis!).toBeCloseTo(hysteresis, 9)
    // It is looked at only after the stop: that it lies above it isn't out of order.
    expect(monitorRow(design({ ...base, reads: 'under load', latch: '3.9 V' }), 'stop-latch')).toBeUndefined()
  })

  it('comes after a stop at rest, or holds it off where it lies above', () => {
    const at = (latch: string) => design({ ...base, reads: 'at rest', pause: '5 ms', lacking: 0, latch })
    expect(monitorRow(at('2.8 V'), 'stop-latch')!.verdict).toBe('holds')
    expect(monitorRow(at('2.8999 V'), 'stop-latch')!.verdict).toBe('fails')
    expect(monitorRow(at('3.1 V'), 'stop-latch')).toBeUndefined()
    expect(answer(at('3.1 V')).hysteresis!).toBeGreaterThan(0.15)
    expect(answer(at('2.8 V')).hysteresis!).toBeLessThan(0)
  })
})

describe('a board of nominal parts', () => {
  const nominal: Board = { curve: 0, cell: 0, path: 0, load: 0, idle: 0, celsius: 30, age: 0 }
  /** Cells that are the same in the cold and when they are old. */
  const alike = (monitor: Design['monitor']): Design => {
    const given = design(monitor)
    const source = { ...given.supply.source, temperatureFactor: '0 degC: 1, 30 degC: 1', ageFactor: 1 }
    return { ...given, supply: { ...given.supply, source } as Design['supply'] }
  }
  const found = (monitor: object) =>
    monitorOf(walkOf(readDesign(alike(monitor as Design['monitor'])), { charges: 2 }))!.alarms.find(
      ({ name }) => name === 'stop',
    )!

  it('is stopped in the middle of all of them, where its own cells and its own resistances bring it to the threshold', () => {
    for (const [reads, stop, rail] of [
      ['at rest', 3.4, (q: number) => railsOf(nominal, q).rest],
      ['under load', 3.1, (q: number) => railsOf(nominal, q).on],
    ] as const) {
      const { charge, rest } = found({
        reads,
        stop,
        calibration: 0.01,
        noise: 0,
        ...(reads === 'at rest' && { lacking: 0 }),
      })
      let q = 1
      while (rail(q) > stop) q -= 1e-6
      expect(charge!.nominal, reads).toBeCloseTo(q, 4)
      expect(rest.nominal, reads).toBeCloseTo(open(nominal, q), 3)
      expect(charge!.lower).toBeLessThan(q)
      expect(charge!.upper).toBeGreaterThan(q)
    }
  })
})

describe('a stop at rest behind a diode', () => {
  it('leaves the rail where it does without one: that is what is read, and the cells stand higher by the drop (Kirchhoff)', () => {
    const railOf = (drop: string) => {
      const given = design({
        reads: 'at rest',
        pause: '50 ms',
        lacking: 0,
        stop: '3 V',
        calibration: 0.01,
        noise: 0,
      } as never)
      const path = [{ name: 'wires', resistance: '40 mohm ±20 %', temperatureCoefficient: 'none', drop, tap: 'board' }]
      // Cells whose resistance is the same at every charge.
      const source = { ...given.supply.source, chargeFactor: '0: 1, 1: 1' }
      const diode = { ...given, supply: { ...given.supply, source, path } } as Design
      const { alarms, aboveReset } = answer(diode)
      const { acts, rest } = alarms.find(({ name }) => name === 'stop')!
      return { rail: aboveReset + readDesign(diode).controller.brownOut.upper, acts, rest }
    }
    const [none, diode] = [railOf('0 V'), railOf('0.3 V')]
    expect(none.rail).toBeLessThan(none.acts.lower)
    expect(diode.rail).toBeCloseTo(none.rail, 2)
    expect(diode.rest.nominal).toBeCloseTo(none.rest.nominal + 0.3, 2)
  })
})
