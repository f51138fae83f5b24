import { nearest, nextDown, nextUp, preferredValues, readCapacitorCode, readResistorCode } from '@ohmward/quantity'
import type { PublishedCheck } from '../check.js'

/** A preferred value as it stands at its place of the decade, in the digits that the standard prints. */
const row = (
  series: 'E3' | 'E6' | 'E24' | 'E48' | 'E96' | 'E192',
  place: number,
  printed: number,
  more: object = {},
) => {
  const digits = printed >= 100 ? 100 : 10
  return {
    id: `IEC60063-${series}-${place}`,
    package: 'quantity',
    source: `IEC 60063, series ${series}, value ${place + 1}`,
    quantity: 'digits of the preferred value',
    unit: '1',
    printed,
    tolerance: 0,
    compute: () => Math.round(preferredValues(series)[place]! * digits * 1e9) / 1e9,
    ...more,
  }
}

/** The eight values of E24 that keep their old figure; the rule of the roots would give `rule`. */
const exceptions = [
  [10, 27, 26],
  [11, 30, 29],
  [12, 33, 32],
  [13, 36, 35],
  [14, 39, 38],
  [15, 43, 42],
  [16, 47, 46],
  [22, 82, 83],
].map(([place, printed, rule]) => row('E24', place!, printed!, { remark: `round(10·10^(i/24)) would give ${rule}` }))

/** A code and what it stands for. */
const code = (text: string, printed: number, unit: 'ohm' | 'F', more: object = {}) => ({
  id: `IEC60062-${text}`,
  package: 'quantity',
  source: 'IEC 60062, RKM code',
  quantity: `value of the code ${text}`,
  unit,
  printed,
  tolerance: 0,
  compute: () => (unit === 'ohm' ? readResistorCode(text) : readCapacitorCode(text)).value,
  ...more,
})

const letter = (name: string, percent: number, more: object = {}) => ({
  id: `IEC60062-tolerance-${name}`,
  package: 'quantity',
  source: 'IEC 60062, tolerance letters',
  quantity: `tolerance of the letter ${name}, in per cent`,
  unit: '1',
  printed: percent,
  tolerance: 0,
  compute: () => Math.round(readResistorCode(`4K7${name}`).tolerance! * 1e8) / 1e6,
  ...more,
})

const fromMemory = { fromMemory: true } as const

export const checks: PublishedCheck[] = [
  ...exceptions,
  ...[10, 15, 22, 33, 47, 68].map((printed, place) => row('E6', place, printed)),
  ...[10, 22, 47].map((printed, place) => row('E3', place, printed)),
  ...[100, 102, 105, 107, 110, 113].map((printed, place) => row('E96', place, printed)),
  ...[909, 931, 953, 976].map((printed, place) => row('E96', 92 + place, printed)),
  ...[100, 105, 110, 115].map((printed, place) => row('E48', place, printed)),
  row('E48', 47, 953),
  row('E192', 185, 920, {
    remark: 'the one exception of E192: 100·10^(185/192) is 919.479; so a question of the trade has it',
  }),
  {
    id: 'IEC60063-E192-920-alone',
    package: 'quantity',
    source: 'IEC 60063, series E96 and E192',
    ...fromMemory,
    quantity: 'preferred values of E96 between 909 and 931, 920 belonging to E192 alone',
    unit: '1',
    printed: 0,
    tolerance: 0,
    compute: () => [nextUp(909, 'E96') === 931, nextDown(931, 'E96') === 909].filter((alone) => !alone).length,
    remark: '920 is in neither E96 nor E48',
  },
  {
    id: 'IEC60063-E192-near-919',
    package: 'quantity',
    source: 'IEC 60063, series E192',
    quantity: 'E192 value nearest to 919',
    unit: '1',
    printed: 920,
    tolerance: 0,
    compute: () => nearest(919, 'E192'),
  },
  code('R47', 0.47, 'ohm'),
  code('4R7', 4.7, 'ohm'),
  code('470R', 470, 'ohm'),
  code('4K7', 4700, 'ohm'),
  code('47K', 47e3, 'ohm'),
  code('47K3', 47.3e3, 'ohm'),
  code('470K', 470e3, 'ohm'),
  code('4M7', 4.7e6, 'ohm'),
  code('R10', 0.1, 'ohm'),
  code('4L7', 4.7e-3, 'ohm', { ...fromMemory, remark: 'the multiplier L was read, this code is derived from it' }),
  code('10p', 10e-12, 'F'),
  code('4n7', 4.7e-9, 'F'),
  code('1u0', 1e-6, 'F'),
  letter('F', 1),
  letter('K', 10),
  letter('B', 0.1),
  letter('C', 0.25, fromMemory),
  letter('D', 0.5),
  letter('G', 2),
  letter('J', 5),
  letter('M', 20),
]
