/** What to do about each margin that fails, best first. */
export const remedyTexts = {
  rail: [
    'less source resistance: cell, contacts, protection, wiring',
    'less or slower load step: ramp, or PWM with a capacitor',
    'a logic rail of its own behind a diode or resistor, with its hold-up capacitor',
    'more capacitance with less series resistance',
    'a lower brown-out level, if the clock allows it',
  ],
  steady: [
    'no capacitor changes this: lower the load current or the source resistance',
    'a logic rail of its own for as long as the burst lasts',
    'a converter that boosts the logic rail',
    'a lower brown-out level, if the clock allows it',
  ],
  series: ['polymer or ceramic instead of wet electrolytic', 'several parts in parallel', 'a ceramic beside it'],
  clock: ['a lower clock', 'the next higher brown-out level', 'an external supervisor'],
  logic: [
    'a larger hold-up capacitor',
    'a diode with less forward voltage at milliamperes, or a transistor as ideal diode',
    'less logic current before the load is switched on',
    'a shorter burst',
  ],
  power: ['less power', 'less source resistance', 'limit the duty by the loaded rail'],
  ripple: ['ceramic or polymer', 'several parts in parallel', 'direct drive instead of PWM', 'leave more to the cell'],
  life: ['a rated life at a higher temperature', 'less ripple current', 'polymer or ceramic'],
  voltage: ['a higher rated voltage', 'a damping capacitor with resistance beside the ceramic', 'less loop inductance'],
  inrush: ['less capacitance', 'a soft start', 'a pre-charge contact'],
  trip: ['a protection rated for the load', 'less load current', 'less resistance in its switches'],
  port: ['no load from the port unless a cell is there', 'less load, or less of the time', 'charge only'],
  attach: ['a soft start between port and capacitor', 'less capacitance on the port'],
} as const
