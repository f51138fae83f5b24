import { between, exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { boardLines, linesOf } from '../src/command/print.js'

/* What the terminal says of an answer whose numbers are written down: rounded against the reader, aligned, no line too long for a page. */

const row = (name: string, margin: object = {}, about: object = {}) => ({
  ...{ id: `hall/${name}`, block: 'hall', state: 'load on', heldDownTo: 0.409 },
  margin: {
    ...{
      id: name,
      name,
      unit: 'V',
      sense: 'at least',
      worst: 2.5,
      limit: 3,
      slack: -0.5,
      verdict: 'fails',
      catches: [],
    },
    ...margin,
  },
  place: { charge: 0.301, celsius: -5, age: 0.5 },
  ...about,
})
const holds = { verdict: 'holds', worst: 4, slack: 1 }
const power = {
  ...{ on: between(17.11, 19.99), mean: between(9.999, 11.001), least: exact(1) },
  ...{ error: { voltageTimesCurrent: null, squareTimesResistance: null }, read: null, limit: null, bursts: null },
}
const answer = {
  ...{ name: 'knife', verdict: 'fails', source: 'cell', summary: 'Fails.', rows: [], power, monitor: null },
  ...{ standby: null, junction: 61.24, assumptions: ['one', 'two'], cautions: [] as string[] },
}
const printed = (more: object = {}) => linesOf({ ...answer, ...more } as never)
const lines = (more: object = {}) => printed(more).map((line) => line.trim())

describe('an answer in the terminal', () => {
  it('begins with its name and verdict, and ends with what it leaves out', () => {
    const all = lines()
    expect(all.slice(0, 2)).toEqual(['knife: fails', 'Fails.'])
    expect(all.at(-1)).toBe('More with --json: 2 assumptions made where the design says nothing.')
    const cautions = Array.from({ length: 10 }, (_, i) => `Mind ${i}.`)
    const many = lines({ cautions })
    expect(many.filter((line) => /^Mind \d\.$/.test(line))).toEqual(cautions.slice(0, 8))
    expect(many.at(-1)).toBe('More with --json: 2 cautions, and 2 assumptions made where the design says nothing.')
    expect(lines({ cautions: cautions.slice(0, 8) }).at(-1)).not.toContain('caution')
  })

  it('counts rows beyond ten that fail and five that hold', () => {
    const rows = (failing: number, holding: number) =>
      lines({
        rows: [
          ...Array.from({ length: failing }, (_, i) => row(`bad ${i}`, { worst: 1 + i / 10 })),
          ...Array.from({ length: holding }, (_, i) => row(`good ${i}`, holds)),
        ],
      })
    const counted = (failing: number, holding: number) => {
      const all = rows(failing, holding)
      const of = (word: RegExp) => all.filter((line) => word.test(line)).length
      return [of(/^fails .* bad \d/), of(/^holds .* good \d/), ...all.filter((line) => /^and \d+ more$/.test(line))]
    }
    expect(counted(10, 5)).toEqual([10, 5])
    expect(counted(11, 5)).toEqual([10, 5, 'and 1 more'])
    expect(counted(1, 8)).toEqual([1, 5, 'and 3 more'])
    expect(counted(0, 1)).toEqual([0, 1])
  })

  it('says why rows are not sure, each reason once with all that it is of', () => {
    const unsure = (name: string, reason: string | undefined, verdict = 'not sure') => row(name, { verdict, reason })
    const all = lines({
      rows: [
        unsure('one', 'nobody knows'),
        unsure('two', 'it may clip'),
        unsure('three', 'nobody knows'),
        unsure('four', undefined),
        unsure('five', 'it fails for sure', 'fails'),
      ],
    })
    expect(all.filter((line) => line.startsWith('Not sure of'))).toEqual([
      'Not sure of one, three: nobody knows.',
      'Not sure of two: it may clip.',
    ])
    expect(all.join(' ')).not.toContain('for sure')
  })

  it('tells the worst of a row rounded against it, and where it is', () => {
    const failing = (margin: object, about: object = {}) =>
      lines({ rows: [row('x', margin, about)] })
        .find((line) => line.startsWith('fails'))!
        .split(/ {2,}/)
        .slice(3)
    expect(failing({ worst: 2.4999 })).toEqual(['2.49 V', 'at least 3 V', '31 %, -5 °C, 50 % of its life gone', '41 %'])
    expect(failing({ sense: 'at most', worst: 3.5001 })[0]).toBe('3.51 V')
    expect(failing({ worst: Number.POSITIVE_INFINITY, sense: 'at most' })[0]).toBe('no end')
    expect(failing({ worst: Number.NEGATIVE_INFINITY })[0]).toBe('none')
    expect(failing({ isUnknown: true })[0]).toBe('not known')
    expect(failing({}, { heldDownTo: null }).at(-1)).toBe('not even full')
    expect(failing({}, { place: { charge: 1, celsius: 25, age: 0 } })[2]).toBe('100 %, 25 °C, new')
    expect(failing({}, { place: { charge: 1, celsius: 25, age: 1 } })[2]).toBe('100 %, 25 °C, at the end of life')
    // One of no single place says over what it was computed.
    expect(failing({}, { place: null, where: 'in the drawer', heldDownTo: null })).toEqual([
      ...['2.5 V', 'at least 3 V', 'in the drawer'],
    ])
  })

  it('names a state beside its block where a block has several', () => {
    const block = (state: string) =>
      lines({ rows: [row('x', {}, { block: 'decoupling', state })] })
        .find((line) => line.startsWith('fails'))!
        .split(/ {2,}/)[1]
    expect([block('load on'), block('load off'), block('PWM')]).toEqual([
      ...['decoupling', 'decoupling', 'decoupling, PWM'],
    ])
  })

  it('lists the power, each number towards the side that promises less', () => {
    const of = (more: object) => {
      const all = lines({ power: { ...power, ...more } })
      return all.slice(all.indexOf('Power') + 1).map((line) => line.split(/ {2,}/))
    }
    const range = [
      ['in the load while it is on', '17.1 W to 20 W'],
      ['mean at the largest duty', '9.99 W to 11.1 W'],
    ]
    const junction = ['steady junction of the switch: at most 61.3 °C']
    expect(of({}).slice(0, 3)).toEqual([...range, junction])
    expect(of({ limit: { dutyWithoutReading: 0.599, setPoint: 18.39 } }).slice(2, 5)).toEqual([
      ['limit kept without a reading, duty at most', '59 %'],
      ['limit kept with a reading, set point at most', '18.3 W'],
      junction,
    ])
    expect(of({ limit: { dutyWithoutReading: 1, setPoint: null } }).slice(2, 4)).toEqual([
      ['limit kept without a reading, duty at most', '100 %'],
      junction,
    ])
    expect(of({ bursts: { energy: [], count: between(87.9, 120.9), stuck: 719.1 } }).slice(2, 5)).toEqual([
      ['bursts per charge', '87 to 120'],
      ['energy of a burst if the controller hangs', '720 J'],
      junction,
    ])
    expect(of({ bursts: { energy: [], count: null, stuck: null } })[2]).toEqual(junction)
  })

  it('tells how long the drawer lasts, what draws how much there, and what it buys to switch that off', () => {
    const standby = {
      ...{ daysToCutOff: between(430.9, 500), daysToDamage: between(29.9, 40) },
      largestFirst: [
        { name: 'LED', current: 8.501e-6, daysAlone: 460.9, gained: 31.9 },
        { name: 'cells', current: 4.001e-6, daysAlone: 1999.9, gained: null },
        { name: 'clock', current: 0, daysAlone: 36_525_000, gained: 0 },
      ],
    }
    const all = lines({ standby })
    const from = all.indexOf('Drawer: at least 430 days to the cut-off, then 29 to damage')
    expect(all.slice(from + 1, from + 4).map((line) => line.split(/ {2,}/))).toEqual([
      ['LED', '8.51 µA', '460 days by itself', '31 more days without it'],
      ['cells', '4.01 µA', '1999 days by itself'],
      ['clock', '0 A', '0 more days without it'],
    ])
    expect(lines().join(' ')).not.toContain('Drawer')
  })

  it('has its columns one below the other, and breaks what is said at a hundred signs, no number from its unit', () => {
    const rows = ['a', 'a much longer name', 'b'].map((name, i) => row(name, { worst: 1 + i }))
    const table = printed({ rows }).filter((line) => /^ {2}(fails| {5}) /.test(line))
    expect(table).toHaveLength(4)
    expect(new Set(table.map((line) => line.search(/at least 3 V|limit/))).size).toBe(1)
    const summary = `${'word '.repeat(19)}at 3 V ${'word '.repeat(30)}end`
    const said = printed({ summary })
    const text = said.slice(1, said.indexOf(''))
    expect(text.length).toBeGreaterThan(2)
    for (const line of text) {
      expect(line.length).toBeLessThanOrEqual(102)
      expect(line).toMatch(/^ {2}\S/)
      expect(line).not.toMatch(/\b3$/)
    }
    expect(text.map((line) => line.trim()).join(' ')).toBe(summary)
    // Each line but the last has no room for the next word, or for the number with its unit.
    for (const [i, line] of text.slice(0, -1).entries()) {
      const [next = '', unit = ''] = text[i + 1]!.trim().split(' ')
      const word = /^\d/.test(next) ? `${next} ${unit}` : next
      expect(line.length - 2 + 1 + word.length).toBeGreaterThan(100)
    }
  })
})

describe('a whole answer', () => {
  it('stands on the page as it is meant to be read', () => {
    const alarm = {
      name: 'stop',
      threshold: 3.1,
      code: 1453,
      overReference: null,
      acts: between(3.0089, 3.1911),
      toNext: null,
    }
    const text = printed({
      rows: [row('supply', {}, { place: { charge: 0.301, celsius: -5, age: 0 } }), row('span', holds)],
      monitor: {
        alarms: [{ ...alarm, name: 'warning', threshold: 3.3, code: 1365, toNext: 0.1567 }, alarm],
        lacking: { share: 0.1, most: 0.03121 },
      },
      standby: {
        ...{ daysToCutOff: between(430, 500), daysToDamage: between(29, 40) },
        largestFirst: [{ name: 'LED', current: 4.001e-6, daysAlone: 460.9, gained: 31.9 }],
      },
      cautions: ['Mind the leads.'],
    })
    expect(text).toEqual([
      'knife: fails',
      '  Fails.',
      '',
      'Does not hold, the most serious first',
      '         block  check   worst  limit         worst at          holds down to',
      '  fails  hall   supply  2.5 V  at least 3 V  31 %, -5 °C, new  41 %',
      '',
      'Holds, least margin first',
      '         block  check  worst  limit         worst at',
      '  holds  hall   span   4 V    at least 3 V  31 %, -5 °C, 50 % of its life gone',
      '',
      'Power',
      '  in the load while it is on  17.1 W to 20 W',
      '  mean at the largest duty    9.99 W to 11.1 W',
      '  steady junction of the switch: at most 61.3 °C',
      '',
      'Cell monitor',
      '           at     code  acts at       to the next',
      '  warning  3.3 V  1365  3 V to 3.2 V  156 mV',
      '  stop     3.1 V  1453  3 V to 3.2 V',
      '  10 % of the sag under load is still to recover, at most 31.3 mV at the stop',
      '',
      'Drawer: at least 430 days to the cut-off, then 29 to damage',
      '  LED  4.01 µA  460 days by itself  31 more days without it',
      '',
      '  Mind the leads.',
      '',
      '  More with --json: 2 assumptions made where the design says nothing.',
    ])
  })

  it('rounds where a threshold acts outwards', () => {
    const acts = (lower: number, upper: number) =>
      lines({
        monitor: {
          alarms: [{ name: 'stop', threshold: 3, code: 1, acts: between(lower, upper), toNext: null }],
          lacking: null,
        },
      })
        .find((line) => line.startsWith('stop'))!
        .split(/ {2,}/)[3]
    expect(acts(3.019, 3.181)).toBe('3.01 V to 3.19 V')
  })
})

describe('rows that differ in their names alone', () => {
  const name = (...names: string[]) =>
    lines({ rows: names.map((one) => row(one)) })
      .filter((line) => line.startsWith('fails'))
      .map((line) => line.split(/ {2,}/)[2])

  it('are told by what they share at the end once', () => {
    expect(name('steady rail against the limit', 'lowest rail against the limit')).toEqual([
      'steady and lowest rail against the limit',
    ])
    expect(name('reset', 'clock')).toEqual(['reset and clock'])
    expect(name('rail', 'lowest rail')).toEqual(['rail and lowest rail'].map(() => expect.stringMatching(/rail$/)))
    expect(name('a x', 'b x', 'c x')).toEqual(['a and b and c x'])
    // One that is the end of the other keeps a word of its own; a word in the middle is no end.
    expect(name('steady rail', 'rail')).toEqual(['steady rail and rail'])
    expect(name('one x two', 'three x four')).toEqual(['one x two and three x four'])
    const apart = [
      row('a'),
      row('b', { worst: 2 }),
      row('c', {}, { block: 'mosfet' }),
      row('d', { verdict: 'not sure' }),
    ]
    expect(lines({ rows: apart }).filter((line) => /^(fails|not sure) /.test(line))).toHaveLength(4)
  })
})

describe('boards in the terminal', () => {
  it('round their shares against the reader: what works down, what fails up', () => {
    const found = {
      ...{ boards: 10_000, works: 0.99996, interval: [0.99951, 0.99999], places: [] },
      byCharge: [
        { charge: 1, works: 0.99999 },
        { charge: 0.1, works: 0.99996 },
      ],
      rows: Array.from({ length: 12 }, (_, i) => ({
        ...{ id: `${i}`, block: 'hall', state: 'load on', name: `row ${i}`, fails: 0.00004, first: 0.00002 },
      })),
    }
    const all = boardLines(found as never).map((line) => line.trim())
    expect(all[0]).toBe('Of 10000 boards 99.9 % would work (95 % interval 99.9 % to 100 %, from their number).')
    expect(all).toContain('100 %  99.9 %')
    expect(all.filter((line) => line.startsWith('hall '))).toHaveLength(10)
    expect(all.at(-1)!.split(/ {2,}/)).toEqual(['hall', 'row 9', '0.004 %', '0.002 %'])
  })
})
