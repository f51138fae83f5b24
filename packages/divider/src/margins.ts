import { acquisitionNeeded, missedCounts, settlingTime } from '@ohmward/adc'
import { type DecisionRule, type Margin, type MarginText, marginOf, plainMargin, worstStation } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import type { ReadChoice } from './choice.js'
import * as f from './formulas/index.js'
import { nominalGain } from './inputs.js'
import type { Place, Plan } from './plan.js'
import { remedies } from './remedies.js'

const text = (
  id: string,
  name: string,
  unit: string,
  sense: Margin['sense'],
  catches: readonly string[],
  what: readonly string[],
): MarginText => ({ id, name, unit, sense, remedies: what, catches })

/** Resistance error allowed at a resistance. */
export const allowedAt = ({ error }: ReadChoice, R_x: number) =>
  error.kind === 'share' ? error.value * R_x : error.value

/** Every margin of the measurement but those of its error. */
export function measurementMargins(choice: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  return [
    ...outputMargins(choice, plan, rule),
    ...inputMargins(choice, plan, rule),
    ...timeMargins(choice),
    ...loopMargins(choice, plan, rule),
  ]
}

/** Circumstances with the load at one value. */
const at = (plan: Plan, R_x: number, rule: DecisionRule) => ({
  inputs: { ...plan.inputs, R_x } as Record<string, Input>,
  row: plan.row,
  conditions: plan.conditions,
  ...rule,
})

function outputMargins(choice: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  const { from, to } = choice.load
  const { reading, zero } = plan
  const wanted = (x: Place) => reading(x)['V_want']!
  const highest = (x: Place) => x['V_hi']!
  const margins = [
    marginOf(
      {
        ...text('headroom', 'output below the highest', 'V', 'at most', ['A01'], remedies.headroom),
        value: wanted,
        limit: highest,
      },
      at(plan, to, rule),
    ),
    marginOf(
      {
        ...text('open-load', 'open load told from the largest', 'V', 'at most', ['D08'], remedies.headroom),
        value: wanted,
        limit: highest,
      },
      at(plan, to + allowedAt(choice, to), rule),
    ),
    marginOf(
      {
        ...text('dead-zone', 'output above the lowest', 'V', 'at least', ['A02'], remedies.deadZone),
        value: wanted,
        limit: (x) => x['V_ol']!,
      },
      at(plan, from, rule),
    ),
  ]
  if (choice.amplifierSupply || choice.converter.reference.kind === 'absolute') {
    margins.push(
      marginOf(
        {
          ...text('full-scale', "output below the converter's reference", 'V', 'at most', ['A01'], remedies.fullScale),
          value: wanted,
          limit: (x) => x['V_ref']!,
        },
        at(plan, to, rule),
      ),
    )
  }
  if (zero) {
    const lowest = (x: Place) => zero(x)['V_ol']! + (2 * zero(x)['V_ref']!) / 2 ** choice.converter.bits
    margins.push(
      marginOf(
        {
          ...text(
            'zero',
            'zero reading above the lowest output',
            'V',
            'at least',
            ['A04'],
            choice.topology === 'load at rail' ? remedies.zeroAtRail : remedies.zero,
          ),
          value: (x) => zero(x)['V_want']!,
          limit: lowest,
        },
        at(plan, from, rule),
      ),
    )
  }
  if (choice.topology === 'load at rail') {
    const sunk = (x: Place) => (reading(x)['V_cm']! - x['V_ol']!) / x['R_d']!
    margins.push(
      marginOf(
        {
          ...text('sink', 'current that the output sinks', 'A', 'at most', ['A02'], remedies.deadZone),
          value: sunk,
          limit: choice.amplifier.sinkCurrent.lower,
        },
        at(plan, from, rule),
      ),
    )
  }
  return margins
}

function inputMargins(choice: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  const { amplifier: a, surroundings: s, topology, rail } = choice
  const { from, to } = choice.load
  const input = (x: Place) => plan.reading(x)[topology === 'load at ground' ? 'V_x' : 'V_cm']!
  const series = topology === 'load at ground' ? s.protectionResistance : choice.gainResistors.ground
  const supply = (x: Place) => x['V_amp']!
  const clamp = { V_clamp: 0.3, I_clamp: 1e-3 }
  const lowestSupply = choice.amplifierSupply?.lower ?? rail.from
  const margins = [
    marginOf(
      {
        ...text('common-mode-high', 'inputs below the highest allowed', 'V', 'at most', ['A05'], remedies.commonMode),
        value: input,
        limit: (x) => x['V_amp']! - a.commonModeHighDrop.upper,
      },
      at(plan, to, rule),
    ),
    marginOf(
      {
        ...text('common-mode-low', 'inputs above the lowest allowed', 'V', 'at least', ['A05'], remedies.commonMode),
        value: input,
        limit: a.commonModeLow.upper,
      },
      at(plan, from, rule),
    ),
    marginOf(
      {
        ...text('supply-low', 'amplifier above its lowest supply', 'V', 'at least', ['A01'], remedies.supply),
        value: supply,
        limit: a.supplyMinimum.upper,
      },
      at(plan, from, rule),
    ),
    marginOf(
      {
        ...text('supply-high', 'amplifier below its highest supply', 'V', 'at most', [], remedies.supply),
        value: supply,
        limit: a.supplyMaximum.lower,
      },
      at(plan, from, rule),
    ),
    plainMargin(
      text(
        'undershoot',
        'series resistance against edges below ground',
        'ohm',
        'at least',
        ['A06'],
        remedies.protection,
      ),
      series.lower,
      f.neededProtection({ V_over: s.undershoot.upper, ...clamp }),
    ),
  ]
  if (choice.amplifierSupply) {
    const V_over = Math.max(rail.to - lowestSupply, 0)
    margins.push(
      plainMargin(
        text('driven', 'series resistance while the load is driven', 'ohm', 'at least', ['A07'], remedies.protection),
        series.lower,
        f.neededProtection({ V_over, ...clamp }),
      ),
      plainMargin(
        text('pin', "series resistance before the converter's pin", 'ohm', 'at least', ['A07'], remedies.pin),
        choice.timing.filterResistance.lower,
        f.neededProtection({ V_over: Math.max(choice.amplifierSupply.upper - rail.from, 0), ...clamp }),
      ),
    )
  }
  return margins
}

function timeMargins(choice: ReadChoice): Margin[] {
  const { amplifier: a, timing, converter } = choice
  const N_bits = converter.bits
  const gain = nominalGain(choice) + (choice.topology === 'load at rail' ? 1 : 0)
  const tau_a = f.amplifierTimeConstant({ G_noise: gain, GBW: a.gainBandwidth.lower })
  const t_need = f.neededWait({
    t_rec: a.recovery.upper,
    V_hi: choice.amplifierSupply?.upper ?? choice.rail.to,
    SR: a.slewRate.lower,
    t_settle: settlingTime({ N_bits, tau: tau_a }),
    t_filter: settlingTime({ N_bits, tau: timing.filter.upper }),
  })
  const margins = [
    plainMargin(
      text('settling', 'settled within half a count', 's', 'at most', ['A07', 'A10', 'D07'], remedies.settling),
      t_need,
      timing.wait.lower,
    ),
    samplingMargin(choice),
  ]
  if (timing.referenceSettling.upper > 0) {
    margins.push(
      plainMargin(
        text('reference-start', "converter's reference settled", 's', 'at most', ['D02'], remedies.reference),
        timing.referenceSettling.upper,
        timing.wait.lower,
      ),
    )
  }
  return margins
}

/** Whether the sampling capacitor is charged in time: by the source alone, or out of a filter's capacitor at the pin. */
function samplingMargin({ timing, converter }: ReadChoice): Margin {
  const { spreads, bits } = converter
  const { filter, filterResistance } = timing
  const own = { R_sw: spreads.R_sw.upper, C_sh: spreads.C_sh.upper }
  const t_acq = spreads.t_acq.lower
  if (filter.upper > 0 && filterResistance.lower > 0) {
    const missed = missedCounts({
      ...own,
      R_src: filterResistance.upper,
      capacitance: { lower: filter.lower / filterResistance.upper, upper: filter.upper / filterResistance.lower },
      bits,
      t_acq,
      T_s: timing.samples.nominal > 1 ? t_acq + spreads.t_conv.lower : Math.max(timing.wait.lower, t_acq),
    })
    return plainMargin(
      text('sampling', 'counts missing at the end of sampling', 'LSB', 'at most', ['D01'], remedies.sampling),
      missed,
      0.5,
    )
  }
  return plainMargin(
    text('acquisition', 'sampling time that the source needs', 's', 'at most', ['D01'], remedies.acquisition),
    acquisitionNeeded({ ...own, R_s: filterResistance.upper, N_bits: bits }),
    t_acq,
  )
}

/** Step of the indicated resistance from one code to the next, load at the rail. */
function stepAtRail(y: Place): number {
  const next = { ...y, code_out: y['code_out']! + 1 } as Record<string, number>
  next['r'] = f.indicatedShare(next as never)
  return f.indicatedFromRail(next as never) - y['R_ind']!
}

function loopMargins(choice: ReadChoice, plan: Plan, rule: DecisionRule): Margin[] {
  const { load, referencePart, excitationSwitch, timing } = choice
  const { from, to } = load
  const { reading } = plan
  const count = choice.topology === 'load at ground' ? f.countResistance : stepAtRail
  const burden = (R_x: number) => (1 + R_x / choice.reference.nominal) ** 2 / allowedAt(choice, R_x)
  const coarsest = burden(from) > burden(to) ? from : to
  const margins = [
    marginOf(
      {
        ...text('resolution', 'resistance for one count', 'ohm', 'at most', ['B01'], remedies.resolution),
        value: (x) => count(reading(x) as never),
        limit: allowedAt(choice, coarsest) / 2,
      },
      at(plan, coarsest, rule),
    ),
    marginOf(
      {
        ...text('test-current', 'test current', 'A', 'at most', ['B07'], remedies.current),
        value: (x) => reading(x)['I_t']!,
        limit: excitationSwitch.currentLimit.lower,
      },
      at(plan, from, rule),
    ),
    marginOf(
      {
        ...text(
          'dissipation',
          'dissipation of the reference resistor, in the mean',
          'W',
          'at most',
          ['B07'],
          remedies.dissipation,
        ),
        value: (x) => reading(x)['P_ref']! * x['d_m']!,
        limit: referencePart.ratedPower.lower / 2,
      },
      at(plan, from, rule),
    ),
  ]
  const alpha = Math.max(Math.abs(load.temperatureCoefficient.lower), Math.abs(load.temperatureCoefficient.upper))
  if (alpha > 0 && load.thermalResistance.upper > 0) {
    const R_thx = load.thermalResistance.upper
    // The power in the load is largest where it equals the rest of the loop.
    const hottest = Math.min(Math.max(choice.reference.nominal, from), to)
    const tau_x = R_thx * load.heatCapacity.lower
    // A pulse of no length into no heat capacity has no answer: take that for a pulse that heats in full.
    const t_wait = timing.wait.upper || Number.MIN_VALUE
    const warming = (x: Place) =>
      alpha * f.loadWarming({ I_t: reading(x)['I_t']!, R_x: x['R_x']!, R_thx, d_m: x['d_m']!, t_wait, tau_x })
    margins.push(
      marginOf(
        {
          ...text(
            'warming',
            'change of the load by the test current, relative',
            '1',
            'at most',
            ['B06'],
            remedies.warming,
          ),
          value: warming,
          limit: allowedAt(choice, to) / to,
        },
        at(plan, hottest, rule),
      ),
    )
  }
  if (
    (choice.excitation !== undefined) !== (choice.converter.reference.kind === 'absolute') ||
    choice.excitation !== undefined
  ) {
    const shift = (x: Place) => ((x['V_exc']! / x['V_ref']!) * x['V_refn']!) / x['V_excn']! - 1
    const { extremes } = worstStation(at(plan, to, rule), shift, (lower, upper) => Math.max(-lower, upper))
    margins.push(
      plainMargin(
        text(
          'ratio',
          'excitation over reference against their nominal ratio',
          '1',
          'at most',
          ['B08', 'D05'],
          remedies.ratio,
        ),
        Math.max(-extremes.lower, extremes.upper),
        allowedAt(choice, to) / to,
      ),
    )
  }
  return margins
}
