import * as adc from '../../../packages/adc/dist/index.js'
import * as hall from '../../../packages/hall/dist/index.js'
import { interleaved, repeated } from '../measure.mjs'
import { hallChoice } from '../workloads.mjs'

const { sensor, filter, ...rest } = hallChoice({ adc, hall })
const conditions = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }

export const entries = [
  {
    name: 'sizing of a current measurement',
    measures:
      'four classes of sensor, both kinds of reading, filters and averaging, a candidate over a check; 1 thread',
    limit: { atMost: 2 },
    unit: '×',
    run: () => {
      const size = () => hall.sizeHall(rest, conditions)
      const check = () => hall.checkHall({ ...rest, sensor, filter }, conditions, { simulation: false })
      const [sizing, checks] = interleaved([size, repeated(10, check)])
      const { choices, rejected } = size()
      return {
        value: sizing / (choices.length + rejected.length) / (checks / 10),
        detail: `${sizing.toFixed(0)} ms, ${choices.length} found, ${rejected.length} turned down`,
      }
    },
  },
]
