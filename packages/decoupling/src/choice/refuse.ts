import { InputError } from '@ohmward/quantity'
import { cellFields } from '../parts/parts.js'
import type { ReadDecoupling } from './choice.js'

/** Combinations without an answer, each said plainly. */
export function refuseTogether({ source, capacitors, load, logicRail }: ReadDecoupling): void {
  if (source.kind === 'limited supply') return
  const { fields } = source
  const least = Object.entries(fields)
    .filter(([word]) => cellFields[word as keyof typeof cellFields].unit === 'ohm')
    .reduce((sum, [, { lower }]) => sum + lower, 0)
  const branches = logicRail?.behind === 'resistor' ? [] : capacitors
  const series = Math.max(0, ...capacitors.map((c) => c.fields.seriesResistance.lower))
  if (least === 0 && fields.inductance.lower === 0) {
    const hint = 'A source without resistance and inductance never sags: there is nothing to size'
    throw new InputError({ field: 'source.cellResistance', value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  if (least === 0 && series === 0) {
    const hint = 'Source resistance 0 with series resistance 0 rings for ever: give one of them'
    throw new InputError({ field: 'source.cellResistance', value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  const isInductive =
    fields.inductance.upper > 0 && branches.length > 0 && branches.every((c) => c.fields.seriesInductance.upper > 0)
  if (isInductive && load.kind !== 'power' && (load.rise === 0 || load.fall === 0)) {
    const hint = 'With inductance in the loop and in every capacitor a current cannot jump'
    const field = load.rise === 0 ? 'load.rise' : 'load.fall'
    throw new InputError({ field, value: 0, unit: 's', allowed: 'more than 0 s', hint })
  }
}

/** A protection that trips by the drop across its own switches needs their resistance. */
export function refuseProtection({ source, insertion }: ReadDecoupling): void {
  const isProtected = source.kind === 'cell' && source.fields.protection.lower > 0
  for (const word of ['tripVoltage', 'shortVoltage'] as const) {
    if (insertion[word].upper === 0 || isProtected) continue
    const hint = 'The protection trips by the drop across its own switches: give source.protection'
    throw new InputError({
      field: `insertion.${word}`,
      value: insertion[word].nominal,
      unit: 'V',
      allowed: '0 V',
      hint,
    })
  }
}
