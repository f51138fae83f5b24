import { exampleConverters } from '@ohmward/adc'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import {
  checkHall,
  exampleSensors,
  type HallChoice,
  type HallConditions,
  type HallRequirement,
  type HallSizeOptions,
  sizeHall,
} from '../src/index.js'

const requirement: HallRequirement = {
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [
    { at: '1 A', allowed: '0.25 A' },
    { at: '6 A', allowed: '6 %' },
  ],
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 } },
  calibration: { kind: 'zero each time' },
  leastUse: 0.4,
}
const conditions: HallConditions = { rail: { from: '3 V', to: '4.2 V' }, ambientCelsius: { from: 0, to: 50 } }

describe('sizing', () => {
  const found = sizeHall(requirement, conditions)

  it('finds choices that hold their check, the best first', () => {
    expect(found.choices.length).toBeGreaterThan(0)
    for (const { choice } of found.choices) {
      expect(checkHall(choice, conditions, { simulation: false }).verdict).toBe('holds')
      expect(choice.filter!.capacitance).toMatch(
        /^(1|1\.5|2\.2|3\.3|4\.7|6\.8|10|15|22|33|47|68|100|150|220|330|470|680) [pnu]F ±10 %$/,
      )
    }
    expect(found.choices[0]!.sensor).toBe('wideSupplyOneWay')
    const slack = found.choices.map(({ assessment: { margins } }) => margins[0]!.slack / Math.abs(margins[0]!.limit))
    expect(slack).toEqual([...slack].sort((a, b) => b - a))
  })

  it('says how many it tried, and that none was left out', () => {
    const { choices, rejected, beaten, untried, text } = found
    expect(untried).toBe(0)
    expect(text).toContain(`Of ${choices.length + rejected.length + beaten} candidates ${choices.length} are given`)
    expect(text).toContain('none was left out')
    const few = sizeHall({ ...requirement, errors: [{ at: '6 A', allowed: '1.6 %' }] }, conditions, { checks: 1 })
    if (few.untried > 0) expect(few.text).toContain(`${few.untried} that hold with nominal parts`)
  })

  it('turns down with a reason, and what it turned down fails that very row', () => {
    const reasons = new Map<string, string>()
    for (const { sensor, choice, row, reason } of found.rejected) {
      expect(reason).toMatch(/(over|below) its limit|not sure|against/)
      const key = `${sensor} ${choice.reading} ${row}`
      if (reasons.has(key)) continue
      reasons.set(key, reason)
      const a = checkHall(choice, conditions, { simulation: false })
      expect(a.margins.find(({ id }) => id === row)!.verdict).not.toBe('holds')
    }
    expect([...reasons.keys()]).toContain('fiveVoltTwoWay averaged supply-low')
    expect([...reasons.keys()].some((key) => key.startsWith('wideSupplyTwoWay') && key.endsWith('range'))).toBe(true)
  })

  it('finds at 20 kHz what averages with a small resistor and a large capacitor', () => {
    const pwm = { frequency: '20 kHz', duty: { from: 0.1, to: 0.9 } }
    // A filter that averages doesn't settle in the 5 µs of an off-time: for its zero the load is held off.
    expect(sizeHall({ ...requirement, pwm }, conditions).choices).toEqual([])
    const calibration = { kind: 'zero each time', offTime: '0.1 s' } as const
    const { choices, rejected } = sizeHall({ ...requirement, pwm, calibration }, conditions)
    expect(choices.map(({ choice }) => choice.reading)).toEqual(['averaged'])
    // 5 µs of on-time don't hold 13·ln 2 time constants of a sensor of 120 kHz: that is said, too.
    expect(rejected.some(({ choice, row }) => choice.reading === 'on-window' && row === 'on-window')).toBe(true)
  })

  it('takes the kind of reading that is asked for, and candidates of its user', () => {
    const one = { sensors: { mine: found.choices[0]!.choice.sensor } }
    const own = sizeHall({ ...requirement, reading: 'on-window' }, conditions, one)
    expect(own.choices.map(({ sensor, choice }) => [sensor, choice.reading])).toEqual([['mine', 'on-window']])
    const filters = [{ resistance: '100 ohm ±1 %', capacitance: '68 nF ±5 %' }]
    const given = sizeHall({ ...requirement, reading: 'on-window' }, conditions, { ...one, filters, samples: [2] })
    expect(given.choices.map(({ choice }) => [choice.filter, choice.timing!.samples])).toEqual([[filters[0], 2]])
    const none = sizeHall({ ...requirement, errors: [{ at: '6 A', allowed: '1 mA' }] }, conditions, { most: 1 })
    expect(none.choices).toEqual([])
    expect(none.rejected.length).toBeGreaterThan(4)
  })

  it('takes the cheapest where a cost is given', () => {
    const cost = ({ timing }: HallChoice) => -Number(timing!.samples)
    const { choices } = sizeHall({ ...requirement, reading: 'on-window' }, conditions, { cost })
    expect(choices[0]!.choice.timing!.samples).toBe(64)
  })

  it('works without PWM', () => {
    const { pwm: _, ...steady } = requirement
    const { choices } = sizeHall(steady, conditions)
    expect(choices.map(({ choice }) => choice.reading)).toEqual(['on-window'])
  })

  it('averages where one sample is too noisy', () => {
    const sensor = { ...found.choices[0]!.choice.sensor, noiseDensity: '120 uV/Hz^0.5' }
    const noisy = { ...requirement, errors: [{ at: '6 A', allowed: '0.5 A' }], reading: 'on-window' } as const
    const { choices, rejected } = sizeHall(noisy, conditions, { sensors: { noisy: sensor } })
    const quick = choices.filter(({ choice }) => String(choice.filter!.capacitance).includes('pF'))
    for (const { choice } of quick) expect(choice.timing!.samples).toBeGreaterThan(1)
    expect(rejected.some(({ row }) => row === 'noise')).toBe(true)
  })

  it.each<[string, object, object]>([
    ['options.most', {}, { most: 0 }],
    ['options.checks', {}, { checks: 0.5 }],
    ['options.sensors', {}, { sensors: {} }],
    ['options.filters', {}, { filters: [] }],
    ['options.samples', {}, { samples: 4 }],
    ['options.series', {}, { series: 'E7' }],
    ['options', {}, { sensor: {} }],
    ['timing.edge', { timing: { edge: '-1 us' } }, {}],
    ['requirement', { filter: {} }, {}],
    ['errors', { errors: [] }, {}],
  ])('refuses %s', (field, more, options) => {
    const wrong = () => sizeHall({ ...requirement, ...more } as HallRequirement, conditions, options as HallSizeOptions)
    expect(refusalOf(wrong).field).toBe(field)
  })
})

describe('what sizing turns down', () => {
  const wish = {
    converter: exampleConverters['12-bit controller converter'],
    current: { from: 0, to: 6 },
    errors: [
      { at: 1, allowed: '40 %' },
      { at: 6, allowed: '10 %' },
    ],
    pwm: { frequency: 1000, duty: { from: 0.1, to: 0.9 } },
  } as const

  it('turns a sensor down once for what no filter mends', () => {
    const { rejected } = sizeHall(wish, conditions, { most: 1 })
    const five = rejected.filter(({ sensor }) => sensor === 'fiveVoltTwoWay')
    expect(five.map(({ choice, row }) => [choice.reading, row])).toEqual([
      ['on-window', 'supply-low'],
      ['averaged', 'supply-low'],
    ])
    expect(five[0]!.reason).toContain('3 V against 4.5 V')
  })

  it('counts the divider into the filter’s time constant', () => {
    const divider = { top: '10 kohm ±1 %', bottom: '18 kohm ±1 %' }
    const { choices, rejected } = sizeHall(
      { ...wish, reading: 'on-window', divider, sensorSupply: '5 V' },
      { ...conditions, rail: { from: 3.25, to: 3.35 } },
      { sensors: { one: exampleSensors.fiveVoltFixedOneWay } },
    )
    const all = [...choices, ...rejected].map(({ choice }) => choice)
    expect(all.length).toBeGreaterThan(0)
    for (const { filter } of all) {
      const farad =
        Number.parseFloat(String(filter!.capacitance)) * (String(filter!.capacitance).includes('n') ? 1e-9 : 1e-12)
      // 100 µs hold 13 · ln 2 time constants of 6.4 kohm and the filter's own resistor.
      expect(farad * 6.4e3 * 13 * Math.LN2).toBeLessThan(100e-6)
    }
  })
})
