import { exampleSensors } from '@ohmward/hall'

/** What stands in the fields by scenario; the sensor's own fields follow its class. */
const scenario = (sensor: object, texts: Readonly<Record<string, string>>): Readonly<Record<string, string>> => ({
  ...Object.fromEntries(
    ['fieldRejectionDb', ...Object.keys(sensor)].map((word) => [
      `choice.sensor.${word}`,
      String((sensor as Record<string, unknown>)[word] ?? ''),
    ]),
  ),
  ...texts,
})

/** A sailmaker's hot knife on one cell, sensor and converter on the same sagging rail. */
export const knife = scenario(exampleSensors.wideSupplyOneWay, {
  'choice.sensorSupply': 'rail',
  'choice.current.from': '0 A',
  'choice.current.to': '6 A',
  'choice.errors.0.at': '1 A',
  'choice.errors.0.allowed': '0.25 A',
  'choice.errors.1.at': '6 A',
  'choice.errors.1.allowed': '6 %',
  'conditions.rail.from': '3.0 V',
  'conditions.rail.to': '4.2 V',
  'conditions.ambientCelsius.from': '0 degC',
  'conditions.ambientCelsius.to': '50 degC',
  'choice.pwm.frequency': '1 kHz',
  'choice.pwm.duty.from': '10 %',
  'choice.pwm.duty.to': '90 %',
  'choice.filter.resistance': '330 ohm ±1 %',
  'choice.filter.capacitance': '1 nF ±10 %',
  'choice.divider.top': '',
  'choice.divider.bottom': '',
  'choice.trip.current': '8 A',
  'choice.trip.normal': '6.5 A',
  'choice.trip.withstand': '10 A',
  'choice.divideFrom': '1 A',
  'choice.surroundings.neighbourCurrent': '6 A',
})

/** A seedling mat on 12 V: the sensor on a 5 V rail of its own, the converter on 3.3 V, a divider between them. */
export const mat = scenario(exampleSensors.fiveVoltFixedOneWay, {
  'choice.sensorSupply': '5 V ±3 %',
  'choice.current.from': '0 A',
  'choice.current.to': '5 A',
  'choice.errors.0.at': '1 A',
  'choice.errors.0.allowed': '0.25 A',
  'choice.errors.1.at': '5 A',
  'choice.errors.1.allowed': '8 %',
  'conditions.rail.from': '3.27 V',
  'conditions.rail.to': '3.33 V',
  'conditions.ambientCelsius.from': '5 degC',
  'conditions.ambientCelsius.to': '45 degC',
  'choice.pwm.frequency': '100 Hz',
  'choice.pwm.duty.from': '5 %',
  'choice.pwm.duty.to': '95 %',
  'choice.filter.resistance': '330 ohm ±1 %',
  'choice.filter.capacitance': '220 pF ±10 %',
  'choice.divider.top': '1 kohm ±0.1 %',
  'choice.divider.bottom': '1.8 kohm ±0.1 %',
  'choice.trip.current': '6.5 A',
  'choice.trip.normal': '5.5 A',
  'choice.trip.withstand': '8 A',
  'choice.divideFrom': '1 A',
  'choice.surroundings.neighbourCurrent': '5 A',
})
