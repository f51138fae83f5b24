import { chapterOf } from '../pitfall.ts'

export const connections = chapterOf('Connections, and the load itself', [
  [
    'B01',
    'No gain at all',
    '0.2 Ω is read with a plain divider on a 10-bit converter.',
    'A count is worth tens of milliohms.',
    ['more test current, pulsed', 'a smaller reference resistor', 'gain', 'a lower converter reference'],
  ],
  [
    'B02',
    'Two wires: leads, contacts, copper',
    'Every reading is too high, and connectors shift it daily.',
    'What is in series is measured too: 10 mm of 1 mm wide copper are 5 mΩ.',
    [
      'four wires, tapped at the load',
      'a short that is subtracted, for the part that stays',
      'thicker, shorter copper',
    ],
  ],
  [
    'B03',
    'The sense tap lies in the current path',
    'An error in proportion to the load current; at zero all is well.',
    'The drop over the shared stretch is amplified with the signal.',
    ['grounds joined in one point', 'a sense pair from the inner edges of the pads', 'a difference amplifier'],
  ],
  [
    'B04',
    'The switch counts as load',
    'The resistance rises as the cell sags and the switch warms.',
    'Its on-resistance is in the measured span.',
    ['a tap across the load alone', 'a test path of its own', 'the modelled resistance subtracted'],
  ],
  [
    'B05',
    'Thermoelectric voltages',
    'A slow drift that changes sign after heating; zero with the excitation off isn’t zero.',
    'Junctions of unlike metals at unlike temperatures make microvolts for each kelvin.',
    ['a reading without excitation subtracted, or the current reversed', 'more test current', 'junctions side by side'],
  ],
  [
    'B06',
    'The test current heats the load',
    'The resistance climbs while it is measured.',
    'I²R over its heat capacity, then over its thermal resistance.',
    ['a shorter pulse at a lower duty', 'then less current'],
  ],
  [
    'B07',
    'The reference resistor is overloaded',
    'It warms, and everything is scaled with it.',
    '3.3 V over 47 Ω are 0.23 W, twice what a small chip resistor stands.',
    ['pulse it', 'a larger size', '50 ppm/K or better'],
  ],
  [
    'B08',
    'The cell moves between two readings',
    'The formula takes the supply for known, and it sags in the pulse.',
    'A ratio is free of the supply only where reference and excitation are one node at one time.',
    ['one filtered node for both', 'both voltages read back to back'],
  ],
  [
    'B09',
    'Right at one value, wrong at others',
    'It reads 0.2 Ω well and is far off at 1.7 Ω.',
    'A divider is not linear: it grows less sensitive as the load grows.',
    ['the exact formula instead of a straight line', 'two ranges', 'a calibration at both ends'],
  ],
  [
    'B10',
    'Averaging doesn’t cure a contact',
    'The mean of twenty readings still jumps.',
    'A contact that moves is no noise.',
    ['four wires', 'a better connector'],
  ],
])
