import { type ChangeSpec, type ChangeStart, put, type Rung, solved } from '@ohmward/budget'
import { format, type Spread } from '@ohmward/quantity'
import type { ReadChoice } from '../read-choice.js'

const readOf = ({ read }: ChangeStart) => read as ReadChoice

/** A time by a factor, as a reader would type it; limits that aren't even are taken for the wider of the two. */
function times({ nominal, lower, upper }: Spread, factor: number): string {
  const number = format(nominal * factor, 's', { digits: 4, ascii: true })
  const share = Math.max(upper - nominal, nominal - lower) / nominal
  return share > 0 ? `${number} ±${Math.ceil(1e4 * share) / 100} %` : number
}

/**
 * A faster clock shortens all that the converter does: sampling and conversion, of the current and of whatever else it
 * reads, in both windows.
 */
const fasterClock: ChangeSpec = {
  id: 'faster-clock',
  name: 'a faster converter clock',
  order: 'mildest first',
  rungs: (given) => {
    const { converter, otherTasks } = readOf(given)
    const { t_acq, t_conv } = converter.spreads
    return [1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32].map((n): Rung => {
      const sampling = times(t_acq, 1 / n)
      const conversion = t_conv.nominal > 0 ? times(t_conv, 1 / n) : '0 s'
      const others = otherTasks.flatMap(({ acquisition, conversion: converting }, i) => [
        [`otherTasks.${i}.acquisition`, acquisition / n],
        [`otherTasks.${i}.conversion`, converting / n],
      ])
      return {
        puts: {
          'converter.acquisitionTime': sampling,
          'converter.conversionTime': conversion,
          ...Object.fromEntries(others),
        },
        text: `${n} times as fast: sampling ${sampling}, conversion ${conversion}`,
      }
    })
  },
}

/** More samples, by powers of two, so that firmware divides by a shift. */
const average: ChangeSpec = {
  id: 'average',
  name: 'more samples averaged',
  order: 'mildest first',
  isFree: true,
  rungs: (given) => {
    const samples = readOf(given).timing.samples.nominal
    const counts = [2, 4, 8, 16, 32, 64, 128, 256].map((n) => n * samples).filter((n) => n <= 4096)
    return counts.map((n): Rung => ({ puts: { 'timing.samples': n }, text: `${n} samples` }))
  },
}

/** Fewer samples one after another in a window; as many in all. */
const fewerInWindow: ChangeSpec = {
  id: 'fewer-in-window',
  name: 'fewer samples in a window',
  order: 'mildest first',
  isFree: true,
  rungs: (given) => {
    const { samples, samplesPerWindow } = readOf(given).timing
    const counts = Array.from({ length: samplesPerWindow.nominal - 1 }, (_, i) => samplesPerWindow.nominal - 1 - i)
    const fitting = counts.filter((n) => samples.nominal % n === 0)
    return fitting.map((n): Rung => ({ puts: { 'timing.samplesPerWindow': n }, text: `${n} in each window` }))
  },
}

/** Changes of when and how often the converter reads. */
export const ofTime = () => ({
  fasterClock,
  average,
  fewerInWindow,
  sampleLonger: solved({
    id: 'sample-longer',
    name: 'a longer sampling time',
    path: 'converter.acquisitionTime',
    unit: 's',
    from: ({ converter }: ReadChoice) => converter.spreads.t_acq,
    to: 1e-3,
    isFree: true,
  }),
  lowerFrequency: solved({
    id: 'lower-frequency',
    name: 'a lower PWM frequency',
    path: 'pwm.frequency',
    unit: 'Hz',
    to: ({ pwm }: ReadChoice) => (pwm ? pwm.frequency / 100 : NaN),
  }),
  higherFrequency: solved({
    id: 'higher-frequency',
    name: 'a higher PWM frequency',
    path: 'pwm.frequency',
    unit: 'Hz',
    to: ({ pwm }: ReadChoice) => (pwm ? pwm.frequency * 100 : NaN),
  }),
  longerDuty: solved({
    id: 'longer-duty',
    name: 'a higher minimum duty',
    path: 'pwm.duty.from',
    unit: '1',
    to: ({ pwm }: ReadChoice) => pwm?.duty.to ?? NaN,
  }),
  shorterDuty: solved({
    id: 'shorter-duty',
    name: 'a lower maximum duty',
    path: 'pwm.duty.to',
    unit: '1',
    to: ({ pwm }: ReadChoice) => pwm?.duty.from ?? NaN,
  }),
  longerWait: solved({ id: 'longer-wait', name: 'a longer wait', path: 'wait', unit: 's', to: 1, isFree: true }),
  settledWait: put({
    id: 'settled-wait',
    name: 'a wait as long as the settling',
    puts: { wait: undefined },
    text: 'left out: as long as the settling takes',
    isFree: true,
    when: ({ wait }: ReadChoice) => wait !== undefined,
  }),
  onWindow: put({
    id: 'on-window',
    name: 'a reading inside the on-window',
    puts: { reading: 'on-window' },
    text: 'on-window',
    when: ({ reading }: ReadChoice) => reading === 'averaged',
  }),
})
