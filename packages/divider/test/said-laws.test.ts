import { describe, expect, it } from 'vitest'
import { checkDivider, type DividerChoice, dividerChanges, dividerModel, dividerOverRail } from '../src/index.js'
import { cell, check, ideal, idealAmplifier, knife, knifeAtRail, margin } from './design.js'

/* What a check says beside its verdict: of which pitfalls, with which cautions, how sure; and what is proposed for which part. */

const oneRail = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: cell.ambientCelsius }
const puts = (choice: DividerChoice) =>
  new Map(dividerChanges(choice, oneRail).changes.map(({ id, puts }) => [id, Object.keys(puts)]))
const cautions = (choice: DividerChoice) => check(choice).cautions.map(({ id }) => id)

describe('what is proposed', () => {
  it('for the reference resistor leaves the gain resistors alone', () => {
    // The reference resistor alone is off by 5 % and by 200 ppm/K.
    const loose: DividerChoice = {
      ...ideal,
      error: '2 %',
      reference: '47 ohm ±5 %',
      referencePart: { temperatureCoefficient: '500 ppm/K' },
      gainResistors: { feedback: '22 kohm', ground: '1 kohm', ratioDrift: '300 ppm/K' },
    }
    const found = puts(loose)
    for (const id of ['closer-reference', 'steadier-reference'])
      for (const path of found.get(id) ?? []) expect(path, id).toMatch(/^reference/)
    expect(found.has('closer-reference')).toBe(true)
    for (const id of ['closer-resistors', 'steadier-resistors'])
      expect(
        found.get(id)!.some((path) => path.startsWith('gainResistors')),
        id,
      ).toBe(true)
  })

  it('is no matched network where there is one', () => {
    const loose = { ...knife, error: '1 %', gainResistors: { ...knife.gainResistors, ratioTolerance: '1 %' } }
    expect(check(loose).verdict).toBe('fails')
    expect([...puts(loose).keys()]).not.toContain('matched-network')
  })
})

describe('what is said', () => {
  it('of the ground current of others, for a load at the rail alone, where there is one', () => {
    const said = (choice: DividerChoice, groundCurrent: string) =>
      check({
        ...choice,
        surroundings: { ...choice.surroundings, groundCurrent, sharedGround: '1 mohm' },
      }).assumptions.join()
    expect(said(knifeAtRail, '10 mA')).toMatch(/overstates it for a load at the rail/)
    expect(said(knifeAtRail, '0 A')).not.toMatch(/overstates/)
    expect(said(knife, '10 mA')).not.toMatch(/overstates/)
  })

  it('of pitfalls names known ones only, each once', () => {
    for (const one of [
      knife,
      knifeAtRail,
      { ...knife, amplifierSupply: '5 V', timing: { referenceSettling: '10 us' } },
      { ...knife, pedestal: 0.02, calibration: { kind: 'zero and span', resistor: '1 ohm ±0.1 %' } as const },
    ])
      for (const { id, catches } of check(one).margins) {
        expect(new Set(catches).size, id).toBe(catches.length)
        for (const pitfall of catches) expect(pitfall, id).toMatch(/^[A-D]\d\d$/)
      }
  })

  it('of averaging only where readings are averaged, of a pull-up only where the output stops above ground', () => {
    expect(cautions({ ...ideal, timing: { samples: 16 } })).toContain('averaging')
    expect(cautions({ ...ideal, timing: { samples: 1 } })).not.toContain('averaging')
    expect(cautions({ ...ideal, amplifier: { ...idealAmplifier, lowOutput: '5 mV' } })).toContain('pull-up')
    expect(cautions(ideal)).not.toContain('pull-up')
  })

  it('of an error whose calibration was clipped is never that it holds', () => {
    const { margins } = check({ ...knife, error: '50 %', calibration: { kind: 'zero' } })
    expect(margins.find(({ id }) => id === 'zero')!.verdict).toBe('fails')
    const errors = margins.filter(({ id }) => /^error-(smallest|nominal|largest)$/.test(id))
    expect(errors).toHaveLength(3)
    for (const { id, verdict } of errors) expect(verdict, id).not.toBe('holds')
  })

  it('of a supply that varies is what its lower end does, to every board', () => {
    // 23 · 3 V · 1.2/48.2 is 1.718 V at the lowest rail, 2.405 V at the highest: over the supply's 2.25 V, under its 2.75 V.
    const choice: DividerChoice = { ...ideal, amplifierSupply: '2.5 V ±10 %' }
    const headroom = margin(choice, 'headroom')
    expect(headroom.at).toMatchObject({ V_amp: 2.25, V_rail: 4.2 })
    // No linear answer is nearer to certainty than a millionth.
    expect(headroom.probability).toBeLessThan(1e-5)
    const accepted = checkDivider(choice, cell, { simulation: false, accept: 0.4 })
    expect(accepted.margins.find(({ id }) => id === 'headroom')!.verdict).toBe('fails')
  })

  it('of an output that is out of reach at every rail is the highest', () => {
    // 3.3 V is more than the output's 50 mV at any rail.
    const never = { ...ideal, amplifier: { ...idealAmplifier, highOutputDrop: '3 V' }, amplifierSupply: '3.05 V' }
    expect(dividerOverRail(never, cell, 2).saturatesBelow).toBe(4.2)
  })
})

describe('what is refused', () => {
  it('is a contact that changes by more than half of the loop', () => {
    // (1 + 0.5)/2 ohm.
    const moving = (contactVariation: number) => ({
      ...ideal,
      reference: '1 ohm',
      error: '50 %',
      surroundings: { contactVariation },
    })
    expect(() => check(moving(0.75))).not.toThrow()
    expect(() => check(moving(0.751))).toThrow(
      /^surroundings\.contactVariation = 0\.751 ohm: .*at most half of the loop, 750 mΩ/,
    )
  })

  it('is a nominal load beyond either end', () => {
    const load = (nominal: number) => ({ ...ideal, load: { from: 0.5, to: 1.2, nominal } })
    for (const end of [0.5, 1.2]) expect(() => check(load(end))).not.toThrow()
    for (const beyond of [0.49, 1.21])
      expect(() => check(load(beyond))).toThrow(/^load\.nominal = .*from 0\.5 to 1\.2 ohm/)
  })
})

it('a drop that varies from board to board is that of each board, in whatever order they are simulated', () => {
  const still = { rail: { from: 3.3, to: 3.3 }, ambientCelsius: { from: 25, to: 25 } }
  const choice = { ...ideal, excitationSwitch: { resistance: 0, saturation: '0.3 V ±50 %' } }
  const { inputs, fill } = dividerModel(choice, still)
  const read = (drops: readonly number[]) => {
    const columns = Object.entries(inputs).map(([name, input]) => {
      const one = typeof input === 'object' ? input.nominal : Number(input)
      return [name, name === 'V_sat' ? drops : drops.map(() => one)]
    })
    const out = drops.map(() => 0)
    fill(Object.fromEntries(columns), out as never, drops.length)
    return out
  }
  // The firmware takes 3 V for what is 3.3 V less the drop, whose current the reading follows.
  const [low, high] = read([0.15, 0.45])
  expect(low! - high!).toBeGreaterThan(0.05)
  expect(read([0.45, 0.15])).toEqual([high, low])
})
