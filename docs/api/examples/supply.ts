import { plusMinus } from '@ohmward/quantity'
import {
  burstsOf,
  capacityAt,
  cellChain,
  cellCondition,
  cellInputs,
  cellsAt,
  chargeAt,
  cornerOf,
  currentLimits,
  cutOffAt,
  dutyFor,
  elementsOf,
  exampleCells,
  exampleRails,
  exampleSupplies,
  exampleSupply,
  feed,
  followCell,
  followPort,
  forwardOf,
  heldThrough,
  holdUpFor,
  orderRails,
  pathAt,
  pinAt,
  placeOf,
  portChain,
  portInputs,
  powerLimit,
  publishedCurves,
  pulseLimit,
  railAt,
  readCell,
  readLoad,
  readRail,
  readStandby,
  readSupply,
  regulate,
  resistanceOf,
  shelfLife,
  solveLoad,
  sourceAt,
  sourceOver,
  spreadAt,
  spreadOf,
  stretchOf,
  sumOf,
  usableBetween,
  valueAt,
  voltageOver,
} from '@ohmward/supply'
import { burstCharge } from '@ohmward/supply/formulas'

const cell = readCell(exampleCells['high-drain cylindrical cell'])
const knife = readSupply(exampleSupply)
const path = knife.path ?? []
const cold = sourceAt(knife, { charge: 0.2, celsius: 0, age: 1 })
const weakest = cornerOf(cold, 'weakest')
const logic = readRail({ name: 'logic', source: 'main', through: exampleRails['linear regulator, 3.0 V'] })
const held = readRail({ name: 'held', source: 'main', through: exampleRails['Schottky diode with hold-up'] })
const current = plusMinus(8e-3, 2e-3)

export const examples = [
  () => {
    const { voltage, resistance } = cellsAt(cell, { charge: 0.2, celsius: 0, age: 1 })
    return { voltage, resistance }
  },
  () => [capacityAt(cell, 1), chargeAt(cell, 3.5), spreadAt(cell, 0.05), pulseLimit(cell)],
  () => [cellCondition(cell, 3.5), cellCondition(cell, 1)],
  () => ({ voltage: cold.openCircuit, resistance: cold.resistance, weakest }),
  () => solveLoad(weakest, { kind: 'resistance', R_L: 0.7 }),
  () => [powerLimit(weakest), dutyFor(weakest, 0.7, 8)],
  () => {
    const fed = feed(cold, readLoad({ kind: 'resistance', resistance: '0.7 ohm ±5 %' }))
    return fed.kind === 'possible' ? fed.rail : fed.reason
  },
  () => solveLoad({ V_oc: 11.5, R_s: 0.2 }, { kind: 'power', P_L: 20 }),
  () => sourceOver(knife, { charge: { from: 0.1, to: 1 }, celsius: { from: 0, to: 50 } }).openCircuit,
  () => voltageOver(cell, { from: 0.1, to: 1 }),
  () => pathAt(path, plusMinus(5, 0.5), 25).map(({ name, loss }) => [name, loss.nominal]),
  () => [elementsOf(path, { before: 'board' }).length, stretchOf(path, 25, { behind: 'board' }).resistance],
  () => resistanceOf(path[0]!, 60),
  () => currentLimits(knife, plusMinus(4, 0.2), plusMinus(8, 0.5), 25)[0],
  () => railAt(logic, plusMinus(3.5, 0.1), { current, celsius: 25 }),
  () => {
    const { through } = logic
    if (through.kind === 'regulator') {
      const answer = regulate(through, plusMinus(3.1, 0.1), current)
      return answer.kind === 'possible' ? answer.state : answer.reason
    }
    return undefined
  },
  () => {
    const { through } = held
    const sag = { rest: plusMinus(3.5, 0.1), time: plusMinus(0.02, 0), current, celsius: 25 }
    if (through.kind === 'diode') return [forwardOf(through, current, 25), holdUpFor(through, sag, 2.5)]
    return undefined
  },
  () =>
    heldThrough(held, {
      rest: plusMinus(3.5, 0.1),
      sag: plusMinus(2.6, 0.1),
      time: plusMinus(2e-3, 0),
      current,
      celsius: 25,
    }),
  () =>
    orderRails([
      { name: 'sensor', source: 'logic' },
      { name: 'logic', source: 'main' },
    ]).map(({ name }) => name),
  () => pinAt(plusMinus(4.2, 0.05), plusMinus(3, 0.06), plusMinus(10e3, 100)),
  () => burstsOf(knife, { load: { kind: 'pwm', R_L: 0.7, d_on: 0.6 }, time: 3, from: 1, to: 0.05, celsius: 20 }),
  () => usableBetween(cell, { from: 3.9, to: 3.2 }).charge,
  () =>
    cutOffAt(cell, {
      threshold: plusMinus(3, 0.05),
      reads: 'under load',
      current: plusMinus(4, 0.2),
      resistance: plusMinus(0.1, 0.03),
      hysteresis: plusMinus(0.4, 0.02),
      brownOut: plusMinus(2.7, 0.1),
    }).rest,
  () => {
    const standby = readStandby([
      { name: 'Hall sensor', current: '13 mA' },
      { name: 'controller asleep', current: '20 uA' },
    ])
    return shelfLife(cell, standby).daysToCutOff
  },
  () => publishedCurves['NMC 21700'].source,
  () => {
    const curve = { x: [0, 1], y: [3, 4.2] }
    return [valueAt(curve, 0.25), placeOf(curve, 3.6)]
  },
  () => spreadOf(burstCharge, { I_L: plusMinus(4, 0.2), d_on: 0.6, t_burst: 3 }),
  () => sumOf([plusMinus(4e-3, 2e-3), plusMinus(10e-3, 2e-3)]),
  () => {
    const board = cellChain.place()
    const inputs = cellInputs(cold.cells!, cold.path)
    for (const [symbol, { nominal }] of Object.entries(inputs)) board[symbol as keyof typeof inputs] = nominal
    followCell(board)
    return [board.V_oc, board.R_s]
  },
  () => {
    const { source } = readSupply(exampleSupplies['seedling mat, 12 V adapter'])
    const board = portChain.place()
    if (source.kind === 'port') {
      const inputs = portInputs(source, { resistance: plusMinus(0.02, 0.01), drop: plusMinus(0, 0) })
      for (const [symbol, { nominal }] of Object.entries(inputs)) board[symbol as keyof typeof inputs] = nominal
      followPort(board)
    }
    return [board.V_oc, board.R_s]
  },
]
