import { InputError } from '@ohmward/quantity'
import { mustCover } from '../parts/curve.js'
import { cellFields, limitNames } from '../parts/index.js'
import type { ReadDecoupling } from './choice.js'

const cellWords = /*#__PURE__*/ Object.keys(cellFields) as readonly (keyof typeof cellFields)[]

/** Combinations without an answer, each said plainly. */
export function refuseTogether({ source, capacitors, load, logicRail }: ReadDecoupling): void {
  if (source.kind === 'limited supply') return
  const { fields } = source
  const least = cellWords
    .filter((word) => cellFields[word].unit === 'ohm')
    .reduce((sum, word) => sum + fields[word].lower, 0)
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

/** Curves that don't cover the conditions: nothing is guessed beyond their points. */
export function refuseUncovered({ source, capacitors, openCircuit, ambient, given }: ReadDecoupling): void {
  if (source.kind === 'cell') mustCover(source.temperature, 'source.temperature', 'celsius', ambient)
  const names = placesOf(given.choice)
  capacitors.forEach(({ bias, temperature, cold }, k) => {
    mustCover(bias, `${names[k]}.bias`, 'volts', { from: 0, to: openCircuit.to })
    mustCover(temperature, `${names[k]}.temperature`, 'celsius', ambient)
    mustCover(cold, `${names[k]}.cold`, 'celsius', ambient)
  })
}

/** Where each kind of capacitor stands, in the caller's words. */
function placesOf(choice: unknown): string[] {
  const { capacitors } = choice as { readonly capacitors: object }
  const isList = Array.isArray(capacitors)
  return Object.keys(capacitors).map((key) => (isList ? `capacitors[${key}]` : `capacitors.${key}`))
}

/** No limit at all, or one that a full source at rest is below. */
export function refuseBelowLimits({ limits, openCircuit }: ReadDecoupling): void {
  if (limitNames.every((name) => limits[name] === undefined)) {
    throw new InputError({ field: 'limits', value: undefined, allowed: `at least one of ${limitNames.join(', ')}` })
  }
  for (const name of limitNames) {
    const { nominal } = limits[name] ?? { nominal: 0 }
    if (nominal < openCircuit.to) continue
    throw new InputError({
      field: `limits.${name}`,
      value: nominal,
      unit: 'V',
      allowed: `less than the highest open-circuit voltage, ${openCircuit.to} V`,
      hint: 'The rail is below it even at rest on a full source',
    })
  }
}
