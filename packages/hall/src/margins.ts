import { type DecisionRule, type Margin, type MarginText, marginOf, plainMargin } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'
import * as f from './formulas/index.js'
import { conductorRise, sourceAt } from './inputs.js'
import type { Place, Plan } from './plan.js'
import { remedies } from './remedies.js'
import { timeMargins } from './time-margins.js'

/** What a margin says of itself. */
export const text = (
  id: string,
  name: string,
  unit: string,
  sense: Margin['sense'],
  catches: readonly string[],
  what: readonly string[],
): MarginText => ({ id, name, unit, sense, remedies: what, catches })

/** Circumstances with a current in the on-window. */
export const whileOn = (plan: Plan, I_x: number, rule: DecisionRule) => ({
  inputs: { ...plan.inputs(I_x), D_x: 1, w_x: 0 } as Record<string, Input>,
  row: plan.row,
  conditions: plan.conditions,
  groups: plan.groups,
  ...rule,
})

/** What moves the sensor's own output, beside its conditions. */
const ofSensor = /*#__PURE__*/ 'V_q0 V_oe D_oe m_q S_0 e_S TC_S m_S V_L V_h V_B V_nb V_n'.split(' ')
/** What moves it in the reading of the zero. */
const ofZero = /*#__PURE__*/ 'V_q0 V_oe D_oe m_q V_h V_B V_Bz V_nz S_0 e_S TC_S m_S I_rest T_c V_railc'.split(' ')

/** The same circumstances, but only these inputs vary: the others make no difference to what is watched. */
function only<C extends ReturnType<typeof whileOn>>(names: readonly string[], { inputs, ...rest }: C) {
  const kept: Record<string, Input> = {}
  for (const [name, input] of Object.entries(inputs)) {
    const varies = names.includes(name) || rest.conditions.includes(name) || typeof input !== 'object'
    kept[name] = varies ? input : input.nominal
  }
  return { ...rest, inputs: kept }
}

/** Every margin of the measurement but those of its error and its trip. */
export function measurementMargins(choice: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  return [...spanMargins(choice, plan, rule), converterMargin(choice, plan, rule), ...plainMargins(choice, plan)]
}

/** The margins that need no engine: their worst case is plain arithmetic. */
export function plainMargins(choice: ReadChoice, plan: Plan): Margin[] {
  return [
    ...supplyMargins(choice),
    ...clampMargins(choice),
    ...readingMargins(choice, plan),
    ...timeMargins(choice, plan.behind),
    ratedMargin(choice),
    conductorMargin(choice),
  ]
}

function supplyMargins({ sensor, sensorSupply, rail }: ReadChoice): Margin[] {
  const [lowest, highest] = sensorSupply ? [sensorSupply.lower, sensorSupply.upper] : [rail.from, rail.to]
  return [
    plainMargin(
      text('supply-low', 'sensor above its lowest supply', 'V', 'at least', ['E01'], remedies.supply),
      lowest,
      sensor.supplyMinimum.upper,
    ),
    plainMargin(
      text('supply-high', 'sensor below its highest supply', 'V', 'at most', ['E01'], remedies.supplyHigh),
      highest,
      sensor.supplyMaximum.lower,
    ),
  ]
}

function spanMargins({ sensor, current }: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  const wanted = (x: Place) => plan.output(x)['V_want']!
  const margins = [
    marginOf(
      {
        ...text('span-high', 'output below the end of its linear span', 'V', 'at most', ['E02'], remedies.span),
        value: wanted,
        limit: (x: Place) => x['V_hi']!,
      },
      only(ofSensor, whileOn(plan, current.to, rule)),
    ),
    marginOf(
      {
        ...text('span-low', 'output above the begin of its linear span', 'V', 'at least', ['E10'], remedies.low),
        value: wanted,
        limit: sensor.lowOutput.upper,
      },
      only(ofSensor, whileOn(plan, Math.min(current.from, 0), rule)),
    ),
  ]
  const { zeroOutput } = plan
  if (zeroOutput) {
    margins.push(
      marginOf(
        {
          ...text('zero-span', 'zero reading inside the linear span', 'V', 'at least', ['E04'], remedies.zero),
          value: (x: Place) => zeroOutput(x)['V_want']!,
          limit: sensor.lowOutput.upper,
        },
        only(ofZero, whileOn(plan, 0, rule)),
      ),
    )
  }
  return margins
}

function ratedMargin({ current, sensor }: ReadChoice): Margin {
  return plainMargin(
    text('rated-current', 'largest current within the linear range', 'A', 'at most', [], remedies.span),
    Math.max(Math.abs(current.from), Math.abs(current.to)),
    sensor.ratedCurrent.lower,
  )
}

function converterMargin({ current, converter, reading, pwm }: ReadChoice, plan: Plan, rule: DecisionRule): Margin {
  // Behind an averaging filter the pin sees the mean, and what ripples about it.
  const averaged = reading === 'averaged' && pwm
  const largest = averaged ? current.to * pwm.duty.to : current.to
  const on = whileOn(plan, largest, rule)
  const seen = averaged ? { ...on, inputs: plan.inputs(largest) as Record<string, Input> } : on
  return marginOf(
    {
      ...text('converter-high', 'pin below the full scale', 'V', 'at most', ['E02'], remedies.converter),
      value: (x: Place) => plan.reading(x)['V_pin']!,
      limit: (x: Place) => f.highestPin({ V_ref: x['V_ref']!, N_bits: converter.bits }),
    },
    only([...ofSensor, 'R_o', 'R_t', 'R_b', 'V_lk', 'V_ref0', 'TC_ref', 'w_x'], seen),
  )
}

function clampMargins(choice: ReadChoice): Margin[] {
  const { sensorSupply, rail, sensor, divider } = choice
  if (!sensorSupply) return []
  const R_o = sensor.outputResistance.lower
  const k_d = divider ? f.dividerRatio({ R_o, R_t: divider.top.lower, R_b: divider.bottom.upper }) : 1
  const R_src = sourceAt(choice, 'lower')
  return [
    plainMargin(
      text('clamp', "current into the pin's clamp, sensor at its supply", 'A', 'at most', ['E02'], remedies.clamp),
      f.clampCurrent({ V_hi: sensorSupply.upper, k_d, V_rail: rail.from, V_clamp: 0.3, R_src }),
      1e-3,
    ),
  ]
}

function readingMargins(choice: ReadChoice, { behind }: Plan): Margin[] {
  const { resolution, leastUse, divideFrom, converter } = choice
  const A_count = f.countCurrent({ ...behind.nominal, N_bits: converter.bits })
  const margins = [
    plainMargin(
      text('resolution', 'smallest step of the reading', 'A', 'at most', ['E07'], remedies.resolution),
      f.readingStep({ A_count, h_round: behind.halfWidth }),
      resolution,
    ),
    plainMargin(
      text('noise', 'noise of the reading, peak to peak', 'A', 'at most', ['E07'], remedies.noise),
      f.readingNoise({ A_count, n_read: behind.noise }),
      resolution,
    ),
    plainMargin(
      text('range', 'share of the span that is used', '1', 'at least', ['E10'], remedies.range),
      usedShare(choice, behind.nominal),
      leastUse,
    ),
  ]
  if (divideFrom !== undefined) {
    margins.push(
      plainMargin(
        text(
          'quotient',
          'counts of the smallest current that is divided by',
          '1',
          'at least',
          ['F05'],
          remedies.quotient,
        ),
        f.countsOf({ I_x: divideFrom, A_count }),
        10,
      ),
    )
  }
  return margins
}

/** Share of the nominal span on the side of the largest current; the converter's end counts where it comes first. */
function usedShare({ current, sensor, sensorSupply, rail }: ReadChoice, nominal: Plan['behind']['nominal']): number {
  const { S_n, V_qn, k_dn, V_refn } = nominal
  const supply = sensorSupply?.nominal ?? (rail.from + rail.to) / 2
  const upwards = Math.abs(current.to) >= Math.abs(current.from)
  const I_max = Math.max(Math.abs(current.to), Math.abs(current.from))
  const top = Math.min(supply - sensor.highOutputDrop.upper, V_refn / k_dn)
  return f.rangeUsed({ S_n, I_max, V_span: Math.max(upwards ? top - V_qn : V_qn - sensor.lowOutput.upper, 1e-9) })
}

function conductorMargin(choice: ReadChoice): Margin {
  const { ambient, sensor } = choice
  const celsius = (end: 'nominal' | 'upper') => ambient.to + conductorRise(choice, end)
  return plainMargin(
    text('conductor', "temperature of the sensor's conductor", 'degC', 'at most', [], remedies.conductor),
    celsius('upper'),
    sensor.maximumCelsius.lower,
    celsius('nominal'),
  )
}
