import { expect, it } from 'vitest'
import { question } from '../src/rail/question.js'
import { circuit, type Load } from '../src/waveform/inside.js'

it('two waveforms are one question where circuit, load and times are the same, and no two where any number or kind differs', () => {
  const source = { voltage: 4, resistance: 0.1, inductance: 1e-6 }
  const part = { capacitance: 1e-4, resistance: 0.01, inductance: 0 }
  const current: Load = { kind: 'current', current: 2 }
  const asked = (
    more: object,
    parts = [part],
    idle = 0.01,
    load: Load = current,
    when: readonly number[] = [1e-3, 1e-5],
  ) => {
    const list = new Float64Array(40)
    const size = question(list, circuit({ ...source, ...more }, parts, idle), load, when)
    return [...list.slice(0, size)].join()
  }
  const all = [
    asked({}),
    ...[{ voltage: 5 }, { resistance: 0.2 }, { inductance: 2e-6 }, { currentLimit: 3 }].map((more) => asked(more)),
    ...[{ capacitance: 2e-4 }, { resistance: 0.02 }, { inductance: 1e-9 }].map((more) =>
      asked({}, [{ ...part, ...more }]),
    ),
    asked({}, [part, { ...part, capacitance: 1e-5 }]),
    asked({}, [part], 0.02),
    asked({}, [part], 0.01, { kind: 'current', current: 3 }),
    asked({}, [part], 0.01, { kind: 'resistor', resistance: 2 }),
    asked({}, [part], 0.01, { kind: 'power', power: 2 }),
    asked({}, [part], 0.01, current, [2e-3, 1e-5]),
    asked({}, [part], 0.01, current, [1e-3]),
  ]
  expect(new Set(all).size).toBe(all.length)
  expect(asked({})).toBe(all[0])
})
