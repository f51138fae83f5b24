import { chapterOf } from '../pitfall.ts'

export const temperature = chapterOf('Temperature from resistance', [
  [
    'C01',
    'The cold value was stored warm',
    'After a new battery or a restart the tool overheats.',
    'Every temperature is computed from the cold resistance; what was too warm then is missing ever after.',
    ['measure cold only after a rest', 'a window of what is plausible', 'a sensor for the air'],
  ],
  [
    'C02',
    'Spread of the coefficient',
    'The same alloy by name, and a temperature 30 % off.',
    'The rise in temperature is divided by the coefficient.',
    ['a curve measured on the wire itself', 'a table instead of one coefficient', 'a tolerance shown with the reading'],
  ],
  [
    'C03',
    'An alloy that hardly changes',
    'A temperature is wanted of a heater of resistance alloy.',
    'With a coefficient near zero a small error in ohms is hundreds of kelvin.',
    ['another alloy', 'a sensor of its own'],
  ],
  [
    'C04',
    'Fixed resistance dilutes the coefficient',
    'The temperature reads low, and the tool overheats.',
    'Leads and contacts are counted with the element but don’t warm with it.',
    ['four wires', 'subtract what is fixed before dividing'],
  ],
  [
    'C05',
    'Hot spots',
    'It heats unevenly, or a part of the element is shorted, and the resistance hardly tells.',
    'The resistance knows the mean along the wire only.',
    ['another shape', 'a lower limit', 'a thermal cut-out of its own'],
  ],
  [
    'C06',
    'Read too soon after switch-off',
    'The element is hotter than the body whose temperature it stands for.',
    'Element and body have to even out first.',
    ['wait', 'a model of both'],
  ],
])
