import type { AnyFormula, Fill, InputSet, Row } from '@ohmward/budget'
import type { Input } from '@ohmward/quantity'
import type { ReadChoice } from '../choice.js'
import {
  amplifierOnRail,
  correctedResistance,
  excitationFromRail,
  excitationFromReference,
  matchedFeedback,
  matchedLower,
  matchedUpper,
  ownReference,
  referenceOnRail,
  zeroedResistance,
} from '../formulas/index.js'
import { type DifferenceWorkspace, differenceChain, followAtRail } from './difference.js'
import { inputErrors } from './further.js'
import { follow, groundedChain, type Workspace } from './grounded.js'
import { calibrationInputs, inputsOf } from './inputs.js'
import { type Any, putAtRail, putBench, putGrounded, putMoment, putOwn, putSteady, putUse, steady } from './put.js'

/** Values of a reading by symbol, inputs and computed ones. */
export type Place = Readonly<Record<string, number>>

/** A choice made ready for the engines: its inputs, and models over them. */
export interface Plan {
  readonly inputs: InputSet
  /** Inputs that are conditions to cover. */
  readonly conditions: readonly string[]
  /** Fills the places of work from row `i`; the models take what it returns. */
  readonly row: Row<string>
  /** The result in many rows: a loop of the block's own, for simulation. */
  readonly fill: Fill<string>
  /** What the firmware shows in ohms: indicated, and corrected where there is a calibration. */
  readonly result: (x: Place) => number
  /** An indicated resistance corrected by the calibration in the row at hand. */
  readonly correct: (R_ind: number) => number
  /** The reading of interest followed, every value by symbol. */
  readonly reading: (x: Place) => Place
  /** The reading of a short at the calibration; undefined without one. */
  readonly zero: ((x: Place) => Place) | undefined
  /** The reading of the known resistor at the calibration; undefined without one. */
  readonly span: ((x: Place) => Place) | undefined
  /** The chain's formulas in the order of calculation. */
  readonly formulas: readonly AnyFormula[]
  /** What it takes to read the load once more, at other conditions: for thermometry. */
  readonly chain: Chain
  /** Puts the parts of one row into a workspace of the chain. */
  readonly put: (y: any, c: Any, i: number) => void
}

/** One of the two chains. */
export interface Chain<Y extends Workspace | DifferenceWorkspace = any> {
  readonly workspace: () => Y
  readonly put: (y: Y, c: Any, i: number) => void
  readonly follow: (y: Y) => number
  readonly formulas: readonly AnyFormula[]
}

const grounded = (): Chain<Workspace> => ({
  workspace: groundedChain.place,
  put: putGrounded,
  follow,
  formulas: groundedChain.formulas,
})
const atRail = (): Chain<DifferenceWorkspace> => ({
  workspace: differenceChain.place,
  put: putAtRail,
  follow: followAtRail,
  formulas: differenceChain.formulas,
})

/**
 * Makes a choice ready for the engines. Its models share places of work that each call of `row` fills anew, so that a
 * simulation allocates nothing; a plan serves one engine at a time.
 */
export function planOf(choice: ReadChoice): Plan {
  const chain: Chain = choice.topology === 'load at ground' ? grounded() : atRail()
  const { kind } = choice.calibration
  const { isOneNode } = choice
  const tags = kind === 'none' ? [] : kind === 'zero' ? ['z'] : ['z', 's']
  const further = inputErrors(choice)
  const inputs = { ...inputsOf(choice, tags), ...further.inputs, ...calibrationInputs(choice) }
  const isSteady = steady.every((symbol) => isExact(inputs[symbol]!))
  const put = (y: any, c: Any, i: number) => {
    if (i === 0 || !isSteady) putSteady(y, c, i)
    chain.put(y, c, i)
  }
  const supply = inputs['V_amp']
  const varies = typeof supply === 'object' && supply.lower < supply.upper

  const now = chain.workspace()
  const zero = chain.workspace()
  const span = chain.workspace()
  let R_caln = 0
  const row = (c: Any, i: number) => {
    put(now, c, i)
    putMoment(now, c, i, c.R_x![i]!, c.T_d![i]!, c.V_rail![i]!, isOneNode)
    putUse(now, c, i)
    further.put(now, c, i)
    if (kind !== 'none') {
      put(zero, c, i)
      putMoment(zero, c, i, c.R_short![i]!, c.T_c![i]!, c.V_railc![i]!, isOneNode)
      putBench(zero)
      putOwn(zero, i, c.V_nz!, c.e_qz!, c.e_nz!, c.e_INLz!, c.s_setz!)
    }
    if (kind === 'zero and span') {
      put(span, c, i)
      putMoment(span, c, i, c.R_cal![i]!, c.T_c![i]!, c.V_railc![i]!, isOneNode)
      putBench(span)
      putOwn(span, i, c.V_ns!, c.e_qs!, c.e_ns!, c.e_INLs!, c.s_sets!)
      R_caln = c.R_caln![i]!
    }
    return now as unknown as Place
  }
  const correct = (R_ind: number) => {
    if (kind === 'none') return R_ind
    const R_z = chain.follow(zero)
    if (kind === 'zero') return zeroedResistance({ R_ind, R_z })
    return correctedResistance({ R_ind, R_z, R_s: chain.follow(span), R_caln })
  }
  const fill: Fill<string> = (c, out, n) => {
    for (let i = 0; i < n; i++) {
      row(c, i)
      out[i] = correct(chain.follow(now))
    }
  }
  return {
    inputs,
    conditions: ['V_rail', 'T_d', ...(varies ? ['V_amp'] : [])],
    row: row as unknown as Row<string>,
    fill,
    result: () => correct(chain.follow(now)),
    correct,
    reading: () => {
      chain.follow(now)
      return now as unknown as Place
    },
    zero:
      kind === 'none'
        ? undefined
        : () => {
            chain.follow(zero)
            return zero as unknown as Place
          },
    span:
      kind === 'zero and span'
        ? () => {
            chain.follow(span)
            return span as unknown as Place
          }
        : undefined,
    formulas: [
      ...(inputs['V_exc'] === undefined && !isOneNode ? [excitationFromRail] : []),
      ...(inputs['V_amp'] === undefined ? [amplifierOnRail] : []),
      inputs['V_ref0'] === undefined ? referenceOnRail : ownReference,
      ...(isOneNode ? [excitationFromReference] : []),
      ...(choice.gainResistors.ratioTolerance === undefined
        ? []
        : choice.topology === 'load at ground'
          ? [matchedFeedback]
          : [matchedUpper, matchedLower]),
      ...further.formulas,
      ...chain.formulas,
    ],
    chain,
    put,
  }
}

const isExact = (input: Input) =>
  typeof input === 'number' || (typeof input === 'object' && input.lower === input.upper)
