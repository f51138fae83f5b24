import type { AnyFormula } from '@ohmward/budget'
import { checkMosfet, mosfet, mosfetChanges, sweepMosfet } from '@ohmward/mosfet'
import * as formulasOf from '@ohmward/mosfet/formulas'
import type { Arguments, Block } from '../.vitepress/theme/block.ts'
import { statedBy } from '../.vitepress/theme/form/symbols.ts'
import { evenly, sweepOver } from '../.vitepress/theme/sweep.ts'
import { form } from './form.ts'
import { size } from './sizing.ts'

const assess = ({ choice, conditions }: Arguments, simulation: boolean) =>
  checkMosfet(choice, conditions, simulation ? {} : { simulation: false })

const formulas = Object.values(formulasOf).filter(
  (one) => typeof one === 'function' && 'expression' in one,
) as AnyFormula[]
const stated = statedBy(form)

/** The MOSFET switch: what computes. */
export const block: Block = {
  ...form,
  check: assess,
  sweep: ({ choice, conditions }) => {
    // Plain numbers or a supply: either has a voltage at rest.
    const { from, to } = mosfet.read(choice, conditions).openCircuit
    return sweepOver(
      {
        quantity: 'cell voltage at rest',
        symbol: 'V_oc',
        unit: 'V',
        points: evenly(to, 0.75 * from, 13),
        first: 'gate-drive',
        asked: [from, to],
      },
      (volts) => sweepMosfet(choice, conditions, [{ openCircuit: volts }])[0]!.margins,
    )
  },
  changes: ({ choice, conditions }) => mosfetChanges(choice, conditions),
  size,
  formulas: () => formulas,
  units: { ...stated.units, q_R: '1', V_oc: 'V', R_s: 'ohm', R_L: 'ohm' },
  names: {
    ...stated.names,
    q_R: 'transistor: its on-resistance, between typical and guaranteed maximum',
    V_oc: 'cell voltage at rest',
    R_s: 'cell, contacts and wiring',
    R_L: 'blade',
    R_thJA: 'thermal resistance from junction to ambient',
    R_thDC: 'thermal resistance from junction to ambient, steady',
    R_p: 'pull-up or pull-down',
    V_drop: 'drive: voltage lost when switched on',
    R_g: 'gate resistor',
    T_a: 'ambient',
    D: 'duty',
  },
}
