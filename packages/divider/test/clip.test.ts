import { describe, expect, it } from 'vitest'
import type { DividerChoice } from '../src/index.js'
import { ideal, idealAmplifier, margin } from './design.js'

const still = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
const at = (choice: DividerChoice, id: string) => margin(choice, id, still)

describe('a reading that may clip', () => {
  // 1.2 ohm behind 47 ohm: 82.2 mV of 3.3 V, 23 times 1.89 V, and a little more at worst, rounded up. An output that ends 1.45 V below the supply stops at 1.85 V.
  const clipped = { ...ideal, amplifier: { ...idealAmplifier, highOutputDrop: '1.45 V' }, error: '10 %' }

  it('is not sure at the load at which it clips, however small the error there', () => {
    const largest = at(clipped, 'error-largest')
    expect(largest.slack).toBeGreaterThan(0)
    expect(largest.verdict).toBe('not sure')
    expect(largest.reason).toMatch(/may clip.*highest amplifier output, 1\.9 V against 1\.85 V/)
    expect(at(clipped, 'error-nominal').verdict).toBe('holds')
    expect(at(ideal, 'error-largest').verdict).toBe('holds')
  })

  it('of the known resistor spoils every load', () => {
    const calibration = { kind: 'zero and span', resistor: '2 ohm' } as const
    // 2 ohm: 135 mV of 3.3 V, 23 times 3.10 V, above an output that ends at 2.9 V.
    const choice = { ...ideal, amplifier: { ...idealAmplifier, highOutputDrop: '0.4 V' }, calibration, error: '20 %' }
    const span = at(choice, 'span')
    expect(span.worst).toBeCloseTo((23 * 3.3 * 2) / 49, 2)
    expect(span.verdict).toBe('fails')
    expect(at(choice, 'error-nominal').verdict).not.toBe('holds')
    expect(at({ ...choice, calibration: { ...calibration, resistor: '1 ohm' } }, 'span').verdict).toBe('holds')
  })
})
