import { exampleConverters } from '@ohmward/adc'
import { put, replaced, solved } from '@ohmward/budget'
import { exampleSensors } from '../parts/examples.js'
import type { ReadChoice } from '../read-choice.js'

/** Changes of the sensor, its supply and the converter. Made when asked for, so that a check needn't carry them. */
export const ofSensor = () => ({
  sensor: replaced({ id: 'sensor', name: 'another class of sensor', path: 'sensor', parts: exampleSensors }),
  lessSensitivity: solved({
    id: 'less-sensitivity',
    name: 'a sensor of lower sensitivity',
    path: 'sensor.sensitivity',
    unit: 'V/A',
    to: ({ sensor }: ReadChoice) => sensor.sensitivity.nominal / 20,
  }),
  moreSensitivity: solved({
    id: 'more-sensitivity',
    name: 'a sensor of higher sensitivity',
    path: 'sensor.sensitivity',
    unit: 'V/A',
    to: ({ sensor }: ReadChoice) => sensor.sensitivity.nominal * 20,
  }),
  higherZero: solved({
    id: 'higher-zero',
    name: 'a sensor whose zero is further from ground',
    path: 'sensor.zeroOutput',
    unit: 'V',
    to: ({ sensor }: ReadChoice) => sensor.ratedSupply.nominal / 2,
  }),
  closerReach: solved({
    id: 'closer-reach',
    name: 'a sensor that swings closer to its supply',
    path: 'sensor.highOutputDrop',
    unit: 'V',
    to: 0.01,
  }),
  ownSupply: put({
    id: 'own-supply',
    name: 'a supply of its own for the sensor',
    puts: { sensorSupply: '5 V ±2 %' },
    text: '5 V ±2 %',
  }),
  onRail: put({
    id: 'on-rail',
    name: 'sensor and converter on the rail, at one node',
    puts: { sensorSupply: 'rail', 'converter.reference': { kind: 'rail' } },
    text: 'rail',
    when: ({ sensorSupply, converter }: ReadChoice) =>
      sensorSupply !== undefined || converter.reference.kind !== 'rail',
  }),
  converter: replaced({
    id: 'converter',
    name: 'another class of converter',
    path: 'converter',
    parts: exampleConverters,
  }),
  copper: solved({
    id: 'copper',
    name: 'wider copper at the sensor',
    path: 'sensor.conductorThermalResistance',
    unit: 'K/W',
    to: 5,
  }),
  lessResistance: solved({
    id: 'less-resistance',
    name: 'a sensor of lower conductor resistance',
    path: 'sensor.conductorResistance',
    unit: 'ohm',
    to: 5e-5,
  }),
  further: solved({
    id: 'further',
    name: 'the neighbouring conductor further away',
    path: 'surroundings.neighbourDistance',
    unit: 'm',
    to: ({ surroundings }: ReadChoice) => (surroundings.neighbourCurrent.upper > 0 ? 0.3 : NaN),
  }),
})
