import { type AnyFormula, type ComputedBy, chain, type PlaceOf, type Values } from '@ohmward/budget'
import { demand, demandFinite, InputError } from '@ohmward/quantity'
import * as f from '../formulas/index.js'
import { type Flags, flagsOf, type Topology, topologies } from './topology.js'

/** The chain with the most symbols; the others compute of these what their topology has. One place serves them all. */
const fullest = /*#__PURE__*/ chain(
  [
    f.sensorOnRail,
    f.ownReference,
    f.supplyShift,
    f.supplyRatio,
    f.ratiometricZero,
    f.ratiometricSensitivity,
    f.outputShift,
    f.ratiometricShift,
    f.onCurrent,
    f.wantedOn,
    f.wantedOff,
    f.highestOutput,
    f.outputOn,
    f.outputOff,
    f.sourceResistance,
    f.dividerRatio,
    f.filterTime,
    f.unsettledShare,
    f.sampledOutput,
    f.missedVoltage,
    f.pinVoltage,
    f.highestPin,
    f.idealCode,
    f.convertedCode,
    f.clippedCode,
    f.zeroCode,
    f.countCurrent,
    f.indicatedCurrent,
  ],
  ['w_x'],
)

/** A chain's place of work: its inputs, and beside them the values that it computes, all by symbol. */
export type Workspace = PlaceOf<typeof fullest.formulas, 'w_x'>

/** What a chain may need, by symbol; which of it, its formulas say. */
export type ChainInputs = Partial<Values<keyof Workspace>>

/** What the chain computes, by symbol. */
export type Reading = Values<ComputedBy<typeof fullest.formulas>>

/** A place in which nothing stands yet, of one shape for all topologies: with several, a check takes twice the time. */
export const workspace = (): Workspace => fullest.place()

/** A chain from the true current to the indicated one, in place: it reads the inputs of `y` and leaves every value there. */
export interface Chain {
  /** The sensor alone, as far as what it wants to put out and how far it can. */
  readonly output: (y: Workspace) => void
  /** The indicated current in amperes; with a highest output of its own in the place of that which the supply leaves, V. */
  readonly follow: (y: Workspace, highest?: number) => number
  /** The same without the limits of sensor and converter: a straight line in the current. */
  readonly followLine: (y: Workspace) => number
  /** The formulas of `follow` in the order of calculation. */
  readonly formulas: () => readonly AnyFormula[]
}

function before(y: Workspace, { ratiometric, ownSupply, ownReference, averaged }: Flags): void {
  if (!ownSupply) y.V_s = f.sensorOnRail(y)
  y.V_ref = ownReference ? f.ownReference(y) : f.referenceOnRail(y)
  y.x_s = f.supplyShift(y)
  y.r_s = f.supplyRatio(y)
  y.V_q = ratiometric ? f.ratiometricZero(y) : f.fixedZero(y)
  y.S = ratiometric ? f.ratiometricSensitivity(y) : f.fixedSensitivity(y)
  y.V_e = f.outputShift(y)
  y.V_es = ratiometric ? f.ratiometricShift(y) : f.fixedShift(y)
  y.I_on = averaged ? f.onCurrent(y) : f.windowCurrent(y)
  y.V_want = f.wantedOn(y)
  y.V_rest = f.wantedOff(y)
  y.V_hi = f.highestOutput(y)
}

function between(y: Workspace, { averaged, divided }: Flags): void {
  y.R_src = divided ? f.sourceResistance(y) : f.plainSourceResistance(y)
  y.k_d = divided ? f.dividerRatio(y) : 1
  y.tau_f = f.filterTime(y)
  // After any time at all nothing is missing, and no exponential tells more.
  y.s_f = averaged || y.t_set === Infinity ? 0 : f.unsettledShare(y)
  y.V_f = averaged ? f.averagedOutput(y) : f.sampledOutput(y)
  y.V_sm = f.missedVoltage(y)
  y.V_pin = f.pinVoltage(y)
  y.V_top = f.highestPin(y)
  y.code_ideal = f.idealCode(y)
  y.code_c = f.convertedCode(y)
}

function after(y: Workspace): number {
  y.code_zero = f.zeroCode(y)
  y.A_count = f.countCurrent(y)
  y.I_ind = f.indicatedCurrent(y)
  return y.I_ind
}

function follow(y: Workspace, flags: Flags, highest: number | undefined): number {
  before(y, flags)
  if (highest !== undefined) y.V_hi = highest
  y.V_on = f.outputOn(y)
  y.V_off = f.outputOff(y)
  between(y, flags)
  y.code_out = f.clippedCode(y)
  return after(y)
}

function followLine(y: Workspace, flags: Flags): number {
  before(y, flags)
  y.V_on = y.V_want
  y.V_off = y.V_rest
  between(y, flags)
  y.code_out = y.code_c
  return after(y)
}

/** What stands in the place of a formula of the fullest chain; nothing where it falls away. */
const instead = ({ ratiometric, ownSupply, ownReference, averaged, divided }: Flags) =>
  new Map<AnyFormula, readonly AnyFormula[]>([
    ...(ownSupply ? ([[f.sensorOnRail, []]] as const) : []),
    ...(ownReference ? [] : ([[f.ownReference, [f.referenceOnRail]]] as const)),
    ...(ratiometric
      ? []
      : ([
          [f.ratiometricZero, [f.fixedZero]],
          [f.ratiometricSensitivity, [f.fixedSensitivity]],
          [f.ratiometricShift, [f.fixedShift]],
        ] as const)),
    ...(averaged
      ? ([
          [f.unsettledShare, []],
          [f.sampledOutput, [f.averagedOutput]],
        ] as const)
      : ([[f.onCurrent, [f.windowCurrent]]] as const)),
    ...(divided
      ? []
      : ([
          [f.sourceResistance, [f.plainSourceResistance]],
          [f.dividerRatio, []],
        ] as const)),
  ])

function formulasOf(flags: Flags): readonly AnyFormula[] {
  const others = instead(flags)
  return fullest.formulas.flatMap((one: AnyFormula) => others.get(one) ?? [one])
}

/** The chain of a topology. It allocates nothing while it runs. */
export function chainOf(topology: Topology): Chain {
  const flags = flagsOf(topology)
  return {
    output: (y) => before(y, flags),
    follow: (y, highest) => follow(y, flags, highest),
    followLine: (y) => followLine(y, flags),
    formulas: () => formulasOf(flags),
  }
}

/** What is nothing unless it is stated. */
const seldom = { e_Sa: 0, V_oa: 0, V_add: 0, e_add: 0, n_miss: 0 } as const

/** Every formula of any topology's chain, the difference from a reading of the zero included, each once. */
export const chainFormulas = (): readonly AnyFormula[] => [
  ...new Set([...topologies.flatMap((topology) => formulasOf(flagsOf(topology))), f.zeroedCurrent]),
]

/**
 * Every value on the way from the true current to the indicated one.
 *
 * @throws InputError naming the first input that the topology's chain needs and that isn't given, or that is no number, or the value that isn't finite
 */
export function readingOf(x: ChainInputs, topology: Topology): Reading {
  demand(typeof x === 'object' && x !== null, { field: 'x', value: x, allowed: 'numbers by symbol' })
  demand(typeof topology === 'object' && topology !== null, {
    field: 'topology',
    value: topology,
    allowed: 'the words for output, supply, reference and reading, and whether there is a divider',
  })
  for (const [symbol, value] of Object.entries(x)) {
    // What never comes is infinitely late.
    const isNumber = typeof value === 'number' && !Number.isNaN(value)
    demand(isNumber, { field: symbol, value, allowed: 'a number' })
  }
  const made = chainOf(topology)
  const y = Object.assign(workspace(), { k_d: 1, ...seldom }, x)
  const missing = chain(made.formulas()).inputs.find((symbol) => Number.isNaN(y[symbol as keyof Workspace]))
  if (missing !== undefined) {
    throw new InputError({ field: missing, value: x[missing as keyof Workspace], allowed: 'a number' })
  }
  made.follow(y)
  // What this topology doesn't compute stays without a value.
  for (const { symbol } of made.formulas()) demandFinite(symbol, y[symbol as keyof Workspace])
  return Object.fromEntries(fullest.computed.map((symbol) => [symbol, y[symbol]])) as Reading
}
