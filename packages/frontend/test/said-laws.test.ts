import { exampleCapacitors } from '@ohmward/decoupling'
import { exampleDesign, firstBoardCsv, levelsAt, readDesign } from '@ohmward/frontend'
import { between, exact } from '@ohmward/quantity'
import { chargeAt, valueAt } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'
import { summaryOf } from '../src/answer/texts.js'
import { boardLines, changeLines, linesOf } from '../src/command/print.js'
import { mostCapacitance } from '../src/design/capacitance.js'

const margin = (name: string, more = {}) => ({
  id: name,
  name,
  unit: 'V',
  sense: 'at least',
  worst: 2.5,
  limit: 3,
  slack: -0.5,
  verdict: 'fails',
  catches: [],
  ...more,
})
const place = { charge: 0.301, celsius: -5, age: 0.5 }
const row = (name: string, more = {}, about = {}) => ({
  id: `hall/${name}`,
  block: 'hall',
  state: 'load on',
  margin: margin(name, more),
  place,
  heldDownTo: 0.409,
  ...about,
})
const holding = row('span', { verdict: 'holds', worst: 4, slack: 1 })
const power = { on: exact(20), mean: between(9, 11), least: exact(1), error: {}, read: null, limit: null, bursts: null }
const answer = {
  name: 'knife',
  verdict: 'fails',
  source: 'cell',
  summary: 'Fails.',
  rows: [row('supply'), holding],
  power,
  monitor: null,
  standby: null,
  junction: 61.2,
  assumptions: ['one'],
  cautions: ['Mind the leads.'],
}
const printed = (more = {}) => linesOf({ ...answer, ...more } as never).map((line) => line.trim())

describe('an answer in the terminal', () => {
  it('lists what does not hold with its place, and then what does', () => {
    const lines = printed()
    const heads = lines.filter((line) => /^(Does not hold|Holds|Everything holds|Power|Cell monitor|Drawer)/.test(line))
    expect(heads).toEqual(['Does not hold, the most serious first', 'Holds, least margin first', 'Power'])
    // Rounded against the reader: a charge up, a life down.
    expect(lines).toContain('fails  hall   supply  2.5 V  at least 3 V  31 %, -5 °C, 50 % of its life gone  41 %')
    expect(lines).toContain('steady junction of the switch: at most 61.2 °C')
    expect(lines).toContain('Mind the leads.')
    expect(lines.join(' ')).not.toMatch(/and -?\d+ more/)
    expect(lines.at(-1)).toBe('More with --json: 1 assumption made where the design says nothing.')
  })

  it('shows how far off each of the two readings of the power is, to a tenth of a percent away from nothing', () => {
    const read = (error: object) =>
      printed({ power: { ...power, error } }).filter((line) => line.startsWith('error of the reading'))
    const [product, square] = [between(-0.1231, 0.0805), between(-0.2, 0.3055)]
    const [volts, amperes] = [
      'error of the reading, voltage times current             −12.4 to +8.1 %',
      'error of the reading, current squared times resistance  −20.0 to +30.6 %',
    ]
    expect(read({ voltageTimesCurrent: product, squareTimesResistance: square })).toEqual([volts, amperes])
    expect(read({ voltageTimesCurrent: null, squareTimesResistance: square })).toEqual([amperes])
    expect(read({ voltageTimesCurrent: product, squareTimesResistance: null })).toHaveLength(1)
    expect(read({ voltageTimesCurrent: null, squareTimesResistance: null })).toEqual([])
  })

  it('says so where all rows hold', () => {
    const lines = printed({ verdict: 'holds', rows: [holding] })
    expect(lines).toContain('Everything holds, least margin first')
    expect(lines.join(' ')).not.toMatch(/Does not hold|Holds, least/)
  })

  it('names no charge of a port, and no end of a number without one', () => {
    const port = printed({ source: 'port', rows: [row('supply', { worst: -Infinity, limit: 3 })], junction: null })
    expect(port).toContain('fails  hall   supply  none   at least 3 V  -5 °C, 50 % of its life gone')
    expect(port).toContain('junction of the switch: thermal runaway')
  })

  it('shows ten of many rows that fail, and counts the rest', () => {
    const many = Array.from({ length: 12 }, (_, i) => row(`row ${i}`, { worst: 1 + i / 10 }))
    const lines = printed({ rows: many })
    expect(lines).toContain('and 2 more')
    expect(lines.filter((line) => line.startsWith('fails'))).toHaveLength(10)
  })

  it('has rows that differ in their names alone as one', () => {
    const lines = printed({ rows: [row('steady rail'), row('lowest rail'), row('lowest rail', { worst: 2 })] })
    const names = lines.filter((line) => line.startsWith('fails')).map((line) => line.split(/ {2,}/)[2])
    expect(names).toEqual(['steady and lowest rail', 'lowest rail'])
  })

  it('lists the thresholds of the monitor with what they are and where they act', () => {
    const alarm = { name: 'stop', threshold: 3.1, code: 1453, acts: between(3.0012, 3.1987), toNext: null }
    const next = { ...alarm, name: 'warning', threshold: 3.3, code: 1365, toNext: 0.15678 }
    const monitor = { alarms: [next, alarm], lacking: { share: 0.1, most: 0.0312 } }
    const lines = printed({ monitor })
    expect(lines).toContain('warning  3.3 V  1365  3 V to 3.2 V  157 mV'.replace('157 mV', '156 mV'))
    const never = printed({ monitor: { ...monitor, alarms: [{ ...alarm, code: null, overReference: null }] } })
    expect(never).toContain('stop  3.1 V  none, beyond the last  3 V to 3.2 V')
    const over = printed({ monitor: { ...monitor, alarms: [{ ...alarm, code: null, overReference: 1.70079 }] } })
    expect(over.join(' ')).toContain('1.701 × that of the reference')
    expect(lines).toContain('stop     3.1 V  1453  3 V to 3.2 V')
    expect(lines).toContain('10 % of the sag under load is still to recover, at most 31.2 mV at the stop')
    expect(printed({ monitor: { ...monitor, lacking: null } }).join(' ')).not.toMatch(/lack/)
  })

  it('lists what would help: each change with what it mends, breaks and puts, pairs apart, and what was not tried', () => {
    const names = (...all: string[]) => all.map((name) => ({ name }))
    const change = (name: string, more: object = {}) => ({
      ...{ name, text: '2 ohm', verdict: 'fails', puts: { 'load.resistance': '2 ohm' }, mends: [], breaks: [] },
      ...more,
    })
    const lines = (more: object) =>
      changeLines({ text: 'No single change is enough.', changes: [], pairs: [], untried: [], ...more } as never).map(
        (line) => line.trim(),
      )
    expect(lines({})).toEqual(['No single change is enough.'])
    expect(lines({ untried: ['another cell', 'less duty'] })).toEqual([
      'No single change is enough.',
      '',
      'Not tried: another cell, less duty.',
    ])
    const usable = { before: 0.301, after: 0.459 }
    const mends = names('junction', 'junction', 'span')
    const [whole, part] = [
      change('a larger load', { verdict: 'holds', mends, usable }),
      change('another', { breaks: names('zero') }),
    ]
    expect(lines({ changes: [whole, part] })).toEqual([
      'No single change is enough.',
      '',
      'Each tried on the whole design, best first',
      '',
      '1  a larger load: 2 ohm',
      'mends 3, breaks nothing, usable charge 30 % → 45 %, then everything holds',
      'mends junction',
      'mends span',
      'load.resistance = "2 ohm"',
      '',
      '2  another: 2 ohm',
      'helps, but mends nothing by itself, breaks 1',
      'breaks zero',
      'load.resistance = "2 ohm"',
    ])
    const left = lines({ changes: [change('gone', { puts: { monitor: undefined } })] })
    expect(left).toContain('monitor = left out')
    const pairs = lines({ pairs: ['a', 'b', 'c', 'd'].map((name) => change(name)) })
    expect(pairs[2]).toBe('Two together')
    expect(pairs.filter((line) => /^\d {2}/.test(line))).toEqual(['1  a: 2 ohm', '2  b: 2 ohm', '3  c: 2 ohm'])
    const many = lines({ changes: Array.from({ length: 12 }, (_, k) => change(`c${k}`)) })
    expect(many.filter((line) => /^\d {2}/.test(line))).toHaveLength(8)
  })

  it('counts boards by charge, and what fails on them', () => {
    const found = { boards: 100, works: 0.5, interval: [0.4, 0.6] as const, places: [] }
    const fails = [{ id: 'x', block: 'mosfet', state: 'PWM', name: 'junction', fails: 0.5, first: 0.25 } as const]
    const byCharge = [1, 0.301].map((charge) => ({ charge, works: 0.5 }))
    const lines = boardLines({ ...found, byCharge, rows: fails } as never).map((line) => line.trim())
    expect(lines[0]).toBe('Of 100 boards 50 % would work (95 % interval 40 % to 60 %, from their number).')
    expect(lines).toContain('31 %   50 %')
    expect(lines).toContain('What fails')
    expect(lines).toContain('mosfet, PWM  junction  50 %      25 %')
    // What the share leaves out is said with it.
    expect(lines[1]).toBe('Power, monitor and drawer are not part of this share: see check.')
    expect(boardLines({ ...found, byCharge: byCharge.slice(1), rows: [] } as never)).toHaveLength(2)
  })
})

describe('an answer in words', () => {
  const first = { ...row('supply'), openCircuit: 3.5, rail: 3.1, isLoaded: true, together: [] }
  const said = (more: object) =>
    summaryOf({ ...answer, first, firstOfBoard: first, usable: { share: 0.7, wanted: 0.9 }, ...more } as never)

  it('tells what gives way first and where, and the charge of cells alone', () => {
    expect(said({})).toBe(
      'Fails. First to give way: supply (hall), at 3.5 V at rest (31 % charged), -5 °C, 50 % of its life gone, load on, rail 3.1 V. 70 % of the charge is usable before that; 90 % is required.',
    )
    expect(said({ source: 'port', firstOfBoard: { ...first, isLoaded: false } })).toBe(
      'Fails. First to give way: supply (hall), at 3.5 V at rest, -5 °C, 50 % of its life gone, load on, rail 3.1 V.',
    )
  })

  it('tells apart a board that gives way and a diagnosis that is lost, earlier on cells alone', () => {
    const board = { ...first, id: 'hall/span', margin: margin('span') }
    expect(said({ firstOfBoard: null })).toMatch(/^Fails\. The readings hold, only a diagnostic is lost: supply /)
    expect(said({ firstOfBoard: board })).toMatch(
      /way: span .* Before that, while the readings still hold, a diagnostic is lost: supply /,
    )
    expect(said({ firstOfBoard: board, source: 'port' })).toMatch(/way: span .* A diagnostic is lost too: supply /)
  })

  it('counts what else does not hold, on cells that hold below the charge that must be usable', () => {
    const three = [row('supply'), row('span'), row('trip')]
    expect(said({ rows: three })).toMatch(/ 2 more checks do not hold\.$/)
    expect(said({ rows: three.slice(1) })).toMatch(/ 1 more check does not hold\.$/)
    expect(said({ rows: three, verdict: 'holds' })).toMatch(
      /^Holds\..* 2 more checks fail only below the charge required/,
    )
    expect(said({ rows: three.slice(1), verdict: 'holds' })).toMatch(/ 1 more check fails only below /)
    expect(said({ usable: { share: 0.4, wanted: 0.9 } })).toContain(
      '40 % of the charge is certain to be used before the stop',
    )
    const all = { first: null, firstOfBoard: null, rows: [], verdict: 'holds' }
    expect(said(all)).toBe('Holds. Every check holds from full to the cut-off.')
    expect(said({ ...all, source: 'port' })).toBe('Holds. Every check holds at every temperature and age.')
    expect(said({ ...all, verdict: 'fails', rows: three })).toMatch(
      /, but 3 of the whole design do not, such as supply \(hall\)\.$/,
    )
  })
})

describe('a list for the first board', () => {
  it('as CSV has a line for each point, its numbers to four digits, none with a unit that has none', () => {
    const point = { point: 'code', state: 'awake', unit: '1', expected: 1453.26, lower: 1400, upper: 0.00012346 }
    expect(firstBoardCsv([point, { ...point, unit: 'V' }] as never)).toBe(
      'point,state,unit,expected,lower,upper\r\ncode,awake,,1453,1400,0.0001235\r\ncode,awake,V,1453,1400,0.0001235\r\n',
    )
  })
})

describe('a supply without a path', () => {
  it('has no element to show', () => {
    const { path: _, ...supply } = exampleDesign.supply
    const { board: __, ...bare } = exampleDesign
    const { insertion: ___, ...decoupling } = exampleDesign.decoupling
    expect(levelsAt({ ...bare, supply, decoupling } as never, { charge: 1, celsius: 25, age: 0 }).path).toEqual([])
  })
})

describe('the most that capacitors come to', () => {
  const { temperature: _, ...wet } = exampleCapacitors.wetAluminium
  const cold = [-20, 0, 20, 60].map((celsius, i) => ({ celsius, factor: [8, 4, 1, 0.5][i]! }))
  const pair = { ...wet, capacitance: '100 uF ±20 %', seriesResistance: '0.1 ohm', cold, count: 2 }

  it('takes their series resistance as cold as the air may be, and no colder (arithmetic)', () => {
    const at = (from: number, to: number) => mostCapacitance({ capacitors: [pair] }, { from, to })
    expect(at(25, 25).capacitance).toBeCloseTo(240e-6, 12)
    // 120 uF · 0.1 ohm · 2, times the factor of the point below the range.
    expect(at(25, 25).seriesTime).toBeCloseTo(24e-6, 12)
    expect(at(10, 25).seriesTime).toBeCloseTo(4 * 24e-6, 12)
    expect(at(-10, 25).seriesTime).toBeCloseTo(8 * 24e-6, 12)
    expect(at(70, 80).seriesTime).toBeCloseTo(0.5 * 24e-6, 12)
  })
  it('is without end where they are not read', () => {
    expect(mostCapacitance({ capacitors: [{ count: 0 }] }, { from: 0, to: 1 }).capacitance).toBe(Infinity)
  })
})

describe('cells that nothing watches', () => {
  const curve = '0: 2.2 V, 0.1: 3 V, 1: 4.2 V'
  const ending = (more: object) => {
    const source = {
      ...exampleDesign.supply.source,
      openCircuit: curve,
      openCircuitSpread: 0,
      openCircuitSpreadEmpty: 0,
      lowestVoltage: '3 V',
      ...more,
    }
    const { monitor: _, ...design } = exampleDesign
    const { supply, emptyCharge } = readDesign({
      ...design,
      supply: { ...exampleDesign.supply, source },
    } as never).parts
    return { cell: supply.source as any, emptyCharge }
  }

  it('follow their curve down to the voltage of damage, and end there', () => {
    const { cell, emptyCharge } = ending({ damageVoltage: '2.5 V' })
    // 0.3 V of the 0.8 V to 3 V are 0.0375 of the charge.
    const points = [
      [0.02, 2.5],
      [0.0375, 2.5],
      [0.075, 2.8],
      [0.1, 3],
      [0.55, 3.6],
      [1, 4.2],
    ] as const
    for (const [q, volts] of points) expect(valueAt(cell.openCircuit, q)).toBeCloseTo(volts, 5)
    expect(emptyCharge).toBeCloseTo(0.0375, 9)
    expect(chargeAt(cell, 2.8).nominal).toBeCloseTo(0.075, 9)
  })

  it('end where their protection acts at the latest, if that is above', () => {
    const { cell, emptyCharge } = ending({ damageVoltage: '2.3 V', protectionVoltage: '2.8 V ±0.1 V' })
    expect(valueAt(cell.openCircuit, 0.01)).toBeCloseTo(2.7, 5)
    expect(emptyCharge).toBeCloseTo(0.0625, 9)
  })
})
