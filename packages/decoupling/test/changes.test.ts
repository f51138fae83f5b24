import { type Changes, changed, changesOf as changesIn } from '@ohmward/budget'
import { describe, expect, it } from 'vitest'
import { only } from '../../../test/tools/only.js'
import {
  checkDecoupling,
  type DecouplingChoice,
  type DecouplingConditions,
  decoupling,
  decouplingChanges,
  decouplingRemedies,
  exampleCapacitors,
  examplePort,
} from '../src/index.js'
import { flatConditions, flatImpossible, flatKnife } from './flat-knife.js'

const quick = { simulation: false } as const
const burst = { resistance: '0.7 ohm ±5 %', rise: '20 us', duration: '1 ms' }

/** Rails that fail in different ways. */
const failing: readonly (readonly [name: string, choice: DecouplingChoice])[] = [
  ['a step that no capacitor holds', flatImpossible],
  ['a burst', { ...flatKnife, load: burst, limits: { brownOut: '2.6 V ±2 %' } }],
  ['an inrush that a contact does not stand', { ...flatKnife, insertion: { contactSurge: '40 A' } }],
  [
    'a diode rail that sags',
    {
      ...flatKnife,
      load: { ...burst, duration: '10 ms' },
      limits: { brownOut: '2.4 V' },
      logicRail: { behind: 'diode', forwardVoltage: '0.35 V', capacitance: '47 uF', current: '5 mA' },
    },
  ],
  [
    'ripple of a wet electrolytic',
    {
      ...flatKnife,
      capacitors: [exampleCapacitors.wetAluminium],
      load: { current: '5 A', rise: '1 us', pwm: { frequency: '20 kHz', duty: 0.5 } },
      limits: { brownOut: '1.8 V' },
      insertion: {},
    },
  ],
  [
    'a port for less',
    {
      ...flatKnife,
      source: { ...examplePort, openCircuit: undefined },
      load: { resistance: '5 ohm' },
      limits: { brownOut: '2.1 V' },
      insertion: {},
    },
  ],
]

const known = new Map<DecouplingChoice, Changes>()

/** The changes of a rail, looked for once. */
function changesOf(choice: DecouplingChoice): Changes {
  const found = known.get(choice) ?? decouplingChanges(choice, flatConditions)
  known.set(choice, found)
  return found
}

/** What one change of a rail comes to: no other is tried. */
const changeOf = (choice: DecouplingChoice, id: string) =>
  changesIn(decoupling, only(decouplingRemedies, [id]), choice, flatConditions).changes.find((one) => one.id === id)

describe('each change, typed in as printed', () => {
  it.each(failing)('mends what it says and breaks what it says: %s', (_, choice) => {
    const { changes, pairs } = changesOf(choice)
    const before = new Map(checkDecoupling(choice, flatConditions, quick).margins.map((one) => [one.id, one.verdict]))
    expect(changes.length).toBeGreaterThan(1)
    for (const { id, puts, mends, breaks, verdict } of [...changes, ...pairs]) {
      const typed = changed<DecouplingChoice, DecouplingConditions>({ choice, conditions: flatConditions }, puts)
      const after = checkDecoupling(typed.choice, typed.conditions, quick)
      expect(after.verdict, id).toBe(verdict)
      const broken = after.margins.filter(
        (one) => one.verdict !== 'holds' && (before.get(one.id) ?? 'holds') === 'holds',
      )
      expect(broken.map((one) => one.id).sort(), id).toEqual(breaks.map((one) => one.id).sort())
      for (const mended of mends) {
        expect(after.margins.find((one) => one.id === mended.id)?.verdict ?? 'holds', `${id}: ${mended.id}`).toBe(
          'holds',
        )
      }
    }
  })
})

describe('a change', () => {
  const ids = (choice: DecouplingChoice) => changesOf(choice).changes.map(({ id }) => id)

  it('says that less source resistance brings more inrush than the contact stands', () => {
    // 4.2 V through some 54 mohm at least are near 78 A. The sag wants a fifth of the resistance, and that lets through more than 130 A.
    const choice = { ...flatImpossible, insertion: { contactSurge: '130 A' } }
    const found = changeOf(choice, 'less-source')!
    expect(found.breaks.map(({ id }) => id)).toContain('contact-surge')
    expect(found.breaks[0]!.after).toBeLessThan(0)
  })

  it('is not proposed where it is done already, or means nothing', () => {
    const [, , , diode, , port] = failing
    expect(ids(diode![1])).not.toContain('diode')
    expect(ids(port![1])).not.toContain('better-cell')
    expect(ids(flatImpossible)).not.toContain('shorter-burst')
    expect(ids(flatImpossible)).not.toContain('diode')
  })

  it('names the drop of a diode at 25 °C, which the field wants, and holds with a cold one', () => {
    const choice = { ...flatKnife, load: burst, limits: { brownOut: '2.45 V' }, insertion: {} }
    const diode = changeOf(choice, 'diode')
    expect(diode).toMatchObject({ verdict: 'holds', puts: { logicRail: { forwardVoltage: '0.35 V' } } })
    expect(diode?.text).toContain('0.35 V at 25 °C')
  })

  it('is none where everything holds', () => {
    expect(decouplingChanges(flatKnife, flatConditions)).toMatchObject({ changes: [], pairs: [] })
  })
})
