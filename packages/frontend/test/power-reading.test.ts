import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { errorsOf } from '../src/answer/power-errors.js'
import { mended } from './shared.js'

const walk = (design: Design) => walkOf(readDesign(design), { charges: 2 })

describe('a zero that is taken against a rail that is read too high', () => {
  it('is in the power by the share that it is of what the least current makes, for each share of the rail', () => {
    const { bursts: _, ...followed } = exampleDesign
    const hall = {
      ...exampleDesign.hall,
      sensor: { ...exampleDesign.hall.sensor, output: 'fixed' },
      sensorSupply: '3.3 V ±1 %',
      calibration: 'none',
    } as const
    const [right, high] = [0, 0.01].map((e) =>
      walk({ ...followed, hall, monitor: { ...exampleDesign.monitor, calibration: exact(e) } }),
    )
    const shown = (found = right!) => 1 + errorsOf(found)({ from: 1, to: 1 }).voltageTimesCurrent!.upper
    // The code is (q + S I) / V, the firmware takes V (1 + e) for V and q off: it shows I (1 + e) + e q / S for I, times V (1 + e).
    const more = (shown(high) / 1.01 - 1.01 * shown()) / 0.01
    const { solved } = right!.over({ charge: { from: 1, to: 0.1 }, ...right!.around })
    const share = 0.33 / (0.2 * solved.current.lower)
    expect(more).toBeGreaterThan(share)
    // What else errs makes it no larger than it makes the whole.
    expect(more).toBeLessThan(share * shown())
  })
})

describe('a pulse that is shorter than the firmware tells', () => {
  it('is taken for more power by as much, where the current is a sample of it', () => {
    const at = (gateResistor: string) => {
      const { drive } = mended.mosfet
      const found = walk({
        ...mended,
        supply: { ...mended.supply, inductance: 0 } as Design['supply'],
        load: { ...mended.load, rise: 0 },
        mosfet: { ...mended.mosfet, drive: { ...drive, gateResistor } as Design['mosfet']['drive'] },
      })
      const { voltageTimesCurrent, squareTimesResistance } = errorsOf(found)({ from: 0.1, to: 0.1 })
      // A tenth of 10 ms, of which the load has no current while the switch is not yet on.
      return {
        told: 1e-3 / (1e-3 - found.firmware.edges()!.on),
        errors: [voltageTimesCurrent!, squareTimesResistance!],
      }
    }
    const [fast, slow] = [at('47 ohm ±1 %'), at('330 ohm ±1 %')]
    const longer = slow.told / fast.told
    expect(longer).toBeGreaterThan(1.02)
    slow.errors.forEach(({ upper }, k) => {
      const grown = (1 + upper) / (1 + fast.errors[k]!.upper)
      expect(grown).toBeGreaterThan(longer * (1 - 1e-9))
      // A sample so much later in its pulse is a little less of it, or more.
      expect(grown).toBeLessThan(longer ** 1.3)
    })
  })
})
