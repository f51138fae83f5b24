import { exampleConverters } from '@ohmward/adc'
import { put, replaced, solved } from '@ohmward/budget'
import type { ReadChoice } from '../choice.js'
import { exampleAmplifiers } from '../examples.js'

export const amplifier = /*#__PURE__*/ replaced({
  id: 'amplifier',
  name: 'another class of amplifier',
  path: 'amplifier',
  parts: exampleAmplifiers,
})
export const converter = /*#__PURE__*/ replaced({
  id: 'converter',
  name: 'another class of converter',
  path: 'converter',
  parts: exampleConverters,
})
export const reach = /*#__PURE__*/ solved({
  id: 'output-reach',
  name: 'an amplifier that swings closer to its supply',
  path: 'amplifier.highOutputDrop',
  unit: 'V',
  to: 0.005,
})
export const supply = /*#__PURE__*/ put({
  id: 'amplifier-supply',
  name: 'a supply of its own for the amplifier',
  puts: { amplifierSupply: '5 V ±2 %' },
  text: '5 V ±2 %',
})
export const amplifierOnRail = /*#__PURE__*/ put({
  id: 'amplifier-on-rail',
  name: 'the amplifier on the rail',
  puts: { amplifierSupply: 'rail' },
  text: 'rail',
})
export const pedestal = /*#__PURE__*/ solved({
  id: 'pedestal',
  name: 'a larger pedestal',
  path: 'pedestal',
  unit: '1',
  to: 0.3,
})
export const strongerSwitch = /*#__PURE__*/ solved({
  id: 'stronger-switch',
  name: 'an excitation switch for more current',
  path: 'excitationSwitch.currentLimit',
  unit: 'A',
  to: 10,
})
export const oneNode = /*#__PURE__*/ put({
  id: 'one-node',
  name: 'excitation and reference from the rail, at one node',
  puts: { excitation: 'rail', 'converter.reference': { kind: 'rail' } },
  text: 'rail',
})
export const excitationFromReference = /*#__PURE__*/ put({
  id: 'excitation-from-reference',
  name: "excitation from the converter's reference, at one node",
  puts: { excitation: 'reference' },
  text: 'reference',
  when: ({ isOneNode, converter }: ReadChoice) => !isOneNode && converter.reference.kind === 'absolute',
})
