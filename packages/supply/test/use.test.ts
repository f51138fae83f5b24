import { exact, InputError, plusMinus } from '@ohmward/quantity'
import { burstsOf, cutOffAt, readCell, readStandby, readSupply, shelfLife, usableBetween } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'

/** 2000 mAh, and so straight that 3 % of them lie between 3.0 V and 2.4 V. */
const given = {
  openCircuit: '0: 2.4 V, 0.03: 3.0 V, 1: 4.2 V',
  openCircuitSpread: 0,
  openCircuitSpreadEmpty: 0,
  capacity: '2000 mAh',
  resistance: 0.03,
  temperatureFactor: '-20 degC: 1, 60 degC: 1',
  chargeFactor: '0: 1, 1: 1',
  continuousCurrent: 10,
  lowestVoltage: 3,
  damageVoltage: 2.4,
  selfDischarge: 0,
} as const
const cell = readCell(given)
const draws = (current: number | string) => readStandby([{ name: 'part', current }])

describe('the drawer', () => {
  it.each([
    ['13 mA', 6.4],
    ['2 mA', 42],
    ['0.7 mA', 119],
    ['55 uA', 1515],
    ['42 uA', 1984],
  ])('K07: %s empties 2000 mAh in %s days', (current, days) => {
    const whole = readCell({ ...given, lowestVoltage: 2.4 })
    expect(Math.abs(shelfLife(whole, draws(current)).daysToCutOff.nominal - days)).toBeLessThan(days < 10 ? 0.05 : 0.6)
  })

  it('K07: counts a divider with the voltage of the full cells, and says what switching each part off buys', () => {
    const { drains, current } = shelfLife(
      readCell({ ...given, inSeries: 3 }),
      readStandby([
        { name: 'divider', resistance: '1.1 Mohm' },
        { name: 'sensor', current: '13 mA' },
      ]),
    )
    expect(drains.map(({ name }) => name)).toEqual(['sensor', 'divider', 'self-discharge'])
    expect(drains[1]!.current.nominal).toBeCloseTo(12.6 / 1.1e6, 12)
    expect(current.nominal).toBeCloseTo(0.013 + 12.6 / 1.1e6, 12)
    expect(drains[0]!.daysWithout.nominal).toBeCloseTo((0.97 * 7200) / (12.6 / 1.1e6) / 86400, 3)
    expect(drains[0]!.daysAlone.nominal).toBeCloseTo((0.97 * 7200) / 0.013 / 86400, 6)
  })

  it('K07: each drain by itself, without self-discharge too: 13 mA take 6.2 days for 97 % of 2000 mAh, 3 % a month 32 months', () => {
    const { drains } = shelfLife(readCell({ ...given, selfDischarge: 0.03 }), draws('13 mA'))
    expect(drains.map(({ daysAlone }) => daysAlone.nominal)).toEqual([
      expect.closeTo((0.97 * 2) / 0.013 / 24, 9),
      expect.closeTo((0.97 / 0.03) * (365.25 / 12), 6),
    ])
  })

  it.each([
    ['13 mA', 4.6 / 24, 0.05 / 24],
    ['1 mA', 2.5, 0.05],
    ['50 uA', 50, 0.5],
  ])('K09: after the cut-off %s leaves %s days to damage', (current, days, tolerance) => {
    expect(Math.abs(shelfLife(cell, draws(current)).daysToDamage.nominal - days)).toBeLessThan(tolerance)
  })

  it('empties by itself: 3 % a month are 12 months for 36 %', () => {
    const alone = shelfLife(readCell({ ...given, selfDischarge: 0.03, lowestVoltage: 3 }), [], { charge: 0.39 })
    expect(alone.daysToCutOff.nominal).toBeCloseTo(365.25, 6)
  })

  it('has no end where nothing draws, and says so with a finite number', () => {
    expect(Number.isFinite(shelfLife(cell, []).daysToCutOff.nominal)).toBe(true)
    expect(shelfLife(cell, [], { charge: 0.01 }).daysToCutOff.nominal).toBe(0)
  })

  it('is shorter at every worse end', () => {
    const wide = readCell({
      ...given,
      capacity: '2000 mAh ±10 %',
      openCircuitSpread: 0.02,
      selfDischarge: '0.03 ±0.01',
    })
    const { daysToCutOff, daysToDamage } = shelfLife(wide, draws('1 mA ±20 %'))
    expect(daysToCutOff.lower).toBeLessThan(daysToCutOff.nominal)
    expect(daysToCutOff.upper).toBeGreaterThan(daysToCutOff.nominal)
    expect(daysToDamage.lower).toBeLessThan(daysToDamage.nominal)
    expect(daysToDamage.lower).toBeGreaterThanOrEqual(0)
  })

  it('refuses a part with both current and resistance, or neither', () => {
    expect(() => readStandby([{ name: 'part' }])).toThrow(/standby\[0\]\.current/)
    expect(() => readStandby([{ name: 'part', current: 1e-3, resistance: 1e6 }])).toThrow(InputError)
  })
})

describe('the charge', () => {
  it('between two voltages at rest is what the curve says', () => {
    expect(usableBetween(cell).charge.nominal).toBeCloseTo(0.97 * 7200, 9)
    expect(usableBetween(cell, { from: 4.2, to: 3.6 }).charge.nominal).toBeCloseTo(0.485 * 7200, 6)
    expect(usableBetween(cell, {}, 1).charge.nominal).toBeCloseTo(0.97 * 7200 * 0.8, 9)
    expect(() => usableBetween(cell, { from: 3, to: 3.5 })).toThrow(InputError)
  })

  it('spans cells on either side of the curve, and capacities', () => {
    // At 3.0 V a cell 0.1 V above its curve has the charge of 2.9 V, one below it that of 3.1 V.
    const [above, below] = [0.03 * (0.5 / 0.6), 0.03 + (0.1 * 0.97) / 1.2]
    const scattered = readCell({ ...given, openCircuitSpread: 0.1, capacity: '2000 mAh ±10 %' })
    const { charge } = usableBetween(scattered)
    expect(charge.lower).toBeCloseTo(6480 * (1 - below), 6)
    expect(charge.upper).toBeCloseTo(7920 * (1 - above), 6)
    // From the cut-off to damage, at 2.4 V, the one above has that little only, the one below the rest down to 2.5 V.
    const { daysToDamage } = shelfLife(readCell({ ...given, openCircuitSpread: 0.1 }), draws('10 mA'))
    expect(daysToDamage.lower).toBeCloseTo((7200 * above) / 0.01 / 86400, 6)
    expect(daysToDamage.nominal).toBeCloseTo((7200 * 0.03) / 0.01 / 86400, 6)
    expect(daysToDamage.upper).toBeCloseTo((7200 * (below - 0.005)) / 0.01 / 86400, 6)
  })

  it("takes a cell's error at any charge and the one near empty for independent of each other", () => {
    // On a line of 1.8 V: the first error moves both ends alike, the second the emptier one.
    const line = { ...given, openCircuit: '0: 2.4 V, 1: 4.2 V', openCircuitSpread: 0.02, openCircuitSpreadEmpty: 0.03 }
    const { charge } = usableBetween(readCell({ ...line, lowestVoltage: 2.9 }), { from: 3.84, to: 2.49 })
    const [full, empty] = [0.8, 0.05]
    const between = (e_mid: number, e_low: number) => 7200 * (full - e_mid / 1.8 - (empty - (e_mid + e_low) / 1.8))
    expect(charge.lower).toBeCloseTo(between(0.02, -0.03), 6)
    expect(charge.upper).toBeCloseTo(between(0.02, 0.03), 6)
  })

  it('holds bursts as the integral of charge over a fading current says', () => {
    const supply = readSupply({ source: { kind: 'cell', ...given } })
    const spec = { load: { kind: 'pwm', R_L: 0.67, d_on: 0.5 }, time: 4, from: 1, to: 0.03, celsius: 25 } as const
    const found = burstsOf(supply, spec)
    if (found.kind === 'impossible') throw new Error(found.reason)
    // Q (R_s + R_L) / (d t) times the integral of dq / V(q), V straight from 3.0 V to 4.2 V over 0.97 of the charge
    const exactly = ((7200 * 0.7) / (0.5 * 4)) * (0.97 / 1.2) * Math.log(4.2 / 3)
    expect(Math.abs(found.count.nominal / exactly - 1)).toBeLessThan(1e-4)
    // More resistance draws less: the most bursts are those of the largest capacity on the weakest source.
    const scattered = { kind: 'cell', ...given, capacity: '2000 mAh ±10 %', resistance: '30 mohm ±50 %' } as const
    const spread = burstsOf(readSupply({ source: scattered }), spec)
    if (spread.kind === 'impossible') throw new Error(spread.reason)
    expect(spread.count.lower / exactly / ((0.9 * 0.685) / 0.7)).toBeCloseTo(1, 3)
    expect(spread.count.upper / exactly / ((1.1 * 0.715) / 0.7)).toBeCloseTo(1, 3)
    expect(() => burstsOf(supply, { ...spec, time: 2e6 })).toThrow(InputError)
    expect(found.energy.first.nominal).toBeCloseTo((4.2 / 0.7) ** 2 * 0.67 * 0.5 * 4, 9)
    expect(found.energy.last.nominal).toBeCloseTo((3 / 0.7) ** 2 * 0.67 * 0.5 * 4, 9)
  })

  it('K02: says where a burst cannot be fed to the end', () => {
    const supply = readSupply({ source: { kind: 'cell', ...given, resistance: 0.1 } })
    const spec = { time: 4, from: 1, to: 0.03, celsius: 25 } as const
    expect(burstsOf(supply, { ...spec, load: { kind: 'power', P_L: 30 } }).kind).toBe('impossible')
    expect(burstsOf(supply, { ...spec, load: { kind: 'power', P_L: 20 } }).kind).toBe('possible')
    expect(() => burstsOf(supply, { ...spec, load: { kind: 'current', I_set: 0 } })).toThrow(/draws a current/)
    expect(() => burstsOf(supply, { ...spec, time: 0, load: { kind: 'current', I_set: 1 } })).toThrow(InputError)
  })
})

describe('the cut-off', () => {
  const spec = {
    threshold: exact(3.2),
    reads: 'under load',
    current: exact(8),
    resistance: exact(0.1),
    hysteresis: exact(0.5),
    brownOut: exact(2.7),
  } as const

  it('K04: rebounds by 0.8 V at 8 A and 0.1 ohm, which its hysteresis must exceed', () => {
    const found = cutOffAt(cell, spec)
    expect(found.rebound.nominal).toBeCloseTo(0.8, 12)
    expect(found.hysteresisSlack).toBeCloseTo(-0.3, 12)
    expect(cutOffAt(cell, { ...spec, hysteresis: exact(0.9), noise: 0.02 }).hysteresisSlack).toBeCloseTo(0.08, 12)
    expect(found.rest.nominal).toBeCloseTo(4.0, 12)
  })

  it('K05: with too much made up for it goes on too long, and a cell rests below its damage', () => {
    const reads = { current: 8, resistance: 0.2 }
    const found = cutOffAt(cell, { ...spec, threshold: exact(3.1), reads })
    expect(found.rest.nominal).toBeCloseTo(3.1 - 1.6 + 0.8, 12)
    expect(found.aboveDamage).toBeCloseTo(-0.1, 12)
    expect(found.compensationSlack).toBeCloseTo(-0.1, 12)
    const careful = cutOffAt(cell, { ...spec, threshold: exact(3.1), reads: { current: 8, resistance: 0.09 } })
    expect(careful.aboveDamage).toBeGreaterThan(0)
    expect(careful.compensationSlack).toBeCloseTo(0.01, 12)
  })

  it('K06: at rest it may come after the reset, which the loaded rail decides', () => {
    const rest = { ...spec, reads: 'at rest', threshold: exact(3.3) } as const
    expect(cutOffAt(cell, rest).aboveReset).toBeCloseTo(3.3 - 0.8 - 2.7, 12)
    expect(cutOffAt(cell, rest).rest.nominal).toBe(3.3)
    expect(cutOffAt(cell, { ...spec, brownOut: plusMinus(2.7, 0.1) }).aboveReset).toBeCloseTo(0.4, 12)
    expect(cutOffAt(cell, { ...rest, current: exact(2) }).aboveReset).toBeGreaterThan(0)
  })
})
