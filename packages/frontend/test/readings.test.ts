import {
  checkDesign,
  type Design,
  dividerAt,
  exampleDesign,
  exampleDesigns,
  hallAt,
  readDesign,
  solveAt,
  walkOf,
  withChange,
} from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { changeOf, rowHeld, wholeOf } from './shared.js'
import { waxPen } from './wax-pen.js'

const check = (design: Design) => checkDesign(design, { charges: 3 })
const marginOf = (design: Design, id: string) => rowHeld(design, id, 2)!

/** The pen with a weak drive: 22 kohm pull the gate up, and the transistor pulls it down through 4.7 kohm. */
const { timing: _, ...hall } = waxPen.hall
const weakly: Design = {
  ...waxPen,
  hall: { ...hall, wait: '24 us' },
  divider: { ...waxPen.divider, timing: { wait: '0.2 ms' } },
  mosfet: {
    ...waxPen.mosfet,
    drive: {
      ...waxPen.mosfet.drive,
      gateResistor: '4.7 kohm ±1 %',
      pull: { at: 'gate', resistance: '22 kohm ±1 %' },
    },
  },
}

describe('readings wait for the switch of the same design', () => {
  it('of the resistance until the gate has let go: its charge over the current of the pull resistor', () => {
    const { worst, limit, verdict } = marginOf(weakly, 'divider/settling')
    // The amplifier alone: recovery, slewing over 3.35 V, and nine time constants of a gain of 48 at 3 MHz.
    const amplifier = 30e-6 + 3.35 / 1.5e6 + (9 * 48) / (2 * Math.PI * 3e6)
    // From about 8.4 V at the gate to the plateau, and over it, through 22 kohm: no less than this.
    const letsGo = 22e3 * 1.8e-9 * Math.log(7 / 2) + 8e-9 / (2 / 22e3)
    expect(worst).toBeGreaterThan(amplifier + letsGo)
    expect(limit).toBe(0.2e-3)
    expect(verdict).toBe('fails')
    expect(marginOf(weakly, 'divider/error-nominal').verdict).toBe('fails')
    expect(worst - amplifier).toBeCloseTo(marginOf(weakly, 'mosfet/off-edge').worst, 5)
  })

  it('of the current until it stands: the edge of the switch and the rise of the load', () => {
    const { worst, verdict } = marginOf(weakly, 'hall/settling')
    const edge = marginOf(weakly, 'mosfet/on-edge').worst
    // The gate charge over the plateau alone, through 4.7 kohm with at most 8.46 V across it.
    expect(edge).toBeGreaterThan(8e-9 / (8.46 / 4.7e3))
    // A sensor of 100 kHz takes nine time constants to half a count of 12 bits.
    expect(worst).toBeGreaterThan(edge + 5e-6 + 9 / (2 * Math.PI * 100e3))
    expect(verdict).toBe('fails')
    expect(marginOf(weakly, 'hall/error-2').verdict).toBe('fails')
    // What is said of it counts where it is more.
    const told = { ...waxPen, hall: { ...waxPen.hall, timing: { edge: '200 us' } } }
    expect(marginOf(told, 'hall/settling').worst).toBeGreaterThan(200e-6)
  })

  it('that take what it takes where it is, or anywhere on the walk where that is short beside the wait', () => {
    const edges = (design: Design) => {
      const read = readDesign(design)
      const { firmware } = walkOf(read)
      return [1, 0.2].map((charge) => {
        const solved = solveAt(read, { charge, celsius: 20, age: 0 })
        const choices = [dividerAt(read, solved, firmware), hallAt(read, solved, firmware)]
        return choices.map(({ choice }) => choice.timing!.edge as number)
      })
    }
    // Longer than the waits: as at each place. Emptier cells drive less load current and less gate, which is slower either way.
    const [full, low] = edges(weakly)
    expect(low![0]).toBeGreaterThan(full![0]! * 1.02)
    expect(low![1]).toBeGreaterThan(full![1]! * 1.02)
    const patient = {
      ...weakly,
      hall: { ...weakly.hall, wait: '5 ms' },
      divider: { ...weakly.divider, timing: { wait: '5 ms' } },
    }
    const [one, other] = edges(patient)
    expect(one).toEqual(other)
    for (const i of [0, 1]) {
      const most = Math.max(full![i]!, low![i]!)
      expect(one![i]).toBeGreaterThanOrEqual(most)
      expect(one![i]).toBeLessThan(2.5 * most)
    }
  })

  it('and are mended by a longer wait, as printed', () => {
    const design = { ...waxPen, divider: { ...waxPen.divider, timing: { wait: '60 us' } } }
    expect(marginOf(design, 'divider/settling').verdict).toBe('fails')
    const longer = changeOf(design, 'divider/wait')!
    expect(check(withChange(design, longer)).verdict).toBe('holds')
  })
})

describe('what is read of a load that is cold of less than half its resistance', () => {
  it('must reach from cold to at work', () => {
    const { divider } = waxPen
    const short = {
      ...waxPen,
      divider: {
        ...divider,
        load: { ...divider.load, from: '0.75 ohm', to: '1.5 ohm', nominal: '1.2 ohm' },
        gainResistors: { ...divider.gainResistors, feedback: '62 kohm ±0.1 %' },
      },
    } as const
    const [smallest, largest] = ['smallest', 'largest'].map((end) => marginOf(short, `divider/range-${end}`))
    // 0.8 ohm and 5 % of it, 4500 ppm/K, from 10 °C to 300 °C.
    expect(smallest).toMatchObject({ limit: 0.75, verdict: 'fails' })
    expect(smallest!.worst).toBeCloseTo(0.76 * (1 - 0.0045 * 10), 9)
    expect(largest).toMatchObject({ limit: 1.5, verdict: 'fails' })
    expect(largest!.worst).toBeCloseTo(0.84 * (1 + 0.0045 * 280), 9)
    for (const end of ['smallest', 'largest']) expect(marginOf(waxPen, `divider/range-${end}`).verdict).toBe('holds')
    const wider = changeOf(short, 'divider/range', (id) => id.startsWith('divider/range-'))!
    expect(wider.puts).toEqual({ 'divider.load.from': '720 mohm', 'divider.load.to': '1.9 ohm' })
    expect(wider.mends.map(({ id }) => id)).toEqual(
      expect.arrayContaining(['divider/range-smallest', 'divider/range-largest']),
    )
  })

  it('must leave the trip alone: not sure where only the cold load reaches it, failing where the warm one does', () => {
    const tripping = (normal: string, current: string): Design => ({
      ...waxPen,
      hall: { ...waxPen.hall, trip: { current, normal, withstand: '18 A' } },
    })
    const cold = marginOf(tripping('9 A', '10 A'), 'power/trip')
    // Ohm's law at 10 °C: full cells across the least of cells, path, switch and heater.
    expect(cold.worst).toBeGreaterThan(8.46 / (0.75 + 0.06 + 0.01))
    expect(cold).toMatchObject({ limit: 9, verdict: 'not sure' })
    // At work it is 1.72 ohm at least: 4.6 A.
    expect(marginOf(tripping('4.5 A', '5.5 A'), 'power/trip').verdict).toBe('fails')
    expect(marginOf(tripping('11.4 A', '12.8 A'), 'power/trip').verdict).toBe('holds')
    const higher = changeOf(tripping('9 A', '10 A'), 'hall/trip-normal', (id) => id === 'power/trip')!
    expect(higher.mends.map(({ id }) => id)).toContain('power/trip')
    expect(marginOf(withChange(tripping('9 A', '10 A'), higher), 'power/trip').verdict).toBe('holds')
  })
})

describe('what a trip is told that the parts withstand', () => {
  const withstood = (withstand: string): Design => ({
    ...exampleDesign,
    hall: { ...exampleDesign.hall, trip: { ...exampleDesign.hall.trip, withstand } },
  })

  it('is held against their ratings: not sure where the switch is rated for a lasting current alone', () => {
    // Of the example: cells 30 A in pulses, contacts 20 A, connector 15 A, transistor 11 A for long.
    expect(marginOf(withstood('10 A'), 'power/withstand')).toMatchObject({ worst: 10, limit: 11, verdict: 'holds' })
    expect(marginOf(withstood('14 A'), 'power/withstand')).toMatchObject({ limit: 11, verdict: 'not sure' })
    const beyond = marginOf(withstood('18 A'), 'power/withstand')
    expect(beyond).toMatchObject({ limit: 15, verdict: 'fails' })
    expect(beyond.name).toContain('connector of the blade')
    const { trip: _, ...hall } = exampleDesign.hall
    const { rows } = wholeOf({ ...exampleDesign, hall })
    expect(rows.map(({ id }) => id)).toContain('power/error')
    expect(rows.map(({ id }) => id)).not.toContain('power/withstand')
  })

  it('is brought down to what they stand', () => {
    const { mat } = exampleDesigns
    // Its plug and wiring stand 5 A, its transistor 4 A for long.
    const late: Design = { ...mat, hall: { ...mat.hall, trip: { ...mat.hall.trip, withstand: '6 A' } } }
    const sooner = changeOf(late, 'hall/trip-withstand')!
    expect(sooner.puts).toEqual({ 'hall.trip.withstand': '4 A' })
    expect(sooner.verdict).toBe('holds')
    expect(sooner.mends.map(({ id }) => id)).toContain('power/withstand')
  })
})

describe('cells that are read too soon after the load', () => {
  const watched: Design = {
    ...waxPen,
    controller: { ...waxPen.controller, internalReference: { voltage: '1.2 V ±3 %' } },
    monitor: {
      reads: 'at rest',
      pause: '30 s',
      divider: { upper: '20 kohm ±1 %', lower: '5.6 kohm ±1 %', inDrawer: 'off above' },
      stop: '6.7 V',
      latch: '6.55 V',
      hysteresis: '1 V',
      calibration: '1 %',
    },
  }

  it('say that less of the charge is surely used before the stop, where the rows of the board hold further down', () => {
    const { summary, verdict, usable, first } = check(watched)
    expect(verdict).not.toBe('holds')
    if (first) expect(first.place.charge).toBeLessThan(0.5)
    // All that the load takes in the cells may still be to come.
    expect(usable.share).toBeLessThan(0.7)
    expect(summary).not.toContain('% is usable before that')
  })

  it('may be read after a minute: that mends it, as printed', () => {
    const later = changeOf(watched, 'rested-cells', (id) => id.startsWith('monitor/'))!
    expect(later.mends.map(({ id }) => id)).toEqual(expect.arrayContaining(['monitor/early']))
    expect(check(withChange(watched, later)).verdict).toBe('holds')
  })
})
