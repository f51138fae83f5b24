import { chapterOf } from '../pitfall.ts'

export const integers = chapterOf('Integers in firmware', [
  [
    'F01',
    'Overflow of 16 bits',
    '116 · 2244 comes to −1840.',
    'A product needs the bits of both factors.',
    ['a wider first factor', 'a ratio with a power of two below', 'unsigned constants'],
  ],
  [
    'F02',
    'Divided before multiplied',
    '5 / 1024 is 0.',
    'A whole quotient drops its fraction.',
    ['multiply first', 'add half the divisor before dividing'],
  ],
  [
    'F03',
    'Rounding, and 1023 against 1024',
    'Half a count of bias, a thousandth of scale.',
    'Truncation is half a unit low in the mean; the step is 1 in 2ⁿ.',
    ['half a divisor added', '2ⁿ in the formula'],
  ],
  [
    'F04',
    'The sum overflows',
    'The mean jumps low near full scale.',
    'A sum of N codes needs n + log₂ N bits.',
    ['a sum of 32 bits', 'shift last'],
  ],
  [
    'F05',
    'A quotient near zero',
    'Division by zero, or ohms without end.',
    'With one count in the denominator the quotient is 50 % uncertain.',
    ['a least code for the denominator', 'a result that says "no reading"'],
  ],
])
