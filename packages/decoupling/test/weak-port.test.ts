import { describe, expect, it } from 'vitest'
import { examplePort } from '../src/index.js'
import { bulk, cell, check } from './exact-rail.js'

describe('a weak port', () => {
  const supply = { ...examplePort, openCircuit: undefined, resistance: 0.5, attachable: 0.05 } as const

  it('is not asked for the burst that the capacitors give', () => {
    const burst = { source: supply, capacitors: [{ ...bulk, capacitance: 4.7e-3 }], limits: { brownOut: 3 } }
    const a = check({ ...burst, load: { current: 2, duration: 1e-3 }, idle: 0.1 }, 5)
    expect(a.margins.find(({ id }) => id === 'port-current')!.slack).toBeCloseTo(0.4, 9)
    expect(a.verdict).toBe('holds')
    const stays = check({ ...burst, load: { current: 2 }, idle: 0.1 }, 5)
    expect(stays.margins.find(({ id }) => id === 'port-current')!.slack).toBeCloseTo(-1.6, 9)
  })

  it('that does not cover what is drawn all the time has no rest', () => {
    const a = check({ source: supply, idle: 0.6, load: { current: 2, duration: 1e-3 }, limits: { brownOut: 3 } }, 5)
    expect(a.steady).toMatchObject({ isImpossible: true, rest: 0, capacitance: null })
    expect(a.summary).toContain('600 mA that are drawn all the time')
    expect(a.margins.find(({ id }) => id === 'rail-brown-out')!.worst).toBe(0)
    // A tenth of that is fine through 0.25 ohm, and 10 A through 1 ohm is the idle current's fault, not the load's.
    const idle = check({ source: cell(1), idle: 10, load: { current: 0.01 } })
    expect(idle.summary).toContain('10 A that are drawn all the time leave 0 V')
  })

  it('bears the hold-up capacitor of a diode rail too', () => {
    const logicRail = { behind: 'diode', forwardVoltage: 0.3, capacitance: 2200e-6, current: 5e-3 } as const
    const a = check(
      {
        source: { ...examplePort, openCircuit: undefined },
        load: { current: 0.1 },
        logicRail,
        capacitors: [{ ...bulk, capacitance: 4.7e-6 }],
      },
      5,
    )
    const port = a.margins.find(({ id }) => id === 'port-capacitance')!
    expect(port.worst).toBeCloseTo(2204.7e-6, 12)
    expect(port.verdict).toBe('fails')
  })
})
