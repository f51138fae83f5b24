import { exact, exactly, InputError, readSpread, type Spread, spread } from '@ohmward/quantity'

/** Its forward voltage by default. */
export const freewheelDrop = '0.7 V ±0.3 V'

/** The diode that carries the current of a winding while the switch is off. */
export const freewheelFields = {
  drop: /*#__PURE__*/ spread({
    symbol: 'V_F',
    unit: 'V',
    min: 0,
    max: 5,
    otherwise: freewheelDrop,
    meaning: 'forward voltage of the freewheeling diode at the load current',
  }),
  ratedPower: /*#__PURE__*/ exactly({
    unit: 'W',
    above: 0,
    max: 1000,
    optional: true,
    meaning: 'rated power of the freewheeling diode at the ambient',
  }),
} as const

/** A freewheeling diode that was read. */
export interface Freewheel {
  /** 0 where there is no winding. */
  readonly drop: Spread
  /** Where it is known, W. */
  readonly ratedPower: number | undefined
}

/** The diode of a choice. @throws InputError where there is one without a winding */
export function freewheelOf({
  edges,
  freewheel,
}: {
  readonly edges: 'resistive' | 'clamped inductive'
  readonly freewheel?: Freewheel | undefined
}): Freewheel {
  if (edges === 'resistive' && freewheel !== undefined) {
    const allowed = 'nothing, with resistive edges'
    throw new InputError({ field: 'freewheel', value: freewheel, allowed })
  }
  if (edges === 'resistive') return { drop: exact(0), ratedPower: undefined }
  const { drop, ratedPower } = freewheel ?? {}
  return { drop: drop ?? readSpread(freewheelDrop, { field: 'freewheel.drop', unit: 'V' }), ratedPower }
}
