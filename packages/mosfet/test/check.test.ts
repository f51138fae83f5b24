import { describe, expect, it, vi } from 'vitest'
import { checkMosfet, type MosfetAssessment, type MosfetChoice } from '../src/index.js'
import { cell, inverterSlow, knife, lowSide, nChannelLowVoltage, pChannelLogicLevel } from './choice.js'

vi.setConfig({ testTimeout: 30_000 })

const quick = (choice: MosfetChoice, around = cell()) => checkMosfet(choice, around, { simulation: false })
const marginOf = ({ margins }: MosfetAssessment, id: string) => margins.find((one) => one.id === id)!

describe('checkMosfet', () => {
  it('answers with an assessment that survives JSON', () => {
    const assessment = checkMosfet(knife(), cell())
    expect(JSON.parse(JSON.stringify(assessment))).toEqual(assessment)
    expect(assessment.block).toBe('mosfet')
    expect(assessment.verdict).toBe('holds')
    expect(assessment.summary).toMatch(
      /^Holds: tightest is .*, with .* to spare\. Junction [\d.]+ °C for a typical board, at worst [\d.]+ °C\.$/,
    )
    expect(assessment.margins.length).toBeGreaterThan(12)
    const relative = assessment.margins.map(
      ({ slack, limit, worst }) => slack / (Math.abs(limit) || Math.abs(worst) || 1),
    )
    expect([...relative].sort((a, b) => a - b)).toEqual(relative)
    expect(new Set(assessment.margins.map(({ id }) => id)).size).toBe(assessment.margins.length)
  })

  it('gives the same answer again', () => {
    expect(checkMosfet(knife(), cell())).toEqual(checkMosfet(knife(), cell()))
  })

  it('derives every value of a typical board, the junction in balance among them', () => {
    const { derivation, values, typical } = quick(knife())
    const symbols = derivation.map(({ symbol }) => symbol)
    for (const symbol of [
      'I_max',
      'V_rail',
      'V_GS',
      'R_on',
      'I',
      'P_cond',
      't_r',
      't_f',
      'P_sw',
      'P',
      'T_j',
      'P_gate',
      'T_spare',
      'V_pk',
    ]) {
      expect(symbols).toContain(symbol)
      expect(values[symbol]).toBe(derivation.find((step) => step.symbol === symbol)!.value)
    }
    const { T_a, R_thJA, P, T_rip, T_edge, T_j } = values as Record<string, number>
    expect(Math.abs(T_j! - (T_a! + R_thJA! * P! + T_rip! + T_edge!))).toBeLessThanOrEqual(1e-9 * T_j!)
    expect(typical.junction).toMatchObject({ kind: 'balance' })
    expect(typical.junction.kind === 'balance' && Math.abs(typical.junction.T_j - T_j!)).toBeLessThan(1e-7)
    for (const [symbol, value] of Object.entries(values)) expect(Number.isFinite(value), symbol).toBe(true)
  })

  it('the sign of the thermal headroom is the verdict of the junction', () => {
    for (const junctionToAmbient of [20, 60, 100, 140, 200, 400]) {
      const assessment = quick(knife({ thermal: { junctionToAmbient } }))
      const { slack } = marginOf(assessment, 'junction')
      const { junction } = assessment.worst
      const settles = junction.kind === 'balance' && junction.T_j <= 150
      expect(slack >= 0).toBe(settles)
      expect(assessment.budgets.T_spare.extremes.lower).toBeCloseTo(slack, 9)
    }
  })

  it('gives the probability that a board keeps the limit, by simulation', () => {
    const near = checkMosfet(knife({ thermal: { junctionToAmbient: '110 K/W ±20 %' } }), cell())
    const within = near.budgets.T_spare.simulation!.within!
    expect(marginOf(near, 'junction').verdict).toBe('fails')
    expect(within).toBeGreaterThan(0.5)
    expect(within).toBeLessThan(1)
    const { junction } = near.typical
    expect(junction.kind === 'balance' && junction.T_j).toBeLessThan(150)
  })

  it('says what fails first and by how much', () => {
    const assessment = quick(knife({ transistor: pChannelLogicLevel, thermal: { junctionToAmbient: 60 } }))
    expect(assessment.verdict).toBe('fails')
    expect(assessment.summary).toMatch(/^Fails: .*guaranteed on-resistance is 2\.\d+ V below its limit\./)
  })

  it('two devices in parallel: each carries half, together they heat less than one', () => {
    const cooling = { thermal: { junctionToAmbient: 70 } }
    const one = quick(lowSide(cooling))
    const two = quick(lowSide({ ...cooling, parallel: 2 }))
    expect(two.values['P_cond']).toBeLessThan(one.values['P_cond']! / 3)
    expect(two.values['t_f']).toBeCloseTo(
      2 * one.values['t_f']! - (one.values['t_f']! * 1.5) / one.values['R_goff']!,
      9,
    )
    expect(two.assumptions.join(' ')).toMatch(/2 devices share/)
  })

  it('frequency 0: only conduction is left', () => {
    const { values, margins } = quick(lowSide({ pwm: { frequency: 0, duty: { from: 1, to: 1 } } }))
    expect(values['P_sw']).toBe(0)
    expect(values['P']).toBe(values['P_cond'])
    expect(margins.map(({ id }) => id)).not.toContain('on-edge')
  })

  it('a slow switch is cooler on for good than just below: its edges vanish', () => {
    const drive = inverterSlow
    const on = (from: number, to: number) =>
      quick(knife({ drive, pwm: { frequency: '500 Hz', duty: { from, to } } })).worst.junction
    const [nearly, always] = [on(0.99, 0.99), on(1, 1)]
    if (nearly.kind !== 'balance' || always.kind !== 'balance') throw new Error('runaway')
    expect(always.T_j).toBeLessThan(nearly.T_j)
    // A range that ends at 1 is held against the duty just below it.
    const range = on(0.5, 1)
    expect(range.kind === 'balance' && range.T_j).toBeGreaterThanOrEqual(nearly.T_j)
  })

  it('a resistive load throttles itself: the solved current lies below that of an ideal switch', () => {
    const { values } = quick(knife())
    expect(values['I']).toBeLessThan(values['I_max']!)
    expect(values['I']).toBeCloseTo(values['V_oc']! / (values['R_s']! + values['R_L']! + values['R_hot']!), 12)
  })

  it('bursts: the effective impedance stands for the thermal resistance', () => {
    const bursts = { on: '1 s', period: '20 s', count: 3 }
    const short = quick(knife({ thermal: { junctionToAmbient: '100 K/W ±10 %' }, bursts }))
    const long = quick(knife({ thermal: { junctionToAmbient: '100 K/W ±10 %' } }))
    // At most a curve scaled up to the board's resistance.
    expect(short.values['R_thJA']).toBeLessThan((30 * 100) / 48)
    expect(marginOf(short, 'junction').worst).toBeLessThan(marginOf(long, 'junction').worst)
    const beyond = quick(knife({ bursts: { on: 2000, period: 3000, count: 2 } }))
    const endless = quick(knife())
    expect(beyond.values['R_thJA']! / endless.values['R_thJA']!).toBeCloseTo(1, 12)
    expect(beyond.cautions.map(({ id }) => id)).toContain('impedance-ends')
  })

  it('draws the curve of junction against current, from the ambient through the board’s own point to runaway', () => {
    const { typical } = quick(lowSide())
    const { curve, junction, current, runawayCurrent, limitCurrent } = typical
    expect(curve[0]).toEqual({ current: 0, celsius: 50 })
    for (let i = 1; i < curve.length; i++) expect(curve[i]!.celsius).toBeGreaterThan(curve[i - 1]!.celsius)
    expect(Math.max(...curve.map((point) => point.current))).toBeLessThanOrEqual(runawayCurrent! + 1e-9)
    expect(curve.at(-1)!.current).toBeCloseTo(runawayCurrent!, 1)
    // Between its neighbours on the curve lies what the board does.
    const at = (amperes: number) => {
      const i = curve.findIndex((point) => point.current >= amperes)
      return [curve[i - 1]!.celsius!, curve[i]!.celsius!]
    }
    const [below, above] = at(current)
    expect(junction.kind === 'balance' && junction.T_j).toBeGreaterThan(below! - 0.5)
    expect(junction.kind === 'balance' && junction.T_j).toBeLessThan(above! + 0.5)
    expect(at(limitCurrent!)[0]).toBeLessThanOrEqual(150)
    expect(at(limitCurrent!)[1]).toBeGreaterThanOrEqual(150)
  })

  it('accepts by probability where the designer says so', () => {
    const choice = knife({ thermal: { junctionToAmbient: '110 K/W ±20 %' } })
    expect(quick(choice).verdict).toBe('fails')
    const { probability } = marginOf(quick(choice), 'junction')
    expect(probability).toBeGreaterThan(0.5)
    expect(checkMosfet(choice, cell(), { simulation: false, accept: 0.5 }).verdict).toBe('holds')
  })

  it('warns above extra-low voltage', () => {
    const high = lowSide({
      transistor: { ...nChannelLowVoltage, drainSourceMaximum: 200 },
      load: { resistance: 100 },
      drive: { ...inverterSlow, kind: 'inverting transistor' },
    })
    expect(quick(high, cell({ openCircuit: { from: 60, to: 80 } })).cautions.map(({ id }) => id)).toContain(
      'insulation',
    )
  })
})
