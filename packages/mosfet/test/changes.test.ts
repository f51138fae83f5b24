import { changed } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { checkMosfet, type MosfetChoice, type MosfetConditions, mosfetChanges } from '../src/index.js'
import {
  cell,
  driver,
  inverterFast,
  inverterSlow,
  knife,
  lowSide,
  nChannelLowVoltage,
  pChannelLogicLevel,
  pin,
} from './choice.js'

const failing: Record<string, [MosfetChoice, MosfetConditions]> = {
  'a transistor for 4.5 V on one cell': [knife({ transistor: pChannelLogicLevel }), cell()],
  'a slow pull-up at 4 kHz': [
    knife({ drive: inverterSlow, pwm: { frequency: '4 kHz', duty: { from: 0.05, to: 0.95 } } }),
    cell(),
  ],
  'too little copper': [knife({ thermal: { copperSquareMillimetres: 40 } }), cell()],
  'a pin that nothing holds': [lowSide({ drive: { ...pin, pull: undefined } as MosfetChoice['drive'] }), cell()],
  'a pin without a gate resistor': [lowSide({ drive: { ...pin, gateResistor: 0 } }), cell()],
  'a follower behind a long path': [
    lowSide({ drive: { kind: 'follower', pull: { at: 'gate', resistance: '2.2 kohm ±5 %' } } }),
    cell({ sourceResistance: '0.5 ohm ±20 %' }),
  ],
  'an N-channel switch that is on in reset': [lowSide({ drive: inverterFast }), cell()],
  'a base that nothing holds': [
    knife({ drive: { ...inverterFast, basePullDown: undefined } as MosfetChoice['drive'] }),
    cell(),
  ],
  'long leads and a fast driver': [
    lowSide({
      drive: { ...driver, gateResistor: 1 },
      wiring: { inductance: '5 uH' },
      pwm: { frequency: '20 kHz', duty: { from: 0.1, to: 0.9 } },
    }),
    cell(),
  ],
  'held current, a small transistor': [
    lowSide({ transistor: { ...nChannelLowVoltage, currentMaximum: '3 A' }, load: { current: '5 A ±5 %' } }),
    cell(),
  ],
}

describe('what can be done', () => {
  it.each(Object.entries(failing))('%s: each change, typed in as printed, does what it says', (_, [choice, around]) => {
    const before = checkMosfet(choice, around, { simulation: false })
    expect(before.verdict).not.toBe('holds')
    const { changes, pairs, untried } = mosfetChanges(choice, around)
    expect(untried).toEqual([])
    expect(changes.length).toBeGreaterThan(0)
    const slack = Object.fromEntries(before.margins.map((one) => [one.id, one]))
    for (const { puts, verdict, mends, breaks, name, text } of [...changes, ...pairs]) {
      expect(text).not.toBe('')
      const made = changed({ choice, conditions: around }, JSON.parse(JSON.stringify(puts)))
      const after = checkMosfet(made.choice, made.conditions, { simulation: false })
      expect(after.verdict, name).toBe(verdict)
      for (const { id } of mends) {
        expect(slack[id]!.verdict, `${name}: ${id}`).not.toBe('holds')
        expect(after.margins.find((one) => one.id === id)?.verdict ?? 'holds', `${name}: ${id}`).toBe('holds')
      }
      const broken = after.margins.filter(
        (one) => one.verdict !== 'holds' && (slack[one.id]?.verdict ?? 'holds') === 'holds',
      )
      expect(broken.map(({ id }) => id).sort(), name).toEqual(breaks.map(({ id }) => id).sort())
    }
  })

  it('proposes no supply of its own for a P-channel gate, whose source is the rail', () => {
    const { changes } = mosfetChanges(knife({ transistor: pChannelLogicLevel }), cell())
    expect(changes.map(({ id }) => id)).not.toContain('gate-supply')
    expect(changes[0]).toMatchObject({ id: 'transistor', verdict: 'holds' })
  })

  it('says nothing where all holds', () => {
    expect(mosfetChanges(knife(), cell())).toMatchObject({ changes: [], pairs: [], text: 'Everything holds.' })
  })
})
