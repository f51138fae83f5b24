import { type AnyFormula, type EngineOptions, type Fill, furtherOf, type InputSet, type Row } from '@ohmward/budget'
import * as f from '../formulas/index.js'
import { groupSymbols } from '../parts/sensor.js'
import type { ReadChoice } from '../read-choice.js'
import { type Behind, behindOf } from './behind.js'
import { chainOf, workspace } from './follow.js'
import { inputsOf, rippleOf } from './inputs.js'
import { type Any, putMoment, putParts, putUse, putZero } from './put.js'

/** Values of a reading by symbol, inputs and computed ones. */
export type Place = Readonly<Record<string, number>>

/** A choice made ready for the engines: its inputs, and models over them. */
export interface Plan {
  readonly behind: Behind
  /** All inputs, without current. */
  readonly inputs: InputSet
  /** What is other at a current in amperes; a mean where the reading is averaged. */
  readonly at: (current: number) => InputSet
  /** Inputs that are conditions to cover. */
  readonly conditions: readonly string[]
  /** Terms that the data sheet states as adding linearly. */
  readonly groups: NonNullable<EngineOptions<string>['groups']>
  /** Fills the places of work from row `i`; the models take what it returns. */
  readonly row: Row<string>
  /** The result in many rows: a loop of the block's own, for simulation. */
  readonly fill: Fill<string>
  /** What the firmware shows in amperes: indicated, less the zero reading where there is one. */
  readonly result: (x: Place) => number
  /** The sensor of the reading followed, what it wants to put out and how far it can; and of the zero's, where there is one. */
  readonly output: (x: Place) => Place
  readonly zeroOutput: ((x: Place) => Place) | undefined
  /** The reading of interest followed, every value by symbol. */
  readonly reading: (x: Place) => Place
  /** The same with the sensor as high as it comes to on any supply, whatever that is. */
  readonly highest: (x: Place) => Place
  /** The zero's reading and what is left when it is taken off, after `reading`; nothing where no zero is read. */
  readonly zeroed: (x: Place) => Place
  /** The real current at which a reading of `I_set` amperes stands, clipping apart. */
  readonly tripAt: (I_set: number, x: Place) => number
  /** The chain's formulas in the order of calculation. */
  readonly formulas: () => readonly AnyFormula[]
}

/**
 * Makes a choice ready for the engines. Its models share places of work that each call of `row` fills anew, so that a
 * simulation allocates nothing; a plan serves one engine at a time.
 */
export function planOf(choice: ReadChoice): Plan {
  const { kind } = choice.calibration
  const behind = behindOf(choice)
  const { sensorSupply } = choice
  const chain = chainOf({
    output: choice.sensor.output,
    supply: sensorSupply ? 'own' : 'rail',
    reference: choice.converter.reference.kind === 'absolute' ? 'own' : 'rail',
    reading: choice.reading,
    divided: choice.divider !== undefined,
  })
  const supplyVaries = sensorSupply !== undefined && sensorSupply.lower < sensorSupply.upper

  // Voltages and currents shift the output, shares belong to the sensitivity. Nothing is known of them: a reading of the
  // zero has none of its own to take away.
  const further = furtherOf(choice.further, {
    shift: 'further errors, as output of the sensor',
    share: 'further errors of the sensitivity',
    ofCurrent: (I_add) => f.furtherShift({ S_0: choice.sensor.sensitivity.nominal, I_add }),
  })
  const none = { V_add: 0, e_add: 0 }
  const now = Object.assign(workspace(), none)
  const zero = Object.assign(workspace(), none)
  const row = (c: Any, i: number) => {
    putParts(now, c, i)
    putMoment(now, c, i, c.T_d![i]!, c.V_rail![i]!)
    putUse(now, c, i)
    further.put(now, c, i)
    if (kind !== 'none') {
      const fresh = kind === 'zero each time'
      putParts(zero, c, i)
      putMoment(zero, c, i, c.T_c ? c.T_c[i]! : now.T_d, c.V_railc ? c.V_railc[i]! : c.V_rail![i]!)
      putZero(zero, c, i, fresh)
    }
    return now
  }
  const result = () => {
    const I_ind = chain.follow(now)
    return kind === 'none' ? I_ind : f.zeroedCurrent({ I_ind, I_z: chain.follow(zero) })
  }
  const fill: Fill<string> = (c, out, n) => {
    for (let i = 0; i < n; i++) {
      row(c, i)
      out[i] = result()
    }
  }
  const tripAt = (I_set: number) => {
    const I_z = kind === 'none' ? 0 : chain.follow(zero)
    now.I_x = 0
    const I_l0 = chain.followLine(now)
    return f.actualTrip({ I_set, I_z, I_l0, g_I: f.readingSlope(now) })
  }
  return {
    behind,
    inputs: { ...inputsOf(choice, behind), ...further.inputs },
    at: (I_x) => ({ I_x, ...rippleOf(choice, behind, I_x) }),
    conditions: ['V_rail', 'T_d', ...(supplyVaries ? ['V_s'] : [])],
    groups: (choice.sensor.correlated ?? []).map((words, i) => ({
      name: `stated together ${i + 1}`,
      inputs: words.map((word) => groupSymbols[word]),
    })),
    row,
    fill,
    result,
    output: () => {
      chain.output(now)
      return now
    },
    reading: () => {
      chain.follow(now)
      return now
    },
    highest: () => {
      chain.follow(now, (sensorSupply?.upper ?? choice.rail.to) - choice.sensor.highOutputDrop.lower)
      return now
    },
    zeroed: () => {
      if (kind === 'none') return {}
      const I_z = chain.follow(zero)
      return { I_z, I_cor: f.zeroedCurrent({ I_ind: now.I_ind, I_z }) }
    },
    zeroOutput:
      kind === 'none'
        ? undefined
        : () => {
            chain.output(zero)
            return zero
          },
    tripAt,
    formulas: () => [...further.formulas, ...chain.formulas(), ...(kind === 'none' ? [] : [f.zeroedCurrent])],
  }
}
