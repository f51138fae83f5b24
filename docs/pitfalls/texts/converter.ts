import { chapterOf } from '../pitfall.ts'

export const converter = chapterOf('Converter, reference, sampling', [
  [
    'D01',
    'Source resistance and sampling time',
    'It reads low, by an amount that depends on the previous channel.',
    'The sampling capacitor charges through source and switch: to within half a count takes (n + 1) · ln 2 time constants.',
    ['10 nF to 100 nF at the pin', 'a slower clock', 'the first sample discarded', 'a buffer'],
  ],
  [
    'D02',
    'A reference that was switched has not settled',
    'The first readings are wrong, or creep for tens of milliseconds.',
    'The capacitor at the reference pin charges through an internal resistance.',
    ['staying on one reference', 'the first conversions discarded'],
  ],
  [
    'D03',
    'An internal reference taken for absolute',
    'The cell reading is 10 % off, and each board cuts off at another voltage.',
    'Uncalibrated internal references spread by several percent.',
    ['a constant per board', 'an external reference of 0.5 %', 'a controller trimmed in the factory'],
  ],
  [
    'D04',
    'The rail is the reciprocal of the code',
    'One correction factor doesn’t fit two voltages.',
    'A count is worth V²/(V_bg · 2ⁿ): coarse at a full cell.',
    ['thresholds computed as counts, and counts compared', 'a longer sampling time'],
  ],
  [
    'D05',
    'The sagging supply is the reference',
    'Absolute readings change with the load.',
    'The code is the quotient of input and reference.',
    ['a ratiometric channel', 'the internal reference read in the same burst'],
  ],
  [
    'D06',
    'What averaging can’t do',
    '64 readings of a quiet input give no more bits, and the offset stays.',
    'Averaging needs half a count of noise, 4 samples for each doubling, and leaves offset, gain and nonlinearity.',
    ['noise added on purpose', 'the rest kept in the error budget'],
  ],
  [
    'D07',
    'Samples on switching edges',
    'Readings jump while the PWM runs.',
    'Ground and wires ring for some time constants after an edge.',
    ['a trigger in step with the PWM', 'a conversion while the controller sleeps', 'a filter'],
  ],
  [
    'D08',
    'A floating input',
    'With the sensor unplugged the current swings by amperes.',
    'The pin keeps the charge of the previous channel.',
    ['100 kΩ to ground', 'a window that detects open and short'],
  ],
  [
    'D09',
    'The cell is tapped behind a fuse, a switch or a diode',
    'An error that grows with the load and differs from board to board.',
    'Whatever is in between drops a voltage in proportion to the current.',
    ['a tap at the contact of the cell', 'the drop computed from the measured current'],
  ],
])
