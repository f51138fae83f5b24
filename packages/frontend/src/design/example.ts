import { exampleChoice as rail } from '@ohmward/decoupling'
import { exampleConditions as around, exampleChoice as divider } from '@ohmward/divider'
import { exampleChoice as current } from '@ohmward/hall'
import { exampleChoice as switched } from '@ohmward/mosfet'
import { exampleMat } from './mat.js'
import type { Design } from './record.js'

/**
 * The sailmaker's cordless hot knife: one cell, a blade of 0.7 ohm, a P-channel switch on the high side. Its parts are the
 * examples of the blocks. It fails in two ways that can be mended: as the cell empties the amplifier saturates below the
 * largest reading, and the blade resets the controller when it comes on.
 */
export const exampleDesign = /*#__PURE__*/ (() => {
  const { pwm, otherTasks: _, ...hall } = current
  const { transistor, drive, thermal, wiring } = switched
  const { source, tap, load, limits, idle, capacitors, insertion } = rail
  return {
    version: 1,
    name: "sailmaker's hot knife",
    supply: source,
    board: tap,
    load,
    pwm,
    divider,
    hall,
    mosfet: { transistor, drive, thermal, wiring },
    decoupling: { capacitors, insertion },
    controller: {
      brownOut: limits.brownOut,
      lowestSupply: limits.clock,
      current: idle,
      internalReference: { voltage: '1.1 V ±9 %' },
    },
    monitor: {
      reads: 'at rest',
      pause: '1 min',
      lacking: 0.1,
      warning: '3.3 V',
      reduction: '3.2 V',
      stop: '3.1 V',
      latch: '3 V',
      hysteresis: '0.2 V',
      calibration: '1 %',
    },
    bursts: { time: '20 s', watchdog: '30 s', stuckEnergy: '800 J' },
    standby: [
      { name: 'controller asleep', current: '8 uA ±50 %' },
      { name: 'protection', current: '4 uA ±50 %' },
      { name: 'divider of the cell voltage', resistance: '2 Mohm' },
    ],
    requirements: { usableCharge: 0.9, standbyDays: 180, powerLimit: '20 W', powerError: '25 %' },
    ambientCelsius: around.ambientCelsius,
  } as const satisfies Design
})()

/** Designs to start from, by a short name: the knife on a cell, which fails until it is mended, and a mat on an adapter, which holds. */
export const exampleDesigns = /*#__PURE__*/ (() =>
  ({ knife: exampleDesign, mat: exampleMat }) as const satisfies Record<string, Design>)()
