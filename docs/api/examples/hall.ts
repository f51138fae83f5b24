import { exampleConverters } from '@ohmward/adc'
import { extremes } from '@ohmward/budget'
import {
  chainFormulas,
  checkHall,
  exampleSensors,
  hall,
  hallChanges,
  hallFirmware,
  hallModel,
  hallOverCurrent,
  hallPeriod,
  hallRemediesOf,
  readingOf,
  sizeHall,
  sweepHall,
} from '@ohmward/hall'
import { nominalOf } from '@ohmward/quantity'

const current = {
  sensor: exampleSensors.wideSupplyOneWay,
  converter: exampleConverters['12-bit controller converter'],
  current: { from: 0, to: '6 A' },
  errors: [{ at: '6 A', allowed: '6 %' }],
  pwm: { frequency: '1 kHz', duty: { from: '10 %', to: '90 %' } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  calibration: { kind: 'zero' },
} as const
const conditions = { rail: { from: '3 V', to: '4.2 V' }, ambientCelsius: { from: 0, to: 50 } }
const topology = {
  output: 'ratiometric',
  supply: 'rail',
  reference: 'rail',
  reading: 'on-window',
  divided: false,
} as const

export const examples = [
  () => checkHall(current, conditions, { simulation: false }).summary,
  () => hallChanges({ ...current, calibration: 'none' }, conditions, { checks: 60 }).text,
  () => sweepHall(current, conditions, [{ rail: 3 }], ['span-high']).map(({ margins }) => margins[0]?.slack),
  () => {
    const { choices, rejected } = sizeHall(
      { current: current.current, errors: current.errors, converter: current.converter },
      conditions,
    )
    return [choices[0]?.assessment.summary, `${rejected.length} turned down`]
  },
  () => {
    const firmware = hallFirmware(current, conditions)
    return firmware.kind === 'possible' ? firmware.c : firmware.reason
  },
  () => hallOverCurrent(current, conditions, ['1 A', '6 A']),
  () => {
    const { on, settled, sampling } = hallPeriod(current, conditions, 0.5, 40)
    return { on, settled, sampling }
  },
  () => {
    const { inputs, model, row } = hallModel(current, conditions, '6 A')
    const { lower, upper } = extremes({ ...inputs, V_rail: 3.6, T_d: 0 }, model, { row })
    return [lower, upper]
  },
  () => chainFormulas().length,
  () => Object.keys(hallRemediesOf(hall.read(current, conditions))),
  () => {
    const { inputs } = hallModel(current, conditions, '6 A')
    const nominal = Object.fromEntries(Object.entries(inputs).map(([symbol, input]) => [symbol, nominalOf(input)]))
    return readingOf({ ...nominal, V_rail: 3.6, T_d: 0 }, topology).I_ind
  },
]
