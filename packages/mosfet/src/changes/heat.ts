import { solved } from '@ohmward/budget'
import type { ReadMosfet } from '../choice.js'

export const copper = /*#__PURE__*/ solved({
  id: 'copper',
  name: 'more copper',
  path: 'thermal.copperSquareMillimetres',
  unit: '1',
  from: ({ copperArea }: ReadMosfet) => copperArea,
  to: ({ transistor }: ReadMosfet) => transistor.copper?.at(-1)?.squareMillimetres ?? 0,
})

export const cooling = /*#__PURE__*/ solved({
  id: 'cooling',
  name: 'better cooling: copper, vias, a larger case',
  path: 'thermal.junctionToAmbient',
  unit: 'K/W',
  from: ({ copperArea, junctionToAmbient }: ReadMosfet) => (copperArea === undefined ? junctionToAmbient : undefined),
  to: 5,
})

export const lessDuty = /*#__PURE__*/ solved({
  id: 'less-duty',
  name: 'less duty',
  path: 'pwm.duty.to',
  unit: '1',
  from: ({ duty }: ReadMosfet) => duty.to,
  to: ({ duty }: ReadMosfet) => Math.max(duty.from, 0.01),
})

export const moreDuty = /*#__PURE__*/ solved({
  id: 'more-duty',
  name: 'a higher minimum duty',
  path: 'pwm.duty.from',
  unit: '1',
  from: ({ duty }: ReadMosfet) => duty.from,
  to: ({ duty }: ReadMosfet) => duty.to,
})

export const lessFrequency = /*#__PURE__*/ solved({
  id: 'less-frequency',
  name: 'a lower frequency',
  path: 'pwm.frequency',
  unit: 'Hz',
  from: ({ frequency }: ReadMosfet) => (frequency > 0 ? frequency : undefined),
  to: 10,
})

export const moreFrequency = /*#__PURE__*/ solved({
  id: 'more-frequency',
  name: 'a higher frequency',
  path: 'pwm.frequency',
  unit: 'Hz',
  from: ({ frequency }: ReadMosfet) => (frequency > 0 ? frequency : undefined),
  to: 10_000,
})

export const shorterBursts = /*#__PURE__*/ solved({
  id: 'shorter-bursts',
  name: 'shorter bursts',
  path: 'bursts.on',
  unit: 's',
  to: 1e-3,
})
