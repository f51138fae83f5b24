import { chapterOf } from '../pitfall.ts'

export const connections = chapterOf('Connections, and the load itself', [
  [
    'B01',
    'No gain at all',
    '0.2 Ω is to be read with a plain divider and a 10-bit converter.',
    'A count is worth tens of milliohms.',
    ['more test current, pulsed', 'a smaller reference resistor', 'gain', 'a lower converter reference'],
  ],
  [
    'B02',
    'Two wires: leads, contacts, copper',
    'Every reading is too high, and connectors shift it daily.',
    'Whatever is in series is measured too: a copper trace 10 mm long and 1 mm wide is 5 mΩ.',
    [
      'four wires, tapped at the load',
      'the reading of a short subtracted, for the constant part',
      'thicker, shorter copper',
    ],
  ],
  [
    'B03',
    'The sense tap is in the current path',
    'An error in proportion to the load current; none at zero.',
    'The drop over the shared stretch is amplified with the signal.',
    ['grounds joined at one point', 'a sense pair from the inner edges of the pads', 'a difference amplifier'],
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
    'Junctions of unlike metals at different temperatures make microvolts per kelvin.',
    ['a reading without excitation subtracted, or the current reversed', 'more test current', 'junctions side by side'],
  ],
  [
    'B06',
    'The test current heats the load',
    'The resistance rises while it is measured.',
    'I²R first heats its heat capacity, then works against its thermal resistance.',
    ['a shorter pulse at a lower duty', 'less current'],
  ],
  [
    'B07',
    'The reference resistor is overloaded',
    'It warms, and every reading is scaled with it.',
    '3.3 V across 47 Ω is 0.23 W, twice the rating of a small chip resistor.',
    ['pulsing it', 'a larger size', '50 ppm/K or better'],
  ],
  [
    'B08',
    'The cell moves between two readings',
    'The formula takes the supply as known, and it sags in the pulse.',
    'A ratio is independent of the supply only where reference and excitation are the same node at the same time.',
    ['one filtered node for both', 'both voltages read back to back'],
  ],
  [
    'B09',
    'Right at one value, wrong at others',
    'It reads 0.2 Ω well and 1.7 Ω badly.',
    'A divider is not linear: it grows less sensitive as the load grows.',
    ['the exact formula instead of a straight line', 'two ranges', 'a calibration at both ends'],
  ],
  [
    'B10',
    'Averaging doesn’t cure a contact',
    'The mean of twenty readings still jumps.',
    'A contact that moves is not noise.',
    ['four wires', 'a better connector'],
  ],
])
