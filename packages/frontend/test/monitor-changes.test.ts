import { type Design, withChange } from '@ohmward/frontend'
import { describe, expect, it } from 'vitest'
import { changesBy, mended, monitorRow } from './shared.js'

describe('a monitor whose rows do not hold', () => {
  it('is mended by thresholds and a hysteresis, tried as printed: no part costs anything', () => {
    const monitor = {
      ...mended.monitor,
      warning: '3.5 V',
      reduction: '3.4 V',
      stop: '3.3 V',
      latch: '3.2 V',
      hysteresis: 0,
    }
    const design = { ...mended, monitor } as Design
    const verdict = (given: Design, id: string) => monitorRow(given, id)!.verdict
    expect([verdict(design, 'early'), verdict(design, 'hysteresis')]).toEqual(['fails', 'fails'])
    const [lower, larger] = changesBy(design, ['lower-thresholds', 'hysteresis'])
    expect(lower!.mends.map(({ id }) => id)).toContain('monitor/early')
    expect(verdict(withChange(design, lower!), 'early')).toBe('holds')
    // All by as much: 0.2 V less is where the knife stops of itself, and less than that doesn't do.
    expect(lower!.puts).toMatchObject({ 'monitor.warning': '3.3 V', 'monitor.stop': '3.1 V', 'monitor.latch': '3 V' })
    expect(larger!.mends.map(({ id }) => id)).toEqual(['monitor/hysteresis'])
    expect(larger!.breaks).toEqual([])
    expect(verdict(withChange(design, larger!), 'hysteresis')).toBe('holds')
  })
})
