import { absoluteReference } from '@ohmward/adc/formulas'
import { divider as measurement } from '@ohmward/divider'
import { between, type Spread } from '@ohmward/quantity'
import { spreadOf } from '@ohmward/supply'
import type { ReadDesign } from '../design/record.js'

/** The converter that reads the cells, by its limits: on a rail high enough for any excitation, of which nothing is asked here. */
export const converterIn = ({ divider, ambientCelsius }: ReadDesign) =>
  measurement.read(divider, { rail: { from: 60, to: 60 }, ambientCelsius }).converter

/** What that converter counts against, V: its rail, unless it has a reference of its own. */
export function fullScaleOf(design: ReadDesign, rail: Spread): Spread {
  const { reference } = converterIn(design)
  if (reference.kind === 'rail') return rail
  const { V_ref0, TC_ref } = reference
  const { from, to } = design.ambientCelsius
  return spreadOf(absoluteReference, { V_ref0, TC_ref, dT: between(from - 25, to - 25) })
}

/** Whether that converter counts against its rail: then its code of the internal reference tells how high the rail is. */
export const countsAgainstRail = (design: ReadDesign): boolean => converterIn(design).reference.kind === 'rail'
