import { demand, demandNumbers, type FieldSpec, type Spread } from '@ohmward/quantity'
import { burstLoss, fastSection, slowSection } from './formulas/sampling.js'

/** A converter's sampling capacitor behind a filter whose capacitor stands at the pin, each at the limit that is worst. */
export interface SampledFilter {
  /** Resistance before the filter capacitor, largest, in ohms. */
  readonly R_src: number
  /** Filter capacitor, between its limits, in farads. */
  readonly capacitance: Pick<Spread, 'lower' | 'upper'>
  /** Resistance of the sampling switch, largest. */
  readonly R_sw: number
  /** Sampling capacitor, largest, empty at first. */
  readonly C_sh: number
  readonly bits: number
  /** Sampling time, least, in seconds. */
  readonly t_acq: number
  /** Time from one sample to the next, least; where samples are taken in bursts, from one burst to the next. */
  readonly T_s: number
  /** Samples one after another, and the time from one of them to the next, least; one sample by itself by default. */
  readonly burst?: { readonly samples: number; readonly interval: number }
}

/**
 * Counts that the sampling capacitor misses of a full scale at the end of sampling, of the last sample of a burst, at the worse end of the filter
 * capacitor: a small one gives too much of its charge away, a large one is recharged too late. Pitfall D01.
 *
 * @throws InputError naming the field that is missing or isn't allowed
 */
export function missedCounts(filter: SampledFilter): number {
  demandFilter(filter)
  const { capacitance, bits, R_sw, T_s, burst, ...given } = filter
  // A switch without resistance would make one section of two: an ohm is nothing to it.
  const samples = { T_i: T_s, M_w: burst?.samples ?? 1, T_s: burst?.interval ?? T_s }
  const parts = { ...given, ...samples, R_sw: Math.max(R_sw, 1) }
  const lossAt = (C_f: number) => {
    const tau_1 = slowSection({ ...parts, C_f })
    const tau_2 = fastSection({ ...parts, C_f, tau_1 })
    return burstLoss({ ...parts, code_ideal: 2 ** bits, tau_1, tau_2 })
  }
  return Math.max(lossAt(capacitance.lower), lossAt(capacitance.upper))
}

const farads: Omit<FieldSpec, 'field'> = { unit: 'F', min: 1e-18, max: 1 }

const limits: Readonly<Record<'R_src' | 'R_sw' | 'C_sh' | 'bits' | 't_acq' | 'T_s', Omit<FieldSpec, 'field'>>> = {
  R_src: { unit: 'ohm', min: 1e-9, max: 1e12 },
  R_sw: { unit: 'ohm', min: 0, max: 1e9 },
  C_sh: { unit: 'F', min: 1e-18, max: 1 },
  bits: { unit: '1', min: 1, max: 32 },
  t_acq: { unit: 's', min: 0, max: 1e6 },
  T_s: { unit: 's', min: 0, max: 1e9 },
}

function demandFilter(filter: SampledFilter): void {
  demandNumbers(filter, 'filter', limits)
  const { capacitance, burst } = filter
  demandNumbers(capacitance, 'filter.capacitance', { lower: farads, upper: farads })
  demand(capacitance.lower <= capacitance.upper, {
    field: 'filter.capacitance.upper',
    value: capacitance.upper,
    unit: 'F',
    allowed: `from ${capacitance.lower} F (lower)`,
  })
  if (burst === undefined) return
  demandNumbers(burst, 'filter.burst', {
    samples: { unit: '1', min: 1, max: 1e9 },
    interval: { unit: 's', min: 0, max: 1e9 },
  })
}
