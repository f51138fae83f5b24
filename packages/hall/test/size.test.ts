import { exampleConverters } from '@ohmward/adc'
import { describe, expect, it } from 'vitest'
import { refusalOf } from '../../quantity/test/refuse.js'
import { checkHall, exampleSensors, type HallRequirement, sizeHall } from '../src/index.js'

const requirement: HallRequirement = {
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [
    { at: '1 A', allowed: '0.25 A' },
    { at: '6 A', allowed: '6 %' },
  ],
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 } },
  calibration: { kind: 'zero each time' },
  rail: { from: '3 V', to: '4.2 V' },
}
const conditions = { rail: requirement.rail, ambientCelsius: { from: 0, to: 50 } }

describe('sizing', () => {
  const found = sizeHall(requirement)

  it('finds choices that hold their check, the best first', () => {
    expect(found.choices.length).toBeGreaterThan(0)
    for (const { parts } of found.choices) {
      expect(checkHall(parts, conditions, { simulation: false }).verdict).toBe('holds')
      expect(parts.filter!.capacitance).toMatch(
        /^(1|1\.5|2\.2|3\.3|4\.7|6\.8|10|15|22|33|47|68|100|150|220|330|470|680) [pnu]F ±10 %$/,
      )
    }
    expect(found.choices[0]!.sensor).toBe('wideSupplyOneWay')
    const slack = found.choices.map(({ assessment: { margins } }) => margins[0]!.slack / Math.abs(margins[0]!.limit))
    expect(slack).toEqual([...slack].sort((a, b) => b - a))
  })

  it('turns down with a reason, and what it turned down fails that very margin', () => {
    const reasons = new Map<string, string>()
    for (const { sensor, parts, margin, reason } of found.rejected) {
      expect(reason).toMatch(/short by|not sure/)
      const key = `${sensor} ${parts.reading} ${margin}`
      if (reasons.has(key)) continue
      reasons.set(key, reason)
      const a = checkHall(parts, conditions, { simulation: false })
      expect(a.verdict).not.toBe('holds')
      expect(a.margins.find(({ id }) => id === margin)!.verdict).not.toBe('holds')
    }
    expect([...reasons.keys()]).toContain('fiveVoltTwoWay averaged supply-low')
    expect([...reasons.keys()].some((key) => key.startsWith('wideSupplyTwoWay') && key.endsWith('range'))).toBe(true)
  })

  it('takes the kind of reading that is asked for, and sensors of its user', () => {
    const own = sizeHall({ ...requirement, reading: 'on-window', sensors: { mine: found.choices[0]!.parts.sensor } })
    expect(own.choices.map(({ sensor, parts }) => [sensor, parts.reading])).toEqual([['mine', 'on-window']])
    const none = sizeHall({ ...requirement, errors: [{ at: '6 A', allowed: '1 mA' }], most: 1 })
    expect(none.choices).toEqual([])
    expect(none.rejected.length).toBeGreaterThan(4)
  })

  it('works without PWM', () => {
    const { pwm: _, ...steady } = requirement
    const { choices } = sizeHall(steady)
    expect(choices.map(({ parts }) => parts.reading)).toEqual(['on-window'])
  })

  it('averages where one sample is too noisy', () => {
    const sensor = { ...found.choices[0]!.parts.sensor, noiseDensity: '120 uV/Hz^0.5' }
    const errors = [{ at: '6 A', allowed: '0.5 A' }]
    const { choices, rejected } = sizeHall({ ...requirement, errors, reading: 'on-window', sensors: { noisy: sensor } })
    expect(choices[0]!.parts.timing!.samples).toBeGreaterThan(1)
    expect(rejected.some(({ margin }) => margin === 'noise')).toBe(true)
  })

  it.each<[string, object]>([
    ['most', { most: 0 }],
    ['sensors', { sensors: {} }],
    ['series', { series: 'E7' }],
    ['edge', { edge: '-1 us' }],
    ['requirement', { filter: {} }],
    ['errors', { errors: [] }],
  ])('refuses %s', (field, more) => {
    expect(refusalOf(() => sizeHall({ ...requirement, ...more } as HallRequirement)).field).toBe(field)
  })
})

describe('what sizing turns down', () => {
  const wish = {
    converter: exampleConverters['12-bit controller converter'],
    current: { from: 0, to: 6 },
    errors: [
      { at: 1, allowed: 0.4 },
      { at: 6, allowed: 0.1 },
    ],
    pwm: { frequency: 1000, duty: { from: 0.1, to: 0.9 } },
  } as const

  it('turns a sensor down once for what no filter mends', () => {
    const { rejected } = sizeHall({ ...wish, rail: { from: 3, to: 4.2 }, most: 1 })
    const five = rejected.filter(({ sensor }) => sensor === 'fiveVoltTwoWay')
    expect(five.map(({ parts, margin }) => [parts.reading, margin])).toEqual([
      ['on-window', 'supply-low'],
      ['averaged', 'supply-low'],
    ])
    expect(five[0]!.reason).toContain('short by 1.5 V')
  })

  it('counts the divider into the filter’s time constant', () => {
    const divider = { top: '10 kohm ±1 %', bottom: '18 kohm ±1 %' }
    const sensors = { one: exampleSensors.fiveVoltFixedOneWay }
    const { choices, rejected } = sizeHall({
      ...wish,
      reading: 'on-window',
      divider,
      sensors,
      sensorSupply: '5 V',
      rail: { from: 3.25, to: 3.35 },
    })
    const all = [...choices.map(({ parts }) => parts), ...rejected.map(({ parts }) => parts)]
    expect(all.length).toBeGreaterThan(0)
    for (const { filter } of all) {
      const farad =
        Number.parseFloat(String(filter!.capacitance)) * (String(filter!.capacitance).includes('n') ? 1e-9 : 1e-12)
      // 100 µs hold 13 · ln 2 time constants of 6.4 kohm and the filter's own resistor.
      expect(farad * 6.4e3 * 13 * Math.LN2).toBeLessThan(100e-6)
    }
  })
})
