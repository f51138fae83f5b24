import type { ChangeSpec } from '@ohmward/budget'
import { type Design, exampleDesign, readDesign } from '@ohmward/frontend'
import { exact, plusMinus, readSpread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { verdictFor } from '../src/answer/check.js'
import { firstOf } from '../src/answer/first.js'
import { inPulse, largestRead } from '../src/answer/power/in-pulse.js'
import type { RowFound } from '../src/answer/rows.js'
import { byPlace } from '../src/changes/by-place.js'
import { ownRemedies } from '../src/changes/own.js'
import {
  higherTrip,
  largerCurrent,
  laterReading,
  laterResistance,
  lowerWithstand,
  widerRange,
} from '../src/changes/readings.js'
import { higherInput, isOfInput, largerOutput } from '../src/changes/regulator.js'
import { blockRemedies } from '../src/changes/remedies.js'
import { readWhole } from '../src/changes/whole.js'
import type { Span } from '../src/supply/place.js'
import type { Walk } from '../src/walk/walk.js'

const whole = (more: object = {}) => readWhole({ ...exampleDesign, ...more } as Design)
const ids = (changes: readonly ChangeSpec[] | undefined) => changes?.map(({ id }) => id)
const rungs = (change: ChangeSpec, read: object) => change.rungs({ read } as never)

describe('what is offered of the design itself', () => {
  const knife = whole()
  const { settings, parts } = ownRemedies(knife)

  it('goes by the block: a cell for a reading, the load and its path for what sags', () => {
    // The firmware stops first: an earlier cut-off changes nothing.
    expect(ids(parts['divider/headroom'])).toEqual(['cell'])
    const path = exampleDesign.supply.path.flatMap((one, i) => ('tripVoltage' in one ? [] : [`path-${i + 1}`]))
    expect(ids(parts['mosfet/junction'])).toEqual(['load', 'cell', ...path])
    expect(ids(parts['monitor/reset'])).toEqual(['load', 'cell', ...path])
    const { monitor: _, ...unwatched } = exampleDesign
    expect(ids(ownRemedies(readWhole(unwatched as Design)).parts['divider/headroom'])).toEqual(['cell', 'cut-off'])
    const rated = whole({ load: { ratedVoltage: '3.7 V', ratedPower: '19 W', workingCelsius: 200 } })
    expect(ids(ownRemedies(rated).parts['monitor/reset'])).toEqual(['cell', ...path])
  })

  it('is a cell of each class, whole, in the place of the one that is there', () => {
    const cells = rungs(parts['divider/headroom']![0]!, knife).map(
      ({ puts }) => puts['supply.source'] as { kind: string },
    )
    expect(cells.length).toBeGreaterThan(2)
    for (const source of cells) {
      expect(source.kind).toBe('cell')
      expect(() => whole({ supply: { ...exampleDesign.supply, source } })).not.toThrow()
    }
  })

  it('is a lower duty in PWM whatever the block, and a lower brown-out where the rail falls', () => {
    const inPulses = Object.keys(settings).filter((id) => /PWM/.test(id))
    expect(inPulses.length).toBeGreaterThan(0)
    for (const id of inPulses) expect(ids(settings[id])).toContain('duty')
    const atOnce = Object.keys(settings).filter((id) => id.startsWith('decoupling/') && !/PWM/.test(id))
    for (const id of atOnce) expect(ids(settings[id])).toEqual(['brown-out', 'soft-start'])
    expect(ids(settings['divider/resolution'])).toEqual([])
  })

  it('goes from what it is today to as far as it may, and no further', () => {
    const { monitor: _, ...unwatched } = exampleDesign
    const read = readWhole(unwatched as Design)
    const own = ownRemedies(read)
    const all = [...Object.values(own.settings), ...Object.values(own.parts)].flat()
    const tried = (id: string) => {
      const change = all.find((one) => one.id === id)!
      const values = change.rungs({ choice: unwatched, conditions: null, read } as never)
      return values.map(({ puts }) => readSpread(Object.values(puts)[0] as string, units[id]!).nominal)
    }
    const units: Record<string, { readonly field: string; readonly unit: 'V' | 's' | '1' }> = {
      'cut-off': { field: 'a', unit: 'V' },
      'brown-out': { field: 'b', unit: 'V' },
      'soft-start': { field: 'c', unit: 's' },
      duty: { field: 'd', unit: '1' },
    }
    const { supply, controller, pwm, load } = read.design
    const cutOff = (supply.source as { readonly lowestVoltage: number }).lowestVoltage
    for (const [id, today, end] of [
      ['cut-off', cutOff, cutOff + 0.6],
      ['brown-out', controller.brownOut.nominal, controller.lowestSupply],
      ['soft-start', load.rise, 0.1],
      ['duty', pwm.duty.to, pwm.duty.from],
    ] as const) {
      const values = tried(id)
      expect(values.length, id).toBeGreaterThan(3)
      for (const value of values)
        expect((value - today) * (end - value), `${id} ${value}`).toBeGreaterThanOrEqual(-1e-12)
      expect(values.at(-1)!, id).toBeCloseTo(end, 6)
    }
    // A port has no cut-off to move.
    const port = { ...read, design: { ...read.design, supply: { ...supply, source: { kind: 'port' } } } }
    const change = all.find(({ id }) => id === 'cut-off')!
    expect(change.rungs({ choice: unwatched, conditions: null, read: port } as never)).toEqual([])
  })

  it('is a longer wait where the rail that the resistance is read on is too low, within the pause between two pulses', () => {
    for (const id of ['divider/headroom', 'divider/supply-low'])
      expect(ids(settings[id])).toEqual(['divider/later-reading'])
    // Half a millisecond of a pause of one; without pauses there is none.
    expect(rungs(laterResistance, knife).map(({ text }) => text)).toEqual(['750 us'])
    const pwm = { ...exampleDesign.pwm, duty: { from: 1, to: 1 } }
    expect(rungs(laterResistance, whole({ pwm }))).toEqual([])
  })

  it('is less resistance of a protection where it trips alone', () => {
    const trip = Object.keys(parts).filter((id) => id.startsWith('supply/trip-of-'))
    const place = exampleDesign.supply.path.findIndex((one) => 'tripVoltage' in one) + 1
    for (const [id, all] of Object.entries(parts))
      expect(ids(all)!.includes(`path-${place}`), id).toBe(trip.includes(id))
    expect(trip.length).toBeGreaterThan(0)
  })

  it('is a range of resistances as far as the load goes, told with the ends that move', () => {
    const { load } = exampleDesign.divider
    const given = (from: string, to: string) =>
      whole({ divider: { ...exampleDesign.divider, load: { ...load, from, to } } })
    const { lower, upper } = knife.walk.over(knife.span).solved.own
    const told = (from: string, to: string) => rungs(widerRange, given(from, to)).map(({ text }) => text)
    const [low, high] = [/^from 6\d\d mohm$/, /^to \d[\d.]* m?ohm$/]
    expect(lower).toBeLessThan(0.69)
    expect(told('0.1 ohm', '3 ohm')).toEqual([])
    expect(told('0.69 ohm', '3 ohm')).toEqual([expect.stringMatching(low)])
    expect(told('0.1 ohm', `${upper * 0.99} ohm`)).toEqual([expect.stringMatching(high)])
    expect(told('0.69 ohm', `${upper * 0.99} ohm`)).toEqual([expect.stringMatching(/^from 6\d\d mohm to \d/)])
  })

  it('is a divider of less resistance by one factor for both, while it draws little in the drawer', () => {
    const stiffer = parts['monitor/sampling']!.find(({ id }) => id === 'monitor-divider')!
    const divider = { upper: plusMinus(200e3, 2e3), lower: plusMinus(100e3, 5e3) }
    const texts = (given: object) => rungs(stiffer, { design: { monitor: { divider: given } } }).map(({ text }) => text)
    // At least 10 kohm together: 300 kohm may come down to a twentieth.
    expect(texts(divider)).toEqual([
      '100 kohm ±1 % over 50 kohm ±5 %',
      '40 kohm ±1 % over 20 kohm ±5 %',
      '20 kohm ±1 % over 10 kohm ±5 %',
      '10 kohm ±1 % over 5 kohm ±5 %',
    ])
    expect(texts({ ratio: exact(0.5) })).toEqual([])
  })

  it('is all thresholds by one step for each cell, none of them to nothing', () => {
    const [lower, higher] = [parts['monitor/early']![1]!, parts['monitor/damage']![0]!]
    const of = (change: ChangeSpec, stop: number, inSeries = 2) =>
      rungs(change, { design: { monitor: { stop, warning: 6 }, supply: { source: { kind: 'cell', inSeries } } } })
    expect(of(lower, 5.2).map(({ text }) => text)[1]).toBe('warning 5.8 V, stop 5 V')
    expect(of(higher, 5.2)[0]!.puts).toEqual({ 'monitor.warning': '6.1 V', 'monitor.stop': '5.3 V' })
    expect(of(lower, 5.2)).toHaveLength(7)
    expect(of(lower, 0.35, 1)).toHaveLength(5)
    expect(of(lower, 0.4, 2)).toHaveLength(3)
    expect(rungs(lower, { design: { monitor: { stop: 5 }, supply: { source: { kind: 'port' } } } })).toEqual([])
  })

  it('is a current, a trip and what it must withstand by two digits: as far as what flows, and no further than the parts stand', () => {
    const of = (change: ChangeSpec, more: object = {}) => rungs(change, whole(more))[0]!.puts as Record<string, string>
    const number = (text: string) => Number(text.replace(' A', ''))
    const most = largestRead(knife.walk)
    const read = number(of(largerCurrent)['hall.current.to']!)
    expect(read).toBeGreaterThanOrEqual(most)
    expect(read).toBeLessThan(most + 0.1 + 1e-9)
    expect(read * 10).toBeCloseTo(Math.round(read * 10), 9)
    // As far above what flows as it was above normal use: 8 A of 6.5 A.
    const trip = { current: '8 A', normal: '6.5 A', withstand: '11 A' }
    const tripping = of(higherTrip, { hall: { ...exampleDesign.hall, trip } })
    expect(number(tripping['hall.trip.normal']!)).toBe(read)
    const level = number(tripping['hall.trip.current']!)
    expect(level).toBeGreaterThanOrEqual((read * 8) / 6.5)
    expect(level).toBeLessThan((read * 8) / 6.5 + 0.1 + 1e-9)
    // The switch stands 11.37 A for long, less than all others: 11 A of two digits.
    const transistor = { ...exampleDesign.mosfet.transistor, currentMaximum: '11.37 A' }
    expect(of(lowerWithstand, { mosfet: { ...exampleDesign.mosfet, transistor } })).toEqual({
      'hall.trip.withstand': '11 A',
    })
  })

  it('is a wait of some time constants, each later than the one before, that ends within the shortest pulse', () => {
    const { pwm } = exampleDesign
    const waits = (duty: object, frequency = '100 Hz') =>
      rungs(laterReading, whole({ pwm: { ...pwm, frequency, duty } })).map(({ text }) =>
        Number(text.replace(' us', 'e-6').replace(' ms', 'e-3')),
      )
    const long = waits({ from: 0.5, to: 0.9 })
    expect(long).toHaveLength(8)
    const time = inPulse(whole({ pwm: { ...pwm, frequency: '100 Hz', duty: { from: 0.5, to: 0.9 } } }).walk)!.time
    ;[0.5, 1, 1.5, 2, 2.5, 3, 4, 5].forEach((times, i) => {
      expect(long[i]! / (times * time)).toBeCloseTo(1, 1)
    })
    // A tenth of a millisecond of pulse leaves only the first of them, or none.
    const short = waits({ from: 0.05, to: 0.9 }, '400 Hz')
    expect(short.length).toBeLessThan(3)
    for (const wait of short) expect(wait).toBeLessThan(0.05 / 400)
  })

  it('is no trip where there is none, and no later reading of a mean', () => {
    const { trip: _, ...hall } = exampleDesign.hall as any
    expect(rungs(higherTrip, whole({ hall }))).toEqual([])
    for (const { puts, text } of rungs(laterReading, knife)) expect(puts).toEqual({ 'hall.wait': text })
  })
})

describe('what the blocks offer', () => {
  const found = blockRemedies(whole())
  /** Where a change of a row puts its values. */
  const puts = (row: string, id: string) => {
    const change = found[row]!.find((one) => one.id === id)!
    return [...new Set(change.rungs({} as never).flatMap((rung) => Object.keys(rung.puts)))]
  }

  it('goes by their rows, those of the rail in PWM too', () => {
    const blocks = new Set(Object.keys(found).map((id) => id.slice(0, id.lastIndexOf('/'))))
    expect([...blocks].sort()).toEqual(['decoupling', 'decoupling/PWM', 'divider', 'hall', 'mosfet'])
  })

  it('is put where the design has it', () => {
    expect(puts('decoupling/rail-brown-out', 'decoupling/slower')).toEqual(['load.rise'])
    expect(puts('divider/headroom', 'divider/output-reach')).toEqual(['divider.amplifier.highOutputDrop'])
  })
})

describe('what is offered of a regulator', () => {
  const through = {
    kind: 'regulator',
    voltage: '2.8 V ±1 %',
    dropoutResistance: '2 ohm',
    currentLimit: '0.2 A',
    quiescentCurrent: 0,
  }
  const rails = [
    { name: 'a', source: 'main', through: { ...through, highestInput: '6 V' } },
    { name: 'b', source: 'main', through },
  ]
  it('is more at its output, and more input where it has an end', () => {
    const read = whole({ rails })
    expect(ids(largerOutput(read))).toEqual(['output-1', 'output-2'])
    expect(ids(higherInput(read))).toEqual(['input-1'])
    const ofInput = [
      'decoupling/rail-maximum',
      'rails/regulator-input-a',
      'rails/regulator-current-a',
      'mosfet/junction',
    ]
    expect(ofInput.map(isOfInput)).toEqual([true, true, false, false])
  })
})

/** A row that lacks what a function of charge and temperature says. */
const text = { id: 'r', name: 'rail', unit: 'V', sense: 'at least', catches: [] } as const
const marginOf = (slack: number, more = {}) => ({
  ...text,
  worst: 3 + slack,
  limit: 3,
  slack,
  verdict: slack >= 0 ? 'holds' : 'fails',
  at: {},
  nominalSlack: slack,
  ...more,
})

describe('a row over a span', () => {
  /** A row over a span of 0 °C and 40 °C, new, from full to a fifth of the charge: short of much where both are taken at once. */
  const over = (slackAt: (charge: number, celsius: number) => number, finest = 0, kind = 'own') => {
    const slackOver = ({ charge, celsius }: Span) =>
      celsius.from !== celsius.to
        ? -1
        : charge.from - charge.to > finest
          ? -0.5
          : Math.min(slackAt(charge.from, celsius.from), slackAt(charge.to, celsius.from))
    const row = (part: Span) => {
      const margin = marginOf(slackOver(part))
      return { kind, ...text, hold: () => margin, estimate: () => margin }
    }
    const around = { celsius: { from: 0, to: 40 }, age: { from: 0, to: 0 } }
    const states = [0, 20, 40].map((celsius) => ({ celsius, age: 0 }))
    const walk = { around, states, over: (part: Span) => ({ ready: () => [{ id: 'x/r', row: row(part) }] }) }
    const span = { charge: { from: 1, to: 0.2 }, ...around }
    return byPlace(walk as unknown as Walk, span, {} as never, { id: 'x/r', row: row(span) } as never) as any
  }

  it('holds where it does at every temperature by itself, in short enough pieces of the charge, and is told at the worst', () => {
    expect(over((q) => q, 0.8).hold({})).toMatchObject({ id: 'x/r', verdict: 'holds', slack: 0.2 })
    // Four halvings of 0.8 are 0.05.
    expect(over((q) => q, 0.051).hold({})).toMatchObject({ verdict: 'holds', slack: 0.2 })
    expect(over((q) => q, 0.049).hold({})).toMatchObject({ id: 'x/r', verdict: 'fails', slack: -1 })
    expect(over((q, celsius) => q - celsius / 1000, 0.3).hold({}).slack).toBeCloseTo(0.16, 12)
  })

  it('is told as it is over all of it where it gives way at a place: at an end, in the middle, at one temperature', () => {
    const fails = { id: 'x/r', verdict: 'fails', slack: -1 }
    expect(over((q) => q - 0.3, 0.8).hold({})).toMatchObject(fails)
    expect(over((_, celsius) => (celsius === 20 ? -0.1 : 1), 0.8).hold({})).toMatchObject(fails)
    expect(over((q) => Math.abs(q - 0.6) - 0.01, 0.3).hold({})).toMatchObject(fails)
  })

  it('keeps what brings its failure about, and has nothing of it where nothing is said', () => {
    const span = { charge: { from: 1, to: 0.2 }, celsius: { from: 0, to: 40 }, age: { from: 0, to: 0 } }
    const of = (more: object) => {
      const row = { kind: 'own', ...text, hold: () => marginOf(1), ...more }
      return byPlace({} as Walk, span, {} as never, { id: 'x/r', row } as never)
    }
    expect(of({ causes: ['x/a', 'x/b'] }).causes).toEqual(['x/a', 'x/b'])
    expect('causes' in of({})).toBe(false)
    expect(Object.keys(of({ causes: ['x/a'] })).filter((key) => /^\d/.test(key))).toEqual([])
  })

  it('seems to hold where it does at the ends of the charge, and is short of as much as over all of it otherwise', () => {
    expect(over((q) => q).estimate().slack).toBe(0.2)
    const silent = { id: 'x/r', row: { kind: 'own', ...text, hold: () => marginOf(1) } } as never
    const span = { charge: { from: 1, to: 0.2 }, celsius: { from: 0, to: 40 }, age: { from: 0, to: 0 } }
    expect('estimate' in byPlace({} as Walk, span, {} as never, silent)).toBe(false)
    const place = { ...span, charge: { from: 1, to: 1 }, celsius: { from: 0, to: 0 } }
    expect(byPlace({} as Walk, place, {} as never, silent)).toMatchObject({ kind: 'own', id: 'x/r', name: 'rail' })
    expect(over((q, celsius) => q - celsius / 100).estimate().slack).toBe(-1)
  })
})

describe('what gives way first', () => {
  const at = (charge: number) => ({ charge, celsius: 0, age: 0 })
  /** Rows that fail below a charge, of a walk of 1, 0.5 and 0. */
  const first = (
    rows: readonly { id: string; below: number; unit?: string; sense?: string; at?: object }[],
    state = 'load on',
  ) => {
    const known = new Map(rows.map((one) => [one.id, one]))
    const range = (lower: number, upper: number) => ({ lower, upper, nominal: (lower + upper) / 2 })
    const rails = { main: { rest: range(3, 4), measuring: range(2.9, 3.9), sag: range(2, 2.8) } }
    const walk = {
      design: { ...readDesign(exampleDesign), lives: { ...readDesign(exampleDesign).lives, converter: 'main' } },
      charges: [1, 0.5, 0],
      over: ({ charge }: Span) => ({
        solved: { rails, source: { openCircuit: range(3, 4.2) } },
        margin: (_: unknown, id: string) => {
          const { below, ...one } = known.get(id)!
          return marginOf(charge.from - below, { ...one })
        },
      }),
    } as unknown as Walk
    const found = rows.map(({ id, below }) => {
      const held = [1, 0.5, 0].findIndex((q) => q < below) - 1
      const failing = held === -2 ? [] : [at([1, 0.5, 0][held + 1]!)]
      return {
        row: { id, margin: marginOf(-1) },
        stage: { block: 'hall', state },
        descent: { held, failing },
      } as unknown as RowFound
    })
    return firstOf(walk, found)
  }

  it('is found to a thousandth and a half of the charge, above what fails', () => {
    expect(first([{ id: 'a', below: -1 }])).toBeNull()
    const found = first([
      { id: 'a', below: 0.3 },
      { id: 'b', below: 0.1 },
    ])!
    expect(found.heldDownTo).toBeGreaterThanOrEqual(0.3)
    expect(found.heldDownTo).toBeLessThan(0.3 + 1 / 640)
    expect(found.first).toMatchObject({ id: 'a', block: 'hall', together: [], openCircuit: 3.6 })
    expect(found.first.place.charge).toBeLessThan(0.3)
    expect(found.first.place.charge).toBeGreaterThan(0.3 - 1 / 640)
  })

  it('is what lacks most of what gives way on full cells, and names what goes with it', () => {
    const found = first([
      { id: 'a', below: 1.1 },
      { id: 'b', below: 1.2 },
    ])!
    expect(found).toMatchObject({ heldDownTo: 1, first: { id: 'b', together: ['a'] } })
  })

  it('stands at the rail where the row is worst: its lowest, or its highest where too much of it fails', () => {
    const rail = (more: object, state?: string) => first([{ id: 'a', below: 2, ...more }], state)!.first.rail
    expect(rail({ at: { V_rail: 2 } })).toBe(2)
    expect(rail({ at: { V_rail: 2.7 } })).toBe(2.8)
    expect(rail({ at: { V_oc: 4.2 } })).toBe(4)
    expect(rail({ at: { V_oc: 3 } })).toBe(2)
    expect(rail({ sense: 'at most' })).toBe(4)
    expect(rail({ sense: 'at most', unit: 'A' })).toBe(2)
    expect(rail({ sense: 'at most', at: { R: 1 } })).toBe(2)
    expect(rail({ at: { V_rail: 3.9 } }, 'load off')).toBe(3.9)
    expect(rail({}, 'load off')).toBe(2.9)
  })
})

describe('the verdict of a design', () => {
  const row = (verdict: string, heldDownTo: number | null = 0) => ({ margin: { verdict }, heldDownTo }) as never
  const of = (rows: never[], usable: string, whole: never[] = []) =>
    verdictFor(rows, { share: 0, wanted: 0.9, verdict: usable } as never, whole)

  it('is that of what holds down to the charge that must be usable, and of the rows of the whole', () => {
    expect(of([row('fails', 0.05)], 'holds')).toBe('holds')
    expect(of([], 'holds', [row('holds'), row('not sure')])).toBe('not sure')
    expect(of([], 'fails', [row('not sure'), row('fails')])).toBe('fails')
  })

  it('fails where a row does above that charge, and is not sure where one is only in doubt there', () => {
    expect(of([row('fails', 0.2)], 'fails')).toBe('fails')
    expect(of([row('fails', null)], 'fails')).toBe('fails')
    expect(of([row('fails', 0.1)], 'fails')).toBe('not sure')
    expect(of([row('not sure', 0.2), row('fails', 0.05)], 'fails')).toBe('not sure')
  })
})
