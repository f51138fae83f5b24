import { chapterOf } from '../pitfall.ts'

export const integers = chapterOf('Integers in firmware', [
  [
    'F01',
    'Overflow of 16 bits',
    '116 · 2244 gives −1840.',
    'A product needs the bits of both factors.',
    ['a wider first factor', 'a ratio whose denominator is a power of two', 'unsigned constants'],
  ],
  [
    'F02',
    'Divided before multiplied',
    '5 / 1024 is 0.',
    'Integer division drops the fraction.',
    ['multiply first', 'add half the divisor before dividing'],
  ],
  [
    'F03',
    'Rounding, and 1023 against 1024',
    'A bias of half a count, a scale error of a thousandth.',
    'Truncation is half a unit low on average; a step is 1 in 2ⁿ.',
    ['half a divisor added', '2ⁿ in the formula'],
  ],
  [
    'F04',
    'The sum overflows',
    'The mean jumps low near full scale.',
    'A sum of N codes needs n + log₂ N bits.',
    ['a 32-bit sum', 'shift last'],
  ],
  [
    'F05',
    'A quotient near zero',
    'Division by zero, or an endless number of ohms.',
    'With one count in the denominator the quotient is 50 % uncertain.',
    ['a minimum code for the denominator', 'a result that says "no reading"'],
  ],
])
