import { readFileSync } from 'node:fs'
import { averaged, exampleConverters, schedule, toVolts } from '@ohmward/adc'
import { plainMargin, propagate, readCheckOptions } from '@ohmward/budget'
import { globalRisks } from '@ohmward/budget/statistics'
import { checkDecoupling, exampleCapacitors } from '@ohmward/decoupling'
import { checkDivider, exampleAmplifiers } from '@ohmward/divider'
import { checkMosfet, exampleChoice, exampleConditions } from '@ohmward/mosfet'
import { format, InputError, preferredAtLeast, readResistorCode, resistorCode } from '@ohmward/quantity'
import { describe, expect, it } from 'vitest'
import { faultOfCall } from './sound.js'

/*
 * What a hunt with hostile and extreme input once found, fifteen things, the worst first: each with its case, or with the test
 * that holds it by its title where it takes a browser or a server.
 */

const any = (value: unknown) => value as never
const quick = { simulation: false } as const
const sampled = { simulation: { trials: 1000, seed: 1 } } as const
const cell = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }
const knife = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '3 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  excitationSwitch: { resistance: '1 ohm ±50 %', currentLimit: '0.2 A' },
  amplifier: exampleAmplifiers.zeroDrift,
  converter: exampleConverters['12-bit controller converter'],
}
const divider = (more: object, options: object = quick) => checkDivider(any({ ...knife, ...more }), cell, any(options))
const bulk = { name: 'bulk', capacitance: '1 mF', ratedVoltage: 10, seriesResistance: '10 mohm' }
const rail = {
  source: { resistance: '0.1 ohm' },
  capacitors: [bulk],
  load: { current: 3, rise: '20 us' },
  limits: { brownOut: '2.1 V ±5 %' },
}
const around = {
  openCircuit: { from: 3, to: 4.2 },
  ambientCelsius: { from: 0, to: 50 },
  ageYears: { from: 0, to: 5 },
}
const pulsed = { current: 3, rise: '1 us', pwm: { frequency: '20 kHz', duty: 0.5 } }
const onRail = (more: object, options: object = quick) =>
  checkDecoupling(any({ ...rail, ...more }), any(around), any(options))
const refusal = (run: () => unknown) => {
  try {
    run()
  } catch (error) {
    if (error instanceof InputError) return error.message
    throw error
  }
  return 'taken'
}

describe('held elsewhere', () => {
  it.each([
    [1, 'test/site/stale', 'marks every verdict as old within 100 ms of the keystroke'],
    [1, 'test/site/stale', 'says in words that its worker could not be started, and marks what it shows'],
    [1, 'test/site/stale', 'does not show the demo unmarked for a link whose program never comes'],
    [1, 'test/site/stale', 'answers in an old tab after the site was replaced by a newer one'],
    [2, 'test/site/link', 'names what it carried in vain'],
    [2, 'test/site/link', 'follows a link to another choice of its own'],
    [2, 'test/site/server', 'takes a link of 100 kB'],
    [
      7,
      'packages/divider/test/extreme-values',
      'answers in finite numbers, or names the field, whatever the tables allow',
    ],
    [7, 'packages/hall/test/ends', 'is not what noise at its allowed end leads to'],
    [9, 'packages/mosfet/test/bad-input', 'sizing: no candidates, a series or tolerance'],
    [13, 'test/site/server', 'outlives every address'],
    [13, 'test/site/server', 'shows a page that is not there as a page, under the policy'],
    [13, 'test/site/server', 'leads to a folder whose slash is missing'],
    [13, 'test/site/server', 'is waited for by who comes second, and not done again'],
    [13, 'test/site/server', 'says in one sentence where nothing can be written'],
  ])('%d, %s: %s', (_, file, title) => {
    expect(readFileSync(new URL(`../../${file}.test.ts`, import.meta.url), 'utf8')).toContain(`it('${title}`)
  })
})

const soundly: readonly (readonly [number, string, () => unknown])[] = [
  [
    3,
    'a resistance of the rail ±100 %, normal',
    () => onRail({ source: { resistance: '0.1 ohm ±100 % normal' } }, sampled),
  ],
  [3, 'the same with a t distribution', () => onRail({ source: { resistance: '0.1 ohm ±100 % t dof=2' } }, sampled)],
  [
    3,
    'a series resistance ±100 %, normal',
    () => onRail({ capacitors: [{ ...bulk, seriesResistance: '10 mohm ±100 % normal' }] }, sampled),
  ],
  ...(
    [
      ['a ceramic with 1 uH', { ...exampleCapacitors.ceramic, seriesInductance: '1 uH' }],
      ['a ceramic with 5 uH', { ...exampleCapacitors.ceramic, seriesInductance: '5 uH' }],
      ['a bulk with 100 nH', { ...bulk, seriesInductance: '100 nH' }],
      ['50 F', { ...exampleCapacitors.ceramic, capacitance: 50 }],
      ['47 pF', { ...exampleCapacitors.ceramic, capacitance: '47 pF' }],
      ['a series resistance ±50 %', { ...bulk, seriesResistance: '10 mohm ±50 %' }],
    ] as const
  ).flatMap(([name, one]) => [
    [4, `${name} at a step`, () => onRail({ capacitors: [bulk, one] })] as const,
    [4, `${name} under PWM`, () => onRail({ capacitors: [bulk, one], load: pulsed })] as const,
  ]),
  [4, 'a source inductance of 1e-30 H', () => onRail({ source: { resistance: 0.1, inductance: 1e-30 } })],
  [4, '65,536 samples', () => divider({ samples: 65536 })],
  [5, 'a rise of 1e-20 s', () => onRail({ load: { current: 3, rise: 1e-20 } })],
  [7, '32 bits', () => divider({ converter: { ...knife.converter, bits: 32 } })],
  [7, 'converter noise at its end', () => divider({ converter: { ...knife.converter, noise: '1000 LSB' } })],
  [7, 'denormals', () => divider({ reference: 5e-324 })],
  [8, 'a gain resistor of 1e-308 ohm', () => divider({ gainResistors: { feedback: '22 kohm', ground: 1e-308 } })],
  [8, 'denormal offsets', () => divider({ amplifier: { ...knife.amplifier, offsetVoltage: 5e-324 } })],
  [11, 'options of null', () => divider({}, any(null))],
  [12, 'a unit without end', () => format(1, 'V^0.5/'.repeat(20_000))],
  [
    12,
    'inputs of ±1e308',
    () =>
      propagate(
        { a: { nominal: 0, lower: -1e308, upper: 1e308, distribution: { kind: 'rectangular' } } },
        ({ a }) => a,
      ),
  ],
]

describe('the one error, or a finite answer', () => {
  it.each(soundly)('%d: %s', (_, __, run) => {
    const before = process.cpuUsage()
    expect(faultOfCall(run, [])).toBeNull()
    const { user, system } = process.cpuUsage(before)
    // How long it takes is held where nothing else runs.
    if (process.env['OHMWARD_HOSTILE']) expect((user + system) / 1e6).toBeLessThan(2)
  })
})

describe('refused by its field', () => {
  it.each<[number, string, () => unknown, RegExp]>([
    [
      4,
      'a source inductance that nothing has',
      () => onRail({ source: { resistance: 0.1, inductance: 1e-30 } }),
      /inductance = 1e-30 H/,
    ],
    [5, 'a rise of 1e-20 s', () => onRail({ load: { current: 3, rise: 1e-20 } }), /^load\.rise = 1e-20 s/],
    [
      6,
      'a magnitude past its end by a sign',
      () => divider({ surroundings: { thermoelectric: -1 } }),
      /thermoelectric = -1/,
    ],
    [6, 'a clamp leakage of -1 A', () => divider({ surroundings: { clampLeakage: -1 } }), /clampLeakage = -1 A/],
    [10, 'a converter in text', () => toVolts(100, any({ bits: 12, reference: '3 apples' })), /reference/],
    [10, 'a count in text', () => averaged(any('x'), 16), /^noise = "x": /],
    [
      10,
      'a time in text',
      () => schedule([any({ name: 'a', window: 'on', recovery: 0, settling: 'x' })]),
      /tasks\[0\]\.settling = "x"/,
    ],
    [10, 'a preferred value of a text', () => preferredAtLeast(any('47'), 'E24'), /^value = "47": /],
    [11, 'a misspelled rule', () => divider({}, { acept: 0.9 }), /acept/],
    [11, 'a misspelled simulation', () => divider({}, { simulatoin: false }), /simulatoin/],
    [11, 'a misspelled seed', () => readCheckOptions(any({ simulation: { sead: 1 } })), /sead/],
    [11, 'a simulation that is off in words', () => readCheckOptions(any({ simulation: 'off' })), /simulation/],
    [
      12,
      'a margin of nothing',
      () => plainMargin(any({ id: 'x', name: 'x', unit: 'V', sense: 'at most', catches: [] }), Number.NaN, 1),
      /^worst = NaN: allowed is a finite number/,
    ],
    [15, 'a key without end', () => divider({ ['x'.repeat(1e5)]: 1 }), /^choice = .*Unknown: x{20}/],
  ])('%d: %s', (_, __, run, message) => {
    expect(refusal(run)).toMatch(message)
    expect(faultOfCall(run, [])).toBeNull()
  })
})

describe('the rest', () => {
  it('4: risks end, however far the process is from its tolerance', () => {
    for (const mean of [1e5, 1e8]) {
      const found = globalRisks({ process: { mean, u: 1 }, u: 0.1, tolerance: { lower: -1, upper: 1 } })
      expect(found.nonconforming).toBe(1)
    }
  })

  it('14: a runaway at worst is no later than a nominal one, and none comes later in hotter air', () => {
    const runaway = (to: number) =>
      checkMosfet(exampleChoice, any({ ...exampleConditions, ambientCelsius: { from: 0, to } }), quick).margins.find(
        ({ id }) => id === 'runaway',
      )
    const [mild, hot] = [runaway(40), runaway(60)]
    for (const one of [mild!, hot!]) expect(one.slack).toBeLessThanOrEqual(one.nominalSlack)
    expect(hot!.slack).toBeLessThanOrEqual(mild!.slack)
  })

  it('14: one kind twice, or two of it, is the same rail', () => {
    const ceramic = exampleCapacitors.ceramic
    const ids = ({ margins }: ReturnType<typeof onRail>) => margins.map(({ id, slack }) => [id, slack] as const)
    const twice = onRail({
      capacitors: [bulk, { ...ceramic, name: 'one' }, { ...ceramic, name: 'other' }],
      load: pulsed,
    })
    const two = new Map(ids(onRail({ capacitors: [bulk, { ...ceramic, count: 2 }], load: pulsed })))
    const both = ids(twice).flatMap(([id, slack]) => (two.has(id) ? [[id, two.get(id)!, slack] as const] : []))
    expect(both.length).toBeGreaterThan(3)
    for (const [id, other, slack] of both) expect(other / slack, id).toBeCloseTo(1, 6)
  })

  it('14: a tolerance on a limit or a magnitude improves no margin', () => {
    const brownOut = (given: string) => onRail({ limits: { ...rail.limits, brownOut: given } }).margins
    const wide = brownOut('2.1 V ±8 %')
    for (const { id, slack } of brownOut('2.1 V ±5 %')) {
      expect(wide.find((one) => one.id === id)!.slack, id).toBeLessThanOrEqual(slack + 1e-9)
    }
    const offset = (given: string) => divider({ amplifier: { ...knife.amplifier, offsetVoltage: given } }).margins
    const scattered = offset('10 uV ±50 %')
    for (const { id, slack } of offset('10 uV')) {
      expect(scattered.find((one) => one.id === id)!.slack, id).toBeLessThanOrEqual(slack + 1e-9)
    }
  })

  it('15: what is written as a code is read again', () => {
    for (const ohms of [1e-3, 47, 4.7e6]) expect(readResistorCode(resistorCode(ohms)).value).toBe(ohms)
    expect(refusal(() => resistorCode(3.928e-5))).toMatch(/^value = /)
  })
})
