import { nominalOf, type Spread } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { switchOf } from '../src/chain/switch.js'
import { readMosfet } from '../src/choice.js'
import { checkMosfet, type MosfetChoice, type MosfetConditions } from '../src/index.js'
import { coldRows } from '../src/rows/index.js'
import { limitRow, symbolsOf } from '../src/rows/row.js'
import { cell, driver, inverterFast, inverterSlow, knife, lowSide, nChannelLowVoltage, pin } from './choice.js'

const choices: Record<string, MosfetChoice> = {
  'P-channel, inverting transistor': knife({ edgeLimit: '1 ms' }),
  'P-channel, pull-up on the drive side, bursts': knife({
    drive: { ...inverterSlow, pull: { at: 'drive', resistance: '4.7 kohm ±5 %' } },
    bursts: { on: 2, period: 10, count: 5 },
  }),
  'P-channel, pin with a lower high level': knife({ drive: { ...pin, highLevel: '4 V ±0.1 V' } }),
  'N-channel, pin': lowSide(),
  'N-channel, driver, clamped inductive, held current': lowSide({
    drive: { ...driver, supply: { regulated: '5 V ±5 %' } },
    load: { current: '5 A ±10 %' },
    edges: 'clamped inductive',
    wiring: { sharedSource: '3 mohm ±1 mohm' },
  }),
  'N-channel, inverting transistor held on in reset': lowSide({
    drive: { ...inverterFast, basePullUp: '10 kohm ±5 %' },
  }),
  'N-channel, follower behind a diode': lowSide({
    drive: {
      kind: 'follower',
      gateResistor: 22,
      supply: { diode: '0.3 V ±0.1 V' },
      pull: { at: 'gate', resistance: '2.2 kohm ±5 %' },
    },
  }),
  'N-channel, complementary followers': lowSide({
    drive: { kind: 'follower', complementary: true, gateResistor: 22 },
    parallel: 2,
  }),
  'no edges': lowSide({
    pwm: { frequency: 0, duty: { from: 1, to: 1 } },
    transistor: { ...nChannelLowVoltage, temperatureLaw: { kind: 'linear', perKelvin: 0.004 } },
  }),
}

describe('a place of work', () => {
  it.each(Object.entries(choices))('%s: holds every symbol that its formulas read or leave', (_, choice) => {
    const circuit = switchOf(readMosfet(choice, cell()))
    circuit.putAt()
    circuit.cold()
    const y: Readonly<Record<string, number>> = circuit.hot(90)
    for (const { symbol, inputs } of circuit.formulas) {
      if (symbol === 'T_j') continue
      for (const one of [symbol, ...Object.keys(inputs)]) expect(y[one], `${one} for ${symbol}`).not.toBeNaN()
    }
  })
})

describe('what stands behind a margin', () => {
  it.each(Object.entries(choices))('%s: inputs not named change neither value nor limit', (_, choice) => {
    const read = readMosfet(choice, cell())
    const circuit = switchOf(read)
    const x: Record<string, number> = {}
    for (const [symbol, input] of Object.entries(circuit.inputs)) x[symbol] = nominalOf(input)
    const rows = coldRows(read, circuit)
    expect(rows.length).toBeGreaterThan(8)
    for (const row of rows) {
      const behind = circuit.behind(symbolsOf(row))
      const { follow } = limitRow(row, circuit).reading
      const { value, limit } = row
      const answer = (at: Record<string, number>) => {
        const y = follow(circuit.putAt(at))
        return [y[value]!, typeof limit === 'number' ? limit : y[limit]!]
      }
      const before = answer(x)
      expect(before.every(Number.isFinite), `${row.id} is finite`).toBe(true)
      let moving = 0
      for (const symbol of Object.keys(x)) {
        const after = answer({ ...x, [symbol]: x[symbol]! * 1.01 + 1e-3 })
        if (!behind.has(symbol)) expect(after, `${row.id} reads ${symbol}`).toEqual(before)
        else if (after[0] !== before[0] || after[1] !== before[1]) moving++
      }
      expect(moving, `${row.id} reads something`).toBeGreaterThan(0)
    }
  })
})

describe('an edge that the transistor’s gain limits on some boards only', () => {
  // With a base resistor of 2.7 kilohm the collector current lies about that of the gate resistor.
  const choice = knife({
    drive: { ...inverterFast, baseResistor: '2.7 kohm ±5 %', pull: { at: 'gate', resistance: '2.2 kohm ±10 %' } },
  })
  const inverter = (base: string, pull: string) =>
    knife({ drive: { ...inverterFast, baseResistor: base, pull: { at: 'gate', resistance: pull } } })
  const varying = ['V_oc', 'R_s', 'R_L', 'V_drop', 'R_g', 'R_p', 'V_BE', 'R_b', 'R_be', 'V_th'] as const
  /** The slowest edge over all corners of the tolerances and of the cell. */
  const slowestOf = (one: MosfetChoice, conditions: MosfetConditions) => {
    const circuit = switchOf(readMosfet(one, conditions))
    const x: Record<string, number> = {}
    let slowest = 0
    for (let corner = 0; corner < 2 ** varying.length; corner++) {
      varying.forEach((symbol, i) => {
        const input = circuit.inputs[symbol] as number | Spread
        x[symbol] = typeof input === 'number' ? input : corner & (1 << i) ? input.upper : input.lower
      })
      circuit.putAt(x)
      slowest = Math.max(slowest, circuit.edges().t_ton)
    }
    return slowest
  }

  it('has the worst case that all corners of its tolerances show, over a cell and at one voltage of it', () => {
    const boards = [
      choice,
      // Near the border: only with the base-emitter voltage, the base resistor and the one beside it all at their worst is it the gain that limits.
      inverter('1.3 kohm ±5 %', '2.6 kohm ±1 %'),
      inverter('1.3 kohm ±5 %', '3.2 kohm ±20 %'),
      inverter('1.2 kohm ±20 %', '3.1 kohm ±10 %'),
    ]
    for (const one of boards)
      for (const openCircuit of [
        { from: 3, to: 4.2 },
        { from: 3, to: 3 },
      ]) {
        const conditions = cell({ openCircuit })
        const slowest = slowestOf(one, conditions)
        const { margins } = checkMosfet(one, conditions, { simulation: false })
        const { worst } = margins.find(({ id }) => id === 'on-edge')!
        expect(worst / slowest).toBeCloseTo(1, 9)
      }
  })
})
