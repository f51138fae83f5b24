import {
  dutyRange,
  execute,
  highestPwmFrequency,
  type LinearTarget,
  prove,
  railTarget,
  resistanceTarget,
  scaleLinear,
  scaleRational,
  schedule,
  spareTime,
  type Task,
  targetAt,
  toCode,
  toVolts,
  transition,
} from '@ohmward/adc'
import { acquisitionError, acquisitionNeeded, settlingError, settlingTime } from '@ohmward/adc/formulas'
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

  it('leaves of each window what the period gives it less what it needs, to the rounding of a double', () => {
    const duty = fc.double({ min: 0.01, max: 0.99, noNaN: true })
    fc.assert(
      fc.property(task, task, duty, fc.double({ min: 1, max: 1e5, noNaN: true }), (a, b, D, f) => {
        const s = schedule([
          { ...a, window: 'on' },
          { ...b, window: 'off' },
        ])
        const spare = spareTime(s, { duty: D, frequency: f })
        const near = (found: number | null, own: number) =>
          expect(Math.abs(found! - own)).toBeLessThan(2e-14 / f + 1e-16)
        near(spare.on, D / f - s.on.shortest)
        near(spare.off, (1 - D) / f - s.off.shortest)
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

describe('integers for the firmware', () => {
  const word = fc.constantFrom(16 as const, 32 as const)
  const codes = fc.integer({ min: 1, max: 4095 })

  it('a line: within its stated error at every code, never out of its word, and monotonic', () => {
    const line = fc.tuple(
      fc.double({ min: -60, max: 60, noNaN: true }),
      fc.double({ min: -1e5, max: 1e5, noNaN: true }),
    )
    fc.assert(
      fc.property(line, codes, word, ([slope, constant], most, bits) => {
        const target: LinearTarget = { kind: 'linear', line: [slope, constant] }
        const found = scaleLinear(target, { codes: most, word: bits })
        if (found.kind === 'impossible') {
          expect(found.reason).toMatch(/do not fit/)
          return
        }
        const { integers, proof } = found
        expect([proof.fits, proof.headroom >= 0]).toEqual([true, true])
        const all = Array.from({ length: most + 1 }, (_, code) => execute(integers, code))
        expect(Math.max(...all.map((value, code) => Math.abs(value - targetAt(target, code))))).toBe(proof.worstError)
        const down = integers.multiplier < 0
        expect(all.every((value, i) => i === 0 || (down ? value <= all[i - 1]! : value >= all[i - 1]!))).toBe(true)
        // What sums and shifts in 32 bits leave is a rounding and half a step of the multiplier at full scale.
        if (bits === 32) expect(proof.worstError).toBeLessThan(0.5 + 0.6 * Math.max(2 ** -integers.shift * most, 0.01))
      }),
      { numRuns: 200 },
    )
  })

  it('of any line fit where each step of the arithmetic stays in its word, code by code in whole numbers', () => {
    const any = fc.record({
      multiplier: fc.integer({ min: -90, max: 90 }),
      add: fc.integer({ min: -3000, max: 70_000 }),
      shift: fc.integer({ min: 0, max: 3 }),
      base: fc.constantFrom(0, 1, 1000, 20_000, 33_000),
      codes: fc.constantFrom(1, 255, 1023, 4095),
    })
    const target: LinearTarget = { kind: 'linear', line: [1, 0] }
    const seen = { true: 0, false: 0 }
    fc.assert(
      fc.property(any, ({ multiplier, add, shift, base, codes }) => {
        const [m, a, b] = [BigInt(multiplier), BigInt(add), BigInt(base)]
        const inWord = (value: bigint) => value >= 0n && value < 65536n
        const holds = Array.from({ length: codes + 1 }, (_, code) => BigInt(code)).every((code) => {
          const sum = m * code + a
          const result = (sum >> BigInt(shift)) - b
          // An offset is taken off in a signed word: what it is taken from must fit one too.
          const inResult = base === 0 ? inWord(result) : result >= -32768n && result + b < 32768n
          return [code, m < 0n ? -m * code : m * code, a < 0n ? -a : a, sum].every(inWord) && inResult
        })
        const { fits, tried } = prove({ kind: 'linear', word: 16, codes, multiplier, add, shift, base }, target)
        expect([fits, tried]).toEqual([holds, codes + 1])
        seen[`${holds}`]++
      }),
      { numRuns: 400 },
    )
    expect(Math.min(seen.true, seen.false)).toBeGreaterThan(40)
  })

  it('a quotient: in 16 bits too wrong by at most twice what a search of a thousand scales finds, and a tenth of a count', () => {
    for (const [i, largest] of [600, 900, 1200, 1500].entries()) {
      const target = resistanceTarget({ span: 22 + 9 * i, lead: 0.02 * i, fullScale: 1024 * 12, half: 0.5, unit: 1e-2 })
      const found = scaleRational(target, { codes: 1023, word: 16, largest, beyond: 65535 })
      if (found.kind === 'impossible') throw new Error(found.reason)
      const { integers } = found
      const lines = [target.numerator, target.denominator]
      const [top, under] = lines.map(([perCode, constant], k) => [
        perCode + (k === 0 ? integers.base * target.denominator[0] : 0),
        constant + (k === 0 ? integers.base * target.denominator[1] : 0),
      ]) as [[number, number], [number, number]]
      const scales = Array.from({ length: 1000 }, (_, n) => (65535 / 12_288) * 2 ** (-n / 60))
      const errors = scales.flatMap((scale) => {
        const numerator = top.map((x) => Math.round(x * scale)) as unknown as [number, number]
        const denominator = under.map((x) => Math.round(x * scale)) as unknown as [number, number]
        if ([...numerator, ...denominator].every((x) => x === 0) || denominator[1] <= 0) return []
        const proof = prove({ ...integers, numerator, denominator }, target)
        return proof.fits ? [proof.worstError] : []
      })
      expect(errors.length).toBeGreaterThan(20)
      expect(found.proof.worstError).toBeLessThanOrEqual(2 * Math.min(...errors) + 0.1)
    }
  })

  it('a quotient: within its stated error at every code, and beyond where no value fits', () => {
    const rails = fc.record({
      reference: fc.double({ min: 0.5, max: 2.5, noNaN: true }),
      bits: fc.integer({ min: 8, max: 12 }),
      half: fc.constantFrom(0, 0.5),
      unit: fc.constant(1e-3),
    })
    const loads = fc.record({
      span: fc.double({ min: 10, max: 100, noNaN: true }),
      lead: fc.double({ min: 0, max: 0.2, noNaN: true }),
      gain: fc.double({ min: 10, max: 100, noNaN: true }),
      half: fc.constantFrom(0, 0.5),
    })
    const targets = fc.oneof(
      rails.map((x) => [railTarget(x), 2 ** x.bits - 1, 6000] as const),
      loads.map((x) => [resistanceTarget({ ...x, fullScale: 1024 * x.gain, unit: 1e-3 }), 1023, 3000] as const),
    )
    fc.assert(
      fc.property(targets, ([target, most, largest]) => {
        const found = scaleRational(target, { codes: most, word: 32, largest, beyond: 65535 })
        if (found.kind === 'impossible') throw new Error(found.reason)
        const { integers, proof } = found
        expect([proof.fits, prove(integers, target)]).toEqual([true, proof])
        expect(proof.worstError).toBeLessThan(0.53)
        for (let code = 0; code <= most; code++) {
          const real = targetAt(target, code)
          const value = execute(integers, code)
          if (value === 65535) expect(Number.isFinite(real) && Math.abs(real) <= largest).toBe(false)
          else expect(Math.abs(value - real)).toBeLessThanOrEqual(proof.worstError)
        }
      }),
      { numRuns: 60 },
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
