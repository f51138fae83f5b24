import type { Input } from '@ohmward/quantity'
import type { PathElement, Supply } from '@ohmward/supply'

const flat = '-60 degC: 1, 125 degC: 1'

/** A cell whose resistance neither cold nor charge nor age change, with what stands between it and the rail. */
export const flatCell = (resistance: Input, path: readonly PathElement[] = [], more: Partial<Supply> = {}): Supply => ({
  source: {
    kind: 'cell',
    openCircuit: 'NMC 21700',
    capacity: '4 Ah',
    continuousCurrent: 30,
    resistance,
    temperatureFactor: flat,
    chargeFactor: '0: 1, 1: 1',
    ageFactor: 1,
  },
  path,
  inductance: 0,
  ...more,
})

/** The protection's switches, which nothing warms. */
export const protection = (resistance: Input, tripVoltage: Input = 10): PathElement => ({
  name: 'protection',
  resistance,
  tripVoltage,
  temperatureCoefficient: 'none',
})
