import { type Design, exampleDesign, exampleDesigns, readDesign, walkOf, withChange } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { cautionsOf } from '../src/answer/cautions.js'
import { monitorOf } from '../src/answer/monitor.js'
import { earlyReading } from '../src/answer/power/early-reading.js'
import { powerOf } from '../src/answer/power/power.js'
import { lackingText } from '../src/answer/texts.js'
import { cutter } from './cutter.js'
import { changeOf, mended, monitorRow, wholeRow } from './shared.js'

const walk = (design: Design) => walkOf(readDesign(design), { charges: 2 })

describe('down to where the cells come in use', () => {
  /** Open-circuit voltage of one cell where the walk ends: the lowest of all boards. */
  const lowest = (design: Design) => {
    const { charges, around, solve } = walk(design)
    const end = charges.at(-1)!
    const { source } = solve({ charge: { from: end, to: end }, ...around })
    const { source: cells } = readDesign(design).supply
    return source.openCircuit.lower / (cells.kind === 'cell' ? cells.inSeries : 1)
  }

  it('is what the stop leaves where it acts before the cut-off, and the cut-off where nothing says when it is read', () => {
    const monitor = { reads: 'at rest', stop: '3.4 V', calibration: '1 %', noise: 0 } as const
    const { bursts: _, ...still } = exampleDesign
    const acts = 3.4 * 0.99 * (1 - 1 / ((1.001 * 4096) / 3.4))
    // In each off-time of the PWM; of a cell off its curve as everywhere.
    for (const pause of [undefined, '50 ms']) {
      const read = lowest({ ...still, monitor: { ...monitor, ...(pause && { pause }) } })
      expect(read).toBeGreaterThan(acts - 0.03)
      expect(read).toBeLessThan(acts - 0.03 + 1e-3)
    }
    // After a minute without the load, whenever that is: so far down as the cells may be used at all.
    expect(lowest({ ...still, monitor: { ...monitor, pause: '1 min' } })).toBeCloseTo(3 - 0.03, 5)
    // Before each burst, the last of which takes some 4.5 A * 0.9 * 20 s of 4 Ah * 0.96 * 0.8 at most: less than a hundredth.
    const before = lowest({ ...exampleDesign, monitor: { ...monitor, pause: '1 min' } })
    expect(before).toBeLessThan(acts - 0.03)
    expect(before).toBeGreaterThan(acts - 0.03 - 0.05)
    // Under load it acts on the strongest source at some 0.3 V less than at rest.
    expect(lowest({ ...still, monitor: { ...monitor, reads: 'under load', stop: '3.1 V' } })).toBeGreaterThan(3.15)
  })

  it('is lower where the stop may act lower, and the voltage of damage where nothing watches', () => {
    const stop = { reads: 'at rest', stop: '2.8 V', calibration: '1 %', noise: 0 } as const
    // 1 %, and a count of 1.001 * 4096 / 2.8; the cells stand above the rail by what is always on, 12 mA through some 50 mohm.
    const acts = 2.8 * 0.99 * (1 - 1 / ((1.001 * 4096) / 2.8))
    expect(lowest({ ...exampleDesign, monitor: stop })).toBeGreaterThan(acts)
    expect(lowest({ ...exampleDesign, monitor: stop })).toBeLessThan(acts + 1e-3)
    // The curve of the two cells has no more than 2.5 V left at its end, but for the spread.
    expect(lowest(cutter)).toBeLessThan(2.5)
    const { monitor: _, ...unwatched } = exampleDesign
    expect(lowest(unwatched)).toBeLessThan(2.5)
  })

  it('is followed to the last cell, the one that lies highest on its curve', () => {
    const ends = [0, 0.1].map(
      (openCircuitSpread) =>
        walk({
          ...exampleDesign,
          supply: { ...exampleDesign.supply, source: { ...exampleDesign.supply.source, openCircuitSpread } },
        }).charges.at(-1)!,
    )
    expect(ends[1]).toBeLessThan(ends[0]!)
  })

  it('a monitor reads against a reference or is refused', () => {
    const { internalReference: _, ...controller } = exampleDesign.controller
    expect(() => readDesign({ ...exampleDesign, controller })).toThrow(/^controller\.internalReference/)
  })
})

describe('power in pulses', () => {
  const at = (frequency: string, capacitance: string) =>
    powerOf(
      walk({
        ...exampleDesign,
        pwm: { frequency, duty: { from: 0.1, to: 0.5 } },
        decoupling: {
          ...exampleDesign.decoupling,
          capacitors: [{ capacitance, ratedVoltage: 6.3, seriesResistance: '5 mohm' }],
        },
      }),
    )

  it('is that of a rail that stands still where the capacitors are large and the pulses fast', () => {
    const { on, mean } = at('20 kHz', '10 mF')
    const { solved } = walk(exampleDesign).over({ charge: { from: 1, to: 1 }, ...walk(exampleDesign).around })
    const [R_s, R_b] = [solved.source.resistance.lower, solved.load.lower + solved.switch.lower]
    // Half of the current, half of the drop in the source.
    expect(mean.upper / (0.5 * on.upper)).toBeGreaterThan(1 + 0.9 * (((R_s + R_b) / (R_s / 2 + R_b)) ** 2 - 1))
  })

  it('is the share of the duty where they are small and the pulses slow', () => {
    const { on, mean, limit } = at('20 Hz', '1 uF')
    // The switch is off late.
    const late = 20 * walk(exampleDesign).firmware.edges()!.off
    expect(late).toBeLessThan(1e-3)
    expect(mean.upper / ((0.5 + late) * on.upper)).toBeCloseTo(1, 4)
    expect((limit!.dutyWithoutReading + late) * on.upper).toBeCloseTo(20, 2)
    expect(at('20 kHz', '10 mF').limit!.dutyWithoutReading).toBeLessThan(limit!.dutyWithoutReading)
  })

  const waiting = (wait: string | undefined, design: Design = mended): Design => {
    const { wait: _, ...hall } = design.hall as Design['hall'] & { wait?: string }
    return { ...design, hall: { ...hall, ...(wait !== undefined && { wait }) } }
  }

  it('is read too high while the capacitors still hold the rail up, which is said', () => {
    const early = (design: Design) => earlyReading(walk(design)).map(({ text }) => text)
    expect(early(waiting(undefined))).toHaveLength(1)
    expect(early(exampleDesign)).toEqual([])
    // As a number, and with limits, it is said in the same words.
    const sentence = early(waiting('0.2 ms'))[0]
    expect(sentence).toContain('after a wait of 200 µs, while')
    expect(cautionsOf(walk(waiting('0.2 ms')))).toContain(sentence)
    for (const wait of [2e-4, { nominal: 2e-4, lower: 2e-4, upper: 2e-4, distribution: { kind: 'rectangular' } }])
      expect(early({ ...mended, hall: { ...mended.hall, wait } as Design['hall'] })[0]).toBe(sentence)
    expect(early(exampleDesigns.mat)).toEqual([])
  })

  it.each([
    ['as soon as the sensor has settled', undefined, 2e-5],
    ['after 0.2 ms', '0.2 ms', 2e-4],
    ['after 0.6 ms', '0.6 ms', 6e-4],
    ['late in the shortest pulse', '0.95 ms', 9.5e-4],
  ])('errs by what the sample has more or less than the mean of its pulse, read %s', (_, wait, t_s) => {
    const supply = { ...mended.supply, inductance: 0 } as Design['supply']
    const design = waiting(wait, { ...mended, supply, load: { ...mended.load, rise: 0 } })
    const read = walk(design)
    const { solved } = read.over({ charge: { from: 1, to: 0.1 }, ...read.around })
    const R_s = solved.source.resistance.upper
    const ends = (['lower', 'upper'] as const).map((end) => solved.load[end] + solved.switch[end])
    // Two of 470 uF and 47 uF with 20 % more, in one: node by node, in steps of 50 ns, from a rail at rest.
    // A larger load falls less, and more slowly.
    const boards = [0.1, 0.9].flatMap((duty) => ends.map((R_b) => [duty, R_b] as const))
    const shown = boards.map(([duty, R_b]) => {
      let [u, square, sample] = [4, 0, 0]
      const [step, pulse] = [5e-8, duty / 100]
      for (let t = 0; t < pulse; t += step) {
        u += (step / (1.2 * 987e-6)) * ((4 - u) / R_s - u / R_b)
        square += (u * u * step) / pulse
        if (Math.abs(t - t_s) <= step / 2) sample = u * u
      }
      return sample / square - 1
    })
    const { voltageTimesCurrent, squareTimesResistance } = powerOf(read).error
    for (const error of [voltageTimesCurrent!, squareTimesResistance!]) {
      // Readings that are exact err by no more, and by nearly as much where that is what is wrong.
      expect(error.upper).toBeGreaterThan(Math.max(...shown))
      expect(error.lower).toBeLessThan(Math.min(...shown))
    }
    const readings = powerOf(walk({ ...design, pwm: { ...design.pwm, duty: { from: 1, to: 1 } } })).error
    const [with_, without] = [voltageTimesCurrent!, readings.voltageTimesCurrent!]
    // Read that soon, what the sensor lags behind its supply is in it as well, and is bounded for all charges at once: by how much is held elsewhere.
    if (wait === undefined) return
    // The shortest pulse of 1 ms may be shorter and longer by the edges of the switch.
    const { on, off } = read.firmware.edges()!
    expect((1 + with_.upper) / (1 + without.upper)).toBeLessThan(((1 + Math.max(0, ...shown)) * 1.07) / (1 - on * 1e3))
    const longer = (1 + Math.min(0, ...shown)) / (1 + off * 1e3)
    expect((1 + with_.lower) / (1 + without.lower)).toBeGreaterThan(longer * 0.97)
  })

  it('fails its row where it is read at once, and a longer wait, tried as printed, mends that', () => {
    const row = remembered((design: Design) => wholeRow(design, 'power/error'))
    expect(row(mended).verdict).toBe('holds')
    expect(row(waiting(undefined)).verdict).toBe('fails')
    const later = changeOf(waiting(undefined), 'hall/later-reading')!
    expect(later.mends.map(({ id }) => id)).toContain('power/error')
    expect(later.breaks).toEqual([])
    expect(row(withChange(waiting(undefined), later)).verdict).toBe('holds')
  })

  it('is that of the mean, where the current is read as one, and the rail whenever it is', () => {
    const { hall } = mended
    const averaged: Design = {
      ...mended,
      hall: { ...hall, reading: 'averaged', filter: { resistance: '10 kohm ±1 %', capacitance: '4.7 uF ±10 %' } },
    }
    const { squareTimesResistance, voltageTimesCurrent } = powerOf(walk(averaged)).error
    // A tenth of 3.4 A, with some 0.2 A of error: the square of it is anything.
    expect(squareTimesResistance!.upper).toBeGreaterThan(0.5)
    expect(voltageTimesCurrent!.upper).toBeGreaterThan(0.3)
  })

  it('is read of a current that the reading reaches: one that flows beyond fails, and reaching further mends it', () => {
    const reaching = (to: string): Design => {
      const { trip: _, ...hall } = mended.hall as Design['hall'] & { trip?: unknown }
      return { ...mended, hall: { ...hall, current: { from: '0 A', to }, errors: [{ at: '1 A', allowed: '0.3 A' }] } }
    }
    const row = (design: Design) => wholeRow(design, 'power/current')
    // Full warm cells drive some 6 A through 0.7 ohm less 5 %.
    expect(row(reaching('5 A')).worst).toBeGreaterThan(5.9)
    expect(row(reaching('5 A')).verdict).toBe('fails')
    expect(row(reaching('6.5 A')).verdict).toBe('holds')
    const further = changeOf(reaching('5 A'), 'hall/current', (id) => id === 'power/current')!
    expect(row(withChange(reaching('5 A'), further)).verdict).toBe('holds')
  })

  it('is read of a current that flows the load’s way, however far a two-way reading goes the other', () => {
    const row = (current: { from: string; to: string }) =>
      wholeRow(
        { ...mended, hall: { ...mended.hall, current, errors: [{ at: '1 A', allowed: '0.3 A' }] } },
        'power/current',
      )
    expect(row({ from: '-12 A', to: '3 A' })).toMatchObject({ limit: 3, verdict: 'fails' })
    expect(row({ from: '-12 A', to: '7 A' })).toMatchObject({ limit: 7, verdict: 'holds' })
  })

  it('shows a monitor under load cells that the capacitors still hold up, unless it waits', () => {
    const { hysteresis: _, pause: __, lacking: ___, ...monitor } = mended.monitor as NonNullable<Design['monitor']>
    const lag = (wait: string | undefined) =>
      wholeRow(
        waiting(wait, {
          ...mended,
          pwm: { ...mended.pwm, duty: { from: 0.3, to: 0.9 } },
          monitor: { ...monitor, reads: 'under load' },
        }),
        'monitor/lag',
      )
    expect(lag(undefined).verdict).toBe('fails')
    expect(lag('0.4 ms').verdict).toBe('fails')
    expect(lag('2.5 ms').verdict).toBe('holds')
    // 0.2 ohm before 0.66 ohm and 1.2 mF, node by node: what is left after 0.4 ms of a rail that began at 4 V.
    let [u, step] = [4, 5e-8]
    for (let t = 0; t < 4e-4; t += step) u += (step / (1.2 * 987e-6)) * ((4 - u) / 0.2 - u / 0.66)
    expect(lag('0.4 ms').worst).toBeGreaterThan(u - (4 * 0.66) / 0.86)
  })

  it('shows a monitor at rest a rail that is still being charged, unless the load pauses', () => {
    const { pause: _, ...monitor } = mended.monitor as NonNullable<Design['monitor']>
    const lag = (more: object) => monitorRow({ ...mended, monitor: { ...monitor, ...more } }, 'lag')!
    // A tenth of 10 ms at the largest duty. From 0.1 ohm, a cell that is neither cold nor old, into 1.2 mF, node by node, after a step
    // of 0.5 V: less than of the weakest.
    let [u, dt] = [3.5, 1e-7]
    for (let t = 0; t < 1e-3; t += dt) u += (dt / (1.2 * 987e-6)) * ((4 - u) / 0.1)
    expect(lag({}).worst).toBeGreaterThan(4 - u)
    expect(lag({}).verdict).toBe('fails')
    // The switch is off only after its edge.
    const { off } = walk({ ...mended, monitor }).firmware.edges()!
    expect(lag({ pause: 1e-3 - off }).worst).toBeCloseTo(lag({}).worst, 9)
    expect(lag({ pause: '1 ms' }).worst).toBeLessThan(lag({}).worst)
    expect(lag({ pause: '5 ms' }).verdict).toBe('holds')
    const longer = changeOf({ ...mended, monitor }, 'longer-pause')!
    expect(longer.mends.map(({ id }) => id)).toEqual(['monitor/lag'])
    expect(lag({ pause: longer.puts['monitor.pause'] }).verdict).toBe('holds')
  })

  it('stops early by what the cells still lack when they are read', () => {
    const { pause: _, lacking: __, ...monitor } = mended.monitor as NonNullable<Design['monitor']>
    const watched = (more: object): Design => ({
      ...mended,
      requirements: { ...mended.requirements, usableCharge: 0.85 },
      monitor: { ...monitor, ...more },
    })
    // What a cell is slow in makes the stop early: a minute later a fifth is still to come, sooner nobody says.
    const early = (pause: string, more = {}) => monitorRow(watched({ pause, ...more }), 'early')!
    expect(early('5 ms').verdict).toBe('not sure')
    // Where the walk ends the switch is as late as it gets, which is a little of each burst.
    expect(early('5 ms').worst).toBeCloseTo(early('1 min').worst, 5)
    expect(early('1 min').verdict).toBe('holds')
    expect(early('5 ms', { lacking: 0.2 }).verdict).toBe('holds')
    expect(early('5 ms', { lacking: 0.2 }).worst).toBeCloseTo(early('1 min').worst, 5)
    expect(early('5 ms', { lacking: 0.9 }).verdict).toBe('fails')
    expect(early('30 min').worst).toBe(early('1 min', { lacking: 0 }).worst)
    const again = (pause: string, hysteresis: string) =>
      monitorRow(watched({ pause, hysteresis }), 'hysteresis')!.verdict
    expect(again('1 min', '50 mV')).toBe('fails')
    expect(again('1 min', '0.25 V')).toBe('holds')
    // Half a volt and more may come back after a reading that follows the load at once.
    expect(again('5 ms', '0.25 V')).toBe('not sure')
    expect(again('5 ms', '2 V')).toBe('holds')
    // The share that was taken is told with what it is worth.
    const assumed = (more: object) => lackingText(watched(more), monitorOf(walk(watched(more))))
    expect(assumed({ pause: '1 min' })).toEqual([expect.stringMatching(/monitor\.lacking = 0\.2, at most 1\d0 mV/)])
    expect(assumed({ pause: '1 min', lacking: 0.1 })).toEqual([])
    expect(assumed({ pause: '30 min' })).toEqual([])
    const said = (pause: string) => {
      return cautionsOf(walk(watched({ pause }))).find((text) => /^The cells are read/.test(text))
    }
    expect(said('5 ms')).toMatch(
      /^The cells are read 5 ms after the load\. .* 20 % of the sag .* to recover, and all of it where it decides\./s,
    )
    expect(said('30 min')).toBeUndefined()
    expect(() =>
      readDesign({ ...mended, monitor: { ...monitor, reads: 'under load', hysteresis: '1 V', pause: 1 } }),
    ).toThrow(/^monitor\.pause = 1 s: allowed is nothing, unless the cells are read at rest/)
    expect(() =>
      readDesign({ ...mended, monitor: { ...monitor, reads: 'under load', hysteresis: '1 V', lacking: 0.1 } }),
    ).toThrow(/^monitor\.lacking = 0\.1: allowed is nothing, unless the cells are read at rest/)
  })
})
