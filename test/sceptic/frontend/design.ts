import { type Design, exampleDesign } from '@ohmward/frontend'
import { type Box, eitherSign, within } from '../tools/board.js'

/** What a whole board is made of, by names of the model's own. */
export type Value =
  | 'cellOff'
  | 'cell'
  | 'aging'
  | 'contacts'
  | 'connector'
  | 'load'
  | 'conductor'
  | 'idle'
  | 'lot'
  | 'brownOut'
  | 'excitationSwitch'
  | 'reference'
  | 'lead'
  | 'offset'
  | 'bias'
  | 'feedback'
  | 'ground'
  | 'zeroError'
  | 'zeroSupply'
  | 'sensitivityError'
  | 'sensitivitySupply'
  | 'nonlinearity'
  | 'converterGain'
  | 'converterOffset'

/** A line through points, from the left. */
export type Points = readonly (readonly [x: number, y: number])[]

/** Curves of the cell, the same in every design; every resistance of the path is that at any temperature. */
export const curves = {
  open: [
    [0, 3],
    [0.1, 3.4],
    [0.5, 3.7],
    [1, 4.15],
  ],
  cold: [
    [0, 2.2],
    [25, 1],
    [60, 0.9],
  ],
  empty: [
    [0, 2.4],
    [0.2, 1.2],
    [1, 1],
  ],
} as const satisfies Record<string, Points>

/** Numbers of a design that no board varies. */
export interface Plain {
  readonly celsius: readonly [cold: number, warm: number]
  /** Charge down to which it must work. */
  readonly charge: number
  /** On-resistance of the switch below 2.5 V at its gate and above, typical and largest, hot as it gets, ohm. */
  readonly lines: readonly (readonly [typical: number, most: number])[]
  /** Of the contacts: growth of their resistance from 20 °C, 1/K, and thermal resistance, K/W; nothing where they stay cold. */
  readonly growth: number
  readonly thermal: number
  readonly sensorLowest: number
  /** Room that the amplifier needs below its supply, V. */
  readonly room: number
  /** Largest load that is read, and from where an open one is told, ohm. */
  readonly largest: number
  readonly open: number
  /** Where the error of the current is asked, A, and what is allowed of it, A. */
  readonly amperes: number
  readonly allowed: number
}

/** A whole design as it is given, and as the model has it. */
export interface WholeDesign {
  readonly given: Design
  readonly box: Box<Value>
  readonly plain: Plain
}

interface Wish {
  readonly load: number
  readonly path: number
  readonly brownOut: number
  readonly feedback: number
  readonly share: number
  readonly usable: number
  /** Contacts of copper that heat themselves, K/W. */
  readonly thermal?: number
}

const written = (points: Points, unit: string, of: string) =>
  points.map(([x, y]) => `${x}${of}: ${y}${unit}`).join(', ')

/** A design whose numbers are all stated here, with what is asked of it. */
function designOf({ load, path, brownOut, feedback, share, usable, thermal = 0 }: Wish): WholeDesign {
  const part = {
    cell: within(0.02, 25, 'ohm'),
    aging: within(1.8, 10, ''),
    contacts: within(path, 40, 'ohm'),
    connector: within(0.006, 40, 'ohm'),
    load: within(load, 6, 'ohm'),
    idle: within(0.02, 50, 'A'),
    brownOut: within(brownOut, 4, 'V'),
    excitationSwitch: within(0.5, 20, 'ohm'),
    reference: within(47, 0.5, 'ohm'),
    lead: within(0.02, 50, 'ohm'),
    feedback: within(feedback, 1, 'ohm'),
    ground: within(1000, 1, 'ohm'),
  }
  const { divider, hall, supply, controller } = exampleDesign
  const line = (typical: number, most: number) => `${most} ohm typ ${typical} ohm`
  const lines = [
    [0.018, 0.026],
    [0.011, 0.015],
  ] as const
  const given: Design = {
    ...exampleDesign,
    supply: {
      ...supply,
      source: {
        kind: 'cell',
        openCircuit: written(curves.open, ' V', ''),
        openCircuitSpread: '25 mV',
        openCircuitSpreadEmpty: 0,
        capacity: '4000 mAh ±4 %',
        resistance: part.cell.given,
        temperatureFactor: written(curves.cold, '', ' degC'),
        chargeFactor: written(curves.empty, '', ''),
        ageFactor: part.aging.given,
        continuousCurrent: '30 A',
        pulseCurrent: '45 A',
        lowestVoltage: 3,
      },
      path: [
        {
          name: 'contacts',
          resistance: part.contacts.given,
          ...(thermal > 0 ? { thermalResistance: thermal } : { temperatureCoefficient: 'none' as const }),
          tap: 'board',
        },
        { name: 'connector', resistance: part.connector.given, temperatureCoefficient: 'none' },
      ],
      inductance: '1 nH',
    },
    load: { resistance: part.load.given, rise: '1 ms' },
    pwm: { frequency: '100 Hz', duty: { from: 1, to: 1 } },
    divider: {
      ...divider,
      load: { from: '0.5 ohm', to: '1.2 ohm' },
      error: '35 %',
      reference: part.reference.given,
      gainResistors: { feedback: part.feedback.given, ground: part.ground.given, ratioDrift: 0 },
      excitationSwitch: { resistance: part.excitationSwitch.given, currentLimit: '0.2 A' },
      surroundings: { leadResistance: part.lead.given },
      amplifier: {
        ...divider.amplifier,
        offsetVoltage: '5 mV',
        offsetDrift: '0 uV/K',
        biasCurrent: '200 nA',
        offsetCurrent: '0 nA',
        openLoopGainDb: 140,
        commonModeRejectionDb: 140,
        supplyRejectionDb: 140,
        highOutputDrop: '1.2 V',
        supplyMinimum: '2.5 V',
      },
    },
    hall: {
      ...hall,
      sensor: {
        ...hall.sensor,
        supplyMinimum: '2.7 V',
        sensitivityError: '1.5 %',
        sensitivityDrift: '0 ppm/K',
        zeroDrift: '0 uV/K',
        hysteresis: '0 %',
        noiseDensity: '1 nV/Hz^0.5',
      },
      errors: [
        { at: '1 A', allowed: '0.3 A' },
        { at: '6 A', allowed: `${6 * share} A` },
      ],
      calibration: { kind: 'none' },
      // Always on: the resistance is read before it is switched on.
      otherTasks: [],
    },
    mosfet: {
      ...exampleDesign.mosfet,
      transistor: {
        ...exampleDesign.mosfet.transistor,
        onResistance: `1.5 V: ${line(...lines[0])}; 2.5 V: ${line(...lines[1])}`,
        temperatureLaw: { kind: 'linear', perKelvin: 0 },
      },
    },
    decoupling: { ...exampleDesign.decoupling, insertion: { contactSurge: '1 kA', railMaximum: '6 V' } },
    controller: { ...controller, brownOut: part.brownOut.given, current: part.idle.given },
    requirements: { usableCharge: usable },
    ambientCelsius: { from: 0, to: 40 },
  }
  const limits = Object.fromEntries(Object.entries(part).map(([name, { limits }]) => [name, limits]))
  const box = {
    ...(limits as { readonly [K in keyof typeof part]: (typeof part)[K]['limits'] }),
    cellOff: eitherSign(0.025),
    conductor: [0, 0.001, 0.001],
    lot: [0, 0.5, 1],
    offset: eitherSign(0.005),
    bias: eitherSign(200e-9),
    zeroError: eitherSign(0.006),
    zeroSupply: eitherSign(0.006),
    sensitivityError: eitherSign(0.015),
    sensitivitySupply: eitherSign(0.006),
    nonlinearity: eitherSign(0.002),
    converterGain: eitherSign(0.001),
    converterOffset: eitherSign(3),
  } as const satisfies Box<Value>
  const plain: Plain = {
    celsius: [0, 40],
    charge: 1 - usable,
    lines,
    // Copper about 20 °C: IEC 60028:1925.
    growth: thermal > 0 ? 0.00393 : 0,
    thermal,
    sensorLowest: 2.7,
    room: 1.2,
    largest: 1.2,
    open: 1.2 * 1.35,
    amperes: 6,
    allowed: 6 * share,
  }
  return { given, box, plain }
}

/**
 * Four designs: one short of rail, one whose amplifier is short of room, one whose sensor errs, its rail short as well, and one
 * whose contacts take most of what the rail lacks once they are hot.
 */
export const wholeDesigns: Readonly<Record<string, WholeDesign>> = {
  'a load that pulls the rail down': designOf({
    load: 0.9,
    path: 0.02,
    brownOut: 2.72,
    feedback: 6800,
    share: 0.08,
    usable: 0.93,
  }),
  'an amplifier without room': designOf({
    load: 1.1,
    path: 0.015,
    brownOut: 2.2,
    feedback: 18500,
    share: 0.08,
    usable: 0.8,
  }),
  'a sensor that errs, on a rail that sags': designOf({
    load: 0.85,
    path: 0.02,
    brownOut: 2.2,
    feedback: 6800,
    share: 0.0155,
    usable: 0.92,
  }),
  'contacts that heat themselves': designOf({
    load: 0.9,
    path: 0.06,
    brownOut: 2.62,
    feedback: 6800,
    share: 0.08,
    usable: 0.89,
    thermal: 120,
  }),
}
