import { put } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'

export const atGround = /*#__PURE__*/ put({
  id: 'load-at-ground',
  name: 'the load at ground',
  puts: { topology: 'load at ground' },
  text: 'load at ground',
  when: ({ topology }: ReadChoice) => topology === 'load at rail',
})
export const noCalibration = /*#__PURE__*/ put({
  id: 'no-calibration',
  name: 'no calibration',
  puts: { calibration: 'none' },
  text: 'none',
  when: ({ calibration }: ReadChoice) => calibration.kind !== 'none',
})
export const zero = /*#__PURE__*/ put({
  id: 'zero',
  name: 'zero calibration with a short',
  puts: { calibration: { kind: 'zero' } },
  text: 'a short at the load terminals',
  when: ({ calibration }: ReadChoice) => calibration.kind === 'none',
})
export const zeroAndSpan = /*#__PURE__*/ put({
  id: 'zero-and-span',
  name: 'calibration of zero and span',
  puts: { calibration: { kind: 'zero and span', resistor: '1 ohm ±0.1 %' } },
  text: 'a short, and a known resistor of 1 ohm ±0.1 %',
  when: ({ calibration }: ReadChoice) => calibration.kind !== 'zero and span',
})
export const fourWires = /*#__PURE__*/ put({
  id: 'four-wires',
  name: 'sensing at the load',
  puts: { wires: 4 },
  text: 'four wires',
  when: ({ kappa }: ReadChoice) => kappa === 1,
})
export const starGround = /*#__PURE__*/ put({
  id: 'star-ground',
  name: "the load's ground joined to the converter's at one point",
  puts: { 'surroundings.sharedGround': 0 },
  text: '0 ohm shared',
  when: ({ surroundings }: ReadChoice) => surroundings.sharedGround.upper > 0,
})
