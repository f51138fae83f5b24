import { exampleDesign, firstBoard, firstBoardCsv, levelsAt, mapDesignLater } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'

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
