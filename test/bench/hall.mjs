/** The Hall chain for the benchmarks: of its inputs the ten vary that weigh most in sensor and converter. */
import { exampleConverters } from '../../packages/adc/dist/index.js'

import * as hall from '../../packages/hall/dist/index.js'
import { hallChoice } from './workloads.mjs'

const random = ['e_S', 'TC_S', 'V_oe', 'D_oe', 'V_L', 'V_h', 'V_n', 'e_offset', 'e_INL', 'e_n']
const choice = hallChoice({ adc: { exampleConverters }, hall })
const conditions = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }
const own = hall.hallModel({ ...choice, calibration: 'none' }, conditions, 3)

export const { model, row } = own
export const inputs = Object.fromEntries(
  Object.entries({ ...own.inputs, V_rail: 3, T_d: 25 }).map(([name, input]) => [
    name,
    random.includes(name) || typeof input === 'number' ? input : input.nominal,
  ]),
)
export const measured = `the Hall chain, ${Object.keys(inputs).length} inputs, ${random.length} random, 1 output, 1 thread`
