import {
  acquisitionError,
  acquisitionNeeded,
  dutyRange,
  highestPwmFrequency,
  schedule,
  settlingError,
  settlingTime,
  spareTime,
  type Task,
  toCode,
  toVolts,
  transition,
} from '@ohmward/adc'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/** Doubles carry 53 bits, so that half a count of 32 bits is still exact enough to tell. */
const scale = fc.record({
  bits: fc.integer({ min: 1, max: 32 }),
  reference: fc.double({ min: 0.1, max: 10, noNaN: true }),
  transitions: fc.constantFrom('truncating', 'centred'),
})

const seconds = fc.double({ min: 0, max: 1e-2, noNaN: true })
const task: fc.Arbitrary<Task> = fc.record({
  name: fc.constant('task'),
  window: fc.constantFrom('on', 'off'),
  recovery: seconds,
  settling: seconds,
  starts: fc.constantFrom('edge', 'turn'),
  acquisition: fc.double({ min: 1e-7, max: 1e-3, noNaN: true }),
  conversion: fc.double({ min: 1e-7, max: 1e-3, noNaN: true }),
  samples: fc.integer({ min: 1, max: 16 }),
})

describe('codes and volts', () => {
  it('a code comes back from the volts that it stands for', () => {
    fc.assert(
      fc.property(scale, fc.double({ min: 0, max: 1, noNaN: true }), (s, part) => {
        const code = Math.floor(part * (2 ** s.bits - 1))
        expect(toCode(toVolts(code, s), s)).toEqual({ code, clipped: 'no' })
      }),
    )
  })

  it('volts inside the scale come back within half a count, and outside it the clipping is said', () => {
    fc.assert(
      fc.property(scale, fc.double({ min: -0.5, max: 1.5, noNaN: true }), (s, part) => {
        const volts = part * s.reference
        const lsb = s.reference / 2 ** s.bits
        const { code, clipped } = toCode(volts, s)
        const off = toVolts(code, s) - volts
        if (clipped === 'no') expect(Math.abs(off)).toBeLessThanOrEqual(lsb * 0.5 + s.reference * 1e-15)
        if (clipped === 'below') expect([code, off > lsb * 0.49]).toEqual([0, true])
        if (clipped === 'above') expect([code, -off > lsb * 0.49]).toEqual([2 ** s.bits - 1, true])
      }),
    )
  })

  it('more volts never give a smaller code', () => {
    const volts = fc.double({ min: -1, max: 11, noNaN: true })
    fc.assert(
      fc.property(scale, volts, volts, (s, a, b) => {
        expect(toCode(Math.min(a, b), s).code).toBeLessThanOrEqual(toCode(Math.max(a, b), s).code)
      }),
    )
  })

  it('the code changes at its transition', () => {
    fc.assert(
      fc.property(scale, fc.double({ min: 0, max: 1, noNaN: true }), (s, part) => {
        const code = 1 + Math.floor(part * (2 ** s.bits - 2))
        const edge = transition(code, s) as number
        const little = (s.reference / 2 ** s.bits) * 1e-3
        expect([toCode(edge - little, s).code, toCode(edge + little, s).code]).toEqual([code - 1, code])
      }),
    )
  })
})

describe('settling', () => {
  it('after the settling time exactly half a count of the step is missing', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 32 }), fc.double({ min: 1e-9, max: 1, noNaN: true }), (N_bits, tau) => {
        const missing = settlingError({ t_given: settlingTime({ N_bits, tau }), tau })
        expect(missing * 2 ** (N_bits + 1)).toBeCloseTo(1, 9)
      }),
    )
  })

  it('sampling is settling with the time constant of source, switch and capacitor', () => {
    const ohms = fc.double({ min: 1, max: 1e6, noNaN: true })
    const farads = fc.double({ min: 1e-12, max: 1e-10, noNaN: true })
    fc.assert(
      fc.property(ohms, ohms, farads, fc.integer({ min: 1, max: 24 }), (R_s, R_sw, C_sh, N_bits) => {
        const t_acq = acquisitionNeeded({ R_s, R_sw, C_sh, N_bits })
        expect(t_acq).toBeCloseTo(settlingTime({ N_bits, tau: (R_s + R_sw) * C_sh }), 12)
        expect(acquisitionError({ t_acq, R_s, R_sw, C_sh }) * 2 ** (N_bits + 1)).toBeCloseTo(1, 9)
      }),
    )
  })
})

describe('the schedule', () => {
  it('gives every task its settling before it and no two samples at once', () => {
    fc.assert(
      fc.property(fc.array(task, { maxLength: 6 }), (tasks) => {
        const { on, off } = schedule(tasks)
        for (const window of [on, off]) {
          window.steps.forEach((step, i) => {
            expect(step.start).toBeGreaterThanOrEqual(i === 0 ? 0 : window.steps[i - 1]!.end)
            expect(step.end).toBeLessThanOrEqual(window.shortest)
          })
        }
        expect(on.steps.length + off.steps.length).toBe(tasks.length)
      }),
    )
  })

  it('is as short as any order of the tasks could make it', () => {
    fc.assert(
      fc.property(fc.array(task, { minLength: 1, maxLength: 4 }), (tasks) => {
        const shared = tasks.map((t): Task => ({ ...t, window: 'on' }))
        const least = Math.min(...orders(shared).map(lengthOf))
        expect(schedule(shared).on.shortest).toBeCloseTo(least, 12)
      }),
      { numRuns: 60 },
    )
  })

  it('has no slack left at the ends of the duty range, nor at the highest frequency', () => {
    const other = fc.tuple(task, task).map(([a, b]): Task[] => [
      { ...a, window: 'on' },
      { ...b, window: 'off' },
    ])
    fc.assert(
      fc.property(other, fc.double({ min: 0.01, max: 0.5, noNaN: true }), (tasks, from) => {
        const s = schedule(tasks)
        const limit = highestPwmFrequency(s, { from, to: 0.9 })
        if (limit.kind !== 'possible') throw new Error(limit.kind)
        const { frequency } = limit
        const low = spareTime(s, { duty: from, frequency }).on as number
        const high = spareTime(s, { duty: 0.9, frequency }).off as number
        expect(Math.min(low, high)).toBeCloseTo(0, 12)
        const range = dutyRange(s, frequency)
        if (range.kind !== 'possible') throw new Error(range.reason)
        expect(range.from).toBeLessThanOrEqual(from * (1 + 1e-12))
        expect(range.to).toBeGreaterThanOrEqual(0.9 * (1 - 1e-12))
        expect(spareTime(s, { duty: range.from, frequency }).on).toBeCloseTo(0, 12)
      }),
    )
  })

  it('finds no duty exactly above the frequency whose period is both windows', () => {
    const pair = fc.tuple(task, task).map(([a, b]): Task[] => [
      { ...a, window: 'on' },
      { ...b, window: 'off' },
    ])
    fc.assert(
      fc.property(pair, (tasks) => {
        const s = schedule(tasks)
        const edge = 1 / (s.on.shortest + s.off.shortest)
        expect(dutyRange(s, edge * 0.999).kind).toBe('possible')
        expect(dutyRange(s, edge * 1.001).kind).toBe('impossible')
      }),
    )
  })
})

function orders(tasks: readonly Task[]): Task[][] {
  if (tasks.length < 2) return [[...tasks]]
  return tasks.flatMap((first, i) => orders(tasks.filter((_, k) => k !== i)).map((rest) => [first, ...rest]))
}

/** The window's length when the tasks are taken in this very order. */
function lengthOf(tasks: readonly Task[]): number {
  return tasks.reduce((end, t) => {
    const delay = t.recovery + t.settling
    const start = t.starts === 'turn' ? end + delay : Math.max(end, delay)
    return start + (t.samples ?? 1) * (t.acquisition + t.conversion)
  }, 0)
}
