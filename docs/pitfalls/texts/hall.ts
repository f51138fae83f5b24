import { chapterOf } from '../pitfall.ts'

export const hall = chapterOf('The Hall current sensor', [
  [
    'E01',
    'The supply is below the sensor’s minimum',
    'Powered from the cell, its zero and slope mean nothing.',
    'A sensor of the 5 V class is specified from 4.5 V to 5.5 V.',
    [
      'a sensor for 3.3 V or a wide supply',
      'a shunt with a zero-drift amplifier',
      'a boosted rail, with its drain and noise',
    ],
  ],
  [
    'E02',
    'A 5 V sensor on a 3.3 V converter',
    'It clips, or its constants are wrong.',
    'Its zero is at 2.5 V, which leaves 0.8 V above it.',
    ['one rail for both', 'a divider, and the sensor’s rail read too', 'a sensor with a differential output'],
  ],
  [
    'E03',
    'Ratiometry is not perfect',
    'A shift remains although both share the rail.',
    'Zero and sensitivity follow the supply only to within some percent.',
    ['a zero taken at the present rail', 'a new zero when the rail has moved by 2 %'],
  ],
  [
    'E04',
    'Zero offset and its drift',
    'Amperes where there are none.',
    'Offset voltage divided by sensitivity, and it drifts with temperature.',
    ['a zero whenever the load is surely off', 'the mean of 16 or more', 'limits for a plausible zero'],
  ],
  [
    'E05',
    'Magnetic hysteresis',
    'After a large pulse the zero has moved.',
    'The core or lead frame stays slightly magnetised.',
    ['a zero after each burst', 'a sensor without a core'],
  ],
  [
    'E06',
    'Stray fields, those of your own traces included',
    'The reading follows another current.',
    '8 A at 10 mm makes 160 µT, the earth 50 µT; coreless sensors pick them up.',
    ['a differential sensor', 'forward and return side by side', 'crossings at a right angle'],
  ],
  [
    'E07',
    'Resolution and noise',
    'Half an ampere can’t be resolved.',
    'In a large range a count, or the noise, is worth too much current.',
    ['the smallest range that covers the current', 'a filter', 'averaging'],
  ],
  [
    'E08',
    'Filter against PWM window',
    'The filter averages where the firmware takes a peak, or the other way round.',
    'Settling to half a count takes the sensor’s own rise and (n + 1) · ln 2 time constants.',
    ['decide which is wanted', 'a small capacitor and a sample in step with the PWM', 'or a large one, and the mean'],
  ],
  [
    'E09',
    'Power from the mean current',
    'The power reads low by a factor of the duty.',
    'With PWM into a resistor P is D · I² of the on-time, the square of the mean over D.',
    ['sample in the on-time', 'or the voltage of the on-time times the mean current'],
  ],
  [
    'E10',
    'A bidirectional sensor for a unidirectional current',
    'Half the range is lost, and negative readings are turned positive.',
    'Its zero is in the middle.',
    ['a unidirectional sensor', 'keep the sign, clamp at the end'],
  ],
])
