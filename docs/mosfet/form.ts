import {
  driveFields,
  exampleChoice,
  exampleDrives,
  exampleTransistors,
  transistorFields,
  wiringFields,
} from '@ohmward/mosfet'
import type { Field, Form } from '../.vitepress/theme/block.ts'
import { partFields, presetTexts } from '../.vitepress/theme/part-fields.ts'

const transistor = exampleChoice.transistor
const drive = exampleChoice.drive
const volts = { unit: 'V', above: 0, max: 1000, plain: true } as const
const ambient = { unit: 'degC', min: -55, max: 200, plain: true } as const
const duty = { unit: '1', min: 0, max: 1, plain: true } as const
const plain = { unit: '1', plain: true } as const
const law = (kind: string) => ({ id: 'choice.transistor.temperatureLaw.kind', is: [kind] })
const only = (...is: string[]) => ({ id: 'choice.drive.kind', is })

/** The parts whose fields the form shows, by the library's own tables. */
export const parts = {
  transistor: { path: 'choice.transistor', table: transistorFields },
  wiring: { path: 'choice.wiring', table: wiringFields },
  direct: { path: 'choice.drive', table: driveFields.direct },
  follower: { path: 'choice.drive', table: driveFields.follower },
  inverter: { path: 'choice.drive', table: driveFields.inverter },
  pull: { path: 'choice.drive.pull', table: driveFields.pull },
}

/** Classes of a part; choosing one empties the fields that it doesn't name. */
function classes(path: string, examples: Readonly<Record<string, object>>) {
  const texts = presetTexts(path, examples)
  const all = new Set(Object.values(texts).flatMap((one) => Object.keys(one)))
  const empty = Object.fromEntries([...all].map((id) => [id, '']))
  return Object.fromEntries(Object.entries(texts).map(([name, one]) => [name, { ...empty, ...one }]))
}

const given = (part: object) =>
  Object.fromEntries(Object.entries(part).filter(([, value]) => typeof value !== 'object')) as Record<
    string,
    string | number
  >

/** Fields of a drive that only some kinds have. */
const ofDrive = (
  part: (typeof parts)['direct' | 'follower' | 'inverter'],
  words: readonly string[],
  kinds: string[],
): Field[] => partFields({ ...part, given: given(drive), words }).map((field) => ({ ...field, when: only(...kinds) }))

/** The form of the MOSFET switch, filled for the sailmaker's hot knife. */
export const form: Form = {
  id: 'mosfet',
  call: 'checkMosfet',
  arguments: ['choice', 'conditions'],
  groups: [
    {
      id: 'load',
      title: 'What must be switched',
      fields: [
        {
          id: 'choice.load.resistance',
          label: 'resistance of the blade',
          symbol: 'R_L',
          unit: 'ohm',
          above: 0,
          demo: exampleChoice.load.resistance,
        },
        { ...volts, id: 'conditions.openCircuit.from', label: 'cell, empty, at rest', demo: '3.0 V' },
        { ...volts, id: 'conditions.openCircuit.to', label: 'cell, full, at rest', symbol: 'V_oc', demo: '4.2 V' },
        {
          id: 'conditions.sourceResistance',
          label: 'cell, contacts and wiring',
          symbol: 'R_s',
          unit: 'ohm',
          min: 0,
          demo: '90 mohm ±30 mohm',
        },
        { ...ambient, id: 'conditions.ambientCelsius.from', label: 'coldest air in the case', demo: '0 degC' },
        {
          ...ambient,
          id: 'conditions.ambientCelsius.to',
          label: 'warmest air in the case',
          symbol: 'T_a',
          demo: '50 degC',
        },
        {
          ...plain,
          unit: 'Hz',
          min: 0,
          id: 'choice.pwm.frequency',
          label: 'PWM frequency',
          symbol: 'f',
          demo: exampleChoice.pwm.frequency,
        },
        { ...duty, id: 'choice.pwm.duty.from', label: 'smallest duty', demo: '5 %' },
        { ...duty, id: 'choice.pwm.duty.to', label: 'largest duty', symbol: 'D', demo: '95 %' },
      ],
    },
    {
      id: 'transistor',
      title: 'Transistor',
      preset: { label: 'class', choices: classes('choice.transistor', exampleTransistors) },
      note: 'Typical values, not a real product. Put the limits of your own part in their place, without signs.',
      folded: 'the limits of its data sheet',
      fields: [
        {
          id: 'choice.transistor.channel',
          label: 'channel: P on the high side, N on the low side',
          unit: '1',
          words: ['P', 'N'],
          demo: transistor.channel,
        },
        {
          id: 'choice.transistor.onResistance',
          label: 'guaranteed on-resistance by gate voltage',
          symbol: 'R_on',
          unit: 'ohm',
          free: true,
          demo: transistor.onResistance,
        },
        {
          id: 'choice.transistor.temperatureLaw.kind',
          label: 'how it rises with temperature',
          unit: '1',
          words: ['linear', 'power', 'points'],
          demo: transistor.temperatureLaw.kind,
        },
        {
          id: 'choice.transistor.temperatureLaw.perKelvin',
          label: 'rise for each kelvin',
          symbol: 'a_R',
          unit: '1/K',
          min: 0,
          plain: true,
          demo: '',
          otherwise: '0.45 %/K',
          when: law('linear'),
        },
        {
          id: 'choice.transistor.temperatureLaw.exponent',
          label: 'exponent of the absolute temperature',
          symbol: 'm_R',
          ...plain,
          min: 1,
          max: 5,
          demo: '',
          otherwise: '2.3',
          when: law('power'),
        },
        {
          id: 'choice.transistor.temperatureLaw.points',
          label: 'points of the normalised curve',
          unit: '1',
          free: true,
          demo: transistor.temperatureLaw.points,
          when: law('points'),
        },
        ...partFields({ ...parts.transistor, given: given(transistor) }),
        {
          id: 'choice.transistor.copper',
          label: 'thermal resistance by copper area in mm²',
          unit: 'K/W',
          free: true,
          demo: transistor.copper,
        },
        {
          id: 'choice.transistor.transientImpedance',
          label: 'transient thermal impedance, single pulse',
          unit: 'K/W',
          free: true,
          demo: transistor.transientImpedance,
        },
        {
          id: 'choice.transistor.safePulses',
          label: 'single pulses that the safe operating area allows',
          unit: 'W',
          free: true,
          demo: transistor.safePulses,
        },
        {
          id: 'choice.transistor.avalancheEnergy',
          label: 'single-pulse avalanche energy',
          unit: 'J',
          above: 0,
          demo: '',
        },
      ],
    },
    {
      id: 'drive',
      title: 'Gate drive',
      preset: { label: 'kind', choices: classes('choice.drive', exampleDrives) },
      note: 'Arrow up and down step along the preferred values.',
      fields: [
        {
          id: 'choice.drive.kind',
          label: 'what drives the gate',
          unit: '1',
          words: ['pin', 'follower', 'inverting transistor', 'driver'],
          demo: drive.kind,
        },
        ...partFields({ ...parts.inverter, given: given(drive), words: ['gateResistor'] }).map((field) => ({
          ...field,
          series: 'E12' as const,
        })),
        ...partFields({ ...parts.pull, given: drive.pull, words: ['resistance'] }).map((field) => ({
          ...field,
          series: 'E12' as const,
        })),
        {
          id: 'choice.drive.pull.at',
          label: 'where the pull-up or pull-down sits',
          unit: '1',
          words: ['gate', 'drive', ''],
          demo: drive.pull.at,
        },
        {
          id: 'choice.drive.resetPull',
          label: 'the pin’s pull-up during reset',
          symbol: 'R_weak',
          unit: 'ohm',
          above: 0,
          demo: drive.resetPull,
          otherwise: 'none: the pin floats',
        },
      ],
    },
    {
      id: 'drive-more',
      title: 'More of the drive',
      folded: 'levels, resistances, currents',
      fields: [
        ...ofDrive(parts.direct, ['resistance'], ['pin', 'driver', 'follower']),
        ...ofDrive(parts.direct, ['sinkResistance', 'drop', 'offLevel'], ['pin', 'driver']),
        ...ofDrive(parts.direct, ['currentMaximum'], ['pin', 'driver', 'follower']),
        ...ofDrive(parts.direct, ['supplyMinimum'], ['pin', 'driver']),
        ...ofDrive(parts.inverter, ['baseEmitter'], ['follower', 'inverting transistor']),
        ...ofDrive(
          parts.inverter,
          ['saturation', 'baseOff', 'baseResistor', 'highLevel', 'currentGain'],
          ['inverting transistor'],
        ),
        {
          id: 'choice.drive.basePullDown',
          label: 'resistor that holds the base off',
          symbol: 'R_be',
          unit: 'ohm',
          above: 0,
          demo: drive.basePullDown,
          series: 'E12',
          when: only('inverting transistor', 'follower'),
        },
        {
          id: 'choice.drive.basePullUp',
          label: 'resistor from the rail to the base',
          symbol: 'R_bp',
          unit: 'ohm',
          above: 0,
          demo: '',
          series: 'E12',
          when: only('inverting transistor'),
        },
        {
          id: 'choice.drive.supply.diode',
          label: 'drop of a diode before the drive',
          symbol: 'V_hold',
          unit: 'V',
          min: 0,
          demo: '',
        },
        {
          id: 'choice.drive.supply.regulated',
          label: 'regulated supply of the drive',
          symbol: 'V_reg',
          unit: 'V',
          above: 0,
          demo: '',
        },
        ...partFields({ ...parts.inverter, given: given(drive), words: ['pinLeakage'] }),
        ...partFields({ ...parts.pull, words: ['ratedPower'], of: 'pull-up or pull-down' }),
      ],
    },
    {
      id: 'board',
      title: 'Board',
      fields: [
        {
          ...plain,
          id: 'choice.thermal.copperSquareMillimetres',
          label: 'copper at the drain, mm²',
          above: 0,
          demo: '250',
        },
        {
          ...plain,
          id: 'choice.thermal.tolerance',
          label: 'tolerance of its thermal resistance',
          min: 0,
          below: 1,
          demo: '',
          otherwise: '20 %',
        },
        {
          ...plain,
          id: 'choice.parallel',
          label: 'transistors in parallel',
          symbol: 'n',
          min: 1,
          integer: true,
          demo: '',
          otherwise: '1',
        },
        ...partFields({ ...parts.wiring, given: { inductance: exampleChoice.wiring.inductance } }),
      ],
    },
    {
      id: 'more',
      title: 'Bursts and limits of your own',
      folded: 'where the knife is on for seconds only, or less loss is wanted',
      fields: [
        {
          ...plain,
          unit: 's',
          id: 'choice.bursts.on',
          label: 'length of a burst',
          above: 0,
          demo: '',
          otherwise: 'it never ends',
        },
        { ...plain, unit: 's', id: 'choice.bursts.period', label: 'from burst to burst', above: 0, demo: '' },
        { ...plain, id: 'choice.bursts.count', label: 'how many', min: 1, integer: true, demo: '' },
        { ...plain, unit: 'W', id: 'choice.lossLimit', label: 'loss allowed for one transistor', above: 0, demo: '' },
        {
          ...plain,
          id: 'choice.switchingShare',
          label: 'share of it that switching may make',
          above: 0,
          below: 1,
          demo: '',
        },
        { ...plain, unit: 's', id: 'choice.edgeLimit', label: 'longest edge allowed', above: 0, demo: '' },
        {
          id: 'choice.edges',
          label: 'the load in an edge',
          unit: '1',
          words: ['resistive', 'clamped inductive'],
          demo: 'resistive',
        },
      ],
    },
  ],
  outputs: (_, { values, margins }) => {
    const limit = (id: string) => margins.find((margin) => margin.id === id)!.limit
    return [
      {
        name: 'T_spare',
        label: 'thermal headroom, at the hottest cell voltage',
        window: [0, values['T_lim']! - values['T_a']!],
      },
      {
        name: 'V_GS',
        label: 'gate voltage, at the lowest cell voltage',
        window: [limit('gate-drive'), limit('gate-maximum')],
      },
    ]
  },
}
