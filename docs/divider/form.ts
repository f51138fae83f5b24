import { converterFields, exampleConverters } from '@ohmward/adc'
import {
  amplifierFields,
  exampleAmplifiers,
  excitationSwitchFields,
  gainFields,
  loadFields,
  referenceFields,
  surroundingsFields,
  timingFields,
} from '@ohmward/divider'
import { readNumber, readRange } from '@ohmward/quantity'
import type { Form } from '../.vitepress/theme/block.ts'
import { partFields, presetTexts } from '../.vitepress/theme/part-fields.ts'

const converter = exampleConverters['12-bit controller converter']
const rail = { unit: 'V', above: 0, max: 60, plain: true } as const
const ambient = { unit: 'degC', min: -55, max: 125, plain: true } as const
const load = { unit: 'ohm', min: 0, max: 100, plain: true } as const
const calibrated = { id: 'choice.calibration.kind', is: ['zero', 'zero and span'] }
const absolute = { id: 'choice.converter.reference.kind', is: ['absolute'] }

/** The parts whose fields the form shows, by the library's own tables. */
export const parts = {
  gain: { path: 'choice.gainResistors', table: gainFields },
  amplifier: { path: 'choice.amplifier', table: amplifierFields },
  converterPart: { path: 'choice.converter', table: converterFields },
  excitationSwitch: { path: 'choice.excitationSwitch', table: excitationSwitchFields, of: 'excitation switch' },
  referencePart: { path: 'choice.referencePart', table: referenceFields, of: 'reference resistor' },
  timing: { path: 'choice.timing', table: timingFields },
  surroundings: { path: 'choice.surroundings', table: surroundingsFields },
  blade: { path: 'choice.load', table: loadFields, of: 'blade' },
}
const { gain, amplifier, converterPart, excitationSwitch, referencePart, timing, surroundings, blade } = parts

/** The form of the low-ohm measurement, filled for the sailmaker's hot knife. */
export const form: Form = {
  id: 'divider',
  call: 'checkDivider',
  arguments: ['choice', 'conditions'],
  groups: [
    {
      id: 'load',
      title: 'What must be read',
      fields: [
        { ...load, id: 'choice.load.from', label: 'smallest resistance of the blade', demo: '0.5 ohm' },
        { ...load, id: 'choice.load.nominal', label: 'the blade as designed', symbol: 'R_xn', demo: '0.7 ohm' },
        { ...load, id: 'choice.load.to', label: 'largest resistance', demo: '1.2 ohm' },
        {
          id: 'choice.error',
          label: 'largest error allowed, as a share or in ohms',
          unit: '1',
          demo: '3 %',
          free: true,
        },
        { ...rail, id: 'conditions.rail.from', label: 'lowest cell voltage while measuring', demo: '3.0 V' },
        { ...rail, id: 'conditions.rail.to', label: 'highest cell voltage', demo: '4.2 V' },
        { ...ambient, id: 'conditions.ambientCelsius.from', label: 'coldest air in the case', demo: '0 degC' },
        { ...ambient, id: 'conditions.ambientCelsius.to', label: 'warmest air in the case', demo: '50 degC' },
      ],
    },
    {
      id: 'divider',
      title: 'Divider and gain',
      note: 'Arrow up and down step along the preferred values.',
      fields: [
        {
          id: 'choice.reference',
          label: 'reference resistor',
          symbol: 'R_ref',
          unit: 'ohm',
          above: 0,
          max: 1e6,
          series: 'E24',
          demo: '47 ohm ±0.1 %',
        },
        ...partFields({
          ...gain,
          given: { feedback: '20 kohm ±0.1 %', ground: '1 kohm ±0.1 %' },
          words: ['feedback', 'ground'],
        }).map((field) => ({ ...field, series: 'E24' as const })),
        {
          id: 'choice.topology',
          label: 'topology',
          unit: '1',
          words: ['load at ground', 'load at rail'],
          demo: 'load at ground',
        },
        { id: 'choice.wires', label: 'wires to the load', unit: '1', words: ['4', '2'], demo: '4' },
        {
          id: 'choice.calibration.kind',
          label: 'calibration',
          unit: '1',
          words: ['', 'zero', 'zero and span'],
          demo: '',
        },
        {
          id: 'choice.calibration.resistor',
          label: 'known resistor of the calibration',
          unit: 'ohm',
          above: 0,
          max: 100,
          demo: '',
          otherwise: '1 ohm ±0.1 %',
          when: { ...calibrated, is: ['zero and span'] },
        },
        {
          id: 'choice.calibration.short',
          label: 'true resistance of the short',
          unit: 'ohm',
          min: 0,
          max: 1,
          demo: '',
          otherwise: '0 ohm',
          when: calibrated,
        },
      ],
    },
    {
      id: 'amplifier',
      title: 'Amplifier',
      preset: { label: 'class of amplifier', choices: presetTexts('choice.amplifier', exampleAmplifiers) },
      note: 'Typical values, not a real product. Put the limits of your own part in their place.',
      folded: 'the limits of its data sheet',
      fields: partFields({ ...amplifier, given: exampleAmplifiers.zeroDrift }),
    },
    {
      id: 'converter',
      title: 'Converter',
      preset: { label: 'class of converter', choices: presetTexts('choice.converter', exampleConverters) },
      folded: 'the limits of its data sheet',
      fields: [
        {
          id: 'choice.converter.bits',
          label: 'resolution',
          unit: 'bit',
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
      id: 'excitation',
      title: 'Excitation and timing',
      folded: 'switch, reference resistor, pulse',
      fields: [
        {
          id: 'choice.excitation',
          label: 'excitation',
          symbol: 'V_exc',
          unit: 'V',
          above: 0,
          max: 60,
          also: ['rail'],
          demo: 'rail',
        },
        ...partFields({ ...excitationSwitch, given: { resistance: '0.5 ohm ±20 %', currentLimit: '0.2 A' } }),
        ...partFields(referencePart),
        ...partFields({ ...timing, of: 'timing' }),
        ...partFields({ ...gain, words: ['ratioDrift'], of: 'gain resistors' }),
      ],
    },
    {
      id: 'surroundings',
      title: 'Surroundings',
      folded: 'leads, contacts, ground, protection',
      fields: [
        ...partFields({ ...surroundings, given: { leadResistance: '20 mohm ±50 %' } }),
        ...partFields({ ...blade, words: ['temperatureCoefficient', 'thermalResistance', 'heatCapacity'] }),
        {
          id: 'choice.pedestal',
          label: 'share of the reference voltage added to the output',
          symbol: 'p_ped',
          unit: '1',
          min: 0,
          max: 0.9,
          demo: '',
          otherwise: '0',
        },
        {
          id: 'choice.amplifierSupply',
          label: 'supply of the amplifier',
          symbol: 'V_amp',
          unit: 'V',
          above: 0,
          max: 60,
          also: ['rail'],
          demo: 'rail',
        },
      ],
    },
  ],
  outputs: ({ choice }, { margins }) =>
    [
      ['R_ind', 'nominal'],
      ['R_ind_smallest', 'smallest'],
      ['R_ind_largest', 'largest'],
    ].map(([name, size]) => {
      const { from, to } = readRange({ from: choice.load.from, to: choice.load.to }, { field: 'load', unit: 'ohm' })
      const truth = {
        smallest: from,
        largest: to,
        nominal: readNumber(choice.load.nominal ?? (from + to) / 2, { field: 'load.nominal', unit: 'ohm' }),
      }[size!]!
      const allowed = margins.find(({ id }) => id === `error-${size}`)!.limit
      return { name: name!, label: `${size} load`, truth, window: [truth - allowed, truth + allowed] as const }
    }),
}
