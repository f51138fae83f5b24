import {
  checkDesign,
  type Design,
  designSchema,
  exampleDesign,
  parseDesign,
  readDesign,
  simulateBoards,
  writeDesign,
} from '@ohmward/frontend'
import { runCommand } from '@ohmward/frontend/command'
import { describe, expect, it } from 'vitest'
import { remembered } from '../../../test/tools/remembered.js'
import { bareCapacity } from '../src/answer/texts.js'
import { exampleCheck, mended } from './shared.js'

const text = writeDesign(exampleDesign)

describe('a design', () => {
  it('written, read and written again is the same text', () => {
    const read = parseDesign(text)
    expect(() => readDesign(read)).not.toThrow()
    expect(writeDesign(read)).toBe(text)
  })

  it('has a schema that names its fields', () => {
    const { properties, required } = designSchema() as { properties: object; required: string[] }
    expect(Object.keys(properties)).toEqual(expect.arrayContaining(Object.keys(exampleDesign)))
    expect(required).toContain('version')
  })
})

describe('the hot knife', () => {
  const answer = exampleCheck()

  it('fails in two ways: the amplifier as the cell empties, the controller as the blade comes on', () => {
    expect(answer.verdict).toBe('fails')
    expect(answer.first?.block).toBe('divider')
    // An open load that isn't told is a diagnosis: of the board itself the amplifier saturates first, further down.
    expect(answer.firstOfBoard?.id).toBe('divider/headroom')
    expect(answer.firstOfBoard!.place.charge).toBeLessThan(answer.first!.place.charge)
    expect(answer.summary).toMatch(
      /First to give way: highest amplifier output .* diagnostic is lost: open-circuit detection /s,
    )
    const failing = answer.rows.filter(({ margin }) => margin.verdict === 'fails').map(({ id }) => id)
    expect(failing).toEqual(expect.arrayContaining(['divider/headroom', 'decoupling/rail-brown-out', 'monitor/reset']))
    expect(answer.usable.share).toBeLessThan(answer.usable.wanted)
  })

  it('loses charge at the cold end of life first', () => {
    expect(answer.first?.place).toMatchObject({ celsius: 0, age: 1 })
  })

  it('is answered in JSON without a number that is none', () => {
    expect(JSON.stringify(answer)).not.toContain('NaN')
    expect(JSON.stringify(answer.rows)).not.toContain('"worst":null')
  })
})

describe('the command', () => {
  const files: Readonly<Record<string, string>> = { 'knife.json': text, 'mended.json': writeDesign(mended) }
  // The knife's answer is known from above; the mended one is walked.
  const checking = remembered((design: Design) =>
    writeDesign(design) === text ? exampleCheck() : checkDesign(design, { charges: 3 }),
  )
  const answering = {
    check: checking,
    boards: remembered((design: Design) => simulateBoards(design, { boards: 200 })),
  }
  const run = (...args: string[]) => runCommand(args, (path) => files[path] ?? fail(path), answering)
  const fail = (path: string): never => {
    throw new Error(`no such file: ${path}`)
  }

  it('prints the design to start from', () => {
    expect(run('new')).toEqual({ exit: 0, out: text, error: '' })
    expect(run('new', 'knife')).toEqual(run('new'))
  })

  it('prints another, a mat on an adapter, which holds', () => {
    const { exit, out, error } = run('new', 'mat')
    expect({ exit, error }).toEqual({ exit: 0, error: '' })
    const design = parseDesign(out)
    expect(writeDesign(design)).toBe(out)
    const { verdict, rows, power } = checking(design)
    expect(verdict).toBe('holds')
    expect(rows.filter(({ margin }) => margin.verdict !== 'holds')).toEqual([])
    // 12 W at 12 V are 12 ohm: at 11.4 V, with 5 % less power and 0.3 ohm before it, 9.8 W; 2 A are never reached.
    expect(power.on.lower).toBeGreaterThan(9.5)
    expect(power.on.lower).toBeLessThan(11.4 ** 2 / (12 / 0.95))
  })

  it('speaks of no charge and no cells where a port feeds the design', () => {
    const mat = parseDesign(run('new', 'mat').out)
    const failing = writeDesign({ ...mat, divider: { ...mat.divider, error: '1 %' } })
    for (const given of [writeDesign(mat), failing]) {
      const { out } = runCommand(['check', 'mat.json'], () => given, answering)
      expect(out).toMatch(/5 °C/)
      expect(out).not.toMatch(/to a charge|charged|cut-off|lithium|100 %, |holds down to|drawer/i)
    }
  })

  it('names the designs that there are', () => {
    expect(run('new', 'matt')).toEqual({ exit: 2, out: '', error: 'new takes knife or mat; did you mean mat?\n' })
    expect(run('new', 'knife', 'mat')).toEqual({ exit: 2, out: '', error: 'new takes knife or mat\n' })
  })

  it('exits with 0 where the design holds', () => {
    const { exit, out, error } = run('check', 'mended.json')
    expect({ exit, error }).toEqual({ exit: 0, error: '' })
    expect(out).toMatch(/holds/)
  })

  it('exits with 1 where the design fails, in words and as JSON', () => {
    const { exit, out } = run('check', 'knife.json')
    expect(exit).toBe(1)
    expect(out).toMatch(/First to give way:/)
    // Rows that differ in their names alone are one.
    expect(out).toMatch(/decoupling {2,}steady and lowest rail against the brown-out threshold/)
    expect(Math.max(...out.split('\n').map((line) => line.length))).toBeLessThan(200)
    // Per cent a month of 4000 mAh and 4 % more, by the data of the cell: what no switch ends, in amperes.
    const { supply } = readDesign(exampleDesign)
    if (supply.source.kind !== 'cell') throw new Error('a cell')
    const share = supply.source.selfDischarge.upper
    const microamperes = (share * 4000 * 1.04 * 0.8 * 1000) / 730.5
    const said = Number(/self-discharge of the cells +([\d.]+) µA +\d+ days by itself/.exec(out)?.[1])
    expect(said / microamperes).toBeCloseTo(1, 1)
    const json = run('check', 'knife.json', '--json')
    expect(json.exit).toBe(1)
    expect(JSON.parse(json.out).verdict).toBe('fails')
  })

  it('prints how many boards would work', () => {
    const { exit, out } = run('boards', 'mended.json')
    expect(exit).toBe(0)
    expect(out).toMatch(/^Of 200 boards [\d.]+ % would work/)
    expect(JSON.parse(run('boards', 'mended.json', '--json').out).boards).toBe(200)
  })

  it('never says that all boards work where one does not', () => {
    const found = {
      boards: 10_000,
      works: 0.9999,
      interval: [0.99943, 0.99998] as const,
      byCharge: [0.55, 0.1].map((charge) => ({ charge, works: 0.9999 })),
      rows: [
        {
          id: 'hall/supply-low',
          block: 'hall',
          state: 'load on',
          name: 'lowest sensor supply',
          fails: 0.0001,
          first: 0.0001,
        } as const,
      ],
      places: [],
    }
    const { out } = runCommand(['boards', 'knife.json'], () => text, { boards: () => found })
    expect(out).toContain('Of 10000 boards 99.9 % would work (95 % interval 99.9 % to 100 %')
    expect(out).toMatch(/10 % {2}99\.9 %/)
    expect(out).toMatch(/lowest sensor supply {2}0\.01 %/)
  })

  it('says what it can do, of any verb', () => {
    for (const args of [['--help'], ['-h'], ['new', '--help'], ['check', '-h']]) {
      expect(run(...args)).toMatchObject({ exit: 0, out: expect.stringContaining('ohmward boards FILE.json') })
    }
  })

  it('exits with 2 on bad input', () => {
    expect(run('check', 'other.json')).toMatchObject({ exit: 2, error: expect.stringContaining('no such file') })
    expect(run('check')).toMatchObject({ exit: 2 })
    expect(run('chek', 'knife.json')).toMatchObject({ exit: 2, error: expect.stringContaining('did you mean check') })
    expect(run('check', 'knife.json', '--jsn')).toMatchObject({ exit: 2 })
    expect(runCommand(['check', 'a.json'], () => '{')).toMatchObject({
      exit: 2,
      error: expect.stringContaining('line 1'),
    })
    expect(runCommand(['check', 'a.json'], () => '[]')).toMatchObject({ exit: 2 })
  })
})

describe('a capacity without a unit', () => {
  const having = (capacity: number | string) =>
    ({ ...mended, supply: { ...mended.supply, source: { ...exampleDesign.supply.source, capacity } } }) as Design
  const saying = (capacity: number | string) => bareCapacity(having(capacity), readDesign(having(capacity)))

  it('is taken as coulombs, which is said; with one nothing is', () => {
    // 3600 C are 1 Ah.
    expect(saying(9000)).toEqual([expect.stringMatching(/without a unit.*9000 C is 2.5 Ah/)])
    // Always on: no pulse has to be followed.
    const steady = { ...having(9000), pwm: { ...mended.pwm, duty: { from: 1, to: 1 } } }
    expect(checkDesign(steady, { charges: 2 }).assumptions).toContain(saying(9000)[0])
    expect(saying('9000')).toHaveLength(1)
    expect(saying('2.5 Ah ±4 %')).toEqual([])
    expect(saying('2500 mAh')).toEqual([])
  })
})
