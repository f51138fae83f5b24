import type { DecouplingChoice } from '@ohmward/decoupling'
import { between, readSpread, type Spread } from '@ohmward/quantity'
import { type ReadRail, type Resistor, valueAt } from '@ohmward/supply'
import { mainRail, railOf } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { drawOf } from '../supply/rails.js'

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
  const { controller, parts } = design
  const isolated = isolatedRail(design)?.limits
  if (isBare(design)) return { converter: leastRail, ...isolated }
  const brownOut = brownOutOnMain(design)
  return {
    ...isolated,
    ...(brownOut && { brownOut }),
    ...(railOf(design, 'controller') === mainRail && { clock: controller.lowestSupply }),
    ...(sensorOnMain(design) && { sensor: parts.sensor.supplyMinimum }),
  }
}

/** Time constants after which a burst finds nothing left of what a capacitor held: a thousandth. */
const settled = 7

/** The rail of a controller that stands behind the main one with a resistor and its capacitor in between. */
interface IsolatedRail {
  /** Its place in the list. */
  readonly place: number
  readonly through: Resistor
  /** What it must have there for the controller: a regulator behind it takes its dropout beside. */
  readonly limits: Limits
}

/** Undefined where its capacitor is so large that it still holds up the rail as a burst ends: then no ring comes through. */
export function isolatedRail(design: ReadDesign): IsolatedRail | undefined {
  if (design.decoupling.logicRail !== undefined) return undefined
  const { brownOut, lowestSupply } = design.controller
  let name = railOf(design, 'controller')
  let limits = { brownOut, clock: lowestSupply }
  while (name !== mainRail) {
    const place = design.rails!.findIndex((one) => one.name === name)
    const { source, through } = design.rails![place]!
    if (through.kind === 'diode') return undefined
    if (through.kind === 'resistor')
      return isMain(design, source) && !outlasts(design, through) ? { place, through, limits } : undefined
    if (through.kind === 'regulator') {
      const lost = dropoutOf(through, drawOf(design, name))
      if (lost === undefined) return undefined
      const clock = Math.max(limits.clock + lost.upper, through.lowestInput)
      limits = { brownOut: beforeRegulator(limits.brownOut, through, lost), clock }
    }
    name = source
  }
  return undefined
}

const outlasts = ({ bursts }: ReadDesign, { resistance, capacitance }: Resistor): boolean =>
  bursts !== undefined && bursts.time < settled * resistance.upper * capacitance.upper

/**
 * That rail as the capacitors of the main one have it: what rings there when the load comes goes through the resistor as far as the capacitor
 * behind it lets it.
 */
export function logicOf(design: ReadDesign): Pick<DecouplingChoice, 'logicRail' | 'onLogicRail'> {
  const found = isolatedRail(design)
  if (found === undefined) return {}
  const { resistance, capacitance } = found.through
  const current = drawOf(design, design.rails![found.place]!.name).upper
  const logicRail = { behind: 'resistor', resistance, capacitance: capacitance.lower, current } as const
  return { logicRail, onLogicRail: ['brownOut', 'clock'] }
}

const sensorOnMain = (design: ReadDesign): boolean => {
  const { sensorSupply = 'rail' } = design.hall
  return railOf(design, 'sensor') === mainRail && sensorSupply === 'rail'
}

/** Whether neither controller nor sensor lives on the main rail or follows it. */
export const isBare = (design: ReadDesign): boolean => brownOutOnMain(design) === undefined && !sensorOnMain(design)

/** Main rail at which the controller comes to its brown-out threshold, V; undefined behind what holds its rail by a capacitor of its own. */
function brownOutOnMain(design: ReadDesign): Spread | undefined {
  let name = railOf(design, 'controller')
  let { brownOut } = design.controller
  while (name !== mainRail) {
    const rail: ReadRail = design.rails!.find((one) => one.name === name)!
    const { through } = rail
    if (through.kind === 'diode' || through.kind === 'resistor') return undefined
    if (through.kind === 'regulator') {
      const lost = dropoutOf(through, drawOf(design, name))
      if (lost === undefined) return undefined
      brownOut = beforeRegulator(brownOut, through, lost)
    }
    name = rail.source
  }
  return brownOut
}

/** Input of a regulator at which its output comes to a threshold, V. The least dropout may be none. */
function beforeRegulator(
  threshold: Spread,
  { lowestInput }: Regulator,
  lost: { readonly nominal: number; readonly upper: number },
): Spread {
  const lower = Math.max(threshold.lower, lowestInput)
  const nominal = Math.max(threshold.nominal + lost.nominal, lowestInput)
  const upper = Math.max(threshold.upper + lost.upper, lowestInput)
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
export const regulatorsOnMain = (design: ReadDesign): { name: string; place: number; through: Regulator }[] =>
  (design.rails ?? []).flatMap(({ name, source, through }, place) =>
    through.kind === 'regulator' && isMain(design, source) ? [{ name, place, through }] : [],
  )

/** Whether a rail is the main one, or hangs on it with nothing in between. */
function isMain(design: ReadDesign, name: string): boolean {
  const rail = design.rails?.find((one) => one.name === name)
  return rail === undefined || (rail.through.kind === 'direct' && isMain(design, rail.source))
}
