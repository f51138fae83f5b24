import { type ChangeSpec, put, solved } from '@ohmward/budget'
import type { ReadChoice } from '../read-choice.js'

const level = { path: 'trip.current', unit: 'A', digits: 3 }
const code = { path: 'trip.code', unit: 'LSB', digits: 4 }

/** The load held off longer. A calibration that is given as a bare word has no room for a time: its kind is put beside it. */
function holdOff(): ChangeSpec {
  const longer = solved({
    id: 'hold-off',
    name: 'the load held off longer for the zero',
    path: 'calibration.offTime',
    unit: 's',
    from: ({ calibration, pwm }: ReadChoice) =>
      calibration.kind === 'zero each time'
        ? (calibration.offTime ?? (pwm && (1 - pwm.duty.to) / pwm.frequency))
        : undefined,
    to: 10,
  })
  const kind = { 'calibration.kind': 'zero each time' }
  return { ...longer, rungs: (given) => longer.rungs(given).map((one) => ({ ...one, puts: { ...kind, ...one.puts } })) }
}

/** Changes of what the firmware does with the reading: its zero, its power, its trip. */
export const ofUse = () => ({
  zeroOnce: put({
    id: 'zero',
    name: 'a zero read once with the load off',
    puts: { calibration: { kind: 'zero' } },
    text: 'zero',
    when: ({ calibration }: ReadChoice) => calibration.kind !== 'zero',
  }),
  holdOff: holdOff(),
  zeroEachTime: put({
    id: 'zero-each-time',
    name: 'a zero read each time, at the rail of the reading',
    puts: { calibration: { kind: 'zero each time' } },
    text: 'zero each time',
    when: ({ calibration }: ReadChoice) => calibration.kind !== 'zero each time',
  }),
  noZero: put({
    id: 'no-zero',
    name: 'the nominal zero',
    puts: { calibration: 'none' },
    text: 'none',
    when: ({ calibration }: ReadChoice) => calibration.kind !== 'none',
  }),
  meanTimesVoltage: put({
    id: 'mean-times-voltage',
    name: 'power from the on-voltage and the mean current',
    puts: { power: 'voltage times reading' },
    text: 'voltage times reading',
  }),
  divideLater: solved({
    id: 'divide-later',
    name: 'no division by smaller currents',
    path: 'divideFrom',
    unit: 'A',
    to: ({ current }: ReadChoice) => Math.max(Math.abs(current.from), Math.abs(current.to)),
  }),
  higherLevel: solved({
    id: 'higher-level',
    name: 'a higher trip level',
    ...level,
    to: ({ trip }: ReadChoice) => trip?.withstand ?? NaN,
  }),
  lowerLevel: solved({
    id: 'lower-level',
    name: 'a lower trip level',
    ...level,
    to: ({ trip }: ReadChoice) => trip?.normal ?? NaN,
  }),
  higherCode: solved({
    id: 'higher-code',
    name: 'a higher trip code',
    ...code,
    to: ({ converter }: ReadChoice) => 2 ** converter.bits - 1,
  }),
  lowerCode: solved({ id: 'lower-code', name: 'a lower trip code', ...code, to: 1 }),
  standMore: solved({
    id: 'stand-more',
    name: 'cell, switch and wiring that withstand more',
    path: 'trip.withstand',
    unit: 'A',
    to: ({ trip }: ReadChoice) => (trip ? 10 * trip.withstand : NaN),
  }),
})
