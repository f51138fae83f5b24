import { format, InputError } from '@ohmward/quantity'
import { mustCover } from '../parts/curve.js'
import { limitNames } from '../parts/index.js'
import type { ReadDecoupling } from './choice.js'

/** Combinations without an answer, each said plainly. */
export function refuseTogether({ source, capacitors, load, logicRail }: ReadDecoupling): void {
  const { inductance, currentLimit } = source
  const least = leastOf(source)
  const own = { cell: 'source.source.resistance', port: 'source.source.leadResistance', plain: 'source.resistance' }
  const field = own[source.kind]
  const branches = logicRail?.behind === 'resistor' ? [] : capacitors
  const series = Math.max(0, ...capacitors.map((c) => c.fields.seriesResistance.lower))
  if (least === 0 && inductance.lower === 0) {
    const hint = 'A source without resistance and inductance never sags: there is nothing to size'
    throw new InputError({ field, value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  if (least === 0 && series === 0) {
    const hint = 'Source resistance 0 with series resistance 0 rings for ever: give one of them'
    throw new InputError({ field, value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  const isInductive =
    currentLimit === undefined &&
    inductance.upper > 0 &&
    branches.length > 0 &&
    branches.every((c) => c.fields.seriesInductance.upper > 0)
  if (isInductive && load.kind !== 'power' && (load.rise === 0 || load.fall === 0)) {
    const hint = 'With inductance in the loop and in every capacitor a current cannot jump'
    const slope = load.rise === 0 ? 'load.rise' : 'load.fall'
    throw new InputError({ field: slope, value: 0, unit: 's', allowed: 'more than 0 s', hint })
  }
}

/** Least resistance from the source to the rail. */
function leastOf(source: ReadDecoupling['source']): number {
  if (source.kind === 'plain') return source.resistance.lower
  const own = source.kind === 'cell' ? source.cell.resistance.lower : source.leadResistance.lower
  return source.path.reduce((sum, { resistance }) => sum + resistance.lower, own)
}

/** The least that parts and edges have where they have any. */
const least = { ohm: 1e-6, H: 1e-12, s: 1e-9 } as const

/** Resistances, inductances and edges that are neither none nor those of any part. */
export function refuseTooSmall({ source, capacitors, load, given }: ReadDecoupling): void {
  const must = (field: string, unit: keyof typeof least, value: number): void => {
    if (value === 0 || value >= least[unit]) return
    throw new InputError({ field, value, unit, allowed: `0 ${unit}, or at least ${format(least[unit], unit)}` })
  }
  const names = placesOf(given.choice)
  capacitors.forEach(({ fields }, k) => {
    must(`${names[k]}.seriesResistance`, 'ohm', fields.seriesResistance.lower)
    must(`${names[k]}.seriesResistance`, 'ohm', fields.seriesResistance.upper)
    must(`${names[k]}.seriesInductance`, 'H', fields.seriesInductance.lower)
    must(`${names[k]}.seriesInductance`, 'H', fields.seriesInductance.upper)
  })
  if ('inductance' in source) {
    must('source.inductance', 'H', source.inductance.lower)
    must('source.inductance', 'H', source.inductance.upper)
  }
  must('load.rise', 's', load.rise)
  must('load.fall', 's', load.fall)
}

/** A protection that trips by the drop across its own switches needs their resistance. */
export function refuseProtection({ source, insertion }: ReadDecoupling): void {
  const element = source.path[source.protection]
  if (element !== undefined && element.resistance.lower === 0) {
    const field = `source.path[${source.protection}].resistance`
    const hint = 'The protection trips by the drop across its own switches'
    throw new InputError({ field, value: 0, unit: 'ohm', allowed: 'more than 0 ohm', hint })
  }
  if (insertion.shortVoltage.upper === 0 || element !== undefined) return
  const hint = 'The protection trips by the drop across its own switches: give its element of source.path a tripVoltage'
  const { nominal: value } = insertion.shortVoltage
  throw new InputError({ field: 'insertion.shortVoltage', value, unit: 'V', allowed: '0 V', hint })
}

/** Curves that don't cover the conditions: nothing is guessed beyond their points. */
export function refuseUncovered({ source, capacitors, openCircuit, ambient, given }: ReadDecoupling): void {
  if (source.kind === 'cell') {
    const { x, y } = source.cell.temperatureFactor
    mustCover({ at: x, factor: y }, 'source.source.temperatureFactor', 'celsius', ambient)
    refuseCells(source, openCircuit)
  }
  const names = placesOf(given.choice)
  capacitors.forEach(({ bias, temperature, cold }, k) => {
    mustCover(bias, `${names[k]}.bias`, 'volts', { from: 0, to: openCircuit.to })
    mustCover(temperature, `${names[k]}.temperature`, 'celsius', ambient)
    mustCover(cold, `${names[k]}.cold`, 'celsius', ambient)
  })
}

/** A voltage that so many cells don't have: their resistance would be that of fewer. */
function refuseCells(
  { cell }: Extract<ReadDecoupling['source'], { kind: 'cell' }>,
  { to }: { readonly to: number },
): void {
  const most = (cell.openCircuit.y[cell.openCircuit.y.length - 1]! + cell.openCircuitSpread.upper) * cell.inSeries
  if (to <= 1.1 * most) return
  const hint = `That voltage takes more than ${cell.inSeries} in series`
  throw new InputError({ field: 'openCircuit.to', value: to, unit: 'V', allowed: `at most ${most} V`, hint })
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
