import { chapterOf } from '../pitfall.ts'

export const temperature = chapterOf('Temperature from resistance', [
  [
    'C01',
    'The cold value was stored warm',
    'After a new battery or a restart the tool overheats.',
    'Every temperature is computed from the cold resistance: if that was stored warm, every reading is low from then on.',
    ['measure the cold value only after a rest', 'a plausibility window', 'a sensor for the air'],
  ],
  [
    'C02',
    'Spread of the coefficient',
    'The same alloy by name, yet the temperature is 30 % off.',
    'The rise in temperature is divided by the coefficient.',
    ['a curve measured on the wire itself', 'a table instead of one coefficient', 'a tolerance shown with the reading'],
  ],
  [
    'C03',
    'An alloy that hardly changes',
    'The temperature of a heater of resistance alloy is to be read.',
    'With a coefficient near zero a small error in ohms becomes hundreds of kelvin.',
    ['another alloy', 'a sensor of its own'],
  ],
  [
    'C04',
    'Fixed resistance dilutes the coefficient',
    'The temperature reads low, and the tool overheats.',
    'Leads and contacts are counted with the element but don’t warm with it.',
    ['four wires', 'subtract the fixed part before dividing'],
  ],
  [
    'C05',
    'Hot spots',
    'It heats unevenly, or part of the element is shorted, and the resistance hardly shows it.',
    'The resistance shows only the mean along the wire.',
    ['another shape', 'a lower limit', 'a thermal cut-out of its own'],
  ],
  [
    'C06',
    'Read too soon after switch-off',
    'The element is hotter than the body whose temperature is wanted.',
    'Element and body must come to one temperature first.',
    ['wait', 'a model of both'],
  ],
])
