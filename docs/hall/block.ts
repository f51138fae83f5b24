import {
  type CurrentPoint,
  chainFormulas,
  checkHall,
  type HallAssessment,
  type HallFirmware,
  hallChanges,
  hallFirmware,
  hallOverCurrent,
  hallPeriod,
  type Period,
} from '@ohmward/hall'
import { readRange } from '@ohmward/quantity'
import type { Arguments, Block } from '../.vitepress/theme/block.ts'
import { statedBy } from '../.vitepress/theme/form/symbols.ts'
import { evenly, sweepOver } from '../.vitepress/theme/sweep.ts'
import { form } from './form.ts'
import { size } from './sizing.ts'

/** What the page shows of a current measurement beside its assessment. */
export interface HallShown extends HallAssessment {
  readonly period?: Period
  /** In milliamperes, for an accumulator of 32 and of 16 bits; made with the simulation. */
  readonly firmware?: readonly [wide: HallFirmware, narrow: HallFirmware]
  /** The errors at the wanted currents, coldest first; made with the simulation. */
  readonly errors?: readonly CurrentPoint[]
}

const checked = ({ choice, conditions }: Arguments, simulation: boolean) =>
  checkHall(choice, conditions, simulation ? {} : { simulation: false })

function assess(x: Arguments, whole: boolean): HallShown {
  const { choice, conditions } = x
  const assessment = checked(x, whole)
  const { trip, values } = assessment
  return {
    ...assessment,
    values: { ...values, ...(trip && { I_set: trip.level }) },
    ...(choice.pwm && { period: hallPeriod(choice, conditions, undefined, 160) }),
    ...(whole && {
      errors: hallOverCurrent(
        choice,
        conditions,
        choice.errors.map(({ at }: { at: string }) => at),
      ),
      firmware: [
        hallFirmware(choice, conditions),
        hallFirmware(choice, conditions, { word: 16, name: 'current_ma_16' }),
      ] as const,
    }),
  }
}

const stated = statedBy(form)

/** The reading of the zero has noise, rounding and a place on the converter's curve of its own. */
const own = [
  ['V_n', 'V', 'noise of the sensor'],
  ['V_B', 'V', 'steady field, as output of the sensor'],
  ['e_q', 'LSB', 'rounding to a count'],
  ['e_n', 'LSB', 'noise of the converter'],
  ['e_INL', 'LSB', 'nonlinearity of the converter'],
  ['n_miss', 'LSB', 'counts that sampling still misses'],
] as const
const tagged = own.flatMap(([symbol, unit, name]) => [
  [symbol, unit, name] as const,
  [`${symbol}z`, unit, `${name}, reading of the zero`] as const,
])

/** The current measurement: what computes. */
export const block: Block = {
  ...form,
  check: assess,
  sweep: ({ choice, conditions }) => {
    const { from, to } = readRange(conditions.rail, { field: 'rail', unit: 'V', above: 0 })
    return sweepOver(
      {
        quantity: 'rail',
        symbol: 'V_rail',
        unit: 'V',
        points: evenly(to, 0.8 * from, 13),
        first: 'supply-low',
        asked: [from, to],
      },
      (volts) => checked({ choice, conditions: { ...conditions, rail: { from: volts, to: volts } } }, false).margins,
    )
  },
  changes: ({ choice, conditions }) => hallChanges(choice, conditions),
  size,
  formulas: chainFormulas,
  units: {
    ...stated.units,
    V_rail: 'V',
    T_d: 'K',
    T_c: 'K',
    V_railc: 'V',
    V_sc: 'V',
    I_rest: 'A',
    I_held: 'A',
    V_hz: 'V',
    ...Object.fromEntries(tagged.map(([symbol, unit]) => [symbol, unit])),
  },
  names: {
    ...stated.names,
    ...Object.fromEntries(tagged.map(([symbol, , name]) => [symbol, name])),
    V_L: 'nonlinearity, as output of the sensor',
    V_h: 'hysteresis, as output of the sensor',
    V_nb: 'neighbouring current, as output of the sensor',
    w_x: 'ripple of the averaged output, as a share of the step',
    V_lk: "pin's leakage in the source resistance",
    V_s: 'supply of the sensor',
    T_c: 'temperature of the zero reading, above 25 °C',
    V_railc: 'rail of the zero reading',
    V_sc: 'supply of the sensor at the zero reading',
    I_rest: 'current that flows at the zero reading',
    I_held: 'what the zero reading still holds of the current before',
    V_hz: 'hysteresis in the reading of the zero, as output of the sensor',
    m_q: 'zero: ratiometry error at the ends of the rated supply',
    m_S: 'sensitivity: ratiometry error at the ends of the rated supply',
  },
}
