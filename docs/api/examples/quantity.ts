import {
  bareText,
  between,
  capacitorCode,
  demand,
  demandFinite,
  demandNumber,
  demandNumbers,
  demandShape,
  demandSpread,
  demandText,
  either,
  exact,
  exactly,
  fieldsOf,
  format,
  formatParts,
  type Given,
  InputError,
  joined,
  kinds,
  list,
  missingFields,
  name,
  nearest,
  nearestName,
  nextDown,
  nextUp,
  nominalOf,
  oneOf,
  own,
  part,
  percent,
  plusMinus,
  ppm,
  preferredAtLeast,
  preferredAtMost,
  preferredIn,
  preferredValues,
  range,
  readCapacitorCode,
  readNumber,
  readPart,
  readRange,
  readRecord,
  readResistorCode,
  readSpread,
  record,
  relative,
  resistorCode,
  scaled,
  schemaOf,
  settled,
  spread,
  takenFor,
  typographic,
  word,
} from '@ohmward/quantity'

/** A resistor, which has a tolerance in any case. */
const shunt = spread({ symbol: 'R_s', unit: 'ohm', above: 0, hasTolerance: true, meaning: 'a shunt' })

/** What the fuse of a heater may be given as. */
const fuse = record({
  rating: spread({ symbol: 'I_F', unit: 'A', above: 0, max: 30, meaning: 'rated current' }),
  speed: word(['quick', 'slow'], { otherwise: 'slow', meaning: 'how soon it opens' }),
})
const given: Given<typeof fuse> = { rating: '3.15 A ±5 %' }

const heater = record({
  ...joined(fuse.fields, {
    poles: exactly({ unit: '1', min: 1, max: 2, otherwise: 1, meaning: 'poles that are fused' }),
  }),
  supply: range({ unit: 'V', min: 0, max: 60, meaning: 'supply to cover' }),
  level: either(['rail'], spread({ symbol: 'V_g', unit: 'V', min: 0, max: 20, meaning: 'level at the gate' }), {
    otherwise: 'rail',
    meaning: 'level that switches it on',
  }),
  wire: part(
    { length: spread({ symbol: 'l', unit: 'm', above: 0, max: 10, meaning: 'length' }) },
    { meaning: 'its wire' },
  ),
  sensing: kinds(
    { none: {}, shunt: { ohms: spread({ symbol: 'R_s', unit: 'ohm', above: 0, max: 1, meaning: 'shunt' }) } },
    {
      otherwise: 'none',
      meaning: 'how its current is read',
    },
  ),
  wanted: list(exactly({ unit: 'W', min: 0, max: 100, meaning: 'power' }), {
    least: 1,
    most: 3,
    meaning: 'steps of power',
  }),
  label: own<string>()((text) => String(text).trim(), {
    schema: { type: 'string' },
    otherwise: '',
    meaning: 'its label',
  }),
})

export const examples = [
  () => readNumber('4k7', { field: 'pull-up', unit: 'ohm' }),
  () => {
    try {
      readNumber('-47 ohm', { field: 'pull-up', unit: 'ohm', min: 0 })
    } catch (error) {
      return error instanceof InputError && error.message
    }
    return undefined
  },
  () => readSpread('47 ohm ±1 %', { field: 'reference', unit: 'ohm' }),
  () => readRange({ from: '2.8 V', to: '4.2 V' }, { field: 'rail', unit: 'V' }),
  () => [format(4700, 'ohm'), format(1.5e-6, 'V', { ascii: true }), formatParts(0.0033, 'ohm')],
  () => typographic('nV/Hz^0.5'),
  () => [nearest(3100, 'E24'), nextDown(3000, 'E24'), nextUp(3000, 'E24')],
  () => [preferredAtLeast(3100, 'E12'), preferredAtMost(3100, 'E12')],
  () => preferredIn({ from: 10, to: 50 }, 'E6'),
  () => preferredValues('E6'),
  () => [resistorCode(4700, 0.01), readResistorCode('R47J')],
  () => [capacitorCode(4.7e-9), readCapacitorCode('100nK')],
  () => [exact(3.3), plusMinus(3.3, 0.1)],
  () => [relative(47, percent(1)), between(2.7, 3.3, 3)],
  () => [ppm(50), nominalOf(plusMinus(3.3, 0.1)), scaled(plusMinus(3.3, 0.1), -1)],
  () => readRecord(fuse, given, 'fuse'),
  () => Object.isFrozen(settled({ fuse: given }).fuse),
  () => takenFor(fuse, given).map(({ text }) => text),
  () => bareText(record({ shunt }), { shunt: '82 ohm' }),
  () =>
    fieldsOf(heater).map(
      ({ path, takes, otherwise }) => `${path}: ${takes}${otherwise && `, by default ${otherwise}`}`,
    ),
  () =>
    readRecord(
      heater,
      {
        rating: '3 A',
        supply: { from: 10, to: 14 },
        wire: { length: '1.2 m' },
        sensing: { kind: 'shunt', ohms: '10 mohm ±1 %' },
        wanted: ['5 W', '20 W'],
      },
      'heater',
    ),
  () => Object.keys(schemaOf(heater, { title: 'A heater' }).properties ?? {}),
  () => readRecord(record({ name: name({ meaning: 'what it is called' }, 20) }), { name: 'F1' }, 'holder'),
  () => oneOf('slow', ['quick', 'slow'], 'fuse.speed'),
  () => [nearestName('refrence', ['reference', 'load']), nearestName('xyz', ['reference', 'load'])],
  () => readPart({ rating: '3.15 A ±5 %' }, { rating: { symbol: 'I_F', unit: 'A', meaning: 'rated current' } }, 'fuse'),
  () => missingFields({ from: 1, to: 2 }, ['from', 'to'], 'rail'),
  () => {
    const limit: unknown = 3
    const volts = demandFinite('limit', limit)
    demand(volts > 0, { field: 'limit', value: volts, unit: 'V', allowed: 'a voltage above 0' })
    return volts
  },
  () => {
    const point: unknown = { seconds: 0.01, kelvinPerWatt: 3.4 }
    demandNumbers(point, 'point', { seconds: { unit: 's', above: 0 }, kelvinPerWatt: { unit: 'K/W', above: 0 } })
    return demandNumber(0.5, { field: 'duty', unit: '1', min: 0, max: 1 })
  },
  () => {
    const offset: unknown = plusMinus(0, 10e-6)
    demandSpread(offset, 'offset')
    return offset.upper
  },
  () => {
    const line: unknown = { name: 'fuse', watts: 0.5 }
    demandShape(line, 'line', { name: 'a text', watts: 'a finite number', note: '?a text' })
    return line
  },
  () => {
    const label: unknown = 'fuse'
    demandText('label', label)
    return label
  },
]
