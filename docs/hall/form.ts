import { converterFields, exampleConverters } from '@ohmward/adc'
import {
  dividerFields,
  exampleSensors,
  filterFields,
  sensorFields,
  surroundingsFields,
  timingFields,
} from '@ohmward/hall'
import { readNumber } from '@ohmward/quantity'
import type { Form } from '../.vitepress/theme/block.ts'
import { partFields, presetTexts } from '../.vitepress/theme/part-fields.ts'
import { knife, mat } from './scenarios.ts'

const amperes = { unit: 'A', plain: true } as const
const seconds = { unit: 's', min: 0, max: 10, plain: true } as const
const volts = { unit: 'V', above: 0, max: 60, plain: true } as const
const ambient = { unit: 'degC', min: -55, max: 125, plain: true } as const
const share = { unit: '1', above: 0, max: 1, plain: true } as const
const absolute = { id: 'choice.converter.reference.kind', is: ['absolute'] }
const calibrated = { id: 'choice.calibration.kind', is: ['zero', 'zero each time'] }
const once = { ...calibrated, is: ['zero'] }
const other = { when: { id: 'choice.otherTasks.0.window', is: ['off', 'on'] } }
const converter = exampleConverters['12-bit controller converter']

/** The parts whose fields the form shows, by the library's own tables. */
export const parts = {
  sensor: { path: 'choice.sensor', table: sensorFields },
  filter: { path: 'choice.filter', table: filterFields, of: 'filter' },
  divider: { path: 'choice.divider', table: dividerFields, of: 'divider before the converter' },
  timing: { path: 'choice.timing', table: timingFields },
  surroundings: { path: 'choice.surroundings', table: surroundingsFields },
  converterPart: { path: 'choice.converter', table: converterFields },
}
const { sensor, filter, divider, timing, surroundings, converterPart } = parts

/** The form of the current measurement, filled for the sailmaker's hot knife; a seedling mat is the second scenario. */
export const form: Form = {
  id: 'hall',
  call: 'checkHall',
  arguments: ['choice', 'conditions'],
  groups: [
    {
      id: 'scenario',
      title: 'What must be read',
      preset: { label: 'scenario', choices: { 'hot knife on one cell': knife, 'seedling mat on 12 V': mat } },
      fields: [
        { ...amperes, id: 'choice.current.from', label: 'smallest current in the on-window', demo: '0 A' },
        { ...amperes, id: 'choice.current.to', label: 'largest current in the on-window', demo: '6 A' },
        { ...amperes, id: 'choice.errors.0.at', label: 'first current with an error limit', demo: '1 A' },
        { id: 'choice.errors.0.allowed', label: 'largest error there', unit: 'A', demo: '0.25 A', free: true },
        { ...amperes, id: 'choice.errors.1.at', label: 'second current with an error limit', demo: '6 A' },
        { id: 'choice.errors.1.allowed', label: 'largest error there', unit: 'A', demo: '6 %', free: true },
        { ...volts, id: 'conditions.rail.from', label: 'lowest rail while measuring', demo: '3.0 V' },
        { ...volts, id: 'conditions.rail.to', label: 'highest rail', demo: '4.2 V' },
        { ...ambient, id: 'conditions.ambientCelsius.from', label: 'coldest air in the case', demo: '0 degC' },
        { ...ambient, id: 'conditions.ambientCelsius.to', label: 'warmest air in the case', demo: '50 degC' },
        {
          id: 'choice.pwm.frequency',
          label: 'PWM frequency',
          unit: 'Hz',
          min: 1e-3,
          max: 1e6,
          plain: true,
          demo: '1 kHz',
        },
        { ...share, id: 'choice.pwm.duty.from', label: 'smallest duty', demo: '10 %' },
        { ...share, id: 'choice.pwm.duty.to', label: 'largest duty', demo: '90 %' },
      ],
    },
    {
      id: 'sensor',
      title: 'Sensor',
      preset: { label: 'class of sensor', choices: presetTexts('choice.sensor', exampleSensors) },
      note: 'Typical values, not a real product. Put the limits of your own part in their place.',
      folded: 'the limits of its data sheet, and its supply',
      fields: [
        {
          id: 'choice.sensor.output',
          label: 'output: follows the supply, or fixed',
          unit: '1',
          words: ['ratiometric', 'fixed'],
          demo: exampleSensors.wideSupplyOneWay.output,
        },
        {
          id: 'choice.sensorSupply',
          label: 'supply of the sensor',
          symbol: 'V_s',
          unit: 'V',
          above: 0,
          max: 30,
          also: ['rail'],
          demo: 'rail',
        },
        ...partFields({ ...sensor, given: exampleSensors.wideSupplyOneWay }),
      ],
    },
    {
      id: 'reading',
      title: 'Filter and reading',
      note: 'Arrow up and down step along the preferred values.',
      fields: [
        ...partFields({ ...filter, given: { resistance: '330 ohm ±1 %', capacitance: '1 nF ±10 %' } }).map((field) => ({
          ...field,
          series: field.unit === 'ohm' ? ('E24' as const) : ('E6' as const),
        })),
        {
          id: 'choice.reading',
          label: 'sampled in the on-window, or averaged by the filter',
          unit: '1',
          words: ['on-window', 'averaged'],
          demo: 'on-window',
        },
        {
          id: 'choice.calibration.kind',
          label: 'zero',
          unit: '1',
          words: ['', 'zero', 'zero each time'],
          demo: 'zero',
        },
        {
          id: 'choice.power',
          label: 'power of the load computed from',
          unit: '1',
          words: ['', 'squared reading', 'voltage times reading'],
          demo: 'squared reading',
        },
        ...partFields({ ...timing, words: ['samples'] }).map((field) => ({ ...field, plain: true as const })),
      ],
    },
    {
      id: 'trip',
      title: 'Over-current trip',
      fields: [
        { ...amperes, id: 'choice.trip.current', label: 'trip level in the firmware', demo: '8 A' },
        { ...amperes, id: 'choice.trip.normal', label: 'largest current of normal use', demo: '6.5 A' },
        {
          ...amperes,
          id: 'choice.trip.withstand',
          label: 'least current that cell, switch and wiring withstand',
          demo: '10 A',
        },
      ],
    },
    {
      id: 'converter',
      title: 'Converter',
      preset: { label: 'class of converter', choices: presetTexts('choice.converter', exampleConverters) },
      folded: 'the limits of its data sheet',
      fields: [
        {
          id: 'choice.converter.bits',
          label: 'bits',
          unit: '1',
          min: 1,
          max: 32,
          integer: true,
          plain: true,
          demo: String(converter.bits),
        },
        {
          id: 'choice.converter.reference.kind',
          label: 'reference',
          unit: '1',
          words: ['rail', 'absolute'],
          demo: 'rail',
        },
        {
          id: 'choice.converter.reference.voltage',
          label: 'reference voltage',
          unit: 'V',
          above: 0,
          demo: '',
          otherwise: '2.5 V ±0.2 %',
          when: absolute,
        },
        {
          id: 'choice.converter.reference.drift',
          label: 'its temperature coefficient',
          unit: '1/K',
          demo: '',
          otherwise: '50 ppm/K',
          when: absolute,
        },
        ...partFields({ ...converterPart, given: converter as never }).map(({ symbol: _, ...field }) => field),
      ],
    },
    {
      id: 'schedule',
      title: 'What else the converter reads',
      note: 'Here the resistance of the load, in the off-window: each window must be long enough for its readings.',
      folded: 'times of the other reading',
      fields: [
        { id: 'choice.otherTasks.0.window', label: 'window', unit: '1', words: ['off', 'on', ''], demo: 'off' },
        { ...other, id: 'choice.otherTasks.0.name', label: 'name', unit: '1', free: true, demo: 'resistance' },
        { ...seconds, ...other, id: 'choice.otherTasks.0.recovery', label: 'recovery of its chain', demo: '20 us' },
        { ...seconds, ...other, id: 'choice.otherTasks.0.settling', label: 'its settling', demo: '40 us' },
        { ...seconds, ...other, id: 'choice.otherTasks.0.acquisition', label: 'its acquisition', demo: '2 us' },
        { ...seconds, ...other, id: 'choice.otherTasks.0.conversion', label: 'its conversion', demo: '1 us' },
      ],
    },
    {
      id: 'surroundings',
      title: 'Surroundings and finer points',
      folded: 'stray fields, zero reading, divider, timing',
      fields: [
        ...partFields({ ...surroundings, given: { neighbourCurrent: '6 A', neighbourDistance: '15 mm' } }),
        {
          ...seconds,
          id: 'choice.wait',
          label: 'from the edge to the sample; by default what settling needs',
          demo: '',
        },
        {
          id: 'choice.calibration.atCelsius',
          label: 'temperature of the zero reading',
          unit: 'degC',
          min: -55,
          max: 125,
          demo: '',
          otherwise: '25 degC',
          when: once,
        },
        {
          id: 'choice.calibration.rail',
          label: 'rail of the zero reading',
          unit: 'V',
          above: 0,
          max: 60,
          demo: '',
          when: once,
        },
        {
          id: 'choice.calibration.samples',
          label: 'conversions averaged to the zero',
          unit: '1',
          min: 1,
          max: 65536,
          integer: true,
          plain: true,
          demo: '',
          otherwise: '16',
          when: calibrated,
        },
        ...partFields(divider),
        ...partFields({ ...timing, words: ['edge', 'samplesPerWindow', 'interval'] }),
        {
          ...amperes,
          id: 'choice.peakCurrent',
          label: 'largest current that has flowed before; by default the largest to be read',
          above: 0,
          demo: '',
        },
        { ...amperes, id: 'choice.resolution', label: 'smallest step and noise wanted', above: 0, demo: '' },
        { ...share, id: 'choice.leastUse', label: 'least share of the span to use', demo: '', otherwise: '0.4' },
        {
          ...amperes,
          id: 'choice.divideFrom',
          label: 'smallest current used as a divisor',
          above: 0,
          demo: '1 A',
        },
      ],
    },
  ],
  outputs: ({ choice }, { margins, values }) => [
    ...(choice.errors as { at: string }[]).map(({ at }, i) => {
      const truth = readNumber(at, { field: `errors[${i}].at`, unit: 'A' })
      const allowed = margins.find(({ id }) => id === `error-${i + 1}`)!.limit
      return {
        name: `I_${i + 1}`,
        label: `reading of ${at}`,
        truth,
        window: [truth - allowed, truth + allowed] as const,
      }
    }),
    ...(values['I_set'] === undefined
      ? []
      : [
          {
            name: 'I_trip',
            label: 'trip level',
            truth: values['I_set'],
            window: [
              margins.find(({ id }) => id === 'trip-false')!.limit,
              margins.find(({ id }) => id === 'trip-late')!.limit,
            ] as const,
          },
        ]),
  ],
}
