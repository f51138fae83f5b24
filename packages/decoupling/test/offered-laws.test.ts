import type { ChangeSpec } from '@ohmward/budget'
import { readNumber } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { fewerParts, higherRating, moreParts } from '../src/changes/capacitors.js'
import { otherTiming } from '../src/changes/load.js'
import { readDecoupling } from '../src/choice/read.js'
import * as f from '../src/formulas/index.js'
import { checkDecoupling, type DecouplingChoice } from '../src/index.js'
import { assumptionsOf } from '../src/texts/assumptions.js'
import { diodeRail } from '../src/waveform/diode/feed.js'
import { circuit, respondTo, respondToPwm } from '../src/waveform/index.js'
import { flatCell } from './source.js'
import { base, bulk, check, pulsed } from './usual-rail.js'

const at = { openCircuit: { from: 3.7, to: 3.7 }, ambientCelsius: { from: 25, to: 25 }, ageYears: { from: 0, to: 0 } }
const logic = { capacitance: 1e-4, current: 5e-3 }
const diode = { logicRail: { behind: 'diode', forwardVoltage: 0.3, ...logic } } as const
const resistor = { logicRail: { behind: 'resistor', resistance: 10, ...logic } } as const
const inPulses = { load: { current: 1, pwm: { frequency: 20e3, duty: 0.4 } } }
const old = { age: 5 }
const start = (choice: DecouplingChoice) => ({ choice, conditions: at, read: readDecoupling(choice, at) })
const rungs = (change: ChangeSpec, choice: DecouplingChoice) => change.rungs(start(choice) as never)

describe('what is offered of a kind of capacitor', () => {
  it('are the ratings above its own, the lowest first', () => {
    const [first, second] = higherRating
    expect(rungs(first!, base).map(({ text }) => text)).toEqual(['16 V', '25 V', '35 V', '50 V', '63 V', '100 V'])
    expect(rungs(first!, base)[0]!.puts).toEqual({ 'capacitors.0.ratedVoltage': '16 V' })
    // There is no second kind; of one that has the highest nothing is above.
    expect(rungs(second!, base)).toEqual([])
    expect(rungs(first!, { ...base, capacitors: [{ ...bulk, ratedVoltage: 100 }] })).toEqual([])
  })

  it('are up to sixteen of it or four times as many, or one less at a time', () => {
    const of = (change: ChangeSpec, count: number) =>
      rungs(change, { ...base, capacitors: [{ ...bulk, count }] }).map(({ puts }) => Object.values(puts)[0])
    expect(of(moreParts[0]!, 1)).toEqual(Array.from({ length: 15 }, (_, i) => `${i + 2}`))
    expect(of(moreParts[0]!, 5).at(-1)).toBe('20')
    expect(of(moreParts[0]!, 1000)).toEqual([])
    expect(of(fewerParts[0]!, 3)).toEqual(['2', '1'])
    expect(of(fewerParts[0]!, 1)).toEqual([])
  })
})

describe('a slower edge', () => {
  const slower = otherTiming.find(({ id }) => id === 'slower')!
  const longest = (load: object) => {
    const all = rungs(slower, { ...base, load: { current: 8, rise: '1 us', ...load } })
    return Math.max(...all.map(({ puts }) => readNumber(puts['load.rise'], { field: 'rise', unit: 's' })))
  }
  it('ends before the load is off again', () => {
    // 0.4 of 50 us; a burst of 2 ms.
    expect(longest(pulsed(20e3, 0.4, {}))).toBeLessThanOrEqual(20e-6)
    expect(longest(pulsed(20e3, 0.4, {}))).toBeGreaterThan(10e-6)
    expect(longest({ duration: '2 ms' })).toBeLessThanOrEqual(2e-3)
    expect(longest({ duration: '2 ms' })).toBeGreaterThan(1e-3)
  })
})

describe('what is said of a rail', () => {
  it('tells of a constant power alone that it needs a capacitor at its terminals', () => {
    const said = (load: object) => assumptionsOf(readDecoupling({ ...base, load } as DecouplingChoice, at)).join(' ')
    expect(said({ power: 8 })).toMatch(/a constant power needs a capacitor at its terminals/)
    expect(said({ current: 8 })).not.toMatch(/a constant power/)
  })

  it('tells how much capacitance it takes where the rail fails, and where another row does not', () => {
    const summary = (more: object) => check({ ...base, load: { current: 1 }, ...more }).summary
    expect(summary({})).toMatch(/^Holds: /)
    expect(summary({ capacitors: [{ ...bulk, ratedVoltage: 3 }] })).toMatch(/^Fails: .* at worst to 3\.\d+ V\.$/)
    expect(summary({ load: { current: 8, duration: '1 ms' } })).toMatch(/ It takes about \d.* of capacitance\.$/)
    const short = { load: { current: 8, duration: '1 ms' }, capacitors: [{ ...bulk, capacitance: 0.1 }] }
    expect(summary(short)).toMatch(/^Holds: /)
    expect(summary(short)).not.toMatch(/It takes about/)
  })

  it('derives no diode and no emission where none stands behind the rail', () => {
    const { derivation } = check({ ...base, load: { current: 8, ...pulsed(20e3, 0.4, {}) } })
    expect(derivation.map(({ quantity }) => quantity).filter((one) => /diode|emission/.test(one))).toEqual([])
  })

  it.each<[symbol: string, those: readonly object[], others: readonly object[]]>([
    [f.diodeDrop.symbol, [diode, { ...diode, ...inPulses }], [{}, resistor, inPulses]],
    [f.emissionVoltage.symbol, [{ ...diode, ...inPulses }], [{}, diode, resistor, inPulses]],
    [f.peakOfLogic.symbol, [diode, resistor], [{}, inPulses]],
    [f.restCurrent.symbol, [diode, resistor], [{}, inPulses]],
    [f.wornShare.symbol, [old, { ...old, ...diode }], [{}, diode]],
  ])('derives %s where it does something, and only there', (symbol, those, others) => {
    const isDerived = ({ age = 0, ...more }: { age?: number }) =>
      checkDecoupling(
        { ...base, ...more },
        { ...at, ageYears: { from: 0, to: age } },
        { simulation: false },
      ).derivation.some((step) => step.symbol === symbol)
    for (const one of those) expect(isDerived(one), JSON.stringify(one)).toBe(true)
    for (const one of others) expect(isDerived(one), JSON.stringify(one)).toBe(false)
  })

  it('derives charge and energy at insertion with what a curve of bias leaves, where there is one', () => {
    const factors = (more: object) =>
      new Set(check({ ...base, load: { current: 1 }, ...more }).derivation.flatMap(({ inputs }) => Object.keys(inputs)))
    const biased = { capacitors: [{ ...bulk, bias: '0 V: 1, 10 V: 0.5' }] }
    for (const name of ['k_Q', 'k_E']) {
      expect(factors(biased).has(name)).toBe(true)
      expect(factors({}).has(name)).toBe(false)
    }
  })
})

describe('a cell whose resistance goes by its charge', () => {
  it('has at each charge the voltage and the factor of that charge (arithmetic)', () => {
    const { source, ...supply } = flatCell('20 mohm')
    const worst = (chargeFactor: string) => {
      const cell = {
        ...source,
        openCircuit: '0: 3 V, 1: 4 V',
        openCircuitSpread: 0,
        openCircuitSpreadEmpty: 0,
        chargeFactor,
      }
      const choice = { ...base, source: { ...supply, source: cell }, load: { current: 10 }, limits: { brownOut: 1 } }
      const { margins } = checkDecoupling(
        choice as DecouplingChoice,
        { ...at, openCircuit: undefined, charge: { from: 0.5, to: 1 } } as never,
        { simulation: false },
      )
      return margins.find(({ id }) => id === 'rail-brown-out')!.worst
    }
    // Full 4 V - 10 A · 8 · 20 mohm, at half 3.5 V - 0.2 V.
    expect(worst('0: 1, 0.5: 1, 1: 8')).toBeCloseTo(2.4, 6)
    expect(worst('0: 1, 0.5: 2.5, 1: 1')).toBeCloseTo(3, 6)
  })
})

describe('a current that jumps', () => {
  const loop = (inductance: number, own: number) =>
    circuit(
      { voltage: 3.7, resistance: 0.1, inductance },
      [{ capacitance: 1e-3, resistance: 0.01, inductance: own }],
      0,
    )
  const step = { rise: 0, duration: Number.POSITIVE_INFINITY, fall: 0 }
  const load = { kind: 'current', current: 8 } as never

  it('is refused where nothing can give it: an inductance before the rail and in every capacitor', () => {
    expect(() => respondTo(loop(1e-6, 1e-9), load, step)).toThrow(/^rise = 0/)
    expect(() => respondTo(loop(1e-6, 0), load, step)).not.toThrow()
    expect(() => respondTo(loop(0, 1e-9), load, step)).not.toThrow()
    expect(() => respondTo(loop(1e-6, 1e-9), load, { ...step, rise: 1e-6 })).not.toThrow()
  })

  it('rises, is on, falls and is off, each told by its name', () => {
    const { pieces } = respondTo(loop(0, 0), load, { rise: 1e-5, duration: 1e-3, fall: 2e-5 })
    expect([...new Set(pieces.map(({ phase }) => phase))]).toEqual(['rise', 'on', 'fall', 'off'])
  })

  it('has edges that fit into its period, each refused by its name', () => {
    const at = (rise: number, fall: number) => () =>
      respondToPwm(loop(0, 0), load, { frequency: 1e3, duty: 0.4, rise, fall })
    expect(at(0.39e-3, 0.59e-3)).not.toThrow()
    expect(at(0.41e-3, 0)).toThrow(/^pwm\.rise = /)
    expect(at(0, 0.61e-3)).toThrow(/^pwm\.fall = /)
  })
})

describe('a logic rail behind a diode', () => {
  it('is told with the time that its capacitor holds it, and falls by current and time over its capacitance', () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: 1e-4, current: 20e-3 } as const
    const { derivation } = check({ ...base, load: { current: 8, duration: '1 ms' }, logicRail })
    const step = derivation.find(({ inputs }) => 't_on' in inputs)!
    const time = step.inputs['t_on']!
    // No shorter than the burst, and back before long: 20 mA from 100 uF are 0.2 V in 1 ms.
    expect(time).toBeGreaterThan(0.9e-3)
    expect(time).toBeLessThan(5e-3)
    const rail = derivation.find(({ symbol }) => symbol === step.symbol)!
    expect(rail.value).toBeLessThan(3.7 - 0.3 - 0.18)
  })

  it('stays a branch of its own beside a capacitor of the same time constant', () => {
    const open = circuit(
      { voltage: 3.7, resistance: 0.1, inductance: 0 },
      [{ capacitance: 1e-3, resistance: 0.01, inductance: 0 }],
      0,
    )
    const { closed, held } = diodeRail(open, { capacitance: 1e-4, current: 0, threshold: 0.3, slope: 0.1 })
    const [one, other] = closed.branches.map((b) => b.resistance * b.capacitance)
    expect(Math.abs(one! / other! - 1)).toBeGreaterThan(1e-6)
    expect(held.slope / 0.1).toBeCloseTo(1, 4)
    expect(diodeRail(open, { capacitance: 1e-4, current: 0, threshold: 0.3, slope: 0.2 }).held.slope).toBe(0.2)
  })
})
