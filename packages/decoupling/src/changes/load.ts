import { type ChangeSpec, type ChangeStart, put, solved } from '@ohmward/budget'
import type { ReadDecoupling, SwitchedLoad } from '../choice/choice.js'

type Kind = ReadDecoupling['load']['kind']

const of =
  (kind: Kind) =>
  ({ load }: ReadDecoupling) =>
    load.kind === kind ? load.value : undefined
const part =
  (share: number) =>
  ({ load }: ReadDecoupling) =>
    share * load.value.nominal

/** Less of the load itself: current, power, or a larger resistance. */
export const lessLoad: readonly ChangeSpec[] = /*#__PURE__*/ (() => [
  solved({
    id: 'less-current',
    name: 'less load current',
    path: 'load.current',
    unit: 'A',
    from: of('current'),
    to: part(1e-2),
  }),
  solved({
    id: 'more-resistance',
    name: 'a larger load resistance',
    path: 'load.resistance',
    unit: 'ohm',
    from: of('resistor'),
    to: part(1e2),
  }),
  solved({
    id: 'less-power',
    name: 'less load power',
    path: 'load.power',
    unit: 'W',
    from: of('power'),
    to: part(1e-2),
  }),
])()

const shorter = /*#__PURE__*/ solved({
  id: 'shorter-burst',
  name: 'a shorter burst',
  path: 'load.duration',
  unit: 's',
  to: ({ load }: ReadDecoupling) => Math.max(load.rise, load.duration * 1e-3),
})

/** Longest rise that still ends before the load is switched off. */
const longestRise = ({ load: { duration, pwm } }: ReadDecoupling): number =>
  Math.min(duration, pwm ? pwm.duty.from / pwm.frequency.to : 10)

const slower = /*#__PURE__*/ solved({
  id: 'slower',
  name: 'a slower edge',
  path: 'load.rise',
  unit: 's',
  to: longestRise,
})

/** An end of a range of PWM moved towards the other; none where no range is written. */
const moved = (word: 'frequency' | 'duty', end: 'from' | 'to', name: string): ChangeSpec => {
  const unit = word === 'duty' ? '1' : 'Hz'
  const ends = ({ load }: ReadDecoupling) => load.pwm?.[word]
  const to = (read: ReadDecoupling) => ends(read)?.[end === 'to' ? 'from' : 'to'] ?? 0
  const path = `load.pwm.${word}.${end}`
  const one = solved({ id: `${word}-${end}`, name, path, unit, from: (read) => ends(read)?.[end], to })
  return { ...one, rungs: (given) => (isRange(given, word) ? one.rungs(given) : []) }
}

const isRange = ({ choice }: ChangeStart, word: 'frequency' | 'duty'): boolean =>
  typeof (choice as { readonly load: Pick<SwitchedLoad, 'pwm'> }).load.pwm?.[word] === 'object'

const lessDuty: ChangeSpec = /*#__PURE__*/ (() => {
  const oneDuty = solved({
    id: 'less-duty',
    name: 'less duty',
    path: 'load.pwm.duty',
    unit: '1',
    from: ({ load }: ReadDecoupling) => load.pwm?.duty.to,
    to: 0.01,
  })
  return { ...oneDuty, rungs: (given) => (isRange(given, 'duty') ? [] : oneDuty.rungs(given)) }
})()

/** A narrower range of PWM. */
export const narrowerPwm: readonly ChangeSpec[] = /*#__PURE__*/ (() => [
  moved('duty', 'to', 'a lower maximum duty'),
  moved('duty', 'from', 'a higher minimum duty'),
  moved('frequency', 'from', 'a higher lowest PWM frequency'),
  moved('frequency', 'to', 'a lower highest PWM frequency'),
])()

/** PWM where the load stays on: from nearly all of the time down. */
const pulsed: ChangeSpec = {
  id: 'pulsed',
  name: 'PWM with a capacitor instead of a load that stays on',
  order: 'mildest first',
  rungs: ({ read }) => {
    const { load } = read as ReadDecoupling
    if (load.pwm || load.kind === 'power' || load.duration < Number.POSITIVE_INFINITY) return []
    return Array.from({ length: 19 }, (_, i) => {
      const duty = `${(95 - 5 * i) / 100}`
      const edge = '1 us'
      return {
        puts: { 'load.pwm': { frequency: '20 kHz', duty }, 'load.rise': edge, 'load.fall': edge },
        text: `20 kHz, duty ${duty}, edges of ${edge}`,
      }
    })
  },
}

/** When the load is on, and how fast it comes. */
export const otherTiming: readonly ChangeSpec[] = [shorter, lessDuty, pulsed, slower]

/** The load on all the time, so that nothing ripples. */
export const directDrive = /*#__PURE__*/ put({
  id: 'direct-drive',
  name: 'direct drive instead of PWM',
  puts: { 'load.pwm': undefined },
  text: 'on all the time',
})

/** Less of what the load is wanted to get. */
export const lessWanted = /*#__PURE__*/ solved({
  id: 'less-wanted',
  name: 'less power required',
  path: 'load.wantedPower',
  unit: 'W',
  to: ({ load }: ReadDecoupling) => 0.01 * (load.wantedPower?.nominal ?? 1),
})
