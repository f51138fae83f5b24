import type { DecouplingChoice } from '@ohmward/decoupling'
import { between, readSpread, type Spread } from '@ohmward/quantity'
import { type ReadRail, valueAt } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { drawOf } from './rails.js'

/** A rail on which nothing lives but the load, V. */
const leastRail = 0.1

type Limits = DecouplingChoice['limits']

/**
 * What must live on the main rail under load: the controller and the sensor, where they are on it. The amplifier is read with
 * the load off; its own block holds its supply there. A controller behind a regulator needs as much more of the main rail as the regulator
 * loses: below its output the input takes that along, for its output capacitor empties backwards through the pass transistor. A rail with
 * nothing on it must still not collapse.
 */
export function limitsOf(design: ReadDesign): Limits {
  if (isBare(design)) return { converter: leastRail }
  const { controller, parts } = design
  const brownOut = brownOutOnMain(design)
  return {
    ...(brownOut && { brownOut }),
    ...(railOf(design, 'controller') === mainRail && { clock: controller.lowestSupply }),
    ...(sensorOnMain(design) && { sensor: parts.sensor.supplyMinimum }),
  }
}

const sensorOnMain = (design: ReadDesign): boolean => {
  const { sensorSupply = 'rail' } = design.hall
  return railOf(design, 'sensor') === mainRail && sensorSupply === 'rail'
}

/** Whether neither controller nor sensor lives on the main rail or follows it. */
export const isBare = (design: ReadDesign): boolean => brownOutOnMain(design) === undefined && !sensorOnMain(design)

/** Main rail at which the controller comes to its brown-out threshold, V; undefined behind what holds its rail by a capacitor of its own. */
function brownOutOnMain(design: ReadDesign): Spread | undefined {
  const { brownOut } = design.controller
  let name = railOf(design, 'controller')
  let [lower, nominal, upper] = [brownOut.lower, brownOut.nominal, brownOut.upper]
  while (name !== mainRail) {
    const rail: ReadRail = design.rails!.find((one) => one.name === name)!
    const { through } = rail
    if (through.kind === 'diode' || through.kind === 'resistor') return undefined
    if (through.kind === 'regulator') {
      const lost = dropoutOf(through, drawOf(design, name))
      if (lost === undefined) return undefined
      const { lowestInput } = through
      // The least dropout may be none.
      lower = Math.max(lower, lowestInput)
      nominal = Math.max(nominal + lost.nominal, lowestInput)
      upper = Math.max(upper + lost.upper, lowestInput)
    }
    name = rail.source
  }
  return between(lower, upper, Math.min(Math.max(nominal, lower), upper))
}

type Regulator = Extract<ReadRail['through'], { kind: 'regulator' }>

/** Dropout of a regulator at a current, V; undefined beyond what its data sheet states: another row says so. */
function dropoutOf({ dropout, dropoutResistance }: Regulator, current: Spread) {
  if (dropoutResistance !== undefined)
    return {
      nominal: current.nominal * dropoutResistance.nominal,
      upper: current.upper * dropoutResistance.upper,
    }
  if (dropout === undefined || current.upper > dropout.x[dropout.x.length - 1]!) return undefined
  return { nominal: valueAt(dropout, current.nominal), upper: valueAt(dropout, current.upper) }
}

/** What insertion and release must not hurt: of what the rail may rise to, the least that it or a regulator on it stands. */
export function insertionOf(design: ReadDesign): Pick<DecouplingChoice, 'insertion'> {
  const { insertion } = design.decoupling
  const inputs = regulatorsOnMain(design).flatMap(({ through: { highestInput } }) => highestInput ?? [])
  if (inputs.length === 0) return insertion === undefined ? {} : { insertion }
  const told = insertion?.railMaximum
  const given =
    told === undefined ? 0 : readSpread(told, { field: 'decoupling.insertion.railMaximum', unit: 'V' }).lower
  return { insertion: { ...insertion, railMaximum: Math.min(...inputs, ...(given > 0 ? [given] : [])) } }
}

/** Regulators whose input is the main rail, with their places in the list of rails. */
export function regulatorsOnMain(design: ReadDesign): { name: string; place: number; through: Regulator }[] {
  const isMain = (name: string): boolean => {
    const rail = design.rails?.find((one) => one.name === name)
    return rail === undefined || (rail.through.kind === 'direct' && isMain(rail.source))
  }
  return (design.rails ?? []).flatMap(({ name, source, through }, place) =>
    through.kind === 'regulator' && isMain(source) ? [{ name, place, through }] : [],
  )
}
