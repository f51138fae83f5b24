import { exampleConverters } from '@ohmward/adc'
import * as decoupling from '@ohmward/decoupling'
import * as divider from '@ohmward/divider'
import * as frontend from '@ohmward/frontend'
import * as hall from '@ohmward/hall'
import * as mosfet from '@ohmward/mosfet'
import { plusMinus } from '@ohmward/quantity'
import * as supply from '@ohmward/supply'
import type { Call } from './call.js'

const converter = exampleConverters['12-bit controller converter']
const cell = { rail: { from: 3, to: 4.2 }, ambientCelsius: { from: 0, to: 50 } }
const quick = { simulation: false }

const dividerChoice = {
  load: { from: '0.5 ohm', to: '1.2 ohm', nominal: '0.7 ohm' },
  error: '3 %',
  reference: '47 ohm ±1 %',
  gainResistors: { feedback: '22 kohm ±1 %', ground: '1 kohm ±1 %' },
  excitationSwitch: { resistance: '1 ohm ±50 %', currentLimit: '0.2 A' },
  surroundings: { leadResistance: '20 mohm ±50 %' },
  amplifier: divider.exampleAmplifiers.zeroDrift,
  converter,
}
const hallChoice = {
  sensor: hall.exampleSensors.wideSupplyOneWay,
  converter,
  current: { from: 0, to: '6 A' },
  errors: [{ at: '6 A', allowed: '6 %' }],
  pwm: { frequency: '1 kHz', duty: { from: 0.1, to: 0.9 } },
  filter: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' },
  calibration: { kind: 'zero' },
  trip: { current: '8 A', normal: '6.5 A', withstand: '10 A' },
}

const knife = supply.exampleSupplies['hot knife, one cell']
const read = supply.readSupply(knife)
const readCell = supply.readCell(supply.exampleCells['high-drain cylindrical cell'])

const standby = supply.readStandby([{ name: 'sensor', current: '13 mA' }])

/** Calls of supply, blocks and the whole, each with arguments that are taken. Checks without simulation, for speed. */
export const callsOfBlocks: readonly Call[] = [
  ['supply.readCell', supply.readCell, [supply.exampleCells['high-drain cylindrical cell']]],
  ['supply.readSupply', supply.readSupply, [knife]],
  [
    'supply.readRail',
    supply.readRail,
    [{ name: 'logic', source: 'main', through: supply.exampleRails['linear regulator, 3.0 V'] }],
  ],
  ['supply.readLoad', supply.readLoad, [{ kind: 'pwm', resistance: '0.7 ohm ±5 %', duty: 0.5 }]],
  ['supply.readStandby', supply.readStandby, [[{ name: 'sensor', current: '13 mA' }]]],
  ['supply.cellsAt', supply.cellsAt, [readCell, { charge: 0.5, celsius: 20, age: 0 }]],
  ['supply.capacityAt', supply.capacityAt, [readCell, 0.5]],
  ['supply.chargeAt', supply.chargeAt, [readCell, 3.7]],
  ['supply.sourceAt', supply.sourceAt, [read, { charge: 0.5, celsius: 20, age: 0 }]],
  ['supply.cellCondition', supply.cellCondition, [readCell, 3.7]],
  ['supply.pulseLimit', supply.pulseLimit, [readCell]],
  [
    'supply.cutOffAt',
    supply.cutOffAt,
    [
      readCell,
      {
        threshold: plusMinus(3.1, 0.05),
        reads: { current: 8, resistance: 0.05 },
        current: plusMinus(8, 1),
        resistance: plusMinus(0.1, 0.02),
        hysteresis: plusMinus(0.5, 0.05),
        brownOut: plusMinus(2.7, 0.1),
      },
    ],
  ],
  ['supply.currentLimits', supply.currentLimits, [read, plusMinus(4, 1), plusMinus(8, 1), 40, 0.7]],
  ['supply.usableBetween', supply.usableBetween, [readCell, { from: 4, to: 3.2 }, 0.5]],
  ['supply.voltageOver', supply.voltageOver, [readCell, { from: 0.2, to: 1 }]],
  [
    'supply.sourceOver',
    supply.sourceOver,
    [read, { charge: { from: 0.2, to: 1 }, celsius: { from: 0, to: 50 }, age: { from: 0, to: 1 }, tap: 'board' }],
  ],
  ['supply.shelfLife', supply.shelfLife, [readCell, standby, { charge: 0.9, age: 0.5 }]],
  [
    'supply.burstsOf',
    supply.burstsOf,
    [read, { load: { kind: 'resistance', R_L: 0.7 }, time: 3, from: 1, to: 0.2, celsius: 20 }],
  ],
  ['divider.checkDivider', divider.checkDivider, [dividerChoice, cell, quick]],
  ['hall.checkHall', hall.checkHall, [hallChoice, cell, quick]],
  ['mosfet.checkMosfet', mosfet.checkMosfet, [mosfet.exampleChoice, mosfet.exampleConditions, quick]],
  [
    'decoupling.checkDecoupling',
    decoupling.checkDecoupling,
    [decoupling.exampleChoice, decoupling.exampleConditions, quick],
  ],
  ['frontend.readDesign', frontend.readDesign, [frontend.exampleDesign]],
  ['frontend.checkDesign', frontend.checkDesign, [frontend.exampleDesign, { charges: 2 }]],
  ['frontend.previewDesign', frontend.previewDesign, [frontend.exampleDesign, { charges: 2 }]],
]
