import { exact, type Spread } from '@ohmward/quantity'
import { chargeAt, currentLimits, pathAt, type ReadElement, type ReadSupply, usualTripShare } from '@ohmward/supply'
import { elementGain } from '@ohmward/supply/formulas'
import { mainRail } from '../design/rails.js'
import type { ReadDesign } from '../design/record.js'
import { coefficientOf } from '../design/warm-path.js'
import { conductingIn, type Edges } from '../pulse/conducting.js'
import { pulseGain } from '../pulse/pulse.js'
import { beforeBoard, behindBoard, scaled, sumOf } from '../supply/path.js'
import { drawOf } from '../supply/rails.js'
import type { SolvedSpan } from '../supply/solve.js'
import type { ReadyRow } from './ready-row.js'

/**
 * Limits on the current of cells and path, at the largest duty for long and while it is on, with all that is on beside the
 * load, and how hot the path gets. A switch that is off late lengthens each pulse. Pitfalls K03, K11.
 *
 * @param edges - delay and edge of the switch, s
 */
export function supplyRows(design: ReadDesign, solved: SolvedSpan, edges: Edges | undefined): ReadyRow[] {
  const { supply, pwm } = design
  const { before, behind } = stretchesOf(design)
  const { to: duty } = conductingIn(design, edges, pwm.duty.to)
  const share = Math.sqrt(duty)
  const idle = drawOf(design, mainRail)
  const rms = sumOf([scaled(solved.current, share), idle])
  if (behind === undefined) return rowsOf(supply, rms, solved, idle)
  // Behind the board flows what the capacitors of the rail give as well, and not what is always on.
  const gain = Math.sqrt(pulseGain(design, solved, duty).power)
  const nothing = exact(0)
  return [
    ...rowsOf(before, rms, solved, idle),
    ...rowsOf(behind, scaled(solved.current, share * gain), solved, nothing, true),
  ]
}

/** A supply up to the board, and what of it is behind the board, if anything is. */
interface Stretches {
  readonly before: ReadSupply
  readonly behind: ReadSupply | undefined
}

/** By design: a supply that was looked at once is known again as this object, and each row asks whether it is one. */
const stretches = new WeakMap<ReadDesign, Stretches>()

function stretchesOf(design: ReadDesign): Stretches {
  const { supply, board } = design
  const path = supply.path ?? []
  const behind = behindBoard(path, board)
  const found = stretches.get(design) ?? {
    before: { ...supply, path: [...beforeBoard(path, board)] },
    behind: behind.length === 0 ? undefined : { ...supply, path: [...behind] },
  }
  stretches.set(design, found)
  return found
}

/** The rows of a stretch of the path, and of the source before it unless it lies behind the board. */
function rowsOf(
  supply: ReadSupply,
  rms: Spread,
  { current: own, span }: SolvedSpan,
  idle: Spread,
  isBehind = false,
): ReadyRow[] {
  const current = sumOf([own, idle])
  const { nominal, upper } = current
  const ofPath = new Set((supply.path ?? []).map(({ name }) => name))
  const limits = currentLimits(supply, rms, current, span.celsius.to).filter(
    ({ name }) => !isBehind || ofPath.has(name),
  )
  const held = limits.map(({ name, what, limit, slack }): ReadyRow => {
    const id = `${what} of ${name}`.replace(/\W+/g, '-')
    const said = what === 'trip' ? tripName(name) : `${what} of ${name}`
    const text = { id, name: said, unit: 'A', sense: 'at most', catches: ['K03', 'K11'] } as const
    const isMost = what === 'pulse current' || what === 'trip'
    const middle = isMost ? nominal : rms.nominal
    const row = { kind: 'plain', ...text, worst: limit - slack, limit, nominal: Math.min(middle, upper) } as const
    return { id: `supply/${id}`, row }
  })
  return [...held, ...heatRows(supply, rms, span)]
}

/** A burst may use a share of the lowest trip current, and no more. */
const tripName = (name: string): string => `${Math.round(100 * usualTripShare)} % of the lowest trip of ${name}`

/**
 * Elements of the path whose highest temperature is known: the loss that they stand there against that of the current. One that runs away
 * has no temperature to be held, and fails by that.
 */
function heatRows(supply: ReadSupply, rms: Spread, { celsius }: SolvedSpan['span']): ReadyRow[] {
  const warmed = (supply.path ?? []).filter(({ thermalResistance }) => thermalResistance !== undefined)
  return pathAt(warmed, rms, celsius.to).flatMap(({ name, celsius, temperatureSlack }, i): ReadyRow[] => {
    const limit = warmed[i]!.highestCelsius
    if (limit === undefined && celsius === 'runs away') return [runawayRow(warmed[i]!, rms)]
    if (temperatureSlack === null || limit === undefined) return []
    const text = {
      id: temperatureId(name),
      name: `temperature of ${name}`,
      unit: 'degC',
      sense: 'at most',
      catches: ['K03'],
    } as const
    return [{ id: `supply/${text.id}`, row: { kind: 'plain', ...text, worst: limit - temperatureSlack, limit } }]
  })
}

/** Id of the row of a protection's trip. */
export const tripId = (element: string): string => `trip of ${element}`.replace(/\W+/g, '-')

/** Ids of the rows of an element that a current warms. */
export const temperatureId = (element: string): string => `temperature of ${element}`.replace(/\W+/g, '-')
export const runawayId = (element: string): string => `runaway of ${element}`.replace(/\W+/g, '-')

/** An element that runs away at this current: against the largest at which it would settle. */
function runawayRow(element: ReadElement, { upper: worst, nominal }: Spread): ReadyRow {
  const { name, thermalResistance: R_thel, resistance, temperatureCoefficient } = element
  const alpha_el = coefficientOf(temperatureCoefficient).upper
  const settles = 1 / Math.sqrt(elementGain({ R_thel: R_thel!, I_el: 1, R_20: resistance.upper, alpha_el }))
  // At that current itself it doesn't settle either.
  const limit = Math.min(settles, worst * (1 - Number.EPSILON))
  const id = runawayId(name)
  const said = `rms current through ${name} before thermal runaway`
  const text = { id, name: said, unit: 'A', sense: 'at most', catches: ['K03'] } as const
  return { id: `supply/${id}`, row: { kind: 'plain', ...text, worst, limit, nominal } }
}

/** Share of a full charge down to the cut-off, of the cells that come to it first; all of it for a port. */
export const toCutOff = ({ supply: { source } }: ReadDesign): number =>
  source.kind === 'cell' ? 1 - chargeAt(source, source.lowestVoltage).upper : 1

/** Where nothing but their protection stops the cells, it must act above damage on every board. Pitfall K05. */
export function protectionRow({ supply: { source }, monitor }: ReadDesign): ReadyRow[] {
  if (source.kind !== 'cell' || source.protectionVoltage === undefined || monitor !== undefined) return []
  const { protectionVoltage, damageVoltage: limit } = source
  const text = {
    id: 'protection',
    name: 'cell protection cut-off, above damage voltage',
    unit: 'V',
    sense: 'at least',
    catches: ['K05'],
  } as const
  const { lower: worst, nominal } = protectionVoltage
  return [{ id: 'supply/protection', row: { kind: 'plain', ...text, worst, limit, nominal } }]
}

/** Charge from full to the cut-off, of the cells that come to it first. None for a port. */
export function chargeRow(design: ReadDesign): ReadyRow[] {
  const { supply, requirements } = design
  const { source } = supply
  if (source.kind !== 'cell') return []
  const text = {
    id: 'charge',
    name: 'charge from full to the cut-off',
    unit: '1',
    sense: 'at least',
    catches: [],
  } as const
  const nominal = 1 - chargeAt(source, source.lowestVoltage).nominal
  const limit = requirements.usableCharge
  return [{ id: 'supply/charge', row: { kind: 'plain', ...text, worst: toCutOff(design), limit, nominal } }]
}
