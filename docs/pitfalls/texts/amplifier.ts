import { chapterOf } from '../pitfall.ts'

export const amplifier = chapterOf('The measuring amplifier', [
  [
    'A01',
    'The output cannot reach the rail',
    'Above some resistance the reading stops rising, and it stops earlier as the cell empties.',
    'The output of a bipolar single-supply amplifier stops 1.2 V to 2 V below its supply, and the supply sags.',
    ['an amplifier with rail-to-rail output', 'less gain', 'a converter reference within its swing', 'a higher rail'],
  ],
  [
    'A02',
    'The output cannot reach ground',
    'All small resistances read the same.',
    'A bipolar output sinks some tens of microamperes near 0 V; whatever pulls it up sets a floor.',
    [
      'a load returned to ground only',
      'larger feedback resistors',
      'a pedestal of 50 mV to 100 mV',
      'rail-to-rail output',
    ],
  ],
  [
    'A03',
    'Offset swamps millivolts',
    'A constant error in ohms that differs from board to board.',
    'Offset and its drift, divided by the test current, whatever the gain.',
    [
      'a zero-drift amplifier',
      'more test current, pulsed',
      'a zero taken with the excitation off',
      'a zero stored per board',
    ],
  ],
  [
    'A04',
    'The zero reading is clipped at ground',
    'The offset was calibrated out, and half the boards are wrong.',
    'With the excitation off the output should be gain times offset; where that is negative it stops at its floor, and the floor is stored.',
    ['a pedestal above gain times offset', 'two known resistors instead of one zero', 'a zero-drift amplifier'],
  ],
  [
    'A05',
    'Both inputs near the positive rail',
    'The load is connected to the rail, and nothing defines the output.',
    'The input range of a bipolar amplifier ends 1.5 V to 2 V below its supply; above it the output may go to either rail.',
    [
      'the load at ground, with a path of its own for the test current',
      'rail-to-rail inputs',
      'a difference amplifier',
    ],
  ],
  [
    'A06',
    'An input driven below ground',
    'At a switching edge the output jumps to the wrong rail.',
    'Below -0.3 V parasitic junctions conduct.',
    ['a series resistor of 1 kΩ to 10 kΩ with a clamp', 'a ground tap of its own', 'samples away from edges'],
  ],
  [
    'A07',
    'The amplifier sees the whole cell while the load is driven',
    'It saturates during heating; readings soon after switch-off are wrong, and the pin is driven past its rail.',
    'The same wires carry power and signal, and recovery and settling take time.',
    ['measure in the off-window only', 'a series resistor and a clamp', 'a small transistor in the sense line'],
  ],
  [
    'A08',
    'Tolerance of gain and ratio',
    'A scale error of several percent where one percent was expected.',
    'The two gain resistors and the reference resistor each add their own.',
    ['0.1 % or a resistor network', 'a trim against one known resistor', 'fewer resistors in the path'],
  ],
  [
    'A09',
    'Bias current through resistance',
    'An extra offset that changes with temperature where the feedback resistors are large.',
    'Bias current flows in both inputs; the difference of the resistances that they see makes an offset.',
    ['smaller resistors', 'the same resistance at both inputs', 'CMOS inputs'],
  ],
  [
    'A10',
    'Bandwidth and slew rate at high gain',
    'A short test pulse reads low.',
    'The time constant grows with the gain, and settling to half a count takes (n + 1) · ln 2 of them.',
    ['a longer pulse', 'two stages', 'a faster amplifier'],
  ],
])
