import type { Input, PartFields } from '@ohmward/quantity'

/** Minimum supplies on the rail; each one's largest value counts. */
export const limitFields = {
  brownOut: {
    symbol: 'V_bod',
    unit: 'V',
    above: 0,
    max: 60,
    meaning: "controller's brown-out threshold with its spread",
  },
  clock: { symbol: 'V_clk', unit: 'V', above: 0, max: 60, meaning: "controller's lowest supply at its clock" },
  sensor: { symbol: 'V_sens', unit: 'V', above: 0, max: 60, meaning: "current sensor's lowest rated supply" },
  amplifier: { symbol: 'V_ampmin', unit: 'V', above: 0, max: 60, meaning: "amplifier's lowest rated supply" },
  converter: { symbol: 'V_adc', unit: 'V', above: 0, max: 60, meaning: "converter's lowest rated supply" },
} as const satisfies PartFields

/** Names of the limits on the rail. */
export type LimitName = keyof typeof limitFields

/** The same in a list. */
export const limitNames = /*#__PURE__*/ Object.keys(limitFields) as readonly LimitName[]

/** Limits as their user writes them: at least one. */
export type Limits = { readonly [N in LimitName]?: Input }
