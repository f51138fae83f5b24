import * as decoupling from '@ohmward/decoupling'
import * as divider from '@ohmward/divider'
import {
  decouplingAt,
  dividerAt,
  exampleDesign,
  hallAt,
  mosfetAt,
  readDesign,
  type SolvedSpan,
  walkOf,
} from '@ohmward/frontend'
import * as hall from '@ohmward/hall'
import * as mosfet from '@ohmward/mosfet'
import { exampleSupply } from '@ohmward/supply'
import { describe, expect, it } from 'vitest'

/*
 * One reference design: what a block shows by itself is what the whole gives it. The choices are the same field by field; the
 * conditions are those from full to the charge that must be usable, as plain numbers rounded outwards.
 */

const design = readDesign(exampleDesign)
const walk = walkOf(design, { charges: 2 })
const to = Number((1 - design.requirements.usableCharge).toFixed(9))
const solved: SolvedSpan = walk.solve({ charge: { from: 1, to }, ...walk.around })

interface Ends {
  readonly from: number
  readonly to: number
}

/** One range holds the other, and is wider by a hundredth of a volt at most. */
function isAround(given: Ends, needed: Ends, unit: number) {
  expect(given.from).toBeLessThanOrEqual(needed.from)
  expect(given.from).toBeGreaterThan(needed.from - unit)
  expect(given.to).toBeGreaterThanOrEqual(needed.to)
  expect(given.to).toBeLessThan(needed.to + unit)
}

describe('the examples of the blocks are the parts of the one design', () => {
  it('the resistance', () => {
    const { choice, conditions } = dividerAt(design, solved, walk.firmware)
    // How long the switch takes is the design's.
    const { further, ...own } = choice
    const { edge, ...timing } = own.timing!
    expect({ ...own, timing }).toEqual(divider.exampleChoice)
    expect(further!.map(({ name }) => name)).toEqual(['amplifier behind a moving rail'])
    expect(edge).toBeGreaterThan(0)
    const read = divider.divider.read(divider.exampleChoice, divider.exampleConditions)
    const given = divider.divider.read(choice, conditions)
    isAround(read.rail, given.rail, 0.01)
    expect(read.ambient).toEqual(given.ambient)
  })

  it('the current', () => {
    const { choice, conditions } = hallAt(design, solved, walk.firmware)
    // What the sensor lags behind a rail that still falls is the design's, too.
    const { calibration, timing, further, ...rest } = choice
    expect(further!.every(({ name }) => name.endsWith('behind a moving supply'))).toBe(true)
    const { calibration: own, ...example } = hall.exampleChoice
    expect(Object.keys(timing!)).toEqual(['edge'])
    expect(calibration).toMatchObject(own)
    const read = hall.hall.read(hall.exampleChoice, hall.exampleConditions)
    const given = hall.hall.read({ ...rest, calibration: own }, conditions)
    expect({ ...rest, pwm: 0, otherTasks: 0 }).toEqual({ ...example, pwm: 0, otherTasks: 0 })
    expect(read.pwm).toEqual(given.pwm)
    expect(read.otherTasks).toEqual(given.otherTasks)
    isAround(read.rail, given.rail, 0.01)
    expect(read.ambient).toEqual(given.ambient)
  })

  it('the switch', () => {
    const { choice, conditions } = mosfetAt(design, solved)
    const { load, pwm, ...rest } = choice
    const { load: _, pwm: __, ...example } = mosfet.exampleChoice
    expect(rest).toEqual(example)
    expect(mosfet.exampleChoice.load.resistance).toBe(exampleDesign.load.resistance)
    const read = mosfet.mosfet.read(mosfet.exampleChoice, mosfet.exampleConditions)
    const given = mosfet.mosfet.read({ ...mosfet.exampleChoice, pwm }, conditions)
    expect([read.frequency, read.duty]).toEqual([given.frequency, given.duty])
    expect(load).toBeDefined()
    // The block by itself knows of nothing else that is on: 12 mA through the source.
    const others = design.controller.current.upper * given.sourceResistance.upper
    isAround(read.openCircuit, { ...given.openCircuit, from: given.openCircuit.from + others }, 0.01)
    const ends = ({ lower, upper }: { lower: number; upper: number }) => ({ from: lower, to: upper })
    isAround(ends(read.sourceResistance), ends(given.sourceResistance), 0.001)
    expect(read.ambient).toEqual(given.ambient)
  })

  it('the rail', () => {
    const { choice, conditions } = decouplingAt(design, solved)
    const { load, source: _, idle, limits, ...rest } = choice
    const { load: own, source, idle: __, limits: ___, ...example } = decoupling.exampleChoice
    expect(rest).toEqual(example)
    expect(load.rise).toBe(design.load.rise)
    expect(own).toEqual(exampleDesign.load)
    expect([source, exampleDesign.supply]).toEqual([exampleSupply, exampleSupply])
    const read = decoupling.decoupling.read(decoupling.exampleChoice, decoupling.exampleConditions)
    const given = decoupling.decoupling.read({ ...decoupling.exampleChoice, idle, limits }, conditions)
    for (const field of ['source', 'idle', 'limits', 'ambient', 'age'] as const) {
      expect(read[field], field).toEqual(given[field])
    }
    isAround(read.openCircuit, given.openCircuit, 1e-9)
  })
})
