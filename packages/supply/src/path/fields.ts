import {
  type Check,
  either,
  exactly,
  type Given,
  InputError,
  list,
  name,
  part,
  type Read,
  spread,
} from '@ohmward/quantity'

/** Temperature coefficient of copper about 20 °C, 1/K: IEC 60028:1925. */
export const copperCoefficient = 0.00393

/** One element of the power path: what stands between the source and the load, or a place to branch off behind it. */
export const elementFields = {
  name: /*#__PURE__*/ name({
    meaning: 'its name, such as cell contacts, protection, fuse, switch, sensor conductor, connector, wiring',
  }),
  resistance: /*#__PURE__*/ spread({
    symbol: 'R_20',
    unit: 'ohm',
    min: 0,
    max: 100,
    otherwise: 0,
    meaning: 'resistance at 20 °C, there and back, with its limits',
  }),
  temperatureCoefficient: /*#__PURE__*/ either(
    ['copper', 'none'],
    /*#__PURE__*/ spread({
      symbol: 'alpha_el',
      unit: '1/K',
      min: -0.01,
      max: 0.02,
      meaning: 'temperature coefficient of its resistance from 20 °C',
    }),
    {
      otherwise: 'copper',
      meaning: 'temperature coefficient of its resistance: that of copper, none, or a value per kelvin',
    },
  ),
  drop: /*#__PURE__*/ spread({
    symbol: 'V_el',
    unit: 'V',
    min: 0,
    max: 5,
    otherwise: 0,
    meaning: 'forward voltage where it is a diode, cold; 0 for a conductor or a transistor',
  }),
  currentLimit: /*#__PURE__*/ exactly({
    symbol: 'I_elmax',
    unit: 'A',
    above: 0,
    max: 1e4,
    optional: true,
    meaning: 'largest current that it withstands',
  }),
  thermalResistance: /*#__PURE__*/ exactly({
    symbol: 'R_thel',
    unit: 'K/W',
    min: 0,
    max: 1e4,
    optional: true,
    meaning: 'its thermal resistance to the surroundings, as mounted',
  }),
  highestCelsius: /*#__PURE__*/ exactly({
    symbol: 'T_elmax',
    unit: 'degC',
    min: 0,
    max: 500,
    optional: true,
    meaning: 'highest temperature that it withstands',
  }),
  tripVoltage: /*#__PURE__*/ spread({
    symbol: 'V_trip',
    unit: 'V',
    above: 0,
    max: 10,
    optional: true,
    meaning: 'voltage across it at which the protection switches off, with its spread',
  }),
  tap: /*#__PURE__*/ name({
    optional: true,
    meaning: 'name of the node right behind it, where something branches off',
  }),
} as const

/** Refuses two elements, or two taps, of one name. */
const distinct: Check = (read: readonly ReadElement[], field) => {
  for (const key of ['name', 'tap'] as const) {
    read.forEach(({ [key]: name }, i) => {
      if (name === undefined || read.findIndex((one) => one[key] === name) === i) return
      throw new InputError({ field: `${field}[${i}].${key}`, value: name, allowed: `a ${key} of its own` })
    })
  }
}

/** The power path in the order of the current, from the source to the load, each element once. */
export const pathField = /*#__PURE__*/ list(
  /*#__PURE__*/ part(elementFields, { meaning: 'element of the power path' }),
  {
    least: 0,
    most: 40,
    optional: true,
    check: distinct,
    meaning: 'power path from the source to the load, each element once',
  },
)

/** Which node of a path a block looks at. */
export const tapField = /*#__PURE__*/ name({
  optional: true,
  meaning: 'tap of the power path where the rail is; its end by default',
})

/** An element of the power path as its user writes it. */
export type PathElement = Given<typeof elementFields>

/** An element that was read, in SI units. */
export type ReadElement = Read<typeof elementFields>
