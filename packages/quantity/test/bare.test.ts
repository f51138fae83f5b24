import { describe, expect, it } from 'vitest'
import { bareText, either, exact, kinds, list, part, record, spread } from '../src/index.js'

const resistor = spread({ symbol: 'R', unit: 'ohm', min: 0, max: 1e6, hasTolerance: true, meaning: 'a resistor' })
const choice = record({
  reference: resistor,
  wait: spread({ symbol: 't', unit: 's', min: 0, max: 1, meaning: 'a wait' }),
  gain: part({ feedback: resistor, ground: resistor }, { meaning: 'a pair' }),
  more: list(part({ value: resistor }, { meaning: 'one' }), { least: 0, most: 3, meaning: 'more' }),
  calibration: kinds({ none: {}, span: { resistor } }, { otherwise: 'none', meaning: 'a calibration' }),
  load: either(['none'], resistor, { otherwise: 'none', meaning: 'a load' }),
})
const said = (given: object) => bareText(choice, given)

describe('parts without a tolerance', () => {
  it('are named in one sentence, wherever they stand', () => {
    const given = {
      reference: '82 ohm',
      wait: '1 ms',
      gain: { feedback: 33e3, ground: '1 kohm ±1 %' },
      more: [{ value: '1 to 2 ohm' }, { value: '4k7' }],
      calibration: { kind: 'span', resistor: '1 ohm' },
      load: 12,
    }
    expect(said(given)).toEqual([
      'No tolerance is stated, so taken as exact: reference, gain.feedback, more[1].value, calibration.resistor, load.',
    ])
  })

  it('are none where each has one, says that it is exact, is nothing, or was not given', () => {
    const gain = { feedback: '<= 3 kohm', ground: exact(1000) }
    expect(
      said({ reference: '0 ohm', wait: 1, gain, more: [{ value: 0 }], calibration: 'none', load: 'none' }),
    ).toEqual([])
    expect(said({})).toEqual([])
  })
})
