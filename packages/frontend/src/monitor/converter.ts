import { divider as measurement } from '@ohmward/divider'
import type { ReadDesign } from '../design/record.js'

/** The converter that reads the cells, by its limits: on a rail high enough for any excitation, of which nothing is asked here. */
export const converterIn = ({ divider, ambientCelsius }: ReadDesign) =>
  measurement.read(divider, { rail: { from: 60, to: 60 }, ambientCelsius }).converter
