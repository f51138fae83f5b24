import {
  type Design,
  exampleDesign,
  mapDesign,
  previewDesign,
  previewDesignLater,
  readDesign,
  walkOf,
} from '@ohmward/frontend'
import { valueAt } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { glanceOf } from '../src/answer/glance.js'
import { cutter } from './cutter.js'

const { supply, controller } = exampleDesign
/** A loop that rings, a load that the cell hardly feeds, a late brown-out. */
const ringing: Design = {
  ...exampleDesign,
  supply: { ...supply, inductance: '2 uH ±20 %' },
  load: { ...exampleDesign.load, resistance: '0.6 ohm ±4 %' },
  pwm: { frequency: '2 kHz', duty: { from: 0.2, to: 0.9 } },
  controller: { ...controller, brownOut: '3 V ±3 %' },
  ambientCelsius: { from: -5, to: 45 },
}

describe.each([
  ['hot knife', exampleDesign],
  ['loop that rings', ringing],
])('a glance at the %s, beside the walk', (_, design) => {
  const glance = previewDesign(design, { charges: 2 })
  const map = mapDesign(design, { charges: 2 })
  const { charges, rows } = map
  const seen = new Map(glance.rows.map((row) => [row.id, row]))
  const cells = rows.flatMap(({ id, cells }) =>
    cells.flatMap((cell, i) => (cell ? [{ id, cell, own: seen.get(id)?.cells[i] }] : [])),
  )

  it('has the same places, the same volts and the same rows', () => {
    expect(glance.charges).toEqual(charges)
    expect(glance.rows.map(({ id }) => id).sort()).toEqual(rows.map(({ id }) => id).sort())
    for (const { id, own } of cells) expect(own, id).toBeTruthy()
    const { solve, around } = walkOf(readDesign(design), { charges: 2 })
    const { source } = readDesign(design).supply
    charges.forEach((charge, i) => {
      const solved = solve({ charge: { from: charge, to: charge }, ...around })
      for (const columns of [glance, map]) {
        // Nominal cells lie on their curve, and no lower than where their use has ended.
        const curve = source.kind === 'cell' ? valueAt(source.openCircuit, charge) : 0
        expect(columns.openCircuit[i]).toBeGreaterThanOrEqual(curve - 1e-9)
        expect(columns.openCircuit[i]).toBeLessThan(curve + (charge === 1 ? 1e-9 : 0.2))
        for (const rail of ['rest', 'rail'] as const)
          for (const end of ['lower', 'upper'] as const)
            expect(columns[rail][i]![end], `${rail} ${end}`).toBeCloseTo(solved[rail][end], 9)
      }
    })
  })

  it('has the rows that fail on full cells first, then those that lack most', () => {
    const pressing = (all: readonly { readonly bad: readonly boolean[]; readonly least: number }[]) =>
      all.map(({ bad, least }) => ({ from: bad.includes(true) ? bad.indexOf(true) : bad.length, least }))
    const ofMap = rows.map(({ cells }) => ({
      bad: cells.map((cell) => cell !== null && cell.verdict !== 'holds'),
      least: Math.min(...cells.flatMap((cell) => cell?.relative ?? [])),
    }))
    const ofGlance = glance.rows.map(({ cells }) => ({
      bad: cells.map((cell) => cell?.estimate === 'short'),
      least: Math.min(...cells.flatMap((cell) => cell?.relative ?? [])),
    }))
    for (const all of [pressing(ofMap), pressing(ofGlance)]) {
      expect(all).toEqual([...all].sort((a, b) => a.from - b.from || a.least - b.least))
      expect(new Set(all.map(({ from }) => from)).size).toBeGreaterThan(1)
    }
    // The limit of each charge is that of the row there.
    for (const { cells, limits, sense } of rows)
      cells.forEach((cell, i) => {
        expect(limits[i] === null).toBe(cell === null)
        if (cell === null || !Number.isFinite(cell.worst)) return
        const slack = sense === 'at least' ? cell.worst - limits[i]! : limits[i]! - cell.worst
        expect(cell.slack).toBeCloseTo(slack, 6)
      })
  })

  it('leaves no room where the walk finds a failure, and lacks nothing where the walk holds', () => {
    for (const { id, cell, own } of cells) {
      if (cell.verdict === 'fails') expect(own!.estimate, id).toBe('short')
      if (cell.verdict === 'holds') expect(own!.estimate, id).toBe('spare')
    }
    expect(cells.some(({ cell }) => cell.verdict === 'fails')).toBe(true)
  })

  it('lies within a hundredth of the limit for nine cells of ten, and nowhere a fifth on the better side', () => {
    const off = cells.map(({ cell, own }) => own!.relative - cell.relative)
    const near = off.filter((one, i) => Math.abs(one) <= 0.01 * Math.max(1, Math.abs(cells[i]!.cell.relative)))
    expect(near.length).toBeGreaterThan(0.88 * cells.length)
    expect(Math.max(...off)).toBeLessThan(0.2)
  })

  it('speaks no verdict', () => {
    expect(JSON.stringify(glance)).not.toMatch(/holds|fails|not sure|verdict/)
  })
})

describe.each([
  ['hot knife', exampleDesign],
  ['loop that rings', ringing],
  ['foam-cutting bow behind a diode', cutter],
])('a glance at 40 charges of the %s, beside every row looked at there', (_, design) => {
  const glance = previewDesign(design, { charges: 40 })
  const own = new Map(glance.rows.map(({ id, cells }) => [id, cells]))
  const walk = walkOf(readDesign(design), { charges: 40 })
  const looked = walk.charges.flatMap((charge, column) => {
    const held = walk.over({ charge: { from: charge, to: charge }, ...walk.around })
    const { rail } = held.solved
    const rows = walk.stages.flatMap((stage) => held.ready(stage).map(({ id, row }) => ({ id, seen: glanceOf(row) })))
    return [{ column, rail, rows }]
  })
  const cells = looked.flatMap(({ column, rows }) =>
    rows.map(({ id, seen }) => ({ at: `${id} ${column}`, seen, cell: own.get(id)?.[column] })),
  )

  it('sees the same rows at the same charges, on the same side of their limits', () => {
    for (const { at, seen, cell } of cells) {
      expect(cell === null || cell === undefined, at).toBe(seen === undefined)
      if (seen && cell) expect(cell.estimate, at).toBe(seen.slack >= 0 ? 'spare' : 'short')
    }
    const shown = glance.rows.flatMap((row) => row.cells.filter((cell) => cell !== null))
    expect(shown.length).toBe(cells.filter(({ seen }) => seen !== undefined).length)
  })

  it('lies within 1 % for 98 cells of 100, and nowhere a fifth off', () => {
    const off = cells.flatMap(({ seen, cell }) => {
      if (!seen || !cell) return []
      const scale = Math.max(Math.abs(seen.limit), Math.abs(seen.worst), Math.abs(seen.nominal))
      const { nominal, worst, slack } = seen
      return [Math.max(...[nominal - cell.nominal, worst - cell.worst, slack - cell.slack].map(Math.abs)) / scale]
    })
    expect(off.filter((one) => one < 0.01).length).toBeGreaterThan(0.98 * off.length)
    expect(Math.max(...off)).toBeLessThan(0.2)
  })

  it('shows a rail within 0.2 %', () => {
    for (const { column, rail } of looked) {
      expect(Math.abs(glance.rail[column]!.lower / rail.lower - 1)).toBeLessThan(0.002)
      expect(Math.abs(glance.rail[column]!.upper / rail.upper - 1)).toBeLessThan(0.002)
    }
  })
})

it('tells how far it is, and stops', async () => {
  const shares: number[] = []
  await previewDesignLater(exampleDesign, { charges: 3, onProgress: (share) => shares.push(share) })
  expect(shares).toEqual([1 / 3, 2 / 3, 1])
  await expect(previewDesignLater(exampleDesign, { signal: AbortSignal.abort('enough') })).rejects.toBe('enough')
})

it('has a finite share of a limit of next to nothing', () => {
  const { capacitors } = exampleDesign.decoupling
  const decoupling = { ...exampleDesign.decoupling, capacitors: [{ ...capacitors[0], ratedVoltage: 5e-324 }] }
  const { rows } = previewDesign({ ...exampleDesign, decoupling }, { charges: 2 })
  const shares = rows.flatMap(({ cells }) => cells.map((cell) => cell?.relative ?? 0))
  expect(Math.min(...shares)).toBe(-Number.MAX_VALUE)
})
