import { type Design, exampleDesign, readDesign, walkOf } from '@ohmward/frontend'
import { exact } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { errorsOf } from '../src/answer/power/power-errors.js'
import { cutter } from './cutter.js'
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

describe('the rail in a power as it is read', () => {
  const converter = { offset: '0 LSB', gain: '0 %', nonlinearity: '0 LSB', noise: '0 LSB', leakage: 0 } as const
  const flaws = [
    { offset: '5 LSB' },
    { nonlinearity: '4 LSB' },
    { noise: '2 LSB' },
    { gain: '0.6 %' },
    { offset: '5 LSB', nonlinearity: '4 LSB', noise: '2 LSB', gain: '0.6 %' },
  ]
  const numberOf = (one: string | undefined) => Number.parseFloat(one ?? '0')
  /** Counts that a code may be off: offset and nonlinearity, half a count of rounding, three times the noise; and the gain. */
  const off = (own: Partial<Record<'offset' | 'nonlinearity' | 'noise' | 'gain', string>>) => ({
    counts: numberOf(own.offset) + numberOf(own.nonlinearity) + 0.5 + 3 * numberOf(own.noise),
    gain: numberOf(own.gain) / 100,
  })
  const shown = (given: Design) => {
    const found = walk(given)
    const { lower, upper } = errorsOf(found)({ from: 1, to: 1 }).voltageTimesCurrent!
    return { least: 1 + lower, most: 1 + upper, found }
  }

  it('errs by the reference, and by what the converter adds to its code where that is least (arithmetic)', () => {
    const { calibration: _, ...monitor } = exampleDesign.monitor
    const { bursts: __, ...still } = exampleDesign
    const given = (own: object): Design => ({
      ...still,
      monitor,
      controller: { ...exampleDesign.controller, internalReference: { voltage: '1.1 V ±2 %' } },
      divider: { ...exampleDesign.divider, converter: { ...exampleDesign.divider.converter, ...converter, ...own } },
    })
    const none = shown(given({}))
    const code = ((1.1 * 0.98) / none.found.firmware.rests.upper) * 4096
    // The rail is the nominal reference over the share that its code has of all.
    const most = ({ counts, gain }: { counts: number; gain: number }) => 1 / 0.98 / (1 - gain - counts / code)
    const least = ({ counts, gain }: { counts: number; gain: number }) => 1 / 1.02 / (1 + gain + counts / code)
    for (const own of flaws) {
      const { most: high, least: low } = shown(given(own))
      // All else that is read is the same: it falls out of the share.
      expect(high / none.most).toBeCloseTo(most(off(own)) / most(off({})), 5)
      expect(low / none.least).toBeCloseTo(least(off(own)) / least(off({})), 5)
    }
  })

  it('errs behind a divider by its share, by the leakage of the pin and by both codes (arithmetic)', () => {
    const given = (own: object, upper = '300 kohm', leakage: number | string = 0): Design => ({
      ...(cutter as unknown as Design),
      controller: { ...cutter.controller, internalReference: { voltage: '1.2 V ±1 %' } },
      monitor: {
        ...{ reads: 'under load', stop: '6.2 V', latch: '6 V', hysteresis: '0.9 V' },
        divider: { upper, lower: '100 kohm', capacitance: '100 nF ±10 %', interval: '20 ms' },
      },
      divider: { ...cutter.divider, converter: { ...cutter.divider.converter, ...converter, ...own, leakage } },
    })
    const none = shown(given({}))
    const { solved } = none.found.over({ charge: { from: 1, to: 0.15 }, ...none.found.around })
    const rail = solved.rail.lower
    const own = none.found.firmware.rests.upper
    // What is read is one code over the other: their counts add up, each as a share of its own.
    const [reference, pin] = [((1.2 * 0.99) / own) * 4096, (rail / 4 / own) * 4096]
    const share = ({ counts, gain }: { counts: number; gain: number }) => gain + counts / reference + counts / pin
    for (const flaw of flaws) {
      const grown = (1 - share(off({}))) / (1 - share(off(flaw)))
      expect(shown(given(flaw)).most / none.most).toBeCloseTo(grown, 4)
    }
    // 2 % more above: of 400 kohm 406 kohm, so that the pin has that much less; it is read as more where the resistor is less.
    const loose = shown(given({}, '300 kohm ±2 %'))
    expect(loose.most / none.most).toBeCloseTo(400 / 394, 5)
    expect(loose.least / none.least).toBeCloseTo(400 / 406, 5)
    // 200 nA through 300 kohm are 60 mV of the rail.
    const leaking = shown(given({}, '300 kohm', '200 nA'))
    expect(leaking.most / none.most).toBeCloseTo(1 + 0.06 / rail, 4)
  })
})

describe('a temperature that is told from the resistance', () => {
  it('is no part of the power, however far off it may be', () => {
    const of = (more: object) => {
      // A load that goes a little beyond what must be read: there its error is told from the largest that is held.
      const load = { from: '0.3 ohm', to: '0.72 ohm', nominal: '0.6 ohm' }
      const divider = { ...mended.divider, load, ...more } as Design['divider']
      return errorsOf(walk({ ...mended, divider }))({ from: 0.5, to: 0.5 }).squareTimesResistance!
    }
    const thermometry = { element: 'platinum', hotCelsius: 100, error: '300 K' }
    expect(of({ thermometry })).toEqual(of({}))
  })
})
