import { type ChangeSpec, put, replaced, solved } from '@ohmward/budget'
import type { ReadMosfet } from '../choice.js'
import { exampleDrives, exampleTransistors } from '../parts/examples.js'

const channelOf = (part: unknown) => (part as { readonly channel?: unknown } | null | undefined)?.channel

const anyTransistor = /*#__PURE__*/ replaced({
  id: 'transistor',
  name: 'another class of transistor',
  path: 'transistor',
  parts: exampleTransistors,
})

/** Another transistor of the same channel: with the other one the load hangs at the other end. */
export const transistor: ChangeSpec = {
  id: 'transistor',
  name: 'another class of transistor',
  order: 'any',
  rungs: (given) =>
    anyTransistor
      .rungs(given)
      .filter(({ puts }) => channelOf(puts['transistor']) === (given.read as ReadMosfet).transistor.channel),
}

export const drive = /*#__PURE__*/ replaced({
  id: 'drive',
  name: 'another kind of gate drive',
  path: 'drive',
  parts: exampleDrives,
})

export const regulated = /*#__PURE__*/ put({
  id: 'gate-supply',
  name: 'a gate supply that does not sag',
  puts: { 'drive.supply': { regulated: '5 V ±5 %' } },
  text: '5 V ±5 %',
  when: ({ drive: { supply } }: ReadMosfet) => supply === 'rail',
})

export const parallel = /*#__PURE__*/ solved({
  id: 'parallel',
  name: 'more transistors in parallel',
  path: 'parallel',
  unit: '1',
  to: 8,
  digits: 1,
})

export const lessSource = /*#__PURE__*/ solved({
  id: 'less-source',
  name: 'less resistance of cell, path and contacts',
  path: 'conditions.sourceResistance',
  unit: 'ohm',
  to: 1e-3,
})

export const largerLoad = /*#__PURE__*/ solved({
  id: 'larger-load',
  name: 'a load of higher resistance',
  path: 'load.resistance',
  unit: 'ohm',
  from: ({ load }: ReadMosfet) => (load.kind === 'resistance' ? load.value : undefined),
  to: ({ load }: ReadMosfet) => 4 * load.value.nominal,
})

export const smallerCurrent = /*#__PURE__*/ solved({
  id: 'smaller-current',
  name: 'a load of lower current',
  path: 'load.current',
  unit: 'A',
  from: ({ load }: ReadMosfet) => (load.kind === 'current' ? load.value : undefined),
  to: ({ load }: ReadMosfet) => load.value.nominal / 4,
})

export const ratedFreewheel = /*#__PURE__*/ solved({
  id: 'rated-freewheel',
  name: 'a freewheeling diode of a higher power rating',
  path: 'freewheel.ratedPower',
  unit: 'W',
  from: ({ freewheel }: ReadMosfet) => freewheel.ratedPower,
  to: 100,
})

/** Down to what the leads of a wired load have at a length of some 10 cm, twisted: about 0.5 uH a metre (common practice, no source). */
export const shorterLeads = /*#__PURE__*/ solved({
  id: 'shorter-leads',
  name: 'shorter, twisted leads',
  path: 'wiring.inductance',
  unit: 'H',
  to: 5e-8,
})
