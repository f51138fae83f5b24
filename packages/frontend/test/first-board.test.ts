import {
  type Design,
  exampleDesign,
  firstBoard,
  firstBoardCsv,
  levelsAt,
  mapDesignLater,
  readDesign,
  solveAt,
  type TestPoint,
  walkOf,
} from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { cutter, lowSide } from './cutter.js'

describe('the list for the first board', () => {
  const points = firstBoard(exampleDesign)

  it('names point, state, expected value and limits that hold it', () => {
    expect(points.length).toBeGreaterThan(10)
    for (const { point, state, expected, lower, upper } of points) {
      expect(point).not.toBe('')
      expect(state).not.toBe('')
      expect(lower).toBeLessThanOrEqual(expected)
      expect(upper).toBeGreaterThanOrEqual(expected)
    }
  })

  it('expects what plain arithmetic does: current times blade, connector and switch is the loaded rail', () => {
    const levels = levelsAt(exampleDesign, { charge: 1, celsius: 25, age: 0 })
    const { rails, current, load, behindBoard, switch: on, power } = levels
    // A blade of 0.7 ohm; of its connector 5 milliohm at 20 °C, of copper at 25 °C; 1 milliohm of the sensor's conductor.
    expect(load.nominal).toBeCloseTo(0.7, 9)
    expect(behindBoard.nominal).toBeCloseTo(5e-3 * (1 + 3.93e-3 * 5) + 1e-3, 9)
    expect(power.nominal).toBeCloseTo(current.nominal ** 2 * load.nominal, 9)
    const rail = points.find(({ point, state }) => point === 'rail main to ground' && state.startsWith('load on'))!
    expect(rail.expected).toBeCloseTo(current.nominal * (load.nominal + behindBoard.nominal + on.nominal), 9)
    expect(rail.lower).toBe(rails['main']!.sag.lower)
    // 1.1 V of 4096 counts against a full cell: a code near 1075.
    const code = points.find(({ point }) => point.startsWith('code'))!
    expect(code.expected).toBeCloseTo((1.1 * 4096) / rails['main']!.rest.nominal, 6)
    // 9 % of the reference, and of the converter 3 counts of offset, 2 of nonlinearity, 0.1 % of gain and the rounding.
    const { lower, upper } = rails['main']!.rest
    expect(code.upper).toBeGreaterThan(((1.1 * 1.09 * 4096) / lower) * 1.001 + 5)
    expect(code.lower).toBeLessThan(((1.1 * 0.91 * 4096) / upper) * 0.999 - 5)
    // One reading has 0.7 counts of noise root mean square: a normal one stays within 2.58 of it in 99 of 100 readings.
    expect(code.upper).toBeGreaterThan(((1.1 * 1.09 * 4096) / lower) * 1.001 + 5 + 0.5 + 2.58 * 0.7)
    expect(code.lower).toBeLessThan(((1.1 * 0.91 * 4096) / upper) * 0.999 - 5 - 0.5 - 2.58 * 0.7)
  })

  it('takes the code of one reading as far as its noise goes in 999 of 1000', () => {
    const codeAt = (noise: string) => {
      const converter = { ...exampleDesign.hall.converter, noise }
      const { hall, divider } = exampleDesign
      const design = { ...exampleDesign, hall: { ...hall, converter }, divider: { ...divider, converter } }
      return firstBoard(design as Design).find(({ point }) => point.startsWith('code'))!
    }
    const [quiet, loud] = [codeAt('0.5 LSB'), codeAt('2.5 LSB')]
    // 2 counts more, root mean square: 3.29 of them on each side (normal distribution, two-sided).
    expect((loud.upper - quiet.upper) / 2).toBeCloseTo(3.29, 1)
    expect((quiet.lower - loud.lower) / 2).toBeCloseTo(3.29, 1)
  })

  it('tells how far the cells come back after a burst, and after the pause in which they are read', () => {
    const gains = points.filter(({ point }) => point.startsWith('cells, recovery from'))
    const [all, late] = gains
    expect(gains.map(({ point }) => point)).toEqual([
      'cells, recovery from the end of a burst to half an hour later',
      'cells, recovery from 60 s after a burst to half an hour later',
    ])
    // 18 mohm ±25 % of a full new cell at 25 °C, and 4.19 V through some 0.76 ohm, nine tenths of the time.
    expect(all!.expected).toBeCloseTo(0.018 * 0.9 * (4.193 / 0.76), 2)
    expect(all!.lower).toBeLessThan(0.75 * all!.expected)
    expect(all!.upper).toBeGreaterThan(1.25 * all!.expected)
    // A tenth of it at most, nothing at the least.
    expect(late!.upper).toBeCloseTo(0.1 * all!.upper, 9)
    expect(late!.lower).toBe(0)
  })

  it('sends what is always on through the path before the board, and through no element behind it', () => {
    const across = (current: string) => {
      const design: Design = { ...exampleDesign, controller: { ...exampleDesign.controller, current } }
      const list = firstBoard(design)
      const load = list.find(({ point }) => point === 'current in the load')!.expected
      return (name: string) => list.find(({ point }) => point === `across ${name}`)!.expected / load
    }
    const [little, much] = [across('1 mA'), across('0.5 A')]
    // Half an ampere beside some 5 A: a tenth more, the copper before it a little warmer.
    expect(much('protection') / little('protection')).toBeGreaterThan(1.08)
    expect(much('protection') / little('protection')).toBeLessThan(1.15)
    expect(much('connector of the blade') / little('connector of the blade')).toBeCloseTo(1, 2)
  })

  it('takes the drop of a lead that has not warmed itself yet for a good one', () => {
    const path = exampleDesign.supply.path!.map((one) =>
      one.name === 'connector of the blade'
        ? { ...one, resistance: '20 mohm', thermalResistance: 150, highestCelsius: 250 }
        : one,
    )
    const list = firstBoard({ ...exampleDesign, supply: { ...exampleDesign.supply, path } })
    const [across, current] = ['across connector of the blade', 'current in the load'].map(
      (name) => list.find(({ point }) => point === name)!,
    ) as [TestPoint, TestPoint]
    // Copper on the bench at 25 °C, at the least current.
    const cold = 20e-3 * (1 + 3.93e-3 * 5) * current.lower
    expect(across.lower).toBeLessThanOrEqual(cold * (1 + 1e-9))
    expect(across.lower).toBeGreaterThan(cold * 0.99)
    expect(across.expected).toBeGreaterThan(1.1 * 20e-3 * (1 + 3.93e-3 * 5) * current.expected)
  })

  const regulator = (name: string, voltage: string) =>
    ({
      name,
      source: 'main',
      through: {
        kind: 'regulator',
        voltage,
        dropoutResistance: '1 ohm',
        currentLimit: '0.2 A',
        quiescentCurrent: '9 uA',
      },
    }) as const

  it('has the limits of a reading wherever two regulators may stand, and expects it where they are meant to', () => {
    const { hall } = exampleDesign
    const two: Design = {
      ...cutter,
      rails: [regulator('five', '5 V ±2 %'), regulator('logic', '3.3 V ±1.5 %')],
      lives: { ...cutter.lives, sensor: 'five' },
      hall: {
        ...cutter.hall,
        sensor: { ...hall.sensor, ratedSupply: '5 V', zeroOutput: '0.5 V' },
        calibration: 'none',
        errors: [{ at: '1 A', allowed: '1 A' }],
        filter: { resistance: '330 ohm', capacitance: '1 nF' },
      },
    }
    const shown = firstBoard(two).find(({ point }) => point.endsWith('indicated current at 1 A'))!
    expect(shown.expected).toBeCloseTo(1, 2)
    // 0.5 V and 0.2 V at 5 V, counted against 3.3 V: both regulators at opposite ends, one board high and another as low.
    const at = (five: number, logic: number) => ((0.7 * (five / 5) * 3.3) / logic - 0.5) / 0.2
    expect(shown.upper).toBeGreaterThan(at(5.1, 3.2505))
    expect(shown.lower).toBeLessThan(at(4.9, 3.3495))
    // Beside them sensitivity, zero and the rest of the sensor, a twelfth of its output.
    expect(shown.upper).toBeLessThan(at(5.1 * 1.08, 3.2505))
    expect(shown.lower).toBeGreaterThan(at(4.9 * 0.92, 3.3495))
  })

  it('expects of a load that hangs on the cells what full ones make it show, though the firmware takes them for half empty', () => {
    const gainResistors = { feedback: '10 kohm ±0.1 %', ground: '1 kohm ±0.1 %' }
    const atRail: Design = { ...lowSide, divider: { ...lowSide.divider, gainResistors } }
    const walk = walkOf(readDesign(atRail), { charges: 2 })
    const { main } = solveAt(walk.design, { charge: 1, celsius: 25, age: 0 }).rails
    const ratio = main!.measuring.nominal / walk.firmware.excitation
    expect(ratio).toBeGreaterThan(1.1)
    const shown = firstBoard(atRail).find(({ point }) => point.startsWith('resistance'))!
    // The wire and its leads take their share of what drives 47 ohm and the switch; the firmware takes that of what it assumes.
    const share = (1.12 / (1.12 + 47.5)) * ratio
    expect(shown.expected).toBeCloseTo((47.5 * share) / (1 - share) - 0.02, 2)
    expect(shown.upper).toBeGreaterThan(shown.expected)
  })

  it('is printable as CSV with a header, a comma in quotation marks', () => {
    const lines = firstBoardCsv(points).trimEnd().split('\r\n')
    expect(lines).toHaveLength(points.length + 1)
    expect(lines[0]).toBe('point,state,unit,expected,lower,upper')
    expect(firstBoardCsv([{ ...points[0]!, point: 'a, "b"' }])).toContain('"a, ""b"""')
  })
})

describe('a map in steps', () => {
  it('tells its progress and can be stopped', async () => {
    const shares: number[] = []
    const controller = new AbortController()
    const onProgress = (share: number) => {
      shares.push(share)
      if (shares.length === 2) controller.abort(new Error('stopped'))
    }
    const { signal } = controller
    await expect(mapDesignLater(exampleDesign, { charges: 4, onProgress, signal })).rejects.toThrow('stopped')
    expect(shares).toEqual([0.25, 0.5])
  })

  it('has every row at every charge, the worst over temperature and age', async () => {
    const map = await mapDesignLater(exampleDesign, { charges: 2 })
    expect(map.charges).toHaveLength(2)
    for (const { cells } of map.rows) expect(cells).toHaveLength(2)
    const open = map.rows.find(({ id }) => id === 'divider/open-load')!
    expect(open.cells.map((cell) => cell?.verdict)).toEqual(['holds', 'fails'])
  })
})
