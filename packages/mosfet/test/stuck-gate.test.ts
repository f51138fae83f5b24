import { describe, expect, it } from 'vitest'
import { checkMosfet } from '../src/index.js'
import { cell, lowSide, nChannelLowVoltage, pin } from './choice.js'

/** How long a gate takes to a level, s: small steps of a capacitance behind a resistance; without end where it never gets there. */
function timeTo(level: number, driven: number, tau: number): number {
  const step = tau / 1000
  let [volts, time] = [0, 0]
  while (volts < level) {
    if (time > 40 * tau) return Number.POSITIVE_INFINITY
    volts += ((driven - volts) * step) / tau
    time += step
  }
  return time
}

describe('a gate that stays below the plateau never switches the load on', () => {
  // A pin that gives 2.5 V whatever the cell has.
  const drive = { ...pin, supply: { regulated: '2.5 V' }, pull: { at: 'drive', resistance: '1 Mohm' } } as const
  const conditions = cell({ sourceResistance: '10 mohm' })
  const rowsAt = (plateauVoltage: string) => {
    const one = lowSide({
      transistor: { ...nChannelLowVoltage, plateauVoltage, safePulses: '10 us: 9000 W; 100 ms: 1200 W' },
      wiring: {},
      drive,
      edgeLimit: '1 ms',
    })
    const { margins } = checkMosfet(one, conditions, { simulation: false })
    return (id: string) => margins.find((margin) => margin.id === id)!
  }

  it('and no row of its edges, nor of the heat that they make, holds then', () => {
    for (const [told, highest] of [
      ['1.5 V', 1.5],
      ['2.2 V ±5 %', 2.31],
      ['2.4 V ±5 %', 2.52],
      ['2.6 V', 2.6],
      ['3.3 V', 3.3],
    ] as const) {
      const time = timeTo(highest, 2.5, 1e-6)
      const row = rowsAt(told)
      for (const id of ['on-edge', 'longest-edge', 'safe-area', 'junction']) {
        const { verdict, reason, isUnknown, worst, limit, probability } = row(id)
        if (Number.isFinite(time)) expect(verdict, `${id} at ${told}`).not.toBe('not sure')
        else {
          expect(verdict, `${id} at ${told}`).not.toBe('holds')
          if (verdict !== 'not sure') continue
          expect(reason).toContain('plateau')
          // No number that a gate which gets there would have, and no share of boards that hold by it.
          expect({ isUnknown, worst, probability }, `${id} at ${told}`).toEqual({ isUnknown: true, worst: limit })
        }
      }
      expect(row('gate-plateau').verdict === 'fails').toBe(!Number.isFinite(time))
      if (highest < 2) expect(row('on-edge').verdict).toBe('holds')
      // It comes off all the same.
      expect(row('off-edge').verdict).toBe('holds')
    }
  })

  it('and the freewheeling diode may carry the current for good', () => {
    const winding = (plateauVoltage: string) =>
      checkMosfet(
        lowSide({
          transistor: { ...nChannelLowVoltage, plateauVoltage },
          load: { current: '2 A' },
          edges: 'clamped inductive',
          freewheel: { drop: '0.5 V ±0.1 V' },
          pwm: { frequency: '1 kHz', duty: { from: 0.4, to: 0.9 } },
          wiring: {},
          drive,
        }),
        conditions,
        { simulation: false },
      ).cautions.find(({ id }) => id === 'freewheel')!.text
    // 0.6 V and 2 A, for six tenths of the period where the gate gets there, and for all of it where it may not.
    expect(winding('1.5 V')).toContain('up to 720 mW')
    expect(winding('3.3 V')).toContain('up to 1.2 W')
  })
})
